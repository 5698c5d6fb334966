"""A shared plan says what the pond's own screens say once it is kept."""

import pytest
from drawn import words_of

from pondapp.answers.pond import WorkedPond
from pondapp.answers.sharing.example import example_pond
from pondapp.ui.parts import layout
from pondapp.ui.parts.answers import band_text
from pondapp.ui.sharing.shared import plan_lines


@pytest.mark.usefixtures("screen")
def test_each_place_wants_what_it_wants_behind_another() -> None:
    pond = example_pond()
    told = words_of(layout.column(plan_lines(pond, "metric")))
    for place in WorkedPond(pond).wanted.places:
        assert place.name in told
        assert band_text(place.band, "metric") in told
    assert "5,150 to 10,300 L/h" in told, "the lip has all the water of the box before it"
