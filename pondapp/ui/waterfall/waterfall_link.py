"""A waterfall's lip on the way to its check: which one, and the flow over it."""

from collections.abc import Mapping

from pondapp import units
from pondapp.answers.measuring.flow import Measured
from pondapp.answers.waterfall.water_sheet import Spread
from pondapp.models.base import limits_of
from pondapp.models.circuit import Jet, Lip
from pondapp.models.preferences import Draft
from pondapp.models.reading import LipDepth, Method
from pondapp.ui.parts.form import Form, QuantityField
from pondapp.ui.shell.session_context import session_now

WATERFALL = "waterfall"
FORM = Form(
    (
        QuantityField("lip", "Width of the lip", "width", limits_of(Lip, "width_m")),
        QuantityField("flow", "Flow over it", "flow", limits_of(Jet, "flow_m3_s")),
    )
)
OTHER = "other"
SPREAD_PARTS = 4


def lip_key(pond_id: str, lip_id: str) -> str:
    """How a lip of a pond is told in the draft."""
    return f"{pond_id}/{lip_id}"


def flow_texts(found: Measured, system: str) -> Mapping[str, str]:
    """A measured flow and what is known of it, as texts of the draft; none without water."""
    if found.dry:
        return {}
    flow = found.flow
    spread = flow.spread
    parts = (spread.centre, spread.scale, float(spread.freedom), spread.tolerance)
    # As the reading is told everywhere; more digits would claim more than it knows.
    text = units.edit_text(flow.flow, FORM["flow"].kind, system, digits=3)
    return {"flow": text, "spread": " ".join(map(repr, parts))}


def spread_in(texts: Mapping[str, str]) -> Spread | None:
    """What is known of a flow that was measured; none for one that was typed."""
    parts = texts.get("spread", "").split()
    if len(parts) != SPREAD_PARTS:
        return None
    try:
        centre, scale, freedom, tolerance = map(float, parts)
    except ValueError:
        return None
    return Spread(centre, scale, int(freedom), tolerance)


async def put_to_check(which: str, method: Method, found: Measured) -> None:
    """Begin the check of a lip with a flow that was just measured, and its width if that was."""
    session = session_now()
    before = session.drafts.get(WATERFALL)
    same = before is not None and before.texts.get("which", OTHER) == which
    width = {"lip": before.texts["lip"]} if before and same and "lip" in before.texts else {}
    if isinstance(method, LipDepth):
        width = FORM.write({"lip": method.width_m}, session.system)
    texts = {"which": which, **width, **flow_texts(found, session.system)}
    await session.drafts.save(FORM.filled(Draft(id=WATERFALL), texts))
