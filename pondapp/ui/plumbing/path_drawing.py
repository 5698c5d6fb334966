"""The water path as one drawing: pipes are thick lines, everything on them opens with a touch."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime

import flet as ft

from pondapp import units
from pondapp.answers.care.due import flow_stands
from pondapp.answers.features.kinds import KINDS, PUMP
from pondapp.answers.features.targets import Target, Targets
from pondapp.answers.log.log import until
from pondapp.answers.measuring.methods import MeasuringAssumptions, measured_reading
from pondapp.answers.planning.plan import PondConflict, PondPlan
from pondapp.answers.plumbing.path import (
    Branch,
    Line,
    Names,
    assumed_lift,
    feature_of,
    left_dry,
    lines_of,
    names_of,
)
from pondapp.models.pond import Pond
from pondapp.models.reading import Reading
from pondapp.ui.features.looks import icon_of
from pondapp.ui.measuring.readings import when
from pondapp.ui.parts import layout
from pondapp.ui.parts.answers import band_text, flow_text, mark_of, rules_at
from pondapp.ui.parts.written import written
from pondapp.ui.plumbing.run_answer import run_text
from pondapp.ui.shell import theme
from pondapp.ui.shell.navigate import go
from pondapp.words import t, within

VALVES = {"none": "No valve", "ball": "Ball valve", "gate": "Gate valve"}
WORDS = {
    "within": "Right",
    "below": "Too little",
    "above": "Too much",
    "undecided": "Not decided yet",
    "no target": "Measured",
}
UNMEASURED = ft.Icons.RADIO_BUTTON_UNCHECKED
NOT_YET = "Not measured yet"


@dataclass(frozen=True, slots=True)
class State:
    """What the last reading at a place says about it now."""

    mark: ft.IconData
    word: str
    flow: str | None = None
    day: str | None = None
    off: bool = False
    """Whether something is to be done about it."""


def state_of(
    reading: Reading | None, target: Target | None, rules: MeasuringAssumptions, system: str
) -> State:
    """The state of a place, against what is wanted there now."""
    band = target.band if target else None
    found = measured_reading(reading, rules, band) if reading else None
    if reading is None or found is None:
        return State(UNMEASURED, t(NOT_YET))
    return State(
        mark=mark_of(found, ft.Icons.TIMER_OUTLINED),
        word=t("Dry") if found.dry else t(WORDS[found.kind]),
        flow=flow_text(found, system),
        day=when(reading)[:10],
        off=found.kind in ("below", "above"),
    )


@dataclass(frozen=True, slots=True)
class Scene:
    """What the drawing shows: a pond, what is wanted, what is planned, what was measured."""

    pond: Pond
    found: Targets
    plan: PondPlan | PondConflict
    last: dict[str, Reading]
    system: str
    now: datetime

    @property
    def names(self) -> Names:
        """Names that tell the parts of the path apart."""
        return names_of(self.pond)

    def planned(self, place_id: str) -> str | None:
        """Planned flow at a place, in words."""
        flow = self.plan.at(place_id) if isinstance(self.plan, PondPlan) else None
        return None if flow is None else units.show(flow, "flow", self.system)

    def rests(self, branch_id: str) -> bool:
        """Whether the plan has no use for a branch."""
        return isinstance(self.plan, PondPlan) and self.plan.branches[branch_id] == 0.0

    def state(self, place_id: str) -> State:
        """State of a place by its last reading; one of long ago says nothing of today."""
        reading = self.last.get(place_id)
        state = state_of(
            reading, self.found.place(place_id), rules_at(self.pond.id), self.system
        )  # fmt: skip
        if reading is None or flow_stands(self.pond, reading.taken_at, self.now):
            return state
        return replace(state, mark=ft.Icons.UPDATE, word=t("Too long ago"), off=False)


def last_readings(log: Sequence[Reading], now: datetime) -> dict[str, Reading]:
    """The newest reading of each place by now, from readings with the newest first."""
    return {reading.place_id: reading for reading in reversed(until(log, now))}


def _fact(name: str, value: str) -> ft.Control:
    return ft.Column(
        [
            written(name, size=theme.SMALL, color=ft.Colors.ON_SURFACE_VARIANT),
            written(value, size=theme.BODY, weight=ft.FontWeight.W_600,
                    color=ft.Colors.ON_SURFACE),
        ],
        spacing=0,
        tight=True,
    )  # fmt: skip


def point(scene: Scene, place_id: str, kind: str, name: str) -> ft.Control:
    """A place on the path: what it wants, what is planned, what was measured; opens by touch."""
    target, state = scene.found.place(place_id), scene.state(place_id)
    pond_id = scene.pond.id
    facts: list[ft.Control] = []
    if target:
        facts.append(_fact(t("Wanted"), band_text(target.band, scene.system)))
    planned = scene.planned(place_id)
    if planned and kind != PUMP:
        facts.append(_fact(t("Planned"), planned))
    if state.flow:
        facts.append(_fact(t("Last measured"), state.flow))
    title = layout.titled(icon_of(kind), name)
    opener = layout.card_button(
        [title, ft.Row(facts, spacing=theme.GAP + 4, run_spacing=4, wrap=True)],
        go(f"/pond/{pond_id}/at/{place_id}"),
    )
    word = f"{state.word}, {state.day}" if state.day else state.word
    seen = ft.Row(
        [
            ft.Icon(state.mark, size=theme.TITLE,
                    color=ft.Colors.ERROR if state.off else ft.Colors.ON_SURFACE_VARIANT),
            _said(f"{name}: {word}", written(
                word, size=theme.SMALL, weight=ft.FontWeight.W_600 if state.off else None)),
        ],
        spacing=8,
    )  # fmt: skip
    measure = layout.short_button(
        t("Measure"),
        t("Measure at {place}", place=name),
        go(f"/pond/{pond_id}/measure/{place_id}"),
    )
    foot = layout.ends(seen, measure, spacing=8)
    return layout.tile([opener, layout.inset(foot)])


def _mark(icon: ft.IconData, words: str) -> ft.Control:
    row = ft.Row(
        [
            ft.Icon(icon, size=theme.TITLE, color=ft.Colors.PRIMARY),
            _said(words, written(words, size=theme.SMALL)),
        ],
        spacing=8,
    )
    return ft.Container(row, padding=ft.Padding.only(left=4))


def _said(words: str, text: ft.Text) -> ft.Control:
    """A text that is read out by itself: left alone, all of them would run into one."""
    return ft.Semantics(
        container=True, label=words, exclude_semantics=True, content=text, expand=True
    )


def _way_round(scene: Scene, feature_id: str, kind: str) -> str:
    past = scene.plan.past.get(feature_id) if isinstance(scene.plan, PondPlan) else None
    if not past:
        return t("A way round it, for what is too much")
    flow = units.show(past, "flow", scene.system)
    if KINDS[kind].has_top:
        return t("{flow} runs over its top", flow=flow)
    return t("{flow} is led round it", flow=flow)


def _branch(scene: Scene, branch: Branch, name: str) -> ft.Control:
    parts = [t("rests") if scene.rests(branch.id) else scene.planned(branch.id)]
    if branch.valve != "none":
        parts.append(within(t(VALVES[branch.valve])))
    lift, guessed = assumed_lift(scene.pond, branch)
    if lift:
        height = units.show(lift, "head", scene.system).replace(" ", "\u00a0")
        up = t("up {height}", height=height)
        parts.append(t("{value}, assumed", value=up) if guessed else up)
    says = ", ".join(part for part in parts if part)
    rows: list[ft.Control] = [
        layout.part_button(
            ft.Icons.SUBDIRECTORY_ARROW_RIGHT,
            f"{name}: {says}" if says else name,
            go(f"/pond/{scene.pond.id}/path/{branch.id}"),
        )
    ]
    for feature_id in branch.feeds:
        feature = feature_of(scene.pond, feature_id)
        if feature is None:
            continue
        rows.append(point(scene, feature.id, feature.kind, scene.names.features[feature.id]))
        if feature_id in branch.bypass:
            rows.append(_mark(ft.Icons.ALT_ROUTE, _way_round(scene, feature_id, feature.kind)))
    back = t("Back to the pond") if branch.feeds else t("Straight back to the pond")
    rows.append(_mark(ft.Icons.KEYBOARD_RETURN, back))
    return layout.pipe(rows)


def _line(scene: Scene, line: Line) -> ft.Control:
    rows: list[ft.Control] = [point(scene, line.id, PUMP, scene.names.lines[line.id])]
    if line.hours_per_day < 24.0:
        hours = units.significant(line.hours_per_day)
        rows.append(_mark(ft.Icons.SCHEDULE, t("Runs {hours} hours a day", hours=hours)))
    if line.main is not None:
        run = t("Main run: {pipe}", pipe=run_text(line.main, scene.system))
        plumbing = go(f"/pond/{scene.pond.id}/plumbing")
        rows.append(layout.part_button(ft.Icons.LINEAR_SCALE, run, plumbing))
    count = len(line.branches)
    if count > 1:
        split = t("T-piece: the water divides into {count} branches", count=count)
        rows.append(_mark(ft.Icons.CALL_SPLIT, split))
    branches = [_branch(scene, branch, scene.names.branches[branch.id]) for branch in line.branches]
    rows.append(layout.side_by_side(branches))
    return layout.pipe(rows)


def in_words(scene: Scene) -> str:
    """What the drawing shows, in one sentence for those who hear it."""
    ways = "; ".join(
        t(
            "from {pump} through {branches}",
            pump=scene.names.lines[line.id],
            branches=", ".join(scene.names.branches[branch.id] for branch in line.branches),
        )
        for line in lines_of(scene.pond)
    )
    return t("The water path: {ways}, and back to the pond.", ways=ways)


def path_drawing(scene: Scene) -> ft.Control:
    """The whole path, from the pond through every pump and back."""
    volume = units.show(scene.found.volume, "volume", scene.system)
    controls: list[ft.Control] = [
        _mark(ft.Icons.WAVES, t("The pond holds {volume}", volume=volume))
    ]
    controls += [_line(scene, line) for line in lines_of(scene.pond)]
    dry = left_dry(scene.pond)
    if dry:
        controls.append(layout.heading(t("On no branch yet")))
        controls += [
            point(scene, feature.id, feature.kind, scene.names.features[feature.id])
            for feature in dry
        ]
    return ft.Semantics(container=True, label=in_words(scene), content=layout.column(controls))
