"""One pond has one plan: every answer about its flows speaks of the same ones."""

from itertools import count

import pytest
from ponds import LPH
from ponds import invented as pond

from pondapp.answers.features.targets import with_aim
from pondapp.answers.planning.plan import PondConflict, PondPlan
from pondapp.answers.planning.resolve import apply
from pondapp.answers.plumbing.path import lines_of
from pondapp.answers.plumbing.plumbing import line_answer
from pondapp.answers.pond import WorkedPond
from pondapp.answers.pumps.pump_reach import most_at_lift
from pondapp.answers.tuning.flow_sets import branch_places
from pondapp.answers.waterfall.lip_setting import lip_setting
from pondapp.models.circuit import BogFilter, Branch, HighFlowFilter, Line, Lip, Pipe, Pump
from pondapp.models.pond import Pond
from pondapp.models.water import TypedVolume


def pump(name: str, flow: float, head: float) -> Pump:
    return Pump(id=name, name=name, max_flow_m3_s=flow * LPH, max_head_m=head)


def planned(of: Pond) -> PondPlan:
    found = WorkedPond(of).plan
    assert isinstance(found, PondPlan)
    return found


def two_pumps() -> Pond:
    """16 m3; a bog on a small pump, a lip on a large one: together they turn the pond over."""
    small = Branch(id="a", name="A", lift_m=0.3, valve="ball", feeds=("bog",))
    large = Branch(id="b", name="B", lift_m=0.3, valve="ball", feeds=("lip",))
    return pond(
        BogFilter(id="bog", name="Bog", bed_volume_m3=0.8),
        Lip(id="lip", name="Lip", width_m=0.5),
        lines=(
            Line(id="one", name="One", pump_id="small", branches=(small,)),
            Line(id="two", name="Two", pump_id="large", branches=(large,)),
        ),
        pumps=(pump("small", 4000, 3.0), pump("large", 20000, 5.0)),
        volume=16.0,
    )


def test_every_answer_has_the_plan_of_the_chosen_pumps() -> None:
    of = two_pumps()
    # The small pump's most at 0.3 m: 4000 (1 - 0.3/3)^(1/1.5); the large one does the rest.
    small = 4000 * 0.9 ** (1 / 1.5)
    assert most_at_lift(of.pumps[0], 0.3) == pytest.approx(small * LPH)
    flows = {"a": small * LPH, "b": (16000 - small) * LPH}
    assert planned(of).branches == pytest.approx(flows)
    assert WorkedPond(of).planned.flows == pytest.approx(flows)
    tuned = {place.branch.id: place.band.target for line in of.lines
             for place in branch_places(WorkedPond(of), line)}  # fmt: skip
    assert tuned == pytest.approx(flows)
    worked = WorkedPond(of)
    plumbed = {run.counted.key: run.counted.flow for line in of.lines
               for run in line_answer(worked, line, worked.planned.flows).runs}  # fmt: skip
    assert plumbed == pytest.approx(flows)
    asked = {place.place_id: place.band.low for place in WorkedPond(of).wanted.places}
    assert (asked["one"], asked["two"]) == pytest.approx((flows["a"], flows["b"]))
    assert lip_setting(WorkedPond(of), of.fed[1]).flow == pytest.approx(flows["b"])  # type: ignore[arg-type]


def thin_hose(size: str) -> Pond:
    """5 m3 turned over through 5 m of hose, 0.5 m up, by a pump of 10000 L/h and 5 m."""
    pipe = Pipe(series="hose, mm", size=size, length_m=5.0)
    branch = Branch(id="b", name="B", lift_m=0.5, pipe=pipe)
    line = Line(id="l", name="Pump", pump_id="Strong", branches=(branch,))
    return pond(lines=(line,), pumps=(pump("Strong", 10000, 5.0),), volume=5.0)


def test_a_plan_that_the_pump_cannot_push_through_its_hose_says_so() -> None:
    found = planned(thin_hose("13 mm"))
    assert found.total == pytest.approx(5000 * LPH)
    (note,) = found.notes
    assert str(note).startswith("Strong delivers only about")
    assert note.values["delivered"].value < 1500 * LPH  # type: ignore[union-attr]
    assert planned(thin_hose("50 mm")).notes == ()


def test_a_share_that_a_pump_cannot_bring_to_the_highest_branch_is_said() -> None:
    """The pump gives enough in all, but not through the thin hose up to the lip."""
    low = Branch(id="a", name="Low", lift_m=0.1, feeds=("bog",),
                 pipe=Pipe(series="hose, mm", size="50 mm", length_m=1.0))  # fmt: skip
    high = Branch(id="b", name="High", lift_m=1.0, feeds=("lip",),
                  pipe=Pipe(series="hose, mm", size="25 mm", length_m=6.0))  # fmt: skip
    line = Line(id="l", name="Pump", pump_id="P", branches=(low, high))
    of = pond(
        BogFilter(id="bog", name="Bog", bed_volume_m3=0.2),
        Lip(id="lip", name="Lip", width_m=0.3),
        lines=(line,),
        pumps=(pump("P", 12000, 2.0),),
        volume=2.0,
    )
    (note,) = planned(of).notes
    assert "cannot bring each branch its share" in str(note)
    assert note.values["branch"] == "High"


def box_before_lip(**line: object) -> Pond:
    branch = Branch(id="b", name="B", lift_m=0.5, valve="ball", feeds=("box", "lip"))
    return pond(
        HighFlowFilter(id="box", name="Box"),
        Lip(id="lip", name="Lip", width_m=0.4),
        lines=(Line.model_validate({"id": "l", "name": "Pump", "branches": (branch,), **line}),),
        volume=4.0,
    )


def test_the_waterfall_is_set_by_all_that_its_branch_needs() -> None:
    """The box before the lip needs 8000 L/h, the lip alone would be full with 5333."""
    of = box_before_lip()
    assert planned(of).branches["b"] == pytest.approx(8000 * LPH)
    setting = lip_setting(WorkedPond(of), of.fed[1])  # type: ignore[arg-type]
    # As much more as it takes to tell by a few fills that the box has its 8000.
    assert 8000 * LPH < setting.flow < 1.07 * 8000 * LPH
    assert setting.total == pytest.approx(setting.flow)


def test_where_demands_conflict_no_waterfall_is_set() -> None:
    of = box_before_lip()
    narrow = of.model_copy(update={"fed": (of.fed[0], Lip(id="lip", name="Lip", width_m=0.2))})
    assert isinstance(WorkedPond(narrow).plan, PondConflict)
    with pytest.raises(Exception, match="can take at most"):
        lip_setting(WorkedPond(narrow), narrow.fed[1])  # type: ignore[arg-type]


def test_a_tub_with_a_wide_lip_is_warned_of_too_much() -> None:
    """A lip of 40 cm wants 5333 L/h: in a tub of 100 L the water goes round 53 times an hour."""
    tub = planned(pond(Lip(id="lip", name="Lip", width_m=0.4), volume=0.1))
    (caution,) = tub.cautions
    assert "53 times an hour" in str(caution)
    assert planned(pond(Lip(id="lip", name="Lip", width_m=0.4), volume=1.0)).cautions == ()
    wild = {"filters.turnover_most": 60 / 3600}
    calm = pond(Lip(id="lip", name="Lip", width_m=0.4), assumptions=wild, volume=0.1)
    assert planned(calm).cautions == ()


def test_the_plan_gives_each_place_what_was_chosen_for_it() -> None:
    of = pond(BogFilter(id="bog", name="Bog", bed_volume_m3=0.1),
              Lip(id="lip", name="Lip", width_m=0.3), volume=1.0)  # fmt: skip
    assert planned(of).through == pytest.approx({"bog": 400 * LPH, "lip": 4000 * LPH})
    least, good = planned(with_aim(of, "least")), planned(with_aim(of, "good"))
    assert least.through == pytest.approx({"bog": 400 * LPH, "lip": 2000 * LPH})
    assert good.through == pytest.approx({"bog": 600 * LPH, "lip": 4000 * LPH})
    chosen = with_aim(of, "least")
    bog = chosen.fed[0].model_copy(update={"aim": "good"})
    mixed = planned(chosen.model_copy(update={"fed": (bog, chosen.fed[1])}))
    assert mixed.through == pytest.approx({"bog": 600 * LPH, "lip": 2000 * LPH})


def test_a_good_flow_that_does_not_fit_may_be_lowered_by_a_resolution() -> None:
    of = pond(Lip(id="lip", name="Lip", width_m=0.3), pumps=(pump("P", 3000, 3.0),), volume=1.0)
    found = WorkedPond(of).plan
    assert isinstance(found, PondConflict)
    number = count()
    first = found.resolutions[0]
    assert str(first.changes[0]).startswith("give Lip its least flow")
    after = apply(WorkedPond(of), first, lambda: f"new{next(number)}")
    assert after.fed[0].aim == "least"
    assert planned(after).through["lip"] == pytest.approx(2000 * LPH)


def test_no_lip_is_made_too_small_to_build_or_too_wide_for_the_pond() -> None:
    """A bed of 1 L before a lip would want a lip of a few millimetres."""
    branch = Branch(id="b", name="B", feeds=("bog", "lip"))
    of = pond(BogFilter(id="bog", name="Bog", bed_volume_m3=0.001),
              Lip(id="lip", name="Lip", width_m=0.3),
              lines=(Line(id="l", name="Pump", branches=(branch,)),), volume=1.0)  # fmt: skip
    found = WorkedPond(of).plan
    assert isinstance(found, PondConflict)
    told = [str(change) for way in found.resolutions for change in way.changes]
    assert told
    assert not any("narrower" in line for line in told)
    large = of.model_copy(update={"water": TypedVolume(volume_m3=60.0)})
    again = WorkedPond(large).plan
    assert isinstance(again, PondConflict)
    for way in again.resolutions:
        for line in lines_of(apply(WorkedPond(large), way, lambda: "extra")):
            assert line.branches
        widths = [want.size for p in way.circuit.pumps for b in p.branches for want in b.demands
                  if want.kind == "lip"]  # fmt: skip
        assert all(0.05 <= width <= 60.0**0.5 for width in widths if width is not None)


def test_where_a_good_flow_conflicts_no_branch_can_be_right() -> None:
    """A bog for 3000 L/h at most before a lip whose good flow is 4000 and whose least is 2000."""
    branch = Branch(id="b", name="B", valve="ball", feeds=("bog", "lip"))
    of = pond(
        BogFilter(id="bog", name="Bog", bed_volume_m3=0.25),
        Lip(id="lip", name="Lip", width_m=0.3),
        lines=(Line(id="l", name="Pump", branches=(branch,)),),
        volume=2.0,
    )
    assert isinstance(WorkedPond(of).plan, PondConflict)
    (place,) = branch_places(WorkedPond(of), of.lines[0])
    assert place.conflict is not None
    least = with_aim(of, "least")
    (place,) = branch_places(WorkedPond(least), least.lines[0])
    assert place.conflict is None
    assert place.band.low == pytest.approx(2000 * LPH)
