"""Units, language, currency, what helps with the stopwatch, and where the containers are."""

from collections.abc import Callable
from typing import Any

import flet as ft

from pondapp import units
from pondapp.answers.pumps.quick import usual_tariff
from pondapp.models.preferences import Preferences, StopwatchAids
from pondapp.ui.about.install import install_lines
from pondapp.ui.parts import fields, layout
from pondapp.ui.parts.switch import switch
from pondapp.ui.shell.navigate import go
from pondapp.ui.shell.session_context import session_now
from pondapp.words import LANGUAGES, current_currency, current_language, t

LONGEST = 8  # letters of a currency
UNCHECKED = "No native speaker has checked this language yet."
SYSTEMS = (
    ("metric", "Metric: litres, metres"),
    ("us", "US: US gallons, feet"),
    ("imperial", "Imperial: imperial gallons, feet"),
)
AIDS = (
    (
        "sound", "Sound",
        "A tone at start and stop, and when a fill comes into the right time or runs past it. "
        "Silent where the phone is set to silent.",
    ),
    (
        "vibration", "Vibration",
        "The same, felt in the hand. Some phones do not let a web page do this.",
    ),
    (
        "countdown", "Count down aloud",
        "Says 3, 2, 1 before the time to aim for. It needs a voice on this device that speaks "
        "your language.",
    ),
    (
        "keys", "Keys start and stop",
        "Space, Enter, the volume keys and the button of a Bluetooth camera remote. Many phones "
        "keep the volume keys for themselves, and with them such a remote: try it before you rely "
        "on it.",
    ),
)  # fmt: skip


def _change(chosen: Callable[[Preferences], dict[str, Any]]) -> None:
    """Save what is chosen; it is asked with what is in use by then."""
    ft.context.page.run_task(session_now().settings.change, chosen)


def _aids(aids: StopwatchAids) -> list[ft.Control]:
    """What helps with the stopwatch, each on or off."""

    def turn(name: str) -> Callable[[bool], None]:
        return lambda on: _change(lambda now: {"aids": now.aids.model_copy(update={name: on})})

    return [
        switch(t(label), getattr(aids, name), turn(name), t(helper)) for name, label, helper in AIDS
    ]


@ft.component
def CurrencyField() -> Any:
    """What the reader calls money; it counts from the first letter on."""
    text, set_text = ft.use_state(current_currency())
    wrong = t("Write it without digits") if any(letter.isdigit() for letter in text) else None

    def typed(new: str) -> None:
        set_text(new)
        name = new.strip()
        if len(name) <= LONGEST and not any(letter.isdigit() for letter in name):
            _change(lambda _: {"currency": name})

    if len(text.strip()) > LONGEST:
        wrong = t("Write at most {count} letters", count=LONGEST)
    return fields.text_field(
        t("Currency"), text, typed, error=wrong,
        helper=t("For example €, $ or CHF. Empty: sums have no currency."),
    )  # fmt: skip


@ft.component
def SettingsPage() -> Any:
    """Switch units and language at any time: what is stored does not change."""
    session = session_now()
    return layout.screen(
        "/settings",
        t("Settings"),
        [
            layout.choice(
                t("Show and read amounts in"),
                layout.worded(SYSTEMS),
                session.system,
                lambda system: _change(lambda _: {"units": system}),
            ),
            layout.choice(
                t("Language"),
                [(language.code, language.name) for language in LANGUAGES],
                session.preferences.language,
                lambda language: _change(lambda _: {"language": language}),
            ),
            *([] if current_language().native else [layout.small(t(UNCHECKED))]),
            CurrencyField(),
            layout.small(
                t(
                    "Electricity is counted at {price} until you enter your own price: in the "
                    "Plan, under Rules and prices.",
                    price=units.show(usual_tariff(), "tariff", session.system),
                )
            ),
        ],
        second=[
            layout.heading(t("Stopwatch")),
            *_aids(session.preferences.aids),
            layout.links(
                [
                    (t("Your buckets and tubs"), go("/containers")),
                    (t("Backup and restore"), go("/backup")),
                ]
            ),
            *install_lines(),
            layout.small(t("Everything you enter stays on this device.")),
        ],
    )
