"""Bands by the rules of the trade, and what the user changed."""

import pytest
from ponds import LPH
from ponds import THREE_FEATURES as POND

from pondapp import units
from pondapp.answers.features.targets import targets, with_aim
from pondapp.models.circuit import HighFlowFilter
from pondapp.models.pond import Pond
from pondapp.models.water import TypedVolume


def test_rules_of_the_trade() -> None:
    """Common practice, no source: 5 to 15 min, 2 to 4 times an hour, 4000 L/h per 30 cm."""
    bog, box, lip, pump = targets(POND).places
    assert (bog.band.low, bog.band.target, bog.band.high) == pytest.approx(
        (400 * LPH, 600 * LPH, 1200 * LPH)
    )
    assert (box.band.low, box.band.high) == pytest.approx((2000 * LPH, 4000 * LPH))
    assert lip.band.target == pytest.approx(4000 * LPH)
    assert [place.aim for place in (bog, box, lip)] == ["least", "least", "good"]
    assert pump.band.low == pytest.approx(4000 * LPH)  # the lip is looked at
    assert targets(with_aim(POND, "least")).places[-1].band.low == pytest.approx(2000 * LPH)


def test_a_changed_rule_changes_the_band() -> None:
    slower = POND.model_copy(update={"assumptions": {"filters.bog_retention_min": 600.0}})
    assert targets(slower).places[0].band.high == pytest.approx(600 * LPH)


def test_a_large_pond_asks_its_box_for_once_an_hour() -> None:
    box = HighFlowFilter(id="box", name="Box")
    large = Pond(id="p", name="Invented", water=TypedVolume(volume_m3=60), fed=(box,))
    place = targets(large).places[0]
    assert place.band.low == pytest.approx(60000 * LPH)
    assert units.tell(place.rule, "metric") == "The pond's water 1 to 4 times an hour."
    assert place.steps()[0].result.value == place.band.low
