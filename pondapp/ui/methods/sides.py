"""The fields for the size of a basin or box, however it is given."""

from pondapp.answers.methods.method import Sides
from pondapp.models.base import Limits
from pondapp.models.limits import LONGEST_SIDE
from pondapp.ui.parts.form import QuantityField

SIDES: tuple[tuple[Sides, str], ...] = (
    ("box", "Box"),
    ("round", "Round"),
    ("known", "I know it"),
)
SIDE, SHARE = Limits(0.0, LONGEST_SIDE, above=True), Limits(0.0, 1.0)
BOX = (
    QuantityField("box_length", "Length of the water", "width", SIDE),
    QuantityField("box_width", "Width of the water", "width", SIDE),
)
ACROSS = QuantityField("tub_across", "Across the water", "width", SIDE)
