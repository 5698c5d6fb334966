"""A waterfall's lip on the way to its check: which one, and the flow over it."""

from collections.abc import Mapping

from pondapp import units
from pondapp.models.preferences import Draft
from pondapp.models.reading import LipDepth, Method
from pondapp.sizing.flow import Measured
from pondapp.ui.current import session_now

WATERFALL = "waterfall"
OTHER = "other"


def lip_key(pond_id: str, lip_id: str) -> str:
    """How a lip of a pond is told in the draft."""
    return f"{pond_id}/{lip_id}"


def flow_texts(found: Measured, system: str) -> Mapping[str, str]:
    """A measured flow with its interval, as texts of the draft; none where no water came."""
    if found.dry:
        return {}
    flow = found.flow
    named = {"flow": flow.flow, "spread_low": flow.low, "spread_high": flow.high}
    # As the reading is told everywhere; more digits would claim more than it knows.
    return {key: units.edit_text(value, "flow", system, digits=3) for key, value in named.items()}


async def put_to_check(which: str, method: Method, found: Measured) -> None:
    """Begin the check of a lip with a flow that was just measured, and its width if that was."""
    session = session_now()
    before = session.drafts.get(WATERFALL)
    same = before is not None and before.texts.get("which", OTHER) == which
    width = {"lip": before.texts["lip"]} if before and same and "lip" in before.texts else {}
    if isinstance(method, LipDepth):
        width = {"lip": units.edit_text(method.width_m, "width", session.system)}
    texts = {"which": which, **width, **flow_texts(found, session.system)}
    await session.keep_draft(Draft(id=WATERFALL, texts=texts))
