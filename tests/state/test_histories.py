"""A few histories by chance, on this computer; `tests/bench/histories.py` lives hundreds."""

import random
import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent.parent / "browser"))

from histories import Here, Model, live

from pondapp.state import tabs


@pytest.mark.parametrize("seed", range(12))
def test_nothing_acknowledged_is_lost(seed: int, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(tabs, "PAUSE", 0.001)
    device = Here()
    model = live(device, random.Random(seed), 40)
    device.close()
    assert model.lost == []
    assert model.acknowledged > 5


def test_a_loss_would_be_seen() -> None:
    model = Model()
    model.done(["pond", "a", "first"])
    model.done(["reading", "r", "a", "note", 0])
    model.begun(["pond", "a", "second"])
    model.compare({"pond/a": "second", "reading/a/r": "note"}, "whichever")
    assert model.lost == []
    model.done(["draft", "x", 1000, None])
    model.done(["delete", "a"])
    model.compare({"draft/x": 264.2, "reading/a/r": "note", "troubles": ["t"]}, "then")
    assert [one.split(" is ")[0] for one in model.lost] == [
        "then: draft/x", "then: reading/a/r", "then: troubles",
    ]  # fmt: skip
