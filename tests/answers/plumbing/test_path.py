"""What counts where lift, hose or watts were never entered, and that it is said."""

from pondapp.answers.plumbing.network import network_of
from pondapp.answers.plumbing.path import assumed_lift, assumed_of, lines_of
from pondapp.answers.pond import WorkedPond
from pondapp.models.circuit import BogFilter, Branch, Line, Lip, Pipe, Pump
from pondapp.models.pond import Pond
from pondapp.models.water import TypedVolume

HOSE = Pipe(series="hose, mm", size="32 mm", length_m=4.0)
FED = (
    BogFilter(id="bog", name="Bog", bed_volume_m3=0.4),
    Lip(id="lip", name="Lip", width_m=0.3, fall_m=0.7),
)


def pond(**changes: object) -> Pond:
    return Pond.model_validate(
        {"id": "p", "name": "P", "water": TypedVolume(volume_m3=4.0), "fed": FED, **changes}
    )


def lifts(one: Pond) -> list[tuple[float, bool]]:
    return [assumed_lift(one, b) for line in lines_of(one) for b in line.branches]


def test_a_new_pond_has_no_lift_but_an_assumed_one() -> None:
    fresh = pond()
    assert [b.lift_m for line in lines_of(fresh) for b in line.branches] == [None, None]
    assert lifts(fresh) == [(1.0, True), (0.7, True)]  # the usual lift; the height of the fall


def test_an_entered_lift_counts_also_when_it_is_nothing() -> None:
    branches = (
        Branch(id="a", name="A", lift_m=0.0, feeds=("bog",)),
        Branch(id="b", name="B", lift_m=0.2, feeds=("lip",)),
    )
    assert lifts(pond(lines=(Line(id="l", name="L", branches=branches),))) == [
        (0.0, False),
        (0.2, False),
    ]


def test_the_assumed_lift_is_a_rule_that_can_be_changed() -> None:
    assert lifts(pond(assumptions={"plumbing.assumed_lift": 1.4}))[0] == (1.4, True)


def test_the_circuit_counts_with_the_assumed_lift_and_knows_it() -> None:
    fresh = pond()
    network = network_of(fresh, lines_of(fresh)[0], WorkedPond(fresh).planned.flows)
    assert [(b.lift, b.lift_assumed) for b in network.branches] == [(1.0, True), (0.7, True)]


def told(one: Pond) -> list[str]:
    return [str(found.message) for line in lines_of(one) for found in assumed_of(one, line)]


def test_all_that_is_assumed_is_said() -> None:
    pump = Pump(id="pump", name="Blue", max_flow_m3_s=0.002, max_head_m=3.0)
    branches = (
        Branch(id="a", name="A", feeds=("bog",)),
        Branch(id="b", name="B", pipe=HOSE, feeds=("lip",)),
        Branch(id="c", name="C", lift_m=0.5),
        Branch(id="d", name="D", lift_m=0.5, pipe=HOSE),
    )
    line = Line(id="l", name="L", pump_id="pump", branches=branches)
    assert told(pond(lines=(line,), pumps=(pump,))) == [
        "A: assuming 1 m of lift and 3 m of hose",
        "B: assuming 0.7 m of lift",
        "C: assuming 3 m of hose",
        "Blue: its watts are not entered",
    ]
