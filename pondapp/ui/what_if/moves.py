"""What can be moved at a part of the picture, and in the whole pond."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass

import flet as ft

from pondapp import units
from pondapp.answers.features.kinds import kind_of
from pondapp.answers.plumbing.network import bore, size_names
from pondapp.answers.plumbing.path import assumed_lift, feature_of
from pondapp.answers.what_if.changes import (
    BY_LABEL,
    CLEANED,
    LABEL,
    LEFT,
    POND,
    Changes,
    Value,
    What,
    limits,
    pipe_of,
)
from pondapp.answers.what_if.told import warmth_of
from pondapp.answers.what_if.trial import Trial
from pondapp.answers.what_if.tried_state import TriedState
from pondapp.models.base import KELVIN
from pondapp.models.circuit import Branch, Line, Lip
from pondapp.models.preferences import EXACT
from pondapp.ui.parts import layout
from pondapp.ui.parts.draft import Typed
from pondapp.ui.parts.form import Form, key_of
from pondapp.ui.parts.kept import kept
from pondapp.ui.parts.switch import switch
from pondapp.ui.pumps.label_fields import PUMP_FLOW, PUMP_HEAD, PUMP_WATTS
from pondapp.ui.what_if.stepper import stepper
from pondapp.words import t

LABEL_FIELDS = (PUMP_FLOW, PUMP_HEAD, PUMP_WATTS)
LABELS = Form(lists={"labels": Form(LABEL_FIELDS)})
"""A pump by its label, for each line that one is tried in; its texts begin with the line's id."""
INCH = 0.0254
# One step of each amount, for those who count in metres and for all others.
STEPS: dict[What, tuple[float, float]] = {
    "length": (0.5, 24 * INCH),
    "lift": (0.1, 6 * INCH),
    "width": (0.05, 2 * INCH),
    "warmth": (1.0, 1.0),
    "speed": (0.05, 0.05),
    "opened": (0.05, 0.05),
}
REACH: dict[What, float] = {"length": 5.0, "lift": 2.0, "width": 1.0}
"""How much more than is saved can be tried [m]."""
AS_IT_IS = 1e-6


@dataclass(frozen=True, slots=True)
class Moves:
    """The pond, what is tried, and how to try something else.

    Attributes:
        trial: The saved pond.
        changes: What is tried.
        tried: What comes of it.
        system: The reader's units.
        put: Changes something, or leaves it as it is; good for later draws too.
        typed: The texts of the draft, for what is typed.
    """

    trial: Trial
    changes: Changes
    tried: TriedState
    system: str
    put: Callable[[What, str, Value | None], None]
    typed: Typed

    def amount(
        self, what: What, key: str, label: str, now: float, saved: float, shown: str
    ) -> ft.Control:
        """An amount that is moved in steps, on which the saved one lies too."""
        low, high = limits(what, self.trial.worked.pond)
        if what in REACH:  # beyond, a slider would be too coarse for a thumb
            high = min(high, max(saved + REACH[what], now))
        step = STEPS[what][0 if self.system == "metric" else 1]
        below = int((saved - low) / step + AS_IT_IS)
        above = int((high - saved) / step + AS_IT_IS)
        places = [saved + step * count for count in range(-below, above + 1)]
        if places[0] - low > AS_IT_IS:
            places.insert(0, low)
        if high - places[-1] > AS_IT_IS:
            places.append(high)
        place = min(range(len(places)), key=lambda at: abs(places[at] - now))

        def go_to(at: int) -> None:
            value = places[min(max(at, 0), len(places) - 1)]
            same = abs(value - saved) <= AS_IT_IS
            self.put(what, key, None if same else value)

        return kept(
            (label, shown, place, tuple(places), saved, what, key),
            lambda: stepper(label, shown, place, len(places) - 1, go_to),
        )

    def left(self, what: What, key: str, label: str, dirty: bool = False) -> ft.Control:
        """What clogging leaves; of what is dirty already, what cleaning brings too."""
        options = [(str(share), units.show(share, "share", self.system)) for share in LEFT]
        if dirty:
            options[0] = (options[0][0], t("As now"))
            options.insert(1, (str(CLEANED), t("Cleaned")))
        chosen = self.changes.number(what, key) or 1.0

        def choose(value: str) -> None:
            share = float(value)
            self.put(what, key, None if share == 1.0 else share)

        return kept(
            (label, *options, chosen, what, key),
            lambda: layout.choice(label, options, str(chosen), choose, in_rows=True),
        )


def with_labels(changes: Changes, texts: Mapping[str, str], system: str) -> Changes:
    """The changes with what is typed of the labels of pumps that are tried by them."""
    for (what, key), value in changes.values.items():
        if what == "pump" and value == BY_LABEL:
            read = LABELS.lists["labels"].read(texts, system, key).values
            for label, field in zip(LABEL, LABEL_FIELDS, strict=True):
                changes = changes.put(label, key, read.get(field.key))
    return changes


def wrong_label(changes: Changes, texts: Mapping[str, str], system: str) -> bool:
    """Whether a label that is tried lacks something, or has what can be on none."""
    labels = LABELS.lists["labels"]
    tried = [key for (_, key), one in changes.only("pump").values.items() if one == BY_LABEL]
    return changes.without_label or any(labels.read(texts, system, key).errors for key in tried)


def labels_in(texts: Mapping[str, str]) -> dict[str, str]:
    """What a draft holds of labels, as it was typed."""
    return {key: text for key, text in texts.items() if LABELS.find(key.removesuffix(EXACT))}


def of_line(moves: Moves, line: Line) -> Iterator[ft.Control]:
    """A pump: which, how fast, how dirty, and the hose up to the T-piece."""
    pond, changes = moves.trial.worked.pond, moves.changes
    chosen = changes.word("pump", line.id) or line.pump_id or ""
    options = [(pump.id, pump.name) for pump in pond.pumps]
    options.append((BY_LABEL, t("Another, by its label")))

    def choose(pump_id: str) -> None:
        moves.put("pump", line.id, None if pump_id == line.pump_id else pump_id)

    yield kept(
        (*options, chosen, line.id, line.pump_id),
        lambda: layout.choice(t("Pump"), options, chosen, choose),
    )
    if chosen == BY_LABEL:
        errors = LABELS.lists["labels"].read(moves.typed.texts, moves.system, line.id).errors
        for field in LABEL_FIELDS:
            yield LABELS.draw(moves.typed, key_of(line.id, field.key), errors)
    state = moves.tried.line(line.id)
    if state.pump is None:
        return
    if state.pump.adjustable:
        begin = 1.0 if changes.another_pump(line.id) else moves.trial.speed(line.id)
        shown = units.show(state.speed, "share", moves.system, 2)
        yield moves.amount("speed", line.id, t("Speed"), state.speed, begin, shown)
    # Of a pump whose dirt the readings tell, a cleaning can be tried.
    dirty = line.id in moves.trial.read and not changes.another_pump(line.id)
    yield moves.left("clean", line.id, t("Flow that a clogged pump still gives"), dirty)
    yield from _hose(moves, line, line.id)


def of_branch(moves: Moves, line: Line, branch: Branch, key: str) -> Iterator[ft.Control]:
    """A branch and what stands at its end: valve, hose, lift, foam, lip, rest."""
    changes, pond = moves.changes, moves.tried.worked.pond
    feature = feature_of(pond, key)
    if branch.valve != "none":
        saved = moves.trial.opening(branch, Changes())
        now = moves.trial.opening(branch, changes)
        shown = t("shut") if now <= 0.0 else t(
            "{share} open", share=units.show(now, "share", moves.system, 2)
        )  # fmt: skip
        yield moves.amount("opened", branch.id, t("Valve"), now, saved, shown)
    if isinstance(feature, Lip):
        saved_lip = feature_of(moves.trial.worked.pond, key)
        width = saved_lip.width_m if isinstance(saved_lip, Lip) else feature.width_m
        shown = units.show(feature.width_m, "width", moves.system)
        yield moves.amount("width", key, t("Width of the lip"), feature.width_m, width, shown)
    lift = assumed_lift(moves.trial.worked.pond, branch)[0]
    tried = changes.number("lift", branch.id)
    now = lift if tried is None else tried
    yield moves.amount(
        "lift", branch.id, t("Lift"), now, lift, units.show(now, "head", moves.system)
    )
    yield from _hose(moves, line, branch.id)
    if any(kind_of(one).takes_falls for item in branch.feeds if (one := feature_of(pond, item))):
        yield moves.left("foam", branch.id, t("Water that clogged foam lets through"))
    rests = bool(changes.number("rest", branch.id))

    def rest(on: bool) -> None:
        moves.put("rest", branch.id, 1.0 if on else None)

    yield kept((rests, branch.id), lambda: switch(t("This branch at rest"), rests, rest))


def _hose(moves: Moves, line: Line, key: str) -> Iterator[ft.Control]:
    """The sizes in which a run's hose is sold, narrow to wide, and how long it is."""
    pipe = pipe_of(moves.trial.worked, line, key)
    if pipe is None:
        return
    names = size_names(pipe.series)
    now = moves.changes.word("hose", key) or pipe.size
    place = names.index(now) if now in names else names.index(pipe.size)

    def go_to(at: int) -> None:
        size = names[min(max(at, 0), len(names) - 1)]
        moves.put("hose", key, None if size == pipe.size else size)

    inside = bore(pipe.model_copy(update={"size": names[place]}))
    shown = units.nominal(inside, moves.system) if pipe.series.count("hose") else names[place]
    label = t("Hose up to the T-piece") if key == line.id else t("Hose")
    yield kept(
        (label, shown, place, names, pipe.size, key),
        lambda: stepper(label, shown, place, len(names) - 1, go_to),
    )
    tried = moves.changes.number("length", key)
    long = pipe.length_m if tried is None else tried
    what = t("Its length up to the T-piece") if key == line.id else t("Length of the hose")
    said = units.show(long, "length", moves.system)
    yield moves.amount("length", key, what, long, pipe.length_m, said)


def of_season(moves: Moves) -> ft.Control:
    """The water's temperature."""
    pond = moves.trial.worked.pond
    now = warmth_of(pond, moves.changes)
    shown = units.show(now, "temperature", moves.system)
    return moves.amount(
        "warmth", POND, t("Water temperature"), now - KELVIN, pond.water_temperature_c, shown
    )
