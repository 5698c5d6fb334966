"""The size of a basin or of a space between two marks, however it is given."""

from math import pi

from pondapp.answers.methods.method import Known, Sides


def area_of(known: Known, sides: Sides) -> float | None:
    """Water area [m2]."""
    if sides == "known":
        return known.get("water_area")
    if sides == "round":
        across = known.get("tub_across")
        return None if across is None else pi * across * across / 4.0
    length, width = known.get("box_length"), known.get("box_width")
    return None if length is None or width is None else length * width


def space_of(known: Known, sides: Sides) -> float | None:
    """Space between the two marks [m3]."""
    if sides == "known":
        return known.get("space")
    area, rise = area_of(known, sides), known.get("rise")
    return None if area is None or rise is None else area * rise
