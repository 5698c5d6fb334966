"""What this app is, what it does with your data, and what it is made of."""

from typing import Any

import flet as ft

from pondapp.store.shipped import VERSION
from pondapp.ui.parts import layout
from pondapp.ui.shell.navigate import go
from pondapp.words import t


@ft.component
def AboutPage() -> Any:
    """Version, purpose, privacy, and the way to sources and licences."""
    return layout.screen(
        "/about",
        t("About this app"),
        [
            layout.fact(t("Version"), f"pondapp {VERSION}"),
            layout.body(
                t("For people who dig, plumb and keep a pond of their own: size the filters, the "
                  "waterfall and the pump, then prove the flow with a bucket and a stopwatch.")
            ),
            layout.heading(t("Privacy")),
            layout.body(
                t("Nothing you enter leaves this device. There is no account, no counting of "
                  "visits and no advertising, and the app works without a connection.")
            ),
            layout.body(
                t("A plan that you share is in its link, and goes only where you send it. Clearing "
                  "the browser's data deletes your ponds, so make a backup now and then.")
            ),
            layout.heading(t("Made of")),
            layout.body(t("The app is free software under the MIT licence.")),
            layout.links(
                [
                    (t("About the numbers"), go("/about/numbers")),
                    (t("Licences"), go("/about/licences")),
                    (t("Safety"), go("/safety")),
                ]
            ),
        ],
    )  # fmt: skip
