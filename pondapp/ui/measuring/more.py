"""What is seldom needed when measuring: other ways, no water, a typed time, a note."""

from typing import Any

import flet as ft

from pondapp.answers.methods.kinds import METHODS, NOTHING
from pondapp.state.ids import NO_POND
from pondapp.ui.measuring import fills
from pondapp.ui.measuring.measure import use_measuring
from pondapp.ui.methods.looks import LOOKS
from pondapp.ui.parts import fields, layout
from pondapp.ui.shell.navigate import go
from pondapp.ui.shell.session_context import session_now
from pondapp.words import t

MORE = "/more"  # the end of its address


@ft.component
def MorePage() -> Any:
    """One level above the stopwatch, to which a choice leads back."""
    session = session_now()
    route = ft.use_view_path()
    at = use_measuring()
    entry = at.entry
    # Another way leads back at once; were this screen drawn anew for it meanwhile, a screen reader
    # would go on finding it after it is gone.
    kind = ft.use_memo(lambda: at.kind, [])

    def measure_by(method: str) -> None:
        at.first.note("method")(method)
        ft.context.page.navigate(route.removesuffix(MORE))

    controls: list[ft.Control] = []
    by_button = kind != NOTHING and not entry.fills  # and then not by the list too
    if by_button:
        controls.append(
            layout.second_button(t("Nothing comes out here"), lambda _: measure_by(NOTHING))
        )
    names = [(key, look.name) for key, look in LOOKS.items() if key != NOTHING or not by_button]
    controls += [
        layout.choice(t("Measure by"), names, kind, measure_by),
        layout.small(t(LOOKS[kind].when)),
    ]
    if METHODS[kind].timed:
        controls += [
            *fills.typed_time(entry, session.system), *fills.fill_rows(entry, session.system)
        ]  # fmt: skip
    controls.append(
        fields.text_field(t("Note"), entry.text("note"), entry.note("note"), multiline=True)
    )
    links = [
        (t("How this works"), go("/help/measure")),
        (t("Sound, vibration, keys"), go("/settings")),
    ]
    if session.logs.readings_of(NO_POND):
        links.append((t("Measured without a pond"), go("/log")))
    controls.append(layout.links(links))
    return layout.screen(route, t("More"), controls)
