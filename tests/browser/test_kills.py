"""The browser is killed while it saves: nothing that was acknowledged is lost.

A few kills here; `python tests/bench/kills.py 200` does many.
"""

import json
from collections.abc import Iterator

import pytest
from phones import Host, Phone
from saver import Tally, Told, host_of_saver, kill_often

KILLS = 6


@pytest.fixture(scope="module")
def saver(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Host]:
    host = host_of_saver(tmp_path_factory.mktemp("saver") / "site")
    yield host
    host.stop()


@pytest.mark.slow
@pytest.mark.timeout(60 + KILLS * 60)
def test_browser_killed_while_saving(phone: Phone, saver: Host) -> None:
    tally = kill_often(phone, saver, KILLS, seed=20)
    assert tally.lost == []
    assert tally.saves > KILLS


def test_a_loss_would_be_seen() -> None:
    class Silent:
        def on(self, *_: object) -> None:
            """No page speaks here: the test does."""

    told, tally = Told(Silent()), Tally()  # type: ignore[arg-type]
    for text in ("SAVED draft 3", "SAVED pond 3", "SAVED reading 3", "SAVED restored 0"):
        told.hear(text)
    tally.add(told)
    good = {"draft": "3", "pond": "4", "readings": [3, 4], "restored": ["0"] * 3, "troubles": []}
    tally.compare(good)
    assert (tally.lost, str(tally)) == ([], "1 kills while saving, 4 saves acknowledged, 0 lost")
    bad = {"draft": "2", "pond": "2", "readings": [4], "restored": ["1", "0"], "troubles": ["x"]}
    told.hear("FOUND " + json.dumps(bad))
    assert told.found is not None
    tally.compare(told.found)
    assert len(tally.lost) == 5
