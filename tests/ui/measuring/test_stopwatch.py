"""Fills are timed by a clock that nobody can set; where there is none, that is said."""

import time
from datetime import datetime, timedelta
from types import SimpleNamespace
from typing import Any

import pytest
from drawn import PAIL, leave
from memory_store import MemoryStore

from pondapp.models.limits import MOST_FILLS, MOST_TURNS
from pondapp.models.preferences import Draft
from pondapp.models.reading import Fill
from pondapp.state.session import Session
from pondapp.ui.measuring import fills
from pondapp.ui.parts import draft
from pondapp.ui.shell import touch
from pondapp.ui.shell.session_context import set_session


class Clocks:
    """A device whose two clocks are set by hand."""

    tick = 100.0
    time = 1.8e9

    def run(self, seconds: float, *, jump: float = 0.0, asleep: float = 0.0) -> None:
        """Time goes by; the clock is set, or the device sleeps, meanwhile."""
        self.tick += seconds - asleep
        self.time += seconds + jump


@pytest.fixture
def clocks(monkeypatch: pytest.MonkeyPatch) -> Clocks:
    made = Clocks()
    monkeypatch.setattr(touch, "_now", [lambda: made.tick])
    monkeypatch.setattr(touch, "_away", [])
    monkeypatch.setattr(touch, "_run", ["this start"])
    monkeypatch.setattr(time, "time", lambda: made.time)
    return made


@pytest.fixture
def entry(monkeypatch: pytest.MonkeyPatch) -> fills.FillEntry:
    session = Session(MemoryStore())
    set_session(session)
    page = SimpleNamespace(run_task=lambda *_: None)
    monkeypatch.setattr(fills.ft, "context", SimpleNamespace(page=page))
    said: list[str] = []
    monkeypatch.setattr(fills, "say", lambda text, *_: said.append(text))
    return fills.FillEntry(Draft(id="d"), session.drafts.hold)


def now(entry: fills.FillEntry) -> fills.FillEntry:
    """The entry as it is drawn next."""
    return fills.FillEntry(entry.newest, entry.put)


def before(entry: fills.FillEntry) -> list[list[float]]:
    return [[fill.seconds for fill in one.fills] for one in entry.newest.before_turn]


def weights(entry: fills.FillEntry) -> dict[str, str]:
    texts = entry.newest.texts.items()
    return {key.removesuffix(".full_weight"): text for key, text in texts if "weight" in key}


def seconds(entry: fills.FillEntry) -> list[float]:
    return [fill.seconds for fill in entry.newest.fills]


@pytest.mark.parametrize("jump", [3.0, 30.0, -3.0, -30.0, 4e8, -4e8])
def test_a_clock_that_is_set_in_mid_fill_changes_nothing(
    clocks: Clocks, entry: fills.FillEntry, jump: float
) -> None:
    entry.started(clocks.tick)
    clocks.run(9.52, jump=jump)
    shown = now(entry).elapsed
    assert shown is not None
    assert shown() == pytest.approx(9.52)
    now(entry).stopped(clocks.tick)
    assert seconds(entry) == [9.52]
    assert entry.newest.by_clock is None


def test_a_device_that_slept_is_not_believed(clocks: Clocks, entry: fills.FillEntry) -> None:
    entry.started(clocks.tick)
    touch.put_away(clocks.tick + 1)
    clocks.run(1200.0, asleep=900.0)
    now(entry).stopped(clocks.tick)
    assert (seconds(entry), entry.newest.by_clock) == ([], 1200.0)
    entry.count_it()
    assert entry.newest.fills == (Fill(seconds=1200.0, typed=True),)
    assert entry.newest.by_clock is None


def test_a_page_put_away_for_a_moment_is_no_sleep(clocks: Clocks, entry: fills.FillEntry) -> None:
    entry.started(clocks.tick)
    touch.put_away(clocks.tick + 1)
    clocks.run(20.0)
    now(entry).stopped(clocks.tick)
    assert seconds(entry) == [20.0]


def test_a_fill_of_another_start_of_the_app_is_asked_about(
    clocks: Clocks, entry: fills.FillEntry, monkeypatch: pytest.MonkeyPatch
) -> None:
    entry.started(clocks.tick)
    clocks.run(12.0)
    clocks.tick = 3.0  # a clock that began anew
    monkeypatch.setattr(touch, "_run", ["the next start"])
    drawn = now(entry)
    assert drawn.only_by_clock
    assert drawn.elapsed is not None
    assert drawn.elapsed() == pytest.approx(12.0)
    drawn.stopped(clocks.tick)
    assert (seconds(entry), entry.newest.by_clock) == ([], 12.0)
    entry.leave_it_out()
    assert (seconds(entry), entry.newest.by_clock) == ([], None)


def test_a_fill_begun_by_an_early_version_is_asked_about(
    clocks: Clocks, entry: fills.FillEntry
) -> None:
    entry.keep(started_at=clocks.time - 20.0)
    now(entry).stopped(clocks.tick)
    assert (seconds(entry), entry.newest.by_clock) == ([], 20.0)


@pytest.mark.parametrize("began", [4e8, -4e8])
def test_a_fill_that_cannot_be_is_not_counted(
    clocks: Clocks, entry: fills.FillEntry, began: float
) -> None:
    entry.keep(started_at=clocks.time + began, started_on="another", started_tick=1.0)
    now(entry).stopped(clocks.tick)
    assert (seconds(entry), entry.newest.by_clock) == ([], None)
    assert not now(entry).running


def test_no_time_is_kept_that_could_not_be_read_again(
    clocks: Clocks, entry: fills.FillEntry
) -> None:
    entry.keep(started_at=clocks.time - 0.04, started_on="another", started_tick=1.0)
    now(entry).stopped(clocks.tick)  # the clock was set to just after the start
    assert (seconds(entry), entry.newest.by_clock) == ([], None)
    entry.started(clocks.tick)
    now(entry).stopped(clocks.tick + 0.0004)
    assert seconds(entry) == []
    assert Draft.model_validate_json(entry.newest.model_dump_json()) == entry.newest


@pytest.mark.usefixtures("clocks")
def test_the_times_before_a_turn_stay_in_sight_and_come_back(entry: fills.FillEntry) -> None:
    for text in ("9.52", "7.27"):
        entry.note("seconds")(text)
        entry.add_typed("metric")
    entry.note("0.full_weight")("9.4")
    entry.note("1.full_weight")("9.5")
    entry.turned()
    assert (seconds(entry), entry.newest.texts) == (
        [], {"seconds": "", "before.0.full_weight": "9.4", "before.1.full_weight": "9.5"}
    )  # fmt: skip
    entry.note("seconds")("20")
    entry.add_typed("metric")
    entry.note("0.full_weight")("9.6")
    assert before(entry) == [[9.52, 7.27]]
    entry.turned()  # and again
    assert before(entry) == [[9.52, 7.27], [20.0]]
    assert entry.newest.texts["before.2.full_weight"] == "9.6"
    entry.note("seconds")("30")
    entry.add_typed("metric")
    entry.note("0.full_weight")("9.7")
    entry.not_turned()  # the last time
    assert (before(entry), seconds(entry)) == ([[9.52, 7.27]], [20.0, 30.0])
    assert weights(entry) == {
        "before.0": "9.4", "before.1": "9.5", "0": "9.6", "1": "9.7"
    }  # fmt: skip
    entry.not_turned()  # nor before
    assert (before(entry), seconds(entry)) == ([], [9.52, 7.27, 20.0, 30.0])
    assert weights(entry) == {"0": "9.4", "1": "9.5", "2": "9.6", "3": "9.7"}
    entry.not_turned()
    assert seconds(entry) == [9.52, 7.27, 20.0, 30.0]


@pytest.mark.usefixtures("clocks")
def test_a_set_notes_what_was_filled_where_the_handle_stood_and_when_it_was_turned(
    entry: fills.FillEntry,
) -> None:
    entry.turned()  # nothing was timed: no set
    assert entry.newest.before_turn == ()
    entry.keep(fills=(Fill(seconds=9.5),))
    entry.keep(opened=0.4)
    now(entry).turned(PAIL)
    (one,) = entry.newest.before_turn
    assert (one.opened, one.container) == (0.4, PAIL)
    assert one.until is not None
    assert entry.newest.opened is None  # nobody said yet how far it was turned
    entry.not_turned()
    assert (entry.newest.opened, seconds(entry)) == (0.4, [9.5])
    assert Draft.model_validate_json(entry.newest.model_dump_json()) == entry.newest


@pytest.mark.usefixtures("clocks")
def test_of_very_many_turns_and_fills_the_newest_stay_and_can_be_read_again(
    entry: fills.FillEntry,
) -> None:
    for number in range(MOST_TURNS + 3):
        entry.keep(fills=(Fill(seconds=number + 1), Fill(seconds=number + 1.5)))
        entry.note("0.full_weight")(str(number))
        now(entry).turned()
    assert before(entry) == [[n + 1, n + 1.5] for n in range(3, MOST_TURNS + 3)]
    weighed = {f"before.{2 * n}": str(n + 3) for n in range(MOST_TURNS)}
    assert weights(entry) == weighed
    many = tuple(Fill(seconds=100 + n) for n in range(MOST_FILLS))
    entry.keep(fills=many)
    entry.note("0.full_weight")("a")
    entry.not_turned()
    assert entry.newest.fills == many
    assert weights(entry) == {**dict(list(weighed.items())[:-1]), "0": "a"}
    assert Draft.model_validate_json(entry.newest.model_dump_json()) == entry.newest


@pytest.mark.usefixtures("clocks")
def test_what_was_left_is_asked_about_with_its_day(
    entry: fills.FillEntry, monkeypatch: pytest.MonkeyPatch
) -> None:
    entry.note("seconds")("9.5")
    entry.add_typed("metric")
    assert not now(entry).left
    session = fills.session_now()

    def left_at(moment: datetime | None) -> fills.FillEntry:
        leave(session, entry.newest.model_copy(update={"changed_at": moment}))
        return now(entry)

    evening = datetime(2026, 5, 6, 18, 40).astimezone()
    for later, said in (
        (timedelta(hours=2), "today, 18:40"),
        (timedelta(hours=7), "yesterday, 18:40"),
        (timedelta(days=3), "2026-05-06, 18:40"),
    ):
        at = evening + later

        class Later(datetime):
            @classmethod
            def now(cls, tz: Any = None, at: datetime = at) -> datetime:  # type: ignore[override]
                return at.astimezone(tz)

        monkeypatch.setattr(draft, "datetime", Later)
        assert left_at(evening).left
        assert draft.come_back(evening) == said
    assert left_at(None).left  # early versions did not note it
    now(entry).go_on()
    assert entry.newest.changed_at is not None
    assert left_at(at).left is False
    left_at(evening).start_over()
    assert seconds(entry) == []
