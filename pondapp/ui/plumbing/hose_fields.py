"""A hose as somebody knows it who did not lay it yet: its lift, its length and its bore."""

from collections.abc import Mapping

from pondapp.models.base import Limits, limits_of
from pondapp.models.circuit import Branch, Pipe
from pondapp.models.limits import NARROWEST_HOSE, WIDEST_HOSE
from pondapp.ui.parts.form import Amounts, QuantityField
from pondapp.words import t

LIFT = QuantityField("lift", "Lift", "head", limits_of(Branch, "lift_m"))
HOSE_LENGTH = QuantityField(
    "hose_length", "Hose length", "length", limits_of(Pipe, "length_m"), zero=False
)
BORE = QuantityField("bore", "Hose, inside", "bore", Limits(NARROWEST_HOSE, WIDEST_HOSE))
HOSE = (LIFT, HOSE_LENGTH, BORE)


def half_a_hose(read: Amounts) -> Mapping[str, str]:
    """What is wrong where one of length and bore is typed and the other is not."""
    pairs = ((BORE.key, HOSE_LENGTH.key), (HOSE_LENGTH.key, BORE.key))
    return {
        other: t("A hose needs both its length and its diameter")
        for given, other in pairs
        if given in read.values and other not in read.values and other not in read.errors
    }
