"""What the page's stopwatch is told, and what becomes of the presses that it hands over."""

import asyncio
import json
import re
from collections.abc import Mapping
from datetime import UTC, datetime, timedelta
from typing import Any

import pytest
from drawn import TUB, Screen, leave

from pondapp.answers.sharing.example import EXAMPLE
from pondapp.models.preferences import Draft, Preferences
from pondapp.models.reading import Container, Fill
from pondapp.state.ids import NO_POND, OUTLET
from pondapp.store.key_value_store import StoreError
from pondapp.ui.measuring import pad
from pondapp.ui.measuring.fills import FillEntry, fills_draft_id
from pondapp.ui.measuring.measure import MeasurePage
from pondapp.ui.tuning.tune_branch import TuneBranchPage
from pondapp.words import set_language

PLACE = "bog"
BUCKET = fills_draft_id(EXAMPLE, PLACE)
NUMBER = (int, float)
MAYBE = (int, float, type(None))
# The page's own format: what stands in it, and what kind of thing that is.
STATE: Mapping[str, Any] = {
    "route": str, "pond": str, "pondName": str, "place": str, "method": str, "title": str,
    "wanted": str,
    "words": dict, "decimal": str, "fills": list, "asked": int, "since": (dict, type(None)),
    "at": NUMBER, "band": (dict, type(None)), "result": (dict, type(None)), "outlook": list,
    "anew": bool, "branch": str, "aids": dict, "taken": (str, type(None)),
}  # fmt: skip
PARTS: Mapping[str, Mapping[str, Any]] = {
    "words": dict.fromkeys(
        ("start", "stop", "toStart", "toStop", "enough", "more", "count", "now"), str
    ),
    "since": {"run": str, "t": MAYBE, "wall": NUMBER},
    "band": {"fastest": MAYBE, "aim": NUMBER, "slowest": NUMBER},
    "aids": dict.fromkeys(("sound", "vibration", "countdown", "keys"), bool),
}


class Page:
    """The page's side: what it was told of the stopwatch, and of presses that are saved."""

    def __init__(self, screen: Screen, monkeypatch: pytest.MonkeyPatch) -> None:
        self.screen = screen
        self.told: list[tuple[dict[str, Any], Any]] = []
        self.saved: list[str] = []
        monkeypatch.setattr(pad.browser, "has_pad", lambda: True)
        monkeypatch.setattr(pad, "_Told", self._hear)
        monkeypatch.setattr(pad.browser, "ask", self._ask)

    def _hear(self, route: str, state: dict[str, Any], outlook: Any = tuple) -> Any:
        assert route == state["route"]
        self.told.append((state, outlook))
        return pad.ft.Container()

    async def _ask(self, what: str, **said: Any) -> str:
        if what == "taken":
            self.saved += json.loads(said["ids"])
        return "done"

    def state(self) -> dict[str, Any]:
        """What it is told when the screen is drawn anew."""
        self.screen.look()
        state = self.told[-1][0]
        fits(state)
        return state

    def outlook(self) -> list[dict[str, Any]]:
        self.screen.look()
        return pad._told(self.told[-1][1](), self.screen.session.system)


def fits(state: dict[str, Any]) -> None:
    """It is what the page reads, and goes through JSON unchanged."""
    assert json.loads(json.dumps(state, allow_nan=False)) == state
    assert state.keys() == STATE.keys()
    for name, kind in STATE.items():
        assert isinstance(state[name], kind), name
    for name, parts in PARTS.items():
        if state[name] is not None:
            assert state[name].keys() == parts.keys(), name
            for part, kind in parts.items():
                assert isinstance(state[name][part], kind), (name, part)
    for fill in state["fills"]:
        assert fill.keys() == {"seconds", "excluded"}
    if state["result"] is not None:
        allowed = {"number", "detail", "word", "severity", "time", "from", "to"}
        assert {"number", "detail", "word", "severity"} <= state["result"].keys() <= allowed


@pytest.fixture
def page(screen: Screen, monkeypatch: pytest.MonkeyPatch) -> Page:
    return Page(screen, monkeypatch)


def at_bog(page: Page) -> None:
    page.screen.open(MeasurePage, pond_id=EXAMPLE, place_id=PLACE)


def have(screen: Screen, **what: Any) -> None:
    now = datetime.now(UTC)
    leave(screen.session, Draft(id=BUCKET, pond_id=EXAMPLE, changed_at=now, **what))


def plain(text: str) -> str:
    return text.replace("\u00a0", " ").replace("\u202f", " ").replace("\ufeff", "")


def test_it_is_told_what_to_aim_for_before_anything_is_timed(page: Page) -> None:
    at_bog(page)
    state = page.state()
    assert (state["route"], state["pond"]) == ("/here", EXAMPLE)
    assert (state["place"], state["method"], state["asked"]) == (PLACE, "bucket", 3)
    assert (state["fills"], state["since"], state["result"]) == ([], None, None)
    assert re.search(r"Aim for [\d.]+ s; [\d.]+ to [\d.]+ s is fine", plain(state["wanted"]))
    band = state["band"]
    assert band["fastest"] < band["aim"] < band["slowest"]
    assert str(round(band["aim"], 1)) in state["wanted"]
    assert not state["anew"]


def test_it_is_told_when_a_fill_runs_and_on_which_clock(page: Page) -> None:
    at_bog(page)
    have(page.screen, started_at=1.8e9, started_on="page", started_tick=12.5)
    assert page.state()["since"] == {"run": "page", "t": 12_500.0, "wall": 1.8e9}
    have(page.screen, started_at=1.8e9)  # as early versions kept it: by the device's clock only
    assert page.state()["since"] == {"run": "", "t": None, "wall": 1.8e9}


def test_it_is_told_the_fills_with_those_that_are_struck_out(page: Page) -> None:
    at_bog(page)
    aim = page.state()["band"]["aim"]
    have(page.screen, fills=(Fill(seconds=aim), Fill(seconds=900.0, excluded=True)))
    state = page.state()
    assert state["fills"] == [
        {"seconds": aim, "excluded": False}, {"seconds": 900.0, "excluded": True},
    ]  # fmt: skip
    assert state["result"]["time"] == pytest.approx(aim, rel=1e-6)  # of the other one alone
    assert state["result"]["from"] < state["result"]["time"] < state["result"]["to"]


@pytest.mark.parametrize(
    ("share", "word", "severity"),
    [(1.0, "Right", "right"), (30.0, "Too little", "wrong"), (0.05, "Too much", "wrong")],
)
def test_what_it_says_is_what_the_screen_says(
    page: Page, share: float, word: str, severity: str
) -> None:
    at_bog(page)
    aim = page.state()["band"]["aim"]
    times = (0.998, 1.0, 1.002)
    have(page.screen, fills=tuple(Fill(seconds=round(aim * share * one, 3)) for one in times))
    result = page.state()["result"]
    assert (result["word"], result["severity"]) == (word, severity)
    said = page.screen.text()
    assert plain(result["number"]) in said
    assert plain(result["detail"]) in said
    assert word in said


@pytest.mark.parametrize(
    ("times", "word", "detail"),
    [
        # Wholly above what is wanted, and yet so short that it is hardly known.
        ((1.43,), "Likely too much", "known to 20 %: time 3 more, or fill 15 L"),
        ((9.52, 7.27), "Not decided yet", "the fills differ: time one more"),
        ((32.4,), "Not decided yet", "close to a limit: time 2 more"),
        ((32.4, 32.2, 32.6), "Not decided yet", "close to a limit: turn it to 1,040 L/h"),
    ],
)
def test_what_is_not_decided_says_why_and_what_would_decide(
    page: Page, times: tuple[float, ...], word: str, detail: str
) -> None:
    """1,000 to 3,000 L/h in a bucket of 9 L."""
    at_bog(page)
    tub = Container(id="tub9", name="Bucket", volume_m3=0.009, tolerance_m3=0.0001)
    asyncio.run(page.screen.session.settings.save(Preferences(containers=(tub,))))
    have(page.screen, fills=tuple(Fill(seconds=one) for one in times))
    result = page.state()["result"]
    assert (result["word"], result["severity"]) == (word, "unknown")
    assert plain(result["detail"]) == detail


def test_the_first_press_already_says_why_nothing_is_decided(page: Page) -> None:
    at_bog(page)
    told = page.outlook()
    open_ones = [one for one in told if one["severity"] == "unknown"]
    assert {one["detail"] for one in open_ones} == {"known too roughly", "close to a limit"}
    assert all(not one["detail"] for one in told if one["severity"] != "unknown")
    at = next(one for one in told if one["upTo"] is None or one["upTo"] >= 1.43)
    assert at["word"] == "Likely too much"


def test_the_outlook_is_whole_and_ends_with_no_time(page: Page) -> None:
    at_bog(page)
    aim = page.state()["band"]["aim"]
    have(page.screen, fills=(Fill(seconds=aim), Fill(seconds=round(aim * 1.002, 3))))
    told = page.outlook()
    assert [set(one) for one in told] == [{"upTo", "word", "detail", "severity"}] * len(told)
    ends = [one["upTo"] for one in told]
    assert ends[-1] is None
    assert ends[:-1] == sorted(ends[:-1])
    at_aim = next(one for one in told if one["upTo"] is None or aim <= one["upTo"])
    have(page.screen, fills=tuple(Fill(seconds=round(aim * n, 3)) for n in (1, 1.002, 1)))
    assert page.state()["result"]["word"] == at_aim["word"]


def test_without_a_container_there_is_nothing_to_time(page: Page) -> None:
    asyncio.run(page.screen.session.settings.save(Preferences(containers=())))
    at_bog(page)
    assert [state for state, _ in page.told if not state.get("none")] == []
    assert "Add a container" in page.screen.text()


def test_a_way_that_needs_no_time_has_no_stopwatch(page: Page) -> None:
    at_bog(page)
    page.state()
    have(page.screen, texts={"method": "meter"})
    page.screen.look()
    assert page.told[-1][0] == {"route": "/here", "none": True}


def test_it_speaks_the_units_and_the_language_in_use(page: Page) -> None:
    settings = page.screen.session.settings
    asyncio.run(settings.save(Preferences(units="us", containers=(TUB,))))
    at_bog(page)
    aim = page.state()["band"]["aim"]
    have(page.screen, fills=(Fill(seconds=aim),))
    assert "gph" in page.state()["result"]["number"] or "gal" in page.state()["result"]["number"]
    try:
        asyncio.run(settings.save(Preferences(language="de", containers=(TUB,))))
        set_language("de")
        have(page.screen, fills=(Fill(seconds=aim),))
        state = page.state()
        assert state["decimal"] == ","
        assert state["words"]["stop"] == "Stopp"
        assert state["words"]["count"] == "Füllung {n} von {m}"
        assert "L/h" in state["result"]["number"]
        assert "." not in re.sub(r"\.(?=\d{3})", "", state["result"]["number"])
    finally:
        set_language("en")


def test_what_was_left_begins_anew_at_the_next_press(page: Page) -> None:
    at_bog(page)
    old = datetime.now(UTC) - timedelta(hours=2)
    leave(
        page.screen.session,
        Draft(id=BUCKET, pond_id=EXAMPLE, fills=(Fill(seconds=9.0),), changed_at=old),
    )
    assert page.state()["anew"]


def test_after_the_advice_to_turn_the_valve_the_next_press_begins_anew(page: Page) -> None:
    page.screen.open(TuneBranchPage, pond_id=EXAMPLE, branch_id="to-bog")
    aim = page.state()["band"]["aim"]
    assert not page.state()["anew"]
    have(page.screen, fills=tuple(Fill(seconds=round(aim * 30 + n, 3)) for n in range(3)))
    state = page.state()
    assert (state["anew"], state["branch"]) == (True, "to-bog")


# ---- presses


def press(number: int, kind: str, run: str = "page", **more: Any) -> dict[str, Any]:
    said = {
        "id": f"{run}-{number}", "run": run, "route": "/measure/none/outlet", "pond": NO_POND,
        "place": OUTLET, "method": "", "wall": 1.8e9 + number, "tick": 10.0 + number, "kind": kind,
        "seconds": 4.0 + number if kind == "stop" else None,
    }  # fmt: skip
    return {**said, **more}


def hand(page: Page, *presses: dict[str, Any]) -> None:
    async def take() -> None:
        await pad.take_presses(json.dumps(presses))
        await page.screen.settle()

    asyncio.run(take())


def taken(page: Page, draft_id: str = "fills-none-outlet-bucket") -> list[float]:
    held = page.screen.session.drafts.get(draft_id) or Draft(id=draft_id)
    return [fill.seconds for fill in held.fills]


FOUR = (press(1, "start"), press(2, "stop"), press(3, "start"), press(4, "stop"))


@pytest.mark.parametrize("heard", [1, 2, 3, 4])
def test_presses_that_are_handed_over_again_count_once(page: Page, heard: int) -> None:
    hand(page, *FOUR[:heard])
    hand(page, *FOUR)  # all of them wait still: the browser was killed before it was told
    hand(page, FOUR[0])
    assert taken(page) == [6.0, 8.0]
    assert page.saved[-5:-1] == [one["id"] for one in FOUR]


def test_presses_of_two_dead_pages_that_are_handed_over_again_count_once(page: Page) -> None:
    both = (*FOUR, press(1, "start", "other"), press(2, "stop", "other", seconds=7.0))
    hand(page, *both[:5])
    hand(page, *both)
    hand(page, *both)
    assert taken(page) == [6.0, 8.0, 7.0]


def test_a_press_that_comes_while_others_are_saved_waits_for_its_turn(page: Page) -> None:
    first, live = FOUR[:3], FOUR[3]

    async def both() -> None:
        await asyncio.gather(
            pad.take_presses(json.dumps(first)), pad.take_presses(json.dumps([live]))
        )
        await page.screen.settle()

    asyncio.run(both())
    assert taken(page) == [6.0, 8.0]
    assert page.screen.session.drafts["fills-none-outlet-bucket"].started_at is None


def test_a_press_is_said_to_be_saved_only_when_it_is(
    page: Page, monkeypatch: pytest.MonkeyPatch
) -> None:
    store = page.screen.session.store
    real = store.apply

    async def full(*_: Any, **__: Any) -> None:
        raise StoreError("no room")

    monkeypatch.setattr(store, "apply", full)
    with pytest.raises(StoreError):
        hand(page, *FOUR[:2])
    hand(page, *FOUR[2:3])  # the failure is told once, and what is not saved is not said to be
    assert page.saved == []
    assert taken(page) == [6.0]  # and it counts meanwhile
    monkeypatch.setattr(store, "apply", real)
    hand(page, FOUR[3])
    assert page.saved == ["page-4"]
    assert taken(page) == [6.0, 8.0]


def test_what_was_saved_in_the_log_is_not_taken_again(page: Page) -> None:
    hand(page, *FOUR)
    page.screen.open(MeasurePage, pond_id=NO_POND, place_id=OUTLET)
    drafts = page.screen.session.drafts
    asyncio.run(FillEntry(drafts["fills-none-outlet-bucket"], drafts.hold).saved())
    hand(page, *FOUR)
    assert taken(page) == []


def test_a_press_at_a_pond_that_is_gone_is_kept_without_a_pond(page: Page) -> None:
    gone = {"pond": "gone", "place": "lip"}
    hand(page, *({**one, **gone} for one in FOUR[:2]))
    assert taken(page) == [6.0]


def test_a_press_from_before_python_goes_to_the_way_of_measuring_in_use(page: Page) -> None:
    name = "fills-none-outlet-bucket"
    leave(page.screen.session, Draft(id=name, texts={"method": "level_drop"}))
    hand(page, *FOUR[:2])
    assert taken(page, "fills-none-outlet-level_drop") == [6.0]
    leave(page.screen.session, Draft(id=name, texts={"method": "meter"}))
    hand(page, *FOUR[2:])
    assert taken(page, name) == [8.0]  # a meter takes no time: it is a bucket's


@pytest.mark.parametrize("pond", [NO_POND, "gone"])
def test_where_no_pond_is_every_place_is_the_one_without_a_pond(page: Page, pond: str) -> None:
    page.screen.open(MeasurePage, pond_id=pond, place_id="lip")
    state = page.state()
    assert (state["pond"], state["place"]) == (NO_POND, OUTLET)
    hand(page, *({**one, "pond": state["pond"], "place": state["place"]} for one in FOUR[:2]))
    assert len(page.state()["fills"]) == 1


def test_what_was_left_says_nothing_of_a_valve_today(page: Page) -> None:
    page.screen.open(TuneBranchPage, pond_id=EXAMPLE, branch_id="to-bog")
    aim = page.state()["band"]["aim"]
    old = datetime.now(UTC) - timedelta(hours=2)
    left = Draft(id=BUCKET, pond_id=EXAMPLE, changed_at=old, fills=(Fill(seconds=aim),) * 3)
    leave(page.screen.session, left)
    state = page.state()
    assert state["anew"]
    assert (state["fills"], state["result"]) == ([], None)
