"""Of which pump's place a screen about pumps speaks, where a pond has several."""

from pondapp.answers.plumbing.path import lines_of
from pondapp.models.circuit import Line
from pondapp.models.pond import Pond
from pondapp.ui.parts.draft import draft_name
from pondapp.ui.shell.session_context import session_now


def shelf_draft(pond_id: str) -> str:
    """The draft of the screen on which it is chosen."""
    return draft_name("pumps", pond_id)


def line_named(pond: Pond, line_id: str) -> Line:
    """The line of that id, or the first."""
    lines = lines_of(pond)
    return next((line for line in lines if line.id == line_id), lines[0])


def line_asked(pond: Pond) -> Line:
    """The line that was chosen last, or the first."""
    draft = session_now().drafts.get(shelf_draft(pond.id))
    return line_named(pond, draft.texts.get("line", "") if draft else "")
