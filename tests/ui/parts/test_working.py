"""The working of a number, as it is shown."""

from pondapp.answers.features.targets import targets
from pondapp.answers.rules.working import COMMON_PRACTICE, ENTERED, Source
from pondapp.models.circuit import BogFilter, HighFlowFilter, Jet, Lip, Skimmer
from pondapp.models.pond import Pond
from pondapp.models.reading import Band
from pondapp.models.water import TypedVolume
from pondapp.ui.parts.working import source_text, step_lines

POND = Pond(
    id="p",
    name="Invented",
    water=TypedVolume(volume_m3=1.0),
    fed=(
        BogFilter(id="bog", name="Bog", bed_volume_m3=0.1),
        HighFlowFilter(id="box", name="Box"),
        Lip(id="lip", name="Lip", width_m=0.30),
        Jet(id="jet", name="Jet", flow_m3_s=1e-4),
        Skimmer(id="skim", name="Skimmer", opening_m=0.2),
        Lip(
            id="own",
            name="Own",
            width_m=0.30,
            band=Band(low_m3_s=1e-4, target_m3_s=2e-4, high_m3_s=None),
        ),
    ),
)


def test_every_target_ends_in_a_number_of_its_band() -> None:
    for place in targets(POND).places:
        band = (place.band.low, place.band.target, place.band.high)
        steps = place.steps()
        assert steps, place.name
        assert any(abs(steps[-1].result.value - end) < 1e-12 for end in band if end), place.name


def test_a_step_is_told_in_the_readers_units() -> None:
    least = targets(POND).places[0].steps()[0]
    title, lines, source = step_lines(least, "metric")
    assert title == "Least flow: 400 L/h"
    assert lines[0] == "Q = Vb / t"
    assert lines[1] == "Vb = 100 L, outside volume of the bed"
    assert lines[2] == "t = 15 min, longest time through the bed"
    assert source == "Common practice, no source."
    assert step_lines(least, "us")[0] == "Least flow: 106 gal/h"


def test_the_source_says_how_far_it_can_be_trusted() -> None:
    assert source_text(COMMON_PRACTICE) == "Common practice, no source."
    assert source_text(ENTERED) == "Your own number."
    told = source_text(Source("a table", "from memory"))
    assert told == "A table: named from memory, not checked."
