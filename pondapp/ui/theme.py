"""Colours, type, spacing and touch sizes: the one place that knows them."""

import flet as ft

SEED = "#0F5C63"  # deep pond teal; the schemes below are derived from it by contrast
GAP = 12
EDGE = 16
RADIUS = 14
TOUCH_MAIN = 64
TOUCH = 48
CODE = 280  # as wide as the narrowest phone allows; the finest code has two pixels a dot
STOPWATCH = 220
PIPE = 5
STOPWATCH_AGAIN = 132
STOPWATCH_RUNNING = 400
SKETCH = (120, 96)  # a method's drawing

TITLE = 22
BODY = 16
SMALL = 14
FIGURE = 34
CLOCK = 54

DRAWING = 250  # height of a drawing; fixed, so that nothing below it moves while one types
DRAWING_NARROW = 256  # width of a drawing until the screen has told its own
STROKE = 2
COUNT = 34  # width of a count between its two buttons


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
        on_surface_variant="#3D4A47",
        outline="#60706C",
        error="#A3271B",
        on_error="#FFFFFF",
    )
    dark = ft.ColorScheme(
        primary="#8CD1CC",
        on_primary="#04353A",
        primary_container="#0E4B51",
        on_primary_container="#D2EEEB",
        surface="#101817",
        on_surface="#E6EEEB",
        surface_container="#1D2826",
        on_surface_variant="#BACAC5",
        outline="#8A9B96",
        error="#FFB4A8",
        on_error="#5C100A",
    )
    return ft.Theme(color_scheme=light), ft.Theme(color_scheme=dark)
