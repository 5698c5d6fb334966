"""Draw assets/icons/*.png: a drop over a line, from a few circles and lines; stdlib only."""

import struct
import zlib
from pathlib import Path

TEAL, PALE = (0x0F, 0x5C, 0x63), (0xF4, 0xF7, 0xF4)
ICONS = Path(__file__).resolve().parent.parent / "assets" / "icons"
SAMPLES = 3  # a side, for each pixel: enough for smooth edges at 192 px

APEX, CENTRE, RADIUS = 0.14, 0.47, 0.19  # the drop: a circle and its two tangents from the apex
LINE, HALF_LENGTH, HALF_THICKNESS = 0.79, 0.27, 0.026
CORNER = 0.2


def in_mark(x: float, y: float) -> bool:
    """Whether a point of the unit square belongs to the drop or the line."""
    dx = abs(x - 0.5)
    if dx * dx + (y - CENTRE) ** 2 <= RADIUS**2:
        return True
    height = CENTRE - APEX
    touch = CENTRE - RADIUS**2 / height  # where the tangents meet the circle
    if APEX <= y <= touch:
        return dx <= (y - APEX) * RADIUS / (height**2 - RADIUS**2) ** 0.5
    beyond = max(0.0, dx - HALF_LENGTH)
    return beyond**2 + (y - LINE) ** 2 <= HALF_THICKNESS**2


def in_tile(x: float, y: float) -> bool:
    """Whether a point belongs to the square with rounded corners."""
    dx, dy = max(0.0, abs(x - 0.5) - 0.5 + CORNER), max(0.0, abs(y - 0.5) - 0.5 + CORNER)
    return dx * dx + dy * dy <= CORNER**2


def draw(size: int, scale: float, rounded: bool) -> bytes:
    """PNG bytes of the mark at a scale about the middle."""
    steps = [(i + 0.5) / (size * SAMPLES) for i in range(size * SAMPLES)]
    rows = []
    for row in range(size):
        line = bytearray(b"\0")
        for column in range(size):
            mark = tile = 0
            for y in steps[row * SAMPLES : (row + 1) * SAMPLES]:
                for x in steps[column * SAMPLES : (column + 1) * SAMPLES]:
                    tile += not rounded or in_tile(x, y)
                    mark += in_mark(0.5 + (x - 0.5) / scale, 0.5 + (y - 0.5) / scale)
            share = mark / SAMPLES**2
            line += bytes(round(p + (t - p) * share) for t, p in zip(TEAL, PALE, strict=True))
            line.append(round(255 * tile / SAMPLES**2))
        rows.append(bytes(line))

    def chunk(kind: bytes, data: bytes) -> bytes:
        return (
            struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))
        )

    head = struct.pack(">IIBBBBB", size, size, 8, 6, 0, 0, 0)
    body = zlib.compress(b"".join(rows), 9)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", body) + chunk(b"IEND", b"")


def main() -> None:
    """Write every size."""
    ICONS.mkdir(parents=True, exist_ok=True)
    for size in (32, 192, 512):
        (ICONS / f"icon-{size}.png").write_bytes(draw(size, 1.0, rounded=True))
    for size in (192, 512):  # launchers cut these to any shape: keep the mark in the safe middle
        (ICONS / f"maskable-{size}.png").write_bytes(draw(size, 0.78, rounded=False))
    (ICONS / "touch-180.png").write_bytes(draw(180, 0.9, rounded=False))


if __name__ == "__main__":
    main()
