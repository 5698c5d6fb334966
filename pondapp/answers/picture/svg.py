"""The picture of a pond as a drawing inside a page: no program, readable in black and white."""

from html import escape

from pondapp.answers.care.severity import Severity
from pondapp.answers.picture.badges import UNSURE, outline, radius_of
from pondapp.answers.picture.picture import Picture
from pondapp.answers.picture.primitives import Area, Point, Shape, Tone

FILLS: dict[Tone, str] = {
    "water": "#bcdcdf",
    "falling": "#9ccace",
    "ground": "#d9d2c4",
    "bank": "#ece8df",
    "hose": "#0f5c63",
    "ink": "#3d4a47",
    "gap": "#fff",
}
LINES: dict[Tone, str] = {**FILLS, "water": "#2f8a92"}
BADGES: dict[Severity, tuple[str, str]] = {
    "danger": ("#16211f", "#fff"),
    "wrong": ("#16211f", "#fff"),
    "unknown": ("#fff", "#16211f"),
    "right": ("#fff", "#16211f"),
}
"""Ground and ink; which is which is told by the outline, since a printer may have no colours."""


def _points(points: tuple[Point, ...]) -> str:
    return " ".join(f"{x:.1f},{y:.1f}" for x, y in points)


def _shape(shape: Shape) -> str:
    if isinstance(shape, Area):
        return f'<polygon points="{_points(shape.points)}" fill="{FILLS[shape.tone]}"/>'
    dashes = ' stroke-dasharray="4 4"' if shape.dashed else ""
    return (
        f'<polyline points="{_points(shape.points)}" fill="none" stroke="{LINES[shape.tone]}" '
        f'stroke-width="{shape.width:.1f}" stroke-linejoin="round"{dashes}/>'
    )


def svg(picture: Picture, title: str) -> str:
    """The drawing, told in a sentence to those who do not see it."""
    lines = [_shape(shape) for shape in picture.shapes]
    for part in picture.parts:
        radius = radius_of(part.box)
        x, y = part.box.middle, part.box.top + radius + 1
        ground, ink = BADGES[part.state.severity]
        corners = tuple(outline(part.state.severity, x, y, radius))
        dashes = ' stroke-dasharray="2 2"' if part.state.severity == UNSURE else ""
        lines.append(
            f'<polygon points="{_points(corners)}" fill="{ground}" stroke="#16211f" '
            f'stroke-width="1.5"{dashes}/>'
            f'<text x="{x:.1f}" y="{y + radius * 0.4:.1f}" text-anchor="middle" fill="{ink}" '
            f'font-size="{radius * 1.15:.1f}" font-weight="600">{part.number}</text>'
        )
    return (
        f'<svg role="img" aria-label="{escape(title)}" '
        f'viewBox="0 0 {picture.width:.0f} {picture.height:.0f}" width="100%">'
        + "".join(lines)
        + "</svg>"
    )
