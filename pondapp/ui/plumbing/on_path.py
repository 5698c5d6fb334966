"""Where on the water path a feature stands: what feeds it, in which order, and a way round it."""

from collections.abc import Callable
from typing import Any

import flet as ft

from pondapp.answers.features.kinds import kind_of
from pondapp.answers.plumbing.path import Names, WaterFeature, branch_of, lines_of, names_of
from pondapp.answers.plumbing.path_edits import (
    earlier,
    feed_alone,
    feed_from,
    set_bypass,
)
from pondapp.models.limits import MOST_BRANCHES
from pondapp.models.pond import Pond
from pondapp.state.ids import new_id
from pondapp.ui.parts import layout
from pondapp.ui.parts.change import save_change
from pondapp.words import t

ALONE = "alone "


def changing(make: Callable[[], Pond], what: str) -> Callable[[Any], Any]:
    """A click handler that keeps a changed pond."""

    async def handler(_: Any) -> None:
        await save_change(make(), what)

    return handler


def _feeds(pond: Pond, feature: WaterFeature, names: Names) -> list[tuple[str, str]]:
    """What may feed a feature: each branch there is, and a new one on each pump."""
    here = branch_of(pond, feature.id)
    options: list[tuple[str, str]] = []
    lines = lines_of(pond)
    for line in lines:
        pump = names.lines[line.id]
        for branch in line.branches:
            name = names.branches[branch.id]
            several = t("{branch}, from {pump}", branch=name, pump=pump)
            options.append((branch.id, several if len(lines) > 1 else name))
        alone = here is not None and here in line.branches and here.feeds == (feature.id,)
        if len(line.branches) < MOST_BRANCHES and not alone:
            new = t("A new branch")
            several = t("A new branch from {pump}", pump=pump)
            options.append((f"{ALONE}{line.id}", several if len(lines) > 1 else new))
    return options


def on_path(pond: Pond, feature: WaterFeature) -> list[ft.Control]:
    """The choices about a feature's place, each kept with one touch."""
    names = names_of(pond)
    name = names.features[feature.id]
    branch = branch_of(pond, feature.id)

    def feed(chosen: str) -> None:
        if chosen.startswith(ALONE):
            changed = feed_alone(pond, feature.id, chosen.removeprefix(ALONE), new_id)
        else:
            changed = feed_from(pond, feature.id, chosen, new_id)
        ft.context.page.run_task(save_change, changed, t("{thing} is moved.", thing=name))

    def lead_round(chosen: str) -> None:
        changed = set_bypass(pond, feature.id, chosen == "yes")
        what = t("{thing} has a bypass.", thing=name)
        if chosen == "no":
            what = t("All water passes {thing}.", thing=name)
        ft.context.page.run_task(save_change, changed, what)

    options = _feeds(pond, feature, names)
    rows: list[ft.Control] = [
        layout.choice(t("Fed by"), options, branch.id if branch else "", feed)
    ]
    if branch is None:
        rows.insert(0, layout.body(t("No branch feeds it yet.")))
        return [layout.card(rows)]
    label = t("Bypass?")
    if kind_of(feature).has_top:
        label = t("May water run over its top?")
    chosen = "yes" if feature.id in branch.bypass else "no"
    rows.append(layout.choice(label, layout.yes_no(), chosen, lead_round, in_rows=True))
    if feature.id in branch.feeds[1:]:
        moved = t("{thing} is nearer to the pump.", thing=name)
        nearer = changing(lambda: earlier(pond, feature.id), moved)
        rows.append(layout.second_button(t("Move it nearer to the pump"), nearer))
    return [layout.card(rows)]
