"""Colours, type, spacing and touch sizes: the one place that knows them."""

import flet as ft

from pondapp.answers.care.severity import Severity
from pondapp.answers.picture.primitives import Tone
from pondapp.store.browser.page import text_scale

SEED = "#0F5C63"  # deep pond teal; the schemes below are derived from it by contrast
GAP = 12
EDGE = 16
NOTE = 104  # height of a note over the foot of a screen: two lines, its undo below them
RADIUS = 14
TOUCH_MAIN = 64
TOUCH = 48
RAIL = 92  # width of the four places where they stand at the left
CODE = 280  # as wide as the narrowest phone allows; the finest code has two pixels a dot
PIPE = 5
SKETCH = (120, 96)  # a method's drawing
SKETCH_CUT = (132, 60)  # a pond cut through, as one of four to choose from

TITLE = 22
BODY = 16
SMALL = 14
FIELD = ft.Padding.symmetric(horizontal=12, vertical=14)  # round what is typed in a field
FIGURE = 34
CLOCK = 54

DRAWING = 250  # height of a drawing; fixed, so that nothing below it moves while one types
DRAWING_NARROW = 256  # width of a drawing until the screen has told its own
STROKE = 2
RING = 3  # the frame round what the keyboard is on
DISC = 0.495  # how far the disc behind a small mark covers what is below it; both stand out
COUNT = 34  # width of a count between its two buttons

NARROWEST = 320  # of screens, which the width of a window is taken for until it is known

# Widths of the screen at usual text size from which more goes side by side: two short fields, a
# form beside its answer, and what the framework calls large; a column is no wider than its own.
WIDTHS = {"xs": 0, "pair": 300, "column": 620, "md": 768, "lg": 992}
MOST_DRAWN = 1.5  # times that the letters in a drawing grow at most
LARGE_TEXT = 1.3  # from here on, what stands at the two ends of a row goes below each other


# The four severities on every screen: what a block of it stands on, and what is written there. They
# sit in places of the scheme that the framework's own controls leave alone. Danger is loud by day
# and by night; nothing else is.
SEVERITY: dict[Severity, tuple[ft.Colors, ft.Colors]] = {
    "danger": (ft.Colors.ERROR_CONTAINER, ft.Colors.ON_ERROR_CONTAINER),
    "wrong": (ft.Colors.TERTIARY_CONTAINER, ft.Colors.ON_TERTIARY_CONTAINER),
    "unknown": (ft.Colors.SECONDARY_CONTAINER, ft.Colors.ON_SECONDARY_CONTAINER),
    "right": (ft.Colors.TERTIARY_FIXED, ft.Colors.ON_TERTIARY_FIXED),
}

# The tones of the picture of a pond: what is drawn in it, and how much that covers what is behind.
PICTURE: dict[Tone, tuple[ft.Colors, float]] = {
    "water": (ft.Colors.PRIMARY, 0.24),
    "falling": (ft.Colors.PRIMARY, 0.5),
    "ground": (ft.Colors.ON_SURFACE, 0.2),
    "bank": (ft.Colors.ON_SURFACE, 0.1),
    "hose": (ft.Colors.PRIMARY, 1.0),
    "ink": (ft.Colors.ON_SURFACE_VARIANT, 1.0),
    "gap": (ft.Colors.SURFACE, 1.0),
}


def picture_color(tone: Tone, *, line: bool) -> ft.ColorValue:
    """The colour of a tone; a line of it has to be seen without its area."""
    color, cover = PICTURE[tone]
    return ft.Colors.with_opacity(max(cover, 0.7) if line and tone != "bank" else cover, color)


def large_text() -> bool:
    """Whether the reader's text is so large that a row of two is too narrow for its words."""
    return text_scale() >= LARGE_TEXT


def widths() -> dict[ft.ResponsiveRowBreakpoint | str, float]:
    """The same widths for the reader's text size: larger words need more room side by side."""
    scale = text_scale()
    return {name: width * scale for name, width in WIDTHS.items()}


def tall(height: float) -> float:
    """A size that holds words, for the reader's text size; half of it is air and need not grow."""
    return height * max(1.0, (1.0 + text_scale()) / 2.0)


def figure(size: float) -> float:
    """Size of letters that are large already: they grow by a third at most, or they would break."""
    scale = max(1.0, text_scale())
    return size * min(scale, LARGE_TEXT) / scale


def drawn(size: float) -> float:
    """A size in a drawing, whose letters grow with the reader's text as far as there is room.

    All that is written in a drawing stands beside it in words too, at full size.
    """
    return size * min(max(1.0, text_scale()), MOST_DRAWN)


def note_room() -> float:
    """Height of a note: larger words are taller, and take more lines."""
    return NOTE * max(1.0, text_scale()) ** 2


def _button(
    colours: ft.ColorScheme, plain: ft.ColorValue | None = None, *, filled: bool = False
) -> ft.ButtonStyle:
    """A button that the keyboard is on is framed: a tint alone is hard to see in the sun.

    Colours are given by value: inside a theme, a name would mean that of the framework's own.
    """
    frame = ft.BorderSide(RING, colours.on_surface or "")
    sides = {ft.ControlState.FOCUSED: frame}
    if plain:
        sides[ft.ControlState.DEFAULT] = ft.BorderSide(1, plain)
    style = ft.ButtonStyle(shape=ft.RoundedRectangleBorder(radius=RADIUS), side=sides)
    if filled:
        # The framework's own grey is the loudest thing on a screen whose form is still empty.
        style.bgcolor = {ft.ControlState.DISABLED: colours.surface_container or ""}
        style.color = {ft.ControlState.DISABLED: colours.on_surface_variant or ""}
    return style


def _theme(colours: ft.ColorScheme) -> ft.Theme:
    none = ft.PageTransitionTheme.NONE
    mark = colours.on_surface or ""
    # What is too small for a frame has a disc, dark enough to be told from what is around it.
    disc = {ft.ControlState.FOCUSED: ft.Colors.with_opacity(DISC, mark)}
    return ft.Theme(
        color_scheme=colours,
        filled_button_theme=ft.FilledButtonTheme(_button(colours, filled=True)),
        outlined_button_theme=ft.OutlinedButtonTheme(_button(colours, colours.outline)),
        text_button_theme=ft.TextButtonTheme(_button(colours)),
        icon_button_theme=ft.IconButtonTheme(_button(colours)),
        radio_theme=ft.RadioTheme(
            overlay_color=dict(disc), fill_color={ft.ControlState.FOCUSED: mark}
        ),
        checkbox_theme=ft.CheckboxTheme(overlay_color=dict(disc)),
        # A screen that slides in is touched where it will not be.
        page_transitions=ft.PageTransitionsTheme(none, none, none, none, none),
    )


def themes() -> tuple[ft.Theme, ft.Theme]:
    """The light and the dark theme."""
    light = ft.ColorScheme(
        primary=SEED,
        on_primary="#FFFFFF",
        primary_container="#CBE5E3",
        on_primary_container="#06373C",
        surface="#F4F7F4",
        on_surface="#16211F",
        surface_container="#E4ECE8",
        surface_container_high="#E4ECE8",  # a calendar, a message
        on_surface_variant="#3D4A47",
        outline="#60706C",
        error="#A3271B",
        on_error="#FFFFFF",
        error_container="#9B1C12",
        on_error_container="#FFFFFF",
        tertiary_container="#FFDDA6",
        on_tertiary_container="#452600",
        secondary_container="#D9E0EA",
        on_secondary_container="#1F2D3D",
        tertiary_fixed="#C6EAC4",
        on_tertiary_fixed="#0D3B16",
        inverse_surface="#22302D",  # a note over the foot of a screen
        on_inverse_surface="#F1F6F3",
        inverse_primary="#8CD1CC",
    )
    dark = ft.ColorScheme(
        primary="#8CD1CC",
        on_primary="#04353A",
        primary_container="#0E4B51",
        on_primary_container="#D2EEEB",
        surface="#101817",
        on_surface="#E6EEEB",
        surface_container="#1D2826",
        surface_container_high="#1D2826",
        on_surface_variant="#BACAC5",
        outline="#8A9B96",
        error="#FFB4A8",
        on_error="#5C100A",
        error_container="#C3281C",
        on_error_container="#FFFFFF",
        tertiary_container="#5C3C00",
        on_tertiary_container="#FFE2B3",
        secondary_container="#2F3B4A",
        on_secondary_container="#DAE4F0",
        tertiary_fixed="#1B4D26",
        on_tertiary_fixed="#D0EFCE",
        inverse_surface="#E6EEEB",
        on_inverse_surface="#16211F",
        inverse_primary="#0F5C63",
    )
    return _theme(light), _theme(dark)
