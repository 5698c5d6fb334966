"""A filter that its owner wants to try: fed and watched, and never counted on."""

import pytest

from pondapp import units
from pondapp.answers.features.targets import targets
from pondapp.answers.fish.stock import stock
from pondapp.answers.pond import WorkedPond
from pondapp.answers.sharing.example import example_pond
from pondapp.models.circuit import OwnFilter
from pondapp.models.pond import Pond
from pondapp.models.reading import Band

OWN = OwnFilter(id="own", name="Tower of jars", flow_m3_s=4e-4)


def with_own(own: OwnFilter = OWN) -> Pond:
    """The example with it on the bog's branch, before the bog."""
    pond = example_pond()
    (line,) = pond.lines
    bog = line.branches[0]
    first = bog.model_copy(update={"feeds": ("own", *bog.feeds)})
    lines = (line.model_copy(update={"branches": (first, *line.branches[1:])}),)
    return pond.model_copy(update={"fed": (*pond.fed, own), "lines": lines})


def test_its_band_is_what_its_owner_chose_give_or_take_a_quarter() -> None:
    place = targets(with_own()).place("own")
    assert place
    assert (place.band.low, place.band.target) == pytest.approx((3e-4, 4e-4))
    assert place.band.high == pytest.approx(5e-4)


def test_its_owners_range_goes_before() -> None:
    own = OWN.model_copy(update={"band": Band(low_m3_s=1e-4, target_m3_s=2e-4, high_m3_s=9e-4)})
    place = targets(with_own(own)).place("own")
    assert place
    assert (place.band.low, place.band.high) == (1e-4, 9e-4)


def test_alone_it_takes_nothing_out_and_that_is_said() -> None:
    pond = with_own()
    (line,) = pond.lines
    only = line.branches[0].model_copy(update={"feeds": ("own",)})
    lines = (line.model_copy(update={"branches": (only,)}),)
    bare = pond.model_copy(update={"fed": (OWN,), "lines": lines})
    found = stock(WorkedPond(bare), grown=False).usual
    assert found.capacity.high == 0.0
    assert not found.good
    told = " ".join(units.tell(one, "metric") for one in found.left_out)
    assert "Tower of jars: nobody knows what it does, so it counts for nothing" in told
