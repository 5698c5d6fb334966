"""Of which pump's place a screen speaks."""

from pondapp.models.circuit import Branch, Line
from pondapp.models.pond import Pond
from pondapp.models.water import TypedVolume
from pondapp.ui.pumps.line_asked import line_named

ONE, TWO = (
    Line(id=key, name=key, branches=(Branch(id=f"b{key}", name="Return"),)) for key in ("1", "2")
)
POND = Pond(id="p", name="Invented", water=TypedVolume(volume_m3=1.0), lines=(ONE, TWO))


def test_the_one_that_was_chosen_or_the_first() -> None:
    assert line_named(POND, "2") is TWO
    assert line_named(POND, "1") is ONE
    assert line_named(POND, "gone") is ONE
    assert line_named(POND.model_copy(update={"lines": ()}), "").id == "pump"
