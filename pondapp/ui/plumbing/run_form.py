"""One run of hose or pipe: lift, size, length, fittings and valve, with what it takes."""

from collections.abc import Mapping, Sequence
from typing import Any, cast

import flet as ft

from pondapp import units
from pondapp.answers.plumbing.path import Branch, Line, assumed_length, assumed_lift
from pondapp.answers.plumbing.path_edits import Valve, with_branch
from pondapp.answers.plumbing.plumbing import (
    ALL_FITTINGS,
    ALL_SERIES,
    FITTING_GROUPS,
    FITTING_NAMES,
    MAIN,
    USUAL,
    Pipe,
    assumed_pipe_of,
    like_size,
    line_answer,
    line_of,
    put_pipe,
    size_names,
)
from pondapp.core.base.errors import PondError
from pondapp.models.base import limits_of
from pondapp.models.pond import Pond
from pondapp.ui.parts import layout
from pondapp.ui.parts.change import save_change
from pondapp.ui.parts.counter import counter
from pondapp.ui.parts.draft import Typed, draft_name, seen, use_draft
from pondapp.ui.parts.fold import fold
from pondapp.ui.parts.form import Form, QuantityField
from pondapp.ui.parts.revert import saved_by
from pondapp.ui.plumbing.hose_fields import LIFT
from pondapp.ui.plumbing.run_answer import SERIES_NAMES, run_lines
from pondapp.ui.plumbing.what_is_new import only_entry, what_is_new
from pondapp.ui.shell.session_context import session_now
from pondapp.ui.shell.worked import worked_now
from pondapp.words import t

MOST_FITTINGS = 200
FORM = Form((LIFT, QuantityField("length", "Length", "length", limits_of(Pipe, "length_m"))))
VALVES = (("none", "None"), ("ball", "Ball valve"), ("gate", "Gate valve"))
INCHES = "hose, in"
FITTING_GROUP_NAMES = {
    "bends": "Bends and elbows",
    "tees": "T-pieces and wyes",
    "valves": "Valves, strainers and inlets",
    "joints": "Hose tails, unions, reducers",
}


def run_draft(pond_id: str, line_id: str, key: str) -> str:
    """The draft of a run's form."""
    return draft_name("run", pond_id, line_id, key)


def texts_of(branch: Branch | None, pipe: Pipe, known: bool, system: str) -> dict[str, str]:
    """A run as texts to edit; what is only assumed is not put into the reader's mouth."""
    texts = {"series": pipe.series, "size": pipe.size}
    if known:
        texts |= FORM.write({"length": pipe.length_m}, system)
        texts |= {f"fitting-{key}": str(count) for key, count in pipe.fittings.items()}
    elif system != "metric":
        texts |= {"series": INCHES, "size": like_size(pipe, INCHES)}
    if branch:
        texts |= FORM.write({"lift": branch.lift_m}, system)
        texts["valve"] = branch.valve
    return texts


def counts(texts: Mapping[str, str]) -> dict[str, int]:
    """How many of each fitting; those that are there."""
    found = {key: int(texts.get(f"fitting-{key}", "0")) for key in ALL_FITTINGS}
    return {key: count for key, count in found.items() if count}


def read_run(
    pond: Pond, line: Line, key: str, texts: Mapping[str, str], system: str
) -> tuple[Pond | None, dict[str, str]]:
    """The pond with the run as typed, or none and what is wrong, by field.

    A branch without a length keeps its assumed hose; a main run without one is not there yet.
    """
    read = FORM.read(texts, system)
    errors, length = read.errors, read.values.get("length")
    if errors or (length is None and key == MAIN):
        return None, errors
    pipe = None
    if length is not None:
        pipe = Pipe(
            series=texts["series"], size=texts["size"], length_m=length, fittings=counts(texts)
        )
    changed = put_pipe(pond, line.id, key, pipe)
    if key != MAIN:
        valve = cast("Valve", texts.get("valve", "none"))
        changed = with_branch(changed, key, lift_m=read.values.get("lift"), valve=valve)
    return changed, errors


def group_title(group: str, texts: Mapping[str, str]) -> str:
    """The name of a group of fittings, with how many of them are in the run."""
    used = counts(texts)
    number = sum(used.get(key, 0) for key in FITTING_GROUPS[group])
    title = t(FITTING_GROUP_NAMES[group])
    return t("{group}: {count} here", group=title, count=number) if number else title


def _fittings(typed: Typed, begin: Mapping[str, str]) -> list[ft.Control]:
    """Counters of the usual fittings and of those entered before; all others by groups."""
    used = counts(typed.texts)
    first = [key for key in ALL_FITTINGS if key in USUAL or key in counts(begin)]

    def note(key: str) -> Any:
        keep = typed.note(f"fitting-{key}")
        return lambda count: keep(str(count))

    def counters(keys: Sequence[str]) -> list[ft.Control]:
        return [
            counter(t(FITTING_NAMES[key]), used.get(key, 0), note(key), MOST_FITTINGS)
            for key in keys
        ]  # fmt: skip

    folds = []
    for group, keys in FITTING_GROUPS.items():
        rest = [key for key in keys if key not in first]
        title = group_title(group, typed.texts)
        folds.append(fold(f"fittings-{group}", title, lambda rest=rest: counters(rest)))  # type: ignore[misc]
    return [
        layout.heading(t("Fittings")),
        *counters(first),
        layout.heading(t("More fittings")),
        *folds,
    ]


def _judged(pond: Pond, line: Line, key: str, system: str) -> list[ft.Control]:
    """What the run takes as typed, or why that cannot be told."""
    try:
        tried = line_of(pond, line.id) or line
        worked = worked_now(pond)
        whole = line_answer(worked, tried, worked.planned.flows)
    except PondError as problem:
        return [layout.body(units.explain(problem, system))]
    answer = whole.run(key)
    lines = run_lines(answer, whole, system) if answer else []
    head = units.show(whole.head, "head", system)
    flow = units.show(whole.flow, "flow", system)
    lines.append(
        layout.body(t("The pump then makes {head} at {flow} in all.", head=head, flow=flow))
    )
    return lines


def _hints(pond: Pond, branch: Branch | None, typed: Typed, system: str) -> list[ft.Control]:
    """What is meant by the two amounts, and what counts while they are empty."""
    if branch is None:
        return [layout.small(t("From the pump to the first T-piece."))]
    hints = [t("Lift is the height of the outlet above the pond's water.")]
    if not typed.text("lift").strip():
        lift, _ = assumed_lift(pond, branch.model_copy(update={"lift_m": None}))
        hints.append(t("Lift empty: assuming {lift}.", lift=units.show(lift, "head", system)))
    if not typed.text("length").strip():
        length = units.show(assumed_length(pond), "length", system)
        hints.append(t("Length empty: assuming {length} of hose.", length=length))
    return [layout.small(" ".join(hints))]


@ft.component
def RunFormPage() -> Any:
    """Everything about one run, with the answer under it while typing."""
    session = session_now()
    system = session.system
    params = ft.use_route_params()
    pond = session.ponds.get(params.get("pond_id", ""))
    line_id, key = params.get("line_id", ""), params.get("run_key", "")
    line = line_of(pond, line_id) if pond else None
    branch = next((b for b in line.branches if b.id == key), None) if line else None
    known = line.main if line and key == MAIN else branch.pipe if branch else None
    pipe = known
    if pond and line and (branch or key == MAIN):
        pipe = known or assumed_pipe_of(worked_now(pond), line, key)
    begin = texts_of(branch, pipe, known is not None, system) if pipe else {}
    begin |= seen(known, branch and branch.lift_m, branch and branch.valve)
    typed = use_draft(run_draft(params.get("pond_id", ""), line_id, key), begin, FORM)
    if pond is None:
        return layout.no_pond()
    route, back = f"/pond/{pond.id}/plumbing/{line_id}/{key}", f"/pond/{pond.id}/plumbing"
    if line is None or pipe is None:
        gone = [layout.body(t("This is not on the water path any more."))]
        return layout.screen(route, t("Not there"), gone)
    name = branch.name if branch else t("Main run")
    made, errors = read_run(pond, line, key, typed.texts, system)
    series = typed.text("series", pipe.series)

    async def keep(_: Any) -> None:
        if made is None:
            return
        told = t("{name} is saved", name=name)
        await save_change(made, told, corrected=only_entry(typed))
        await typed.drop()
        ft.context.page.navigate(back)

    async def take_away(_: Any) -> None:
        await save_change(put_pipe(pond, line.id, MAIN, None), t("The main run is taken away"))
        await typed.drop()
        ft.context.page.navigate(back)

    def change_series(chosen: str) -> None:
        now = Pipe(series=series, size=typed.text("size", pipe.size), length_m=0.0)
        typed.put({**typed.texts, "series": chosen, "size": like_size(now, chosen)})

    asked = ("lift", "length") if branch else ("length",)
    typing: list[ft.Control] = [
        layout.pairs([FORM.draw(typed, one, errors) for one in asked]),
        *_hints(pond, branch, typed, system),
        layout.choice(
            t("Size"), [(size, size) for size in size_names(series)],
            typed.text("size", pipe.size), typed.note("size"), in_rows=True,
        ),
    ]  # fmt: skip
    answer: list[ft.Control] = []
    if made:
        answer.append(
            ft.Semantics(
                live_region=True,
                content=layout.card(_judged(made, line, key, system), strong=True),
            )
        )
    elif errors:
        answer.append(layout.small(t("Correct what is marked above, then the answer comes.")))
    answer += [
        *what_is_new(pond, line, made, typed),
        *saved_by(
            layout.main_button(t("Save this run"), keep, disabled=made is None), typed, begin
        ),
        layout.choice(
            t("Hose or pipe"), [(one, t(SERIES_NAMES[one])) for one in ALL_SERIES],
            series, change_series,
        ),
        *_fittings(typed, begin),
    ]  # fmt: skip
    if branch:
        answer.append(
            layout.choice(
                t("Valve on this branch"), [(kind, t(label)) for kind, label in VALVES],
                typed.text("valve", "none"), typed.note("valve"),
            )
        )  # fmt: skip
    elif known:
        answer.append(layout.quiet_button(t("Take the main run away"), take_away))
    return layout.screen(route, name, typing, second=answer)
