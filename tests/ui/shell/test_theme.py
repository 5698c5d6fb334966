"""Colours against what they stand on, by the formula of WCAG; and screens that come at once."""

import re
from pathlib import Path

import flet as ft
import pytest

from pondapp.answers.care.severity import WORST_FIRST
from pondapp.ui.parts import severity
from pondapp.ui.shell import theme

TEXT = 4.5  # WCAG 1.4.3, for text of any size
MARK = 3.0  # WCAG 1.4.11, for outlines and marks that carry meaning

ON = {  # what is written on what, anywhere in the app
    "surface": ("on_surface", "on_surface_variant", "primary", "error"),
    "surface_container": ("on_surface", "on_surface_variant", "primary", "error"),
    "primary_container": ("on_primary_container", "on_surface", "on_surface_variant", "primary"),
    "primary": ("on_primary",),
    "error": ("on_error",),
    "error_container": ("on_error_container",),
    "tertiary_container": ("on_tertiary_container",),
    "secondary_container": ("on_secondary_container",),
    "tertiary_fixed": ("on_tertiary_fixed",),
}
AROUND = {  # frames of fields, buttons and cautions; the pipe of a drawing
    "surface": ("outline", "error", "primary"),
    "surface_container": ("outline", "error", "primary"),
    "primary_container": ("outline", "error", "primary"),
}


def luminance(colour: str) -> float:
    """Relative luminance of "#RRGGBB"."""
    parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """From 1, the same, to 21, black on white."""
    darker, lighter = sorted((luminance(one), luminance(other)))
    return (lighter + 0.05) / (darker + 0.05)


def scheme(number: int) -> ft.ColorScheme:
    found = theme.themes()[number].color_scheme
    assert found is not None
    return found


@pytest.mark.parametrize("number", [0, 1], ids=["light", "dark"])
@pytest.mark.parametrize(("pairs", "least"), [(ON, TEXT), (AROUND, MARK)], ids=["text", "marks"])
def test_colours_stand_out(number: int, pairs: dict[str, tuple[str, ...]], least: float) -> None:
    colours = scheme(number)
    weak = {
        f"{front} on {ground}": round(found, 2)
        for ground, fronts in pairs.items()
        for front in fronts
        if (found := contrast(getattr(colours, front), getattr(colours, ground))) < least
    }
    assert not weak


def mixed(front: str, ground: str, share: float) -> str:
    """The colour of a see-through front on its ground."""
    pairs = [(int(front[i : i + 2], 16), int(ground[i : i + 2], 16)) for i in (1, 3, 5)]
    return "#" + "".join(f"{round(share * a + (1 - share) * b):02X}" for a, b in pairs)


@pytest.mark.parametrize("number", [0, 1], ids=["light", "dark"])
def test_the_disc_of_the_keyboard_stands_out(number: int) -> None:
    made, colours = theme.themes()[number], scheme(number)
    for small in (made.radio_theme, made.checkbox_theme):
        front, share = str(small.overlay_color[ft.ControlState.FOCUSED]).split(",")
        for ground in (colours.surface, colours.surface_container):
            disc = mixed(front, ground, float(share))
            assert contrast(disc, ground) >= MARK
            assert contrast(colours.on_surface, disc) >= MARK


@pytest.mark.parametrize("number", [0, 1], ids=["light", "dark"])
def test_each_severity_has_a_word_a_mark_and_a_colour_of_its_own(number: int) -> None:
    colours = scheme(number)
    assert len(set(severity.WORDS.values())) == len(set(severity.MARKS.values())) == 4
    shown = {getattr(colours, theme.SEVERITY[one][0].name.lower()) for one in WORST_FIRST}
    assert len(shown | {colours.primary_container}) == 5  # none is the teal of a plain answer
    for ground, ink in theme.SEVERITY.values():
        pair = (getattr(colours, one.name.lower()) for one in (ground, ink))
        assert contrast(*pair) >= TEXT


def test_the_formula_gives_the_known_ends() -> None:
    assert contrast("#000000", "#FFFFFF") == pytest.approx(21)
    assert contrast("#777777", "#FFFFFF") == pytest.approx(4.48, abs=0.005)


def test_a_screen_is_where_it_is_touched_from_the_first_moment() -> None:
    for made in theme.themes():
        ways = made.page_transitions
        for platform in ("android", "ios", "linux", "macos", "windows"):
            assert getattr(ways, platform) is ft.PageTransitionTheme.NONE


STEPS = (0, 2, 4, 6, 8)  # distances within what belongs together; wider ones have names
UI = Path(theme.__file__).parent.parent
BY_HAND = re.compile(r"#[0-9A-Fa-f]{6}\b|(?<![\w.])size=\d|elevation=[1-9]|radius=\d")
DISTANCE = re.compile(
    r"(?<![\w.])(?:(?:run_)?spacing|padding|horizontal|vertical)=(\d+(?:\.\d+)?)\b"
)


def test_colours_letters_and_distances_come_from_one_place() -> None:
    drawings = {"strip.py"}  # the corner of a bar, in the drawing's own scale
    by_hand, off_scale = [], []
    for file in sorted(UI.rglob("*.py")):
        text = file.read_text(encoding="utf-8")
        if file.name == "theme.py":
            continue
        if file.name not in drawings:
            by_hand += [f"{file.name}: {found[0]}" for found in BY_HAND.finditer(text)]
        off_scale += [
            f"{file.name}: {found[0]}"
            for found in DISTANCE.finditer(text)
            if float(found[1]) not in STEPS
        ]
    assert by_hand == []
    assert off_scale == []
