"""Two tabs and real faults in Chromium, with its storage and its Python: nothing is lost.

A few of each here; `tests/bench/histories.py` and `tests/bench/kills.py` try many.
"""

import json
import random
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent.parent / "store"))

from histories import live
from phones import Host, Phone
from switches import FORMS, Switched, switch_often
from there import There, host_of_deeds

HISTORIES, STEPS = 10, 14
ENDS = 6
APART = (-50, -20, -5, 0, 5, 20, 50)  # ms from deleting in one tab to saving in the other


@pytest.fixture(scope="module")
def driven(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Host]:
    host = host_of_deeds(tmp_path_factory.mktemp("driven") / "site")
    yield host
    host.stop()


@pytest.mark.slow
@pytest.mark.timeout(1800)
def test_nothing_acknowledged_is_lost(phone: Phone, driven: Host) -> None:
    device, lost, acknowledged = There(phone, driven), [], 0
    for seed in range(HISTORIES):
        device.anew()
        model = live(device, random.Random(seed), STEPS)
        lost += [f"history {seed}, {one}" for one in model.lost]
        acknowledged += model.acknowledged
    assert lost == []
    assert acknowledged > 3 * HISTORIES


@pytest.mark.slow
@pytest.mark.timeout(600)
def test_ended_in_a_switch_of_units(phone: Phone, driven: Host) -> None:
    found = switch_often(There(phone, driven), ENDS, seed=20)
    assert found.wrong == []
    assert found.switches > ENDS


def test_another_meaning_would_be_seen() -> None:
    found = Switched()
    found.compare({"form0.volume": 1.0}, {"form0.volume": 1.0002}, {"us"})
    assert found.wrong == []
    found.compare({"form0.volume": 1.0}, {"form0.volume": 3.785}, {"us", "metric"})
    assert len(found.wrong) == 2
    assert f"{FORMS} forms" in str(found)


@pytest.mark.slow
@pytest.mark.timeout(600)
def test_a_pond_deleted_in_one_tab_while_the_other_saves_it(phone: Phone, driven: Host) -> None:
    device, wrong, won = There(phone, driven), [], set()
    for number, (apart, what) in enumerate(
        (apart, what) for what in ("pond", "reading", "draft") for apart in APART
    ):
        pond, deleting = f"p{number}", number % 2  # the tab
        assert device.do(0, ["pond", pond, "begun"])
        assert device.do(0, ["reading", f"old{number}", pond, "old", 0])
        device.rest()
        save = {
            "pond": ["pond", pond, "saved"],
            "reading": ["reading", f"new{number}", pond, "saved", 0],
            "draft": ["draft", f"health-{pond}", 1000, pond],
        }[what]
        assert device.do(deleting, ["set aside", pond])
        if deleting == 0:
            deleted, saved = device.both(["forget", pond], save, apart)
        else:
            saved, deleted = device.both(save, ["forget", pond], -apart)
        device.rest()
        found = device.held()
        there = {key: value for key, value in found.items() if pond in key.split("/")}
        there |= {key: found[key] for key in found if key == f"draft/health-{pond}"}
        case = f"{what} {apart} ms: {deleted=} {saved=} {json.dumps(there)}"
        won |= {"deleted"} if deleted else set()
        won |= {"saved"} if saved else set()
        if saved:
            key = {"pond": f"pond/{pond}", "reading": f"reading/{pond}/new{number}"}.get(
                what, f"draft/health-{pond}"
            )
            value = 1000.0 if what == "draft" else "saved"
            if there.get(key) != pytest.approx(value) or f"pond/{pond}" not in there:
                wrong.append(case)
        elif bool(deleted) == bool(there):
            wrong.append(case)
    assert wrong == []
    assert won == {"deleted", "saved"}
