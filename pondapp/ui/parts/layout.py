"""The frame of a screen and its few building blocks."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

import flet as ft

from pondapp.ui.parts import labels
from pondapp.ui.parts.written import written
from pondapp.ui.shell import arrival, places, scrolled, theme
from pondapp.words import sentence as as_sentence
from pondapp.words import t

Click = Callable[[Any], Any]
ROOM_ABOVE = ft.Padding.symmetric(vertical=6)
FLUSH = 2  # beside the words of an action that stand where other lines begin
LETTER = 0.54  # width of a letter of a title, beside its size
READABLE: Any = {"xs": 12, "md": 9, "lg": 7}  # twelfths of a screen's width for its lines
SHORT = 6  # letters of an option of which three fit into a row of the narrowest phone


@dataclass(frozen=True, slots=True)
class Foot:
    """What stays at the foot of a screen, and the room that is kept for it."""

    control: ft.Control
    height: float
    side: float = 0.0
    """What it takes of the screen's right side."""


def _title(text: str, actions: int) -> ft.Control:
    """A screen's title: a long one takes two lines of smaller letters rather than be cut off."""
    width = float(ft.context.page.width or 0.0) or theme.NARROWEST
    room = width - theme.TOUCH * actions - 2 * theme.TOUCH  # the way back, and air at both ends
    # The framework lets titles grow by a third at most.
    letter = theme.TITLE * LETTER * (theme.LARGE_TEXT if theme.large_text() else 1.0)
    fits = len(text) * letter <= room
    return written(text, size=theme.TITLE if fits else theme.BODY + 1, max_lines=2)


def beside(parts: Sequence[ft.Control], **places: Any) -> ft.ResponsiveRow:
    """Parts side by side, each as wide as its `col` says for the screen and the text size."""
    return ft.ResponsiveRow(list(parts), breakpoints=theme.widths(), **places)


def ends(left: ft.Control, right: ft.Control, *, spacing: float = theme.GAP) -> ft.Control:
    """Two things at the two ends of a row; below each other where the text is large."""
    if theme.large_text():
        return ft.Column([left, right], spacing=2, tight=True)
    left.expand = True
    return ft.Row([left, right], spacing=spacing)


def pictured(picture: ft.Control, words: Sequence[ft.Control]) -> ft.Control:
    """Words beside their drawing; below it where the text is large."""
    if theme.large_text():
        return ft.Column([picture, *words], spacing=theme.GAP)
    return ft.Row([picture, ft.Column(list(words), spacing=6, expand=True)], spacing=theme.GAP)


def screen(
    route: str,
    title: str,
    controls: Sequence[ft.Control],
    actions: Sequence[ft.Control] = (),
    *,
    second: Sequence[ft.Control] = (),
    wide: bool = False,
    foot: Foot | None = None,
) -> ft.View:
    """A screen: title bar and one scrolling column, kept to a readable width on wide screens.

    What is second, an answer or a detail, has a column of its own beside the rest where there is
    room, and each of the two is scrolled by itself; elsewhere it follows below. A wide screen
    takes all of the width: it puts things side by side itself. A foot stays in its place while
    the rest is scrolled; where there is none, the four places are at the foot or at the left.
    """
    places.note_pond(route)
    arrival.note(route, has_places=foot is None)
    side = foot.side if foot else 0.0
    apart = bool(second) and foot is None and two_columns()
    parts = [part for part in (controls, second) if part]
    around = _two_paddings() if apart else _paddings(len(parts), foot)
    col = 12 if apart or wide or side else READABLE
    columns = [
        # A row that holds one thing keeps what is in it, such as the field in hand, when that which
        # is around it is another: its own of all boxes of the framework does.
        ft.Column(
            [ft.Container(_alone(column(part), col), padding=padding)],
            scroll=ft.ScrollMode.AUTO if apart else None,
            col=6 if apart else 12,
        )
        for part, padding in zip(parts, around, strict=True)
    ]
    at_side = foot is None and places.at_side()
    whole = ft.Column(
        [beside(columns, spacing=0, run_spacing=theme.GAP, expand=apart)],
        scroll=None if apart else ft.ScrollMode.AUTO,
        expand=True,
    )
    scrolled.note(route, columns if apart else [whole])
    at_foot = None if at_side else _foot(foot) if foot else places.bar(route)
    return ft.View(
        route=route,
        appbar=_bar(route, title, actions),
        bottom_appbar=at_foot,
        padding=ft.Padding.only(right=side, bottom=theme.EDGE if foot else 0),
        bgcolor=ft.Colors.SURFACE,
        controls=[
            ft.Row(
                # The same boxes in the same order wherever the places are, and one column or two:
                # what is typed goes on while the device is turned.
                [places.rail(route) if at_side else ft.Container(visible=False), whole],
                spacing=0,
                expand=True,
                vertical_alignment=ft.CrossAxisAlignment.STRETCH,
            )
        ],
    )


def _bar(route: str, title: str, actions: Sequence[ft.Control]) -> ft.AppBar:
    shown = [*actions, *places.settings(route)]
    return ft.AppBar(
        title=_title(title, len(shown)),
        actions=shown,
        toolbar_height=theme.TOUCH_MAIN if theme.large_text() else None,
    )


def _alone(control: ft.Control, col: Any) -> ft.Control:
    control.col = col
    return beside([control], alignment=ft.MainAxisAlignment.CENTER)


def _paddings(count: int, foot: Foot | None) -> list[ft.Padding]:
    """Of parts below each other: above a stopwatch there is little room."""
    top = theme.GAP / 2 + (0 if foot and foot.height else theme.EDGE)
    # What lies under a note with its undo can be scrolled above it.
    return [
        ft.Padding(
            theme.EDGE, 0 if number else top,
            theme.EDGE, theme.note_room() if number == count - 1 else 0,
        )
        for number in range(count)
    ]  # fmt: skip


def two_columns() -> bool:
    """Whether there is room for a detail beside its list, and an answer beside its form."""
    return float(ft.context.page.width or 0.0) >= theme.widths()["md"]


def column_width() -> float:
    """Width of what stands in a column of a screen; 0 while that of the window is not known."""
    width = float(ft.context.page.width or 0.0)
    if not width or not two_columns():
        return max(0.0, width - 2 * theme.EDGE)
    room = (width - theme.RAIL) / 2 - 1.5 * theme.EDGE
    return min(room, theme.widths()["column"] - 1.5 * theme.EDGE)


def _two_paddings() -> list[ft.Padding]:
    """Of two columns, none wider than one can read."""
    room = (float(ft.context.page.width or 0.0) - theme.RAIL) / 2
    spare = max(0.0, room - theme.widths()["column"])
    outer, inner = theme.EDGE + spare * 0.75, theme.EDGE / 2 + spare * 0.25
    return [
        ft.Padding(outer, theme.EDGE, inner, theme.note_room()),
        ft.Padding(inner, theme.EDGE, outer, theme.note_room()),
    ]


def _foot(foot: Foot) -> ft.BottomAppBar:
    return ft.BottomAppBar(
        foot.control, bgcolor=ft.Colors.SURFACE, elevation=0, padding=0, height=foot.height
    )


def halves(
    left: Sequence[ft.Control], right: Sequence[ft.Control], *, from_width: str = "md"
) -> ft.Control:
    """Side by side where there is room, below each other where there is not.

    Each half is read aloud as a whole, as what could be scrolled by itself is: else what stands at
    one height would be read across both.
    """
    return beside(
        [
            ft.Column(
                list(part),
                spacing=theme.GAP,
                horizontal_alignment=ft.CrossAxisAlignment.STRETCH,
                scroll=ft.ScrollMode.HIDDEN,
                col={"xs": 12, from_width: 6},
            )
            for part in (left, right)
        ],
        spacing=theme.EDGE,
        run_spacing=theme.GAP,
    )


def narrow(control: ft.Control) -> ft.Control:
    """Not stretched over a wide screen, but as wide as one of its halves."""
    width: Any = {"xs": 12, "md": 6}
    return beside([ft.Container(control, col=width)], alignment=ft.MainAxisAlignment.CENTER)


def pairs(controls: Sequence[ft.Control], *, in_card: bool = False) -> ft.Control:
    """Short fields, two in a row; one alone takes all of it, and so does each of large text.

    What has a key keeps its place in hand here too, and so does the row by the first of them.
    """
    width: Any = {"xs": 12, "pair": 6} if len(controls) > 1 else 12
    if _two_in_a_row():
        for row in range(0, len(controls), 2):
            labels.level(controls[row : row + 2], half_width(in_card=in_card))
    return beside(
        [ft.Container(control, col=width, key=control.key) for control in controls],
        key=controls[0].key if controls else None,
        spacing=theme.GAP,
        run_spacing=theme.GAP,
        vertical_alignment=ft.CrossAxisAlignment.START,
    )


def _two_in_a_row() -> bool:
    return float(ft.context.page.width or 0.0) >= theme.widths()["pair"]


def half_width(*, in_card: bool = False) -> float:
    """Width of one of two things side by side in a column of a screen, or in a card there."""
    room = column_width() - (2 * theme.EDGE if in_card else 0)
    return max(0.0, (room - theme.GAP) / 2)


def rounded() -> ft.RoundedRectangleBorder:
    """The shape of buttons and boxes."""
    return ft.RoundedRectangleBorder(radius=theme.RADIUS)


def face(
    label: str,
    size: int,
    height: int,
    full_name: str | None = None,
    align: ft.TextAlign = ft.TextAlign.CENTER,
) -> ft.Control:
    """A button's words: as high as a finger wants it, and higher where large text needs more."""
    words = written(label, size=size, text_align=align, semantics_label=full_name)
    return ft.Stack(
        [ft.Container(width=1, height=height), ft.Container(words, padding=ROOM_ABOVE)],
        alignment=ft.Alignment.CENTER,
    )


def button_style() -> ft.ButtonStyle:
    """Shape and room of a button's words."""
    return ft.ButtonStyle(
        shape=rounded(),
        padding=ft.Padding.symmetric(horizontal=theme.GAP),
        visual_density=ft.VisualDensity.STANDARD,
    )


def main_button(label: str, on_click: Click, *, disabled: bool = False) -> ft.Control:
    """The main action of a screen."""
    return ft.FilledButton(
        content=face(label, theme.BODY + 2, theme.TOUCH_MAIN),
        on_click=on_click,
        disabled=disabled,
        style=button_style(),
    )


def second_button(
    label: str, on_click: Click, *, disabled: bool = False, full_name: str | None = None
) -> ft.Control:
    """A lesser action; one of several alike has a full name that is read aloud."""
    return ft.OutlinedButton(
        content=face(label, theme.BODY, theme.TOUCH, full_name),
        on_click=on_click,
        disabled=disabled,
        style=button_style(),
    )


def quiet_button(label: str, on_click: Click) -> ft.Control:
    """An action in passing."""
    return ft.TextButton(
        content=face(label, theme.BODY, theme.TOUCH), on_click=on_click, style=button_style()
    )


def aside(label: str, on_click: Click) -> ft.Control:
    """An action in passing inside a block: its words begin where those above them do."""
    style = button_style()
    style.padding = ft.Padding.symmetric(horizontal=FLUSH)
    words = face(label, theme.BODY, theme.TOUCH, align=ft.TextAlign.START)
    return ft.Row([ft.TextButton(content=words, on_click=on_click, style=style)], wrap=True)


def heading(text: str) -> ft.Control:
    """A heading inside a screen."""
    return ft.Semantics(
        header=True,
        content=written(text, size=theme.BODY + 2, weight=ft.FontWeight.W_600),
    )


def body(text: str) -> ft.Control:
    """Plain text."""
    return written(text, size=theme.BODY)


def small(text: str) -> ft.Control:
    """A remark."""
    return written(text, size=theme.SMALL, color=ft.Colors.ON_SURFACE_VARIANT)


def card(controls: Sequence[ft.Control], *, strong: bool = False) -> ft.Control:
    """A box that holds what belongs together; a strong one holds the answer."""
    return ft.Container(
        content=ft.Column(
            list(controls), spacing=6, horizontal_alignment=ft.CrossAxisAlignment.STRETCH
        ),
        padding=theme.EDGE,
        border_radius=theme.RADIUS,
        bgcolor=ft.Colors.PRIMARY_CONTAINER if strong else ft.Colors.SURFACE_CONTAINER,
    )


def marked(mark: ft.IconData, words: str, ink: ft.ColorValue | None = None) -> ft.Control:
    """A state by its mark and its words."""
    return ft.Row(
        [
            ft.Icon(mark, size=theme.FIGURE, color=ink),
            written(words, size=theme.BODY + 2, weight=ft.FontWeight.W_600, color=ink, expand=True),
        ],
        spacing=theme.GAP,
    )


def column(controls: Sequence[ft.Control]) -> ft.Control:
    """A part of a screen, spaced like the screen itself."""
    return ft.Column(
        list(controls), spacing=theme.GAP, horizontal_alignment=ft.CrossAxisAlignment.STRETCH
    )


def pair(name: str, value: str, *, strong: bool = False) -> ft.Control:
    """A name and its value at the two ends of a row."""
    weight = ft.FontWeight.W_600 if strong else None
    row = ends(
        written(name, size=theme.BODY, weight=weight),
        written(value, size=theme.BODY, weight=ft.FontWeight.W_600),
    )
    return ft.MergeSemantics(row)


def fact(name: str, value: str, remark: str = "") -> ft.Control:
    """A name, its value, and where it comes from; read aloud as one, also beside another."""
    lines: list[ft.Control] = [
        labels.label(name, color=ft.Colors.ON_SURFACE_VARIANT),
        written(value, size=theme.BODY + 2, weight=ft.FontWeight.W_600),
    ]
    if remark:
        lines.append(small(remark))
    return ft.MergeSemantics(ft.Column(lines, spacing=2))


def caution(text: str) -> ft.Control:
    """A warning where the risk is met: by word and frame, not by colour alone."""
    key = "/" in text.partition(" ")[0]  # of what is stored: it stays as it is
    what = text if key else text[:1].upper() + text[1:]  # elsewhere some are within a sentence
    return ft.Container(
        content=written(t("Caution: {what}", what=what), size=theme.SMALL),
        padding=ft.Padding.symmetric(horizontal=theme.EDGE - 2, vertical=theme.GAP),
        border=ft.Border.all(2, ft.Colors.ERROR),
        border_radius=theme.RADIUS,
    )


def choice(
    label: str,
    options: Sequence[tuple[str, str]],
    chosen: str,
    on_choose: Callable[[str], Any],
    *,
    in_rows: bool = False,
    drawings: Sequence[ft.Control] = (),
) -> ft.Control:
    """Pick one of a few: every option in sight, one touch; short ones share a row.

    Options with drawings have each its own above its words, two in a row.
    """
    long = bool(drawings) or max((len(text) for _, text in options), default=0) > SHORT
    width: Any = {"xs": 12, "pair": 6} if long else {"xs": 6, "pair": 4}

    def pick(value: str, text: str) -> ft.Control:
        # The radio's own label is one line that ends where the screen does.
        words = ft.Container(
            written(text, size=theme.BODY),
            padding=ft.Padding.symmetric(vertical=theme.GAP),
            expand=True,
            on_click=lambda _: on_choose(value),
        )
        height = ft.Container(width=1, height=theme.TOUCH)
        row = ft.Row([ft.Radio(value=value), words, height], spacing=4)
        return ft.Container(ft.MergeSemantics(row), col=width)

    def drawn(pick: ft.Control, drawing: ft.Control, value: str) -> ft.Control:
        # For the finger: what is read aloud is the option below it.
        above = ft.Semantics(
            exclude_semantics=True,
            content=ft.Container(drawing, on_click=lambda _: on_choose(value)),
        )
        return ft.Column(
            [above, pick], spacing=0, horizontal_alignment=ft.CrossAxisAlignment.CENTER, col=width
        )

    picks = [pick(value, text) for value, text in options]
    if drawings:
        picks = [
            drawn(one, drawing, value)
            for one, drawing, (value, _) in zip(picks, drawings, options, strict=True)
        ]
    group = ft.RadioGroup(
        value=chosen,
        on_change=lambda e: on_choose(e.control.value),
        content=beside(picks, spacing=0, run_spacing=0)
        if in_rows or drawings
        else ft.Column(picks, spacing=0),
    )
    # The label names the group, and is not read a second time as a text of its own.
    shown = ft.Semantics(exclude_semantics=True, content=written(label, size=theme.SMALL))
    return ft.Semantics(container=True, label=label, content=ft.Column([shown, group], spacing=0))


def worded(options: Sequence[tuple[str, str]]) -> list[tuple[str, str]]:
    """The options of a choice in the reader's language."""
    return [(value, t(name)) for value, name in options]


def yes_no() -> list[tuple[str, str]]:
    """The options of a question, in the one order in which they are offered."""
    return [("yes", t("Yes")), ("no", t("No"))]


def sentence(text: str) -> str:
    """A remark of the core as a sentence of its own."""
    return as_sentence(text)


def card_button(controls: Sequence[ft.Control], on_click: Click) -> ft.Control:
    """A whole block that opens something; named by the words in it."""
    return ft.TextButton(
        content=ft.Column(list(controls), spacing=4, tight=True),
        on_click=on_click,
        style=ft.ButtonStyle(
            padding=ft.Padding.symmetric(horizontal=theme.EDGE, vertical=theme.GAP),
            color=ft.Colors.ON_SURFACE,
            visual_density=ft.VisualDensity.STANDARD,
            alignment=ft.Alignment.CENTER_LEFT,
            shape=rounded(),
        ),
    )


def way_on() -> ft.Control:
    """The mark at the end of what opens a screen."""
    return ft.Icon(
        ft.Icons.CHEVRON_RIGHT, size=theme.drawn(theme.TITLE), color=ft.Colors.ON_SURFACE_VARIANT
    )


def marked_button(mark: ft.Control, words: Sequence[ft.Control], on_click: Click) -> ft.Control:
    """Lines about a screen that they open, with a mark before them."""
    lines = ft.Column(list(words), spacing=0, tight=True, expand=True)
    return card_button([ft.Row([mark, lines, way_on()], spacing=theme.GAP)], on_click)


def titled(mark: ft.IconData, title: str) -> ft.Control:
    """The head of a block that opens something."""
    return ft.Row(
        [
            ft.Icon(mark, size=theme.drawn(theme.TITLE), color=ft.Colors.PRIMARY),
            written(
                title, size=theme.BODY + 1, weight=ft.FontWeight.W_600, expand=True,
                color=ft.Colors.ON_SURFACE,
            ),
            way_on(),
        ],
        spacing=8,
    )  # fmt: skip


def mark_button(mark: ft.IconData, full_name: str, on_click: Click) -> ft.Control:
    """An action that is one mark; its name is what is read aloud."""
    return ft.IconButton(
        icon=ft.Icon(mark, size=theme.drawn(theme.TITLE), semantics_label=full_name),
        on_click=on_click,
        width=theme.TOUCH,
        height=theme.TOUCH,
        icon_color=ft.Colors.PRIMARY,
    )


def tile(controls: Sequence[ft.Control]) -> ft.Control:
    """A box whose parts bring their own padding."""
    return ft.Container(
        content=ft.Column(
            list(controls), spacing=0, horizontal_alignment=ft.CrossAxisAlignment.STRETCH
        ),
        border_radius=theme.RADIUS,
        bgcolor=ft.Colors.SURFACE_CONTAINER,
    )


def pipe(controls: Sequence[ft.Control]) -> ft.Control:
    """What hangs on one pipe: a thick line beside it, as long as it needs to be."""
    return ft.Container(
        content=ft.Column(
            list(controls), spacing=8, horizontal_alignment=ft.CrossAxisAlignment.STRETCH
        ),
        padding=ft.Padding.only(left=theme.GAP),
        border=ft.Border.only(left=ft.BorderSide(theme.PIPE, ft.Colors.PRIMARY)),
    )


def no_pond() -> ft.View:
    """The screen of a pond that is not there."""
    lines = [
        body(t("This pond is not on this device.")),
        main_button(t("To the first screen"), lambda _: ft.context.page.navigate("/")),
    ]
    return screen("/pond", t("No such pond"), lines)


def links(entries: Sequence[tuple[str, Click]]) -> ft.Control:
    """A list of other screens, one a row."""
    rows: list[ft.Control] = [
        ft.TextButton(
            content=ft.Row(
                [
                    written(label, size=theme.BODY, color=ft.Colors.ON_SURFACE, expand=True),
                    way_on(),
                ],
            ),
            on_click=on_click,
            style=ft.ButtonStyle(
                padding=ft.Padding.symmetric(horizontal=theme.EDGE, vertical=theme.GAP),
                visual_density=ft.VisualDensity.STANDARD,
                shape=rounded(),
            ),
        )
        for label, on_click in entries
    ]  # fmt: skip
    return tile(rows)


def side_by_side(controls: Sequence[ft.Control]) -> ft.Control:
    """One under the other on a phone, beside each other where there is room."""
    width = 12 if len(controls) == 1 else 6
    return beside(
        [ft.Container(control, col={"xs": 12, "md": width}) for control in controls],
        run_spacing=theme.GAP,
        spacing=theme.GAP,
    )
