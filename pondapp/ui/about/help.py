"""How this works: a page for each use."""

from typing import Any, cast

import flet as ft

from pondapp.ui.about.help_drawing import help_drawing
from pondapp.ui.about.help_texts import GUIDES, Topic
from pondapp.ui.parts import layout
from pondapp.ui.parts.written import written
from pondapp.ui.shell import theme
from pondapp.ui.shell.navigate import go
from pondapp.words import t


@ft.component
def HelpPage() -> Any:
    """What there is to read."""
    topics = [(t(guide.title), go(f"/help/{topic}")) for topic, guide in GUIDES.items()]
    rest = [
        (t("Safety"), go("/safety")),
        (t("About the numbers"), go("/about/numbers")),
        (t("About this app"), go("/about")),
    ]
    return layout.screen(
        "/help",
        t("How this works"),
        [
            layout.body(t("A page for each use. None takes longer to read than to fill a bucket.")),
            layout.links(topics),
            layout.links(rest),
        ],
    )


@ft.component
def TopicPage() -> Any:
    """One use: what it is for, its steps, its words."""
    topic = cast("Topic", ft.use_route_params().get("topic", ""))
    guide = GUIDES.get(topic)
    if guide is None:
        return layout.screen("/help", t("How this works"), [layout.body(t("No such page."))])
    steps = [
        layout.body(t("{number}. {step}", number=number, step=t(step)))
        for number, step in enumerate(guide.steps, start=1)
    ]
    terms = [
        ft.Column(
            [written(t(term), size=theme.BODY, weight=ft.FontWeight.W_600), layout.body(t(means))],
            spacing=2,
            horizontal_alignment=ft.CrossAxisAlignment.STRETCH,
        )
        for term, means in guide.terms
    ]
    use = written(t(guide.use), size=theme.BODY + 2)
    return layout.screen(
        f"/help/{topic}",
        t(guide.title),
        [
            layout.pictured(help_drawing(topic), [use]),
            layout.card(steps),
            *([layout.heading(t("Words of the trade")), *terms] if terms else ()),
            layout.main_button(t(guide.start), go(guide.route)),
        ],
    )
