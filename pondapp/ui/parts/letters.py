"""The characters that this app can draw: those of the one font that comes with it.

A browser draws nothing but boxes for all others, since a font of the device is out of its reach.
"""

_IN_FONT = """
    20-7E A0-17F 18F 192 1A0-1A1 1AF-1B0 1F0 1FA-1FF 218-21B 237 259 2BC 2C6-2C7 2C9 2D8-2DD 2F3
    300-301 303 309 30F 323 384-38A 38C 38E-3A1 3A3-3CE 3D1-3D2 3D6 400-486 488-513 1E00-1E01
    1E3E-1E3F 1E80-1E85 1EA0-1EF9 1F4D 2000-200B 2010-2011 2013-2015 2017-201E 2020-2022
    2025-2027 2030 2032-2033 2039-203A 203C 2044 2074 207F 20A3-20A4 20A6-20AC 20B1 20B9-20BA
    20BC-20BD 2105 2113 2116 2122 2126 212E 215B-215E 2202 2206 220F 2211-2212 221A 221E 222B
    2248 2260 2264-2265 25CA EE01-EE02 F6C3 FB01-FB04 FEFF FFFC-FFFD
"""
"""Their numbers, in hexadecimal, from the first to the last of each row."""


def _numbers(row: str) -> range:
    first, _, last = row.partition("-")
    return range(int(first, 16), int(last or first, 16) + 1)


DRAWN = frozenset(chr(number) for row in _IN_FONT.split() for number in _numbers(row))


def can_be_drawn(text: str) -> bool:
    """Whether no character of a text shows as a box; the end of a line is none."""
    return DRAWN.issuperset(text.replace("\n", ""))
