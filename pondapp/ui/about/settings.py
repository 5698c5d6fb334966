"""Units, language, and where the containers are."""

from typing import Any, cast

import flet as ft

from pondapp.models.preferences import UnitSystem
from pondapp.ui.parts import layout
from pondapp.ui.shell.navigate import go
from pondapp.ui.shell.session_context import session_now
from pondapp.words import LANGUAGES, t

SYSTEMS = (
    ("metric", "Metric: litres, metres"),
    ("us", "US: US gallons, feet"),
    ("imperial", "Imperial: imperial gallons, feet"),
)


@ft.component
def SettingsPage() -> Any:
    """Switch units and language at any time: what is stored does not change."""
    session = session_now()

    def choose(system: str) -> None:
        chosen = session.preferences.model_copy(update={"units": cast("UnitSystem", system)})
        ft.context.page.run_task(session.settings.save, chosen)

    def choose_language(language: str) -> None:
        chosen = session.preferences.model_copy(update={"language": language})
        ft.context.page.run_task(session.settings.save, chosen)

    return layout.screen(
        "/settings",
        t("Units and language"),
        [
            layout.choice(
                t("Show and read amounts in"), layout.worded(SYSTEMS), session.system, choose
            ),
            layout.choice(
                t("Language"),
                [(language.code, language.name) for language in LANGUAGES],
                session.preferences.language,
                choose_language,
            ),
            layout.second_button(t("Your buckets and tubs"), go("/containers")),
            layout.second_button(t("Backup and restore"), go("/backup")),
            layout.small(t("Everything you enter stays on this device.")),
        ],
    )
