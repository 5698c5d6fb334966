"""Edits: each changes what it names by key, and nothing else."""

from functools import reduce

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from random_circuits import circuits

from pondapp.core.base.errors import OutOfRange
from pondapp.core.circuit.answer import Infeasible
from pondapp.core.circuit.edits import (
    AddBranch,
    AddBypass,
    AddPump,
    Edit,
    MergeBranches,
    NewBranch,
    ReplacePump,
    Resize,
    SetAim,
    SetDuty,
    SetTurnover,
    apply,
    free_key,
)
from pondapp.core.circuit.model import DemandBranch, DemandCircuit, DemandPump, FlowDemand
from pondapp.core.circuit.planner import plan_circuit

BOG = FlowDemand("bog", 1e-4, 3e-4, 2e-4, "bed", 0.1, all_day=True, name="Bog")
LIP = FlowDemand("lip", 5e-4, None, 1e-3, "lip", 0.3, aim="good", name="Lip")
SLOW = DemandBranch("slow", (BOG,), name="Same name")
FALL = DemandBranch("fall", (LIP,), name="Same name")
CIRCUIT = DemandCircuit((DemandPump("pump", (SLOW, FALL), 2e-3, name="Same name"),), 1e-4)


def only_pump(edit: Edit) -> DemandPump:
    (pump,) = apply(CIRCUIT, edit).pumps
    return pump


def test_a_name_is_for_sentences_and_its_key_where_none_is_given() -> None:
    assert (BOG.name, FlowDemand("bog", 0.0, None, 1e-4).name) == ("Bog", "bog")
    assert DemandBranch("b", ()).name == "b"
    assert DemandPump("p", (SLOW,)).name == "p"
    plan = plan_circuit(DemandCircuit(CIRCUIT.pumps))  # two branches of one name are told apart
    assert not isinstance(plan, Infeasible)
    assert plan.branch_flow("slow").flow == pytest.approx(1e-4)
    assert plan.branch_flow("fall").flow == pytest.approx(1e-3)


def test_a_way_round_an_aim_and_a_size() -> None:
    assert only_pump(AddBypass("slow", "bog")).branches[0].bypass == ("bog",)
    assert only_pump(SetAim("lip", "least")).branches[1].demands[0].asked == 5e-4
    wider = only_pump(Resize("lip", 0.6)).branches[1].demands[0]
    assert (wider.size, wider.low, wider.high, wider.target) == (0.6, 1e-3, None, 2e-3)
    assert only_pump(Resize("lip", 0.6)).branches[0] == SLOW


def test_a_branch_takes_its_features_along() -> None:
    together = apply(CIRCUIT, MergeBranches("slow", "fall", ("bog",)))
    (branch,) = together.branches
    assert (branch.key, branch.bypass) == ("slow", ("bog",))
    assert branch.demands == (BOG, LIP)
    apart = apply(together, AddBranch("pump", NewBranch("new-1", "branch of Bog", ("bog",))))
    assert [(one.key, one.demands, one.bypass) for one in apart.branches] == [
        ("slow", (LIP,), ()),
        ("new-1", (BOG,), ()),
    ]
    bare = apply(CIRCUIT, AddBranch("pump", NewBranch("new-1", "straight return")))
    assert bare.branches[-1].demands == ()


def test_a_pump_takes_branches_or_has_one_of_its_own() -> None:
    moved = apply(CIRCUIT, AddPump("new-1", "second pump", 0.5, ("fall",)))
    assert [pump.branches for pump in moved.pumps] == [(SLOW,), (FALL,)]
    assert (moved.pumps[1].duty, moved.pumps[1].most) == (0.5, None)
    own = apply(CIRCUIT, AddPump("n", "second", 1.0, branch=NewBranch("m", "its branch", ("lip",))))
    assert own.pumps[0].branches[1].demands == ()
    assert own.pumps[1].branches[0].demands == (LIP,)


def test_numbers_of_pumps_and_pond() -> None:
    assert only_pump(ReplacePump("pump", 5e-3)).most == 5e-3
    assert only_pump(SetDuty("pump", 0.5)).duty == 0.5
    assert apply(CIRCUIT, SetTurnover(7e-5)).turnover == 7e-5


@pytest.mark.parametrize(
    "edit",
    [
        AddBypass("nowhere", "bog"), AddBypass("fall", "bog"), SetAim("no", "good"),
        Resize("no", 1.0), AddBranch("no", NewBranch("k", "N")),
        AddBranch("pump", NewBranch("k", "N", ("no",))), AddPump("k", "N", 1.0, ("no",)),
        AddPump("k", "N", 1.0, ("slow", "fall")), AddPump("k", "N", 2.0, ("slow",)),
        ReplacePump("no", 1.0), SetDuty("pump", 0.0), MergeBranches("slow", "no", ()),
        SetTurnover(-1.0), Resize("lip", 1e9),
    ],
)  # fmt: skip
def test_what_is_not_there_or_cannot_be_is_refused(edit: Edit) -> None:
    with pytest.raises(OutOfRange):
        apply(CIRCUIT, edit)


def test_a_size_that_is_not_known_is_not_changed() -> None:
    jet = FlowDemand("jet", 1e-4, None, 1e-4)
    with pytest.raises(OutOfRange, match="nothing called jet"):
        apply(DemandCircuit((DemandPump("p", (DemandBranch("b", (jet,)),)),)), Resize("jet", 1.0))


def test_a_new_key_is_one_that_nothing_has() -> None:
    taken = DemandBranch("new-1", ())
    assert free_key(DemandCircuit((DemandPump("new-2", (taken,)),))) == "new-3"


@settings(max_examples=200)
@given(circuits(all_day=True), st.sampled_from((1.0, 0.5)))
def test_the_edits_of_a_resolution_lead_to_its_circuit(circuit: DemandCircuit, duty: float) -> None:
    answer = plan_circuit(circuit, duty)
    if isinstance(answer, Infeasible):
        for resolution in answer.resolutions:
            assert resolution.edits
            assert reduce(apply, resolution.edits, circuit) == resolution.circuit
