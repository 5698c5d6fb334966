"""The planner: least flow, conflicts, resolutions."""

from dataclasses import replace
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from random_circuits import UNIT, broken_rule, circuits

from pondapp.core.assumptions.filters import FilterAssumptions
from pondapp.core.assumptions.waterfalls import WaterfallAssumptions
from pondapp.core.base.errors import NoSolution, OutOfRange
from pondapp.core.base.messages import Amount
from pondapp.core.circuit.answer import Infeasible, Plan, Resolution
from pondapp.core.circuit.model import DemandBranch, DemandCircuit, DemandPump, FlowDemand
from pondapp.core.circuit.planner import plan_circuit
from pondapp.core.circuit.split import least_plan
from pondapp.core.filters.bands import bog_band, whole_pond_band

HOUR = 3.6e6  # L/h in one m3/s


def the_bog(litres: float = 100.0, all_day: bool = True) -> FlowDemand:
    rules = FilterAssumptions()
    band = bog_band(
        litres / 1000,
        rules.bog_retention_min,
        rules.bog_retention_target,
        rules.bog_retention_max,
    )
    return FlowDemand("bog", band.low, band.high, band.target, "bed", litres / 1000, all_day)


def the_lip(width: float = 0.30) -> FlowDemand:
    rules = WaterfallAssumptions()
    best = width * rules.sheet_flow_per_width
    low, high = rules.sheet_low_factor * best, rules.sheet_high_factor * best
    return FlowDemand("lip", low, high, best, "lip", width)


TURNOVER = whole_pond_band(1.0, FilterAssumptions().turnover_whole).low


def one_pump(
    *branches: DemandBranch, most: float | None = None, turnover: float = TURNOVER
) -> DemandCircuit:
    return DemandCircuit((DemandPump("pump", branches, most),), turnover)


def planned(circuit: DemandCircuit) -> Plan:
    answer = plan_circuit(circuit)
    assert isinstance(answer, Plan)
    assert broken_rule(circuit, answer) is None
    return answer


def in_conflict(circuit: DemandCircuit, timer_duty: float = 1.0) -> Infeasible:
    answer = plan_circuit(circuit, timer_duty)
    assert isinstance(answer, Infeasible)
    return answer


def way(conflict: Infeasible, word: str) -> Resolution:
    found = [w for w in conflict.resolutions if len(w.changes) == 1 and word in str(w.changes[0])]
    assert len(found) == 1, [str(change) for w in conflict.resolutions for change in w.changes]
    return found[0]


def amount(one: Resolution, place: str) -> float:
    value = one.changes[0].values[place]
    assert isinstance(value, Amount)
    return value.value


# A pond of 1000 L, a bog of 100 L (400 to 1200 L/h, best 600), a lip of 30 cm (about 4000 L/h,
# from half of it), all on one pump. The expected numbers follow from those by hand.


def test_bog_before_the_lip_names_the_conflict_and_five_resolutions() -> None:
    conflict = in_conflict(one_pump(DemandBranch("main", (the_bog(), the_lip()))))
    assert "lip needs at least" in str(conflict.message)
    assert "bog can take at most" in str(conflict.message)

    narrower = way(conflict, "narrower")
    assert amount(narrower, "size") == pytest.approx(0.18)
    assert amount(narrower, "change") == pytest.approx(0.12)
    assert narrower.plan.total * HOUR == pytest.approx(1200)

    over = way(conflict, "over the top")
    assert amount(over, "past") * HOUR == pytest.approx(1400)
    assert amount(over, "through") * HOUR == pytest.approx(600)
    assert over.plan.total * HOUR == pytest.approx(2000)

    bigger = way(conflict, "volume")
    assert amount(bigger, "size") * 1000 == pytest.approx(166.67, abs=0.01)
    assert amount(bigger, "change") * 1000 == pytest.approx(66.67, abs=0.01)

    own = way(conflict, "branch of its own")
    assert amount(own, "own") * HOUR == pytest.approx(2000)
    assert amount(own, "rest") * HOUR == pytest.approx(400)
    assert own.plan.total * HOUR == pytest.approx(2400)

    second = way(conflict, "second pump")
    assert amount(second, "own") * HOUR == pytest.approx(2000)
    assert amount(second, "rest") * HOUR == pytest.approx(400)
    assert len(conflict.resolutions) == 5


def test_lip_at_its_full_rule() -> None:
    lip = replace(the_lip(), low=4000 / HOUR)
    conflict = in_conflict(one_pump(DemandBranch("main", (the_bog(), lip))))
    assert amount(way(conflict, "narrower"), "size") == pytest.approx(0.09)
    assert amount(way(conflict, "over the top"), "past") * HOUR == pytest.approx(3400)
    assert amount(way(conflict, "volume"), "size") * 1000 == pytest.approx(333.3, abs=0.1)
    assert way(conflict, "branch of its own").plan.total * HOUR == pytest.approx(4400)


def test_second_pump_rests_while_nobody_looks() -> None:
    conflict = in_conflict(one_pump(DemandBranch("main", (the_bog(), the_lip()))), timer_duty=0.5)
    second = way(conflict, "second pump")
    assert amount(second, "duty") == 0.5 * 86400
    assert second.plan.total * HOUR == pytest.approx(2400)
    assert second.plan.daily_mean * HOUR == pytest.approx(400 + 2000 / 2)


def test_with_the_bypass_there_is_a_plan() -> None:
    plan = planned(one_pump(DemandBranch("main", (the_bog(), the_lip()), ("bog",))))
    assert plan.total * HOUR == pytest.approx(2000)
    assert plan.feature_flow("bog").through * HOUR == pytest.approx(600)
    assert plan.feature_flow("bog").bypass * HOUR == pytest.approx(1400)
    assert plan.feature_flow("lip").through * HOUR == pytest.approx(2000)
    assert "bog" not in str(plan.reason)  # the lip alone holds the flow up
    assert "lip" in str(plan.reason)


def test_branches_add_and_the_pond_takes_them_to_their_best() -> None:
    branches = (DemandBranch("filter", (the_bog(),)), DemandBranch("fall", (the_lip(),)))
    least = planned(one_pump(*branches))
    assert least.total * HOUR == pytest.approx(2400)
    # 1100 L/h more, halfway from the least (400 + 2000) to the best (600 + 4000)
    more = planned(one_pump(*branches, turnover=3500 / HOUR))
    assert more.total * HOUR == pytest.approx(3500)
    assert more.branch_flow("filter").flow * HOUR == pytest.approx(500)
    assert more.branch_flow("fall").flow * HOUR == pytest.approx(3000)
    assert "whole pond asks" in str(more.reason)


def test_straight_return_takes_what_is_beyond_the_best() -> None:
    circuit = one_pump(
        DemandBranch("filter", (the_bog(),)), DemandBranch("return", ()), turnover=5000 / HOUR
    )
    plan = planned(circuit)
    assert plan.feature_flow("bog").through * HOUR == pytest.approx(600)
    assert plan.branch_flow("return").flow * HOUR == pytest.approx(4400)


def test_pond_that_asks_for_more_than_the_bog_stands() -> None:
    conflict = in_conflict(one_pump(DemandBranch("filter", (the_bog(),)), turnover=2000 / HOUR))
    assert "whole pond asks" in str(conflict.message)
    back = way(conflict, "straight back to the pond by")
    assert amount(back, "past") * HOUR == pytest.approx(1400)
    assert way(conflict, "over the top").plan.total * HOUR == pytest.approx(2000)
    assert amount(way(conflict, "volume"), "size") * 1000 == pytest.approx(166.67, abs=0.01)
    less = conflict.resolutions[-1]
    assert amount(less, "flow") * HOUR == pytest.approx(1200)
    assert amount(less, "missing") * HOUR == pytest.approx(800)


def test_pump_on_a_timer_may_run_longer() -> None:
    fall = DemandPump("fall", (DemandBranch("run", (the_lip(),)),), most=4000 / HOUR, duty=0.5)
    conflict = in_conflict(DemandCircuit((fall,), 3000 / HOUR))
    assert amount(way(conflict, "instead of"), "duty") == pytest.approx(0.75 * 86400)


def test_lip_on_a_timer_must_be_wider_for_the_hours_that_it_rests() -> None:
    fall = DemandPump("fall", (DemandBranch("run", (the_lip(),)),), duty=0.5)
    conflict = in_conflict(DemandCircuit((fall,), 5000 / HOUR))  # 8000 L/h at most, half of the day
    wider = way(conflict, "wider")
    assert amount(wider, "size") == pytest.approx(0.30 * 10000 / 8000)
    assert wider.plan.total * HOUR == pytest.approx(10000)
    assert wider.plan.daily_mean * HOUR == pytest.approx(5000)


def test_pump_too_weak_for_its_branches() -> None:
    branches = (DemandBranch("filter", (the_bog(),)), DemandBranch("fall", (the_lip(),)))
    conflict = in_conflict(one_pump(*branches, most=2200 / HOUR))
    assert amount(way(conflict, "stronger pump"), "flow") * HOUR == pytest.approx(2400)
    assert amount(way(conflict, "narrower"), "change") == pytest.approx(0.03)
    assert way(conflict, "from second pump").plan.pump_flow("pump").flow * HOUR == pytest.approx(
        2000
    )
    on = way(conflict, "on through")
    assert amount(on, "flow") * HOUR == pytest.approx(2000)
    assert amount(on, "past") * HOUR == pytest.approx(1400)


def test_bog_on_a_timer_is_refused_with_its_resolutions() -> None:
    branches = (DemandBranch("filter", (the_bog(),)), DemandBranch("fall", (the_lip(),)))
    conflict = in_conflict(DemandCircuit((DemandPump("pump", branches, duty=0.5),), TURNOVER))
    assert "round the clock" in str(conflict.message)
    assert way(conflict, "run pump").plan.daily_mean * HOUR == pytest.approx(2400)
    split = way(conflict, "second pump")
    assert split.plan.pumps[1].flow * HOUR == pytest.approx(400)
    assert split.plan.daily_mean * HOUR == pytest.approx(1400)


def test_a_resolution_may_need_two_changes() -> None:
    circuit = one_pump(DemandBranch("main", (the_bog(), the_lip())), most=1500 / HOUR)
    conflict = in_conflict(circuit)
    assert len(conflict.resolutions[0].changes) == 1  # the narrower lip needs no other pump
    both = [w for w in conflict.resolutions if "over the top" in str(w.changes[0])]
    assert len(both) == 1
    assert "stronger pump" in str(both[0].changes[1])


def test_a_tiny_pump_beside_a_great_demand_is_not_asked_for_more_than_it_has() -> None:
    drop = FlowDemand("drop", 1e-9, None, 1e-9)
    tiny = DemandPump(
        "tiny", (DemandBranch("a", (drop,)), DemandBranch("b", ())), most=3.3e-9, duty=0.001
    )
    planned(DemandCircuit((tiny, DemandPump("great", (DemandBranch("c", ()),))), 10.0))


def test_nothing_to_do_is_a_plan_without_flow() -> None:
    plan = planned(one_pump(DemandBranch("return", ()), turnover=0.0))
    assert plan.total == 0.0
    assert "nothing" in str(plan.reason)


def test_working_shows_how_the_total_came_about() -> None:
    plan = planned(one_pump(DemandBranch("main", (the_bog(), the_lip()), ("bog",))))
    by_meaning = {step.result.meaning: step.result.value * HOUR for step in plan.steps()}
    assert by_meaning["least in main"] == pytest.approx(2000)
    assert by_meaning["most in main"] == pytest.approx(8000)
    assert by_meaning["all pumps, mean of a day"] == pytest.approx(2000)
    assert by_meaning["round bog"] == pytest.approx(1400)
    conflict = in_conflict(one_pump(DemandBranch("main", (the_bog(), the_lip()))))
    bounds = {step.result.meaning: step.result.value * HOUR for step in conflict.steps()}
    assert bounds["least in main"] > bounds["most in main"]
    assert conflict.resolutions[0].steps()


def brute_force(circuit: DemandCircuit, greatest: int) -> float | None:
    """Least mean flow of the day in units, over every whole number of units in every branch."""
    branches = [(pump, branch) for pump in circuit.pumps for branch in pump.branches]
    best: float | None = None
    for flows in product(range(greatest + 1), repeat=len(branches)):
        fits = all(
            any(
                demand.asked / UNIT - 0.1 <= through <= (demand.high or 1e9) / UNIT + 0.1
                for through in (range(flow + 1) if demand.key in branch.bypass else (flow,))
            )
            for (_, branch), flow in zip(branches, flows, strict=True)
            for demand in branch.demands
        )
        for pump in circuit.pumps:
            own = sum(q for (p, _), q in zip(branches, flows, strict=True) if p is pump)
            fits = fits and (pump.most is None or own <= pump.most / UNIT + 0.1)
        mean = sum(pump.duty * q for (pump, _), q in zip(branches, flows, strict=True))
        if fits and mean >= circuit.turnover / UNIT - 0.1 and (best is None or mean < best):
            best = mean
    return best


@settings(max_examples=80)
@given(circuits(branches=2, greatest=8))
def test_least_flow_agrees_with_trying_everything(circuit: DemandCircuit) -> None:
    # No branch needs more than the greatest demand or twice the turnover at half a day.
    expected = brute_force(circuit, 26)
    answer = plan_circuit(circuit)
    if expected is None:
        assert isinstance(answer, Infeasible)
    else:
        assert isinstance(answer, Plan)
        assert answer.daily_mean / UNIT == pytest.approx(expected)


@settings(max_examples=200)
@given(circuits(all_day=True), st.sampled_from((1.0, 0.5)))
def test_plans_keep_every_rule_and_so_does_each_resolution(
    circuit: DemandCircuit, duty: float
) -> None:
    answer = plan_circuit(circuit, duty)
    if isinstance(answer, Plan):
        assert broken_rule(circuit, answer) is None
        answer.steps()
        return
    assert answer.resolutions
    for one in answer.resolutions:
        assert one.circuit != circuit
        assert broken_rule(one.circuit, one.plan) is None
        assert plan_circuit(one.circuit) == one.plan
        told = [str(change) for change in one.changes]
        assert len(set(told)) == len(told)
        for change in one.changes:
            assert "{" not in str(change)
            amounts = [v.value for v in change.values.values() if isinstance(v, Amount)]
            assert amounts
            assert all(0.0 <= value < 1e7 for value in amounts)


@settings(max_examples=100)
@given(circuits(), st.integers(0, 30), st.integers(0, 30))
def test_a_larger_turnover_never_needs_less(circuit: DemandCircuit, one: int, other: int) -> None:
    lower, higher = sorted((one, other))
    small = plan_circuit(replace(circuit, turnover=lower * UNIT))
    large = plan_circuit(replace(circuit, turnover=higher * UNIT))
    if isinstance(large, Plan):
        assert isinstance(small, Plan)
        assert small.daily_mean <= large.daily_mean * (1 + 1e-9)
        for few, many in zip(small.pumps, large.pumps, strict=True):
            assert few.flow <= many.flow + 1e-9


@settings(max_examples=60)
@given(circuits())
def test_a_bypass_never_needs_more(circuit: DemandCircuit) -> None:
    pumps = tuple(
        replace(
            pump,
            branches=tuple(
                replace(branch, bypass=tuple(demand.key for demand in branch.demands))
                for branch in pump.branches
            ),
        )
        for pump in circuit.pumps
    )
    before, after = plan_circuit(circuit), plan_circuit(replace(circuit, pumps=pumps))
    if isinstance(before, Plan):
        assert isinstance(after, Plan)
        assert after.daily_mean <= before.daily_mean * (1 + 1e-9)


@pytest.mark.parametrize("bad", [-1.0, 11.0, float("nan"), float("inf")])
def test_numbers_out_of_range_are_refused(bad: float) -> None:
    branch = DemandBranch("main", (the_bog(),))
    for call in (
        lambda: FlowDemand("bog", bad, 2.0, 1.0),
        lambda: (
            FlowDemand("bog", 0.5, bad, 1.0) if bad != 11.0 else FlowDemand("bog", 0.5, 0.9, 1.0)
        ),
        lambda: FlowDemand("bog", 0.0, None, bad),
        lambda: DemandCircuit((DemandPump("pump", (branch,)),), bad),
        lambda: DemandPump("pump", (branch,), duty=bad),
        lambda: plan_circuit(one_pump(branch), bad),
    ):
        with pytest.raises(OutOfRange):
            call()
    if bad != 11.0:
        with pytest.raises(OutOfRange, match="most flow of pump"):
            DemandPump("pump", (branch,), bad)
    if not bad > 0.0 or bad == float("inf"):
        with pytest.raises(OutOfRange, match="size of lip"):
            FlowDemand("lip", 0.0, None, 1.0, "lip", bad)


def test_names_that_do_not_fit_are_refused() -> None:
    with pytest.raises(OutOfRange, match="two things are called bog: give one"):
        one_pump(DemandBranch("a", (the_bog(),)), DemandBranch("b", (the_bog(),)))
    with pytest.raises(OutOfRange, match="two branches are called a"):
        one_pump(DemandBranch("a", (the_bog(),)), DemandBranch("a", ()))
    with pytest.raises(OutOfRange, match="two pumps are called a"):
        DemandCircuit(
            (DemandPump("a", (DemandBranch("b", ()),)), DemandPump("a", (DemandBranch("c", ()),)))
        )
    with pytest.raises(OutOfRange, match="which is not on it"):
        DemandBranch("a", (the_bog(),), ("lip",))
    with pytest.raises(OutOfRange, match="feeds no branch"):
        DemandPump("a", ())
    with pytest.raises(OutOfRange, match="no pump"):
        DemandCircuit(())
    plan = planned(one_pump(DemandBranch("main", (the_bog(),))))
    for ask in (plan.pump_flow, plan.branch_flow, plan.feature_flow):
        with pytest.raises(OutOfRange, match="nowhere"):
            ask("nowhere")


def test_split_alone_refuses_a_circuit_with_a_conflict() -> None:
    with pytest.raises(NoSolution, match="lip needs at least"):
        least_plan(one_pump(DemandBranch("main", (the_bog(), the_lip()))))


def names_in(one: Resolution) -> str:
    """The things, or the thing, that a resolution is about."""
    values = one.changes[0].values
    return str(values.get("things", values.get("thing")))


def test_each_resolution_names_what_it_moves() -> None:
    order = in_conflict(one_pump(DemandBranch("main", (the_bog(), the_lip()))))
    assert names_in(way(order, "branch of its own")) == "lip"
    assert names_in(way(order, "second pump")) == "lip"

    branches = (DemandBranch("filter", (the_bog(),)), DemandBranch("fall", (the_lip(),)))
    timer = in_conflict(DemandCircuit((DemandPump("pump", branches, duty=0.5),), TURNOVER))
    assert names_in(way(timer, "second pump")) == "filter"

    weak = in_conflict(one_pump(*branches, most=2200 / HOUR))
    assert names_in(way(weak, "on through")) == "bog"
    second = way(weak, "from second pump")
    assert names_in(second) == "filter"
    assert [branch.name for branch in second.circuit.pumps[1].branches] == ["filter"]
    strong = way(weak, "stronger pump").circuit.pumps[0].most
    assert strong is not None
    assert strong * HOUR == pytest.approx(2400)


def test_a_filter_that_is_too_tight_moves_where_no_lip_can() -> None:
    # A box that demands 2000 L/h behind a bog that stands 1200: the bog gets a branch of its own.
    box = FlowDemand("box", 2000 / HOUR, None, 2000 / HOUR, "box", None)
    conflict = in_conflict(one_pump(DemandBranch("main", (the_bog(), box))))
    assert names_in(way(conflict, "branch of its own")) == "bog"
    assert names_in(way(conflict, "second pump")) == "bog"


def test_of_two_lips_the_narrow_one_moves() -> None:
    # 10 cm stand 2667 L/h at most by the rule, 60 cm demand 4000 at least.
    narrow, wide = (
        replace(the_lip(0.10), key="narrow", name="narrow"),
        replace(the_lip(0.60), key="wide"),
    )
    conflict = in_conflict(one_pump(DemandBranch("main", (narrow, wide))))
    assert names_in(way(conflict, "branch of its own")) == "narrow"
    assert names_in(way(conflict, "second pump")) == "narrow"


def test_what_a_resolution_changes_is_in_its_circuit_with_its_unit() -> None:
    conflict = in_conflict(one_pump(DemandBranch("main", (the_bog(), the_lip()))))
    # 18 of 30 cm stand 0.6 of 16 000 L/h at most; a bog for 2000 L/h instead of 1200 takes 0.1667.
    narrower, bigger = way(conflict, "narrower"), way(conflict, "volume")
    lip = narrower.circuit.pumps[0].branches[0].demands[1]
    bog = bigger.circuit.pumps[0].branches[0].demands[0]
    assert (lip.size, lip.high) == (pytest.approx(0.18), pytest.approx(0.6 * the_lip().high))
    assert (bog.size, bog.high) == (pytest.approx(0.1 / 0.6), pytest.approx(2000 / HOUR))
    units = [one.changes[0].values["size"].unit for one in (narrower, bigger)]
    assert units == ["width", "m3"]


def test_new_pumps_have_names_and_only_what_may_rest_waits_for_a_timer() -> None:
    conflict = in_conflict(one_pump(DemandBranch("filter", (the_bog(),)), turnover=2000 / HOUR))
    back = way(conflict, "straight back to the pond by")
    assert [b.name for b in back.circuit.pumps[0].branches] == ["filter", "straight return"]
    stir = way(conflict, "send ").circuit.pumps[1]
    assert (stir.name, [b.name for b in stir.branches]) == ("second pump", ["straight return"])
    box = FlowDemand("box", 2000 / HOUR, None, 2000 / HOUR, "box", None, all_day=True)
    tight = in_conflict(one_pump(DemandBranch("main", (the_bog(), box))), timer_duty=0.5)
    second = way(tight, "second pump").circuit.pumps[1]
    assert (second.duty, second.branches[0].name) == (1.0, "branch of the second pump")


def test_half_of_what_is_wanted_beyond_the_least_is_shared_by_halves() -> None:
    # The least is 400 and 2000, the best 600 and 4000: 3500 L/h are half way between.
    found = planned(
        one_pump(
            DemandBranch("filter", (the_bog(),)), DemandBranch("fall", (the_lip(),)),
            most=3500 / HOUR, turnover=3500 / HOUR,
        )
    )  # fmt: skip
    assert found.branch_flow("filter").flow * HOUR == pytest.approx(500)
    assert found.branch_flow("fall").flow * HOUR == pytest.approx(3000)


def test_resolutions_come_by_work_and_by_what_the_flow_costs() -> None:
    """Of ways that need the same flow the lighter work comes first; ten times the flow comes last.

    60 m3 are to be turned over once an hour past a bog that can take 5280 L/h: every way that
    meets it needs 60000 L/h, so they stand in the order of their work, and less comes at the end.
    """
    conflict = in_conflict(one_pump(DemandBranch("main", (the_bog(440.0),)), turnover=60000 / HOUR))
    efforts = [way.effort for way in conflict.resolutions[:-1]]
    assert efforts == sorted(efforts)
    assert "make do with" in str(conflict.resolutions[-1].changes[0])
    for way in conflict.resolutions[:-1]:
        assert way.plan.total == pytest.approx(60000 / HOUR)


def test_a_way_of_little_more_work_beats_one_of_much_more_flow() -> None:
    """A lip of 40 cm behind a bog for 2400 L/h: a narrower lip runs on 2400, a branch on 6133."""
    bog, lip = the_bog(200.0), replace(the_lip(0.4), aim="good")
    conflict = in_conflict(one_pump(DemandBranch("main", (bog, lip)), turnover=0.0))
    told = [str(way.changes[0]) for way in conflict.resolutions]
    narrower = next(n for n, text in enumerate(told) if "narrower" in text)
    own = next(n for n, text in enumerate(told) if "branch of its own" in text)
    assert narrower < own


def test_content_with_less_is_said_for_all_that_give_way() -> None:
    jet = FlowDemand("jet", 100 / HOUR, None, 1000 / HOUR, aim="good")
    lip = replace(the_lip(0.3), aim="good")
    circuit = one_pump(
        DemandBranch("a", (jet,)), DemandBranch("b", (lip,)), most=3000 / HOUR, turnover=0.0
    )
    ways = in_conflict(circuit).resolutions
    found = [way for way in ways if "least that will do" in str(way.changes[0])]
    assert len(found) == 1
    assert amount(found[0], "less") == pytest.approx((900 + 2000) / HOUR)
    assert found[0].plan.total == pytest.approx(2100 / HOUR)


def test_a_pump_that_gives_exactly_the_least_flows_may_miss_them_by_rounding() -> None:
    beds = [
        FlowDemand(f"bed {low}", low, None, low, "bed", None, False) for low in (0.0001, 0.0002)
    ]
    branches = [DemandBranch(f"branch {bed.name}", (bed,)) for bed in beds]
    most = 0.0003
    assert sum(bed.low for bed in beds) > most  # only by rounding
    free = FlowDemand("free", 0.0001, None, 0.0001, "bed", None, False)
    pumps = (
        DemandPump("full", tuple(branches), most),
        DemandPump("other", (DemandBranch("free", (free,)),), None),
    )
    plan = planned(DemandCircuit(pumps, turnover=0.0006))
    assert [pump.flow for pump in plan.pumps] == pytest.approx([most, 0.0003])
