"""The words and marks of the flow plan: a tick only where nothing is assumed or short."""

from datetime import UTC, datetime, timedelta

import pytest
from ponds import LPH

from pondapp import units
from pondapp.answers.care.open_matters import measured, open_matters
from pondapp.answers.planning.evaluation import Running, evaluations
from pondapp.answers.planning.plan import PondPlan
from pondapp.answers.planning.verdict import verdict_of
from pondapp.answers.pond import WorkedPond
from pondapp.answers.sharing.example import example_pond
from pondapp.models.circuit import BogFilter, Branch, Line, Lip, Pipe, Pump
from pondapp.models.pond import Pond
from pondapp.models.reading import MeterReading, Reading
from pondapp.models.water import TypedVolume
from pondapp.ui.planning.plan import difference_text, running_text

PUMP = Pump(id="a", name="A", max_flow_m3_s=10000 * LPH, max_head_m=5.0, power_w=90)


def pond(pump_id: str | None, size: str | None, lift: float | None) -> Pond:
    pipe = Pipe(series="hose, mm", size=size, length_m=5.0) if size else None
    branch = Branch(id="b", name="B", lift_m=lift, pipe=pipe)
    line = Line(id="l", name="Pump", pump_id=pump_id, branches=(branch,))
    return Pond(
        id="p", name="Invented", water=TypedVolume(volume_m3=5.0), lines=(line,), pumps=(PUMP,)
    )


def with_lip(of: Pond) -> Pond:
    """The pond with a lip that its branch feeds, and that the pond's own flow is right for."""
    (line,) = of.lines
    branch = line.branches[0].model_copy(update={"feeds": ("lip",)})
    lip = Lip(id="lip", name="Lip", width_m=0.3)
    line = line.model_copy(update={"branches": (branch,)})
    return of.model_copy(update={"fed": (lip,), "lines": (line,)})


@pytest.mark.parametrize(
    ("of", "severity", "words"),
    [
        (
            pond(None, None, None),
            "unknown",
            "5,000 L/h is enough for everything, once there is a pump for it",
        ),
        (pond("a", "50 mm", 0.5), "right", "5,000 L/h is enough for everything"),
        (
            pond("a", "50 mm", None),
            "unknown",
            "5,000 L/h is enough, if lift and hose are as assumed",
        ),
        (
            pond("a", None, 0.5),
            "unknown",
            "5,000 L/h is enough, if lift and hose are as assumed",
        ),
        (
            pond("a", "13 mm", 0.5),
            "wrong",
            "5,000 L/h would be enough, but less than that arrives",
        ),
        (
            pond("a", "50 mm", 6.0),
            "wrong",
            "5,000 L/h would be enough, but less than that arrives",
        ),
    ],
)
def test_a_tick_rests_on_what_is_entered_and_delivered(of: Pond, severity: str, words: str) -> None:
    of = with_lip(of)
    plan = WorkedPond(of).plan
    assert isinstance(plan, PondPlan)
    found, told = verdict_of(WorkedPond(of), plan)
    assert (found, units.tell(told, "metric")) == (severity, words)
    # The list of what is open about the pond says the same of it, and no tick where it does not.
    listed = [
        (one.severity, units.tell(one.sentence, "metric"))
        for one in open_matters(WorkedPond(of), [], datetime(2026, 6, 1, tzinfo=UTC)).matters
        if "enough for everything" in units.tell(one.sentence, "metric")
        or "lift and hose" in units.tell(one.sentence, "metric")
    ]
    assert listed == ([] if severity == "wrong" else [(severity, words)])


def test_no_tick_on_a_pump_that_may_be_too_weak_until_its_flow_is_measured() -> None:
    """By its label the pump just gives it; it is enough in some of a hundred likely cases only."""
    weak = PUMP.model_copy(update={"max_flow_m3_s": 6200 * LPH, "max_head_m": 3.0, "name": "Weak"})
    of = with_lip(pond("a", "50 mm", 0.5)).model_copy(update={"pumps": (weak,)})
    worked, now = WorkedPond(of), datetime(2026, 6, 1, tzinfo=UTC)
    plan = worked.plan
    assert isinstance(plan, PondPlan)
    assert plan.notes == ()
    told = "5,000 L/h is enough for everything, if Weak can give it"

    def listed(log: list[Reading]) -> list[tuple[str, str]]:
        found = open_matters(worked, log, now).matters
        return [(one.severity, units.tell(one.sentence, "metric")) for one in found
                if "for everything" in units.tell(one.sentence, "metric")]  # fmt: skip

    severity, words = verdict_of(worked, plan, measured(worked, [], now).proved)
    assert (severity, units.tell(words, "metric")) == ("unknown", told)
    assert listed([]) == [("unknown", told)]
    right = Reading(
        id="r", pond_id="p", place_id="lip", place_name="Lip", taken_at=now - timedelta(hours=1),
        band=None, method=MeterReading(flow_m3_s=5300 * LPH, tolerance=0.01),
    )  # fmt: skip
    severity, words = verdict_of(worked, plan, measured(worked, [right], now).proved)
    assert (severity, units.tell(words, "metric")) == (
        "right",
        "5,000 L/h is enough for everything",
    )
    assert listed([right]) == [("right", "5,000 L/h is enough for everything")]


def test_watts_and_money_are_one_value_where_they_are_known() -> None:
    assert (
        running_text(Running(70.0, 70.0, 183.96, 183.96), "metric")
        == "70 W: 15 a month, 184 a year"
    )
    told = running_text(Running(12.0, 42.0, 31.5, 110.4), "metric")
    assert told == "12 to 42 W: 2.62 to 9.20 a month, 32 to 110 a year"


def test_what_good_costs_beyond_least() -> None:
    told = difference_text(evaluations(WorkedPond(example_pond())), "metric")
    assert told.startswith("Good costs ")
    assert told.endswith(" a year more than least.")
    alike = difference_text(evaluations(WorkedPond(pond(None, None, None))), "metric")
    assert alike == "Good costs about the same as least here."
    apart = pond(None, None, None).model_copy(
        update={
            "fed": (
                BogFilter(id="bog", name="Bog", bed_volume_m3=0.01),
                Lip(id="lip", name="Lip", width_m=0.3),
            ),
            "lines": (
                Line(id="l", name="P", branches=(Branch(id="b", name="B", feeds=("bog", "lip")),)),
            ),
        }
    )
    assert difference_text(evaluations(WorkedPond(apart)), "metric") == ""
