"""What a run of hose or pipe takes at its planned flow, part by part."""

import flet as ft

from pondapp import units
from pondapp.answers.plumbing.pipe_names import pipe_within, size_text
from pondapp.answers.plumbing.plumbing import LineAnswer, Part, Pipe, RunAnswer, WiderPipe
from pondapp.ui.parts import layout
from pondapp.ui.parts.written import written
from pondapp.ui.shell import theme
from pondapp.words import t

SERIES_NAMES = {
    "hose, mm": "Hose, mm",
    "hose, in": "Hose, inch",
    "PVC pipe, schedule 40": "PVC pipe, schedule 40",
    "PVC pressure pipe, mm outside": "PVC pipe, mm outside",
    "ribbed hose, mm": "Ribbed hose, mm",
    "ribbed hose, in": "Ribbed hose, inch",
}
PARTS = {
    "lift": "Lift",
    "wall": "Friction along its length",
    "fittings": "Fittings",
    "valve": "Valve, fully open",
    "ends": "Outlet and T-piece",
}


SAVES = {
    "slower": "Turned down to match, the pump costs {money} a year less.",
    "smaller": "A smaller pump would then cost {money} a year less; yours would give more water "
    "instead.",
    "any": "A pump chosen to match would cost {money} a year less.",
}


def pipe_text(answer: RunAnswer, system: str) -> str:
    """What the run is made of."""
    text = run_text(answer.counted.pipe, system)
    return t("{pipe}, assumed", pipe=text) if answer.counted.assumed else text


def run_text(pipe: Pipe, system: str) -> str:
    """Length, size and sort of a run."""
    return t(
        "{length} of {size} {series}",
        length=units.show(pipe.length_m, "length", system),
        size=size_text(pipe, system),
        series=pipe_within(pipe.series),
    )


def _part_row(part: Part, whole: float, system: str) -> ft.Control:
    name, head = t(PARTS[part.kind]), units.show_part(part.head, whole, "head", system)
    share = units.show(part.share, "share", system, 2)
    words = layout.ends(
        written(name, size=theme.SMALL),
        written(t("{head}, {share}", head=head, share=share), size=theme.SMALL),
    )
    bar = ft.ProgressBar(
        value=part.share, bar_height=theme.STROKE * 3, bgcolor=ft.Colors.SURFACE,
        semantics_label=name,
    )  # fmt: skip
    return ft.Column([words, bar], spacing=2)


def _saved_text(head: float, system: str) -> str:
    """In cm where it is small: sizes of hose are told in mm in the same breath."""
    return units.show(head, "width" if head < 1.0 else "head", system, 2)


def wider_text(wider: WiderPipe, size: str, neediest: str, system: str) -> str:
    """What the next size up would save."""
    here = _saved_text(max(0.0, wider.run_head), system)
    if wider.pump_head == 0.0:
        return t(
            "{size} would take {head} less here, but nothing less at the pump: {neediest} sets "
            "its head.",
            size=size, head=here, neediest=neediest,
        )  # fmt: skip
    at_pump = _saved_text(wider.pump_head, system)
    money = units.about_money(wider.money_low, wider.money_high)
    told = t(
        "{size} would take {head} less here and {at_pump} less at the pump.",
        size=size, head=here, at_pump=at_pump,
    )  # fmt: skip
    return f"{told} {t(SAVES[wider.saves], money=money)}"


def run_lines(answer: RunAnswer, whole: LineAnswer, system: str) -> list[ft.Control]:
    """Flow, speed and head, the share of each part, and the next size up."""
    flow = units.show(answer.counted.flow, "flow", system)
    speed = units.show(answer.loss.velocity, "velocity", system)
    lines: list[ft.Control] = [
        layout.fact(
            t("Takes"),
            units.show(answer.head, "head", system),
            t("{flow} planned, at {speed}", flow=flow, speed=speed),
        ),
        *[_part_row(part, answer.head, system) for part in answer.parts],
    ]
    lines += [layout.small(layout.sentence(units.tell(w, system))) for w in answer.warnings]
    if answer.wider:
        neediest = whole.network.needs.neediest.name
        size = size_text(answer.wider.of(answer.counted.pipe), system)
        lines.append(layout.small(wider_text(answer.wider, size, neediest, system)))
    return lines
