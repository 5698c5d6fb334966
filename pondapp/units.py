"""What people type and read: text to SI floats and back; the only importer of pint."""

import re
from dataclasses import dataclass
from functools import cache
from typing import Any

from pint import UnitRegistry
from pint.errors import PintError

from pondapp.core.errors import PondError
from pondapp.core.messages import Amount, Message

SYSTEMS = ("metric", "us", "imperial")

# Only the units in use: the full registry takes twenty times as long to start in the browser.
# Values: international yard and pound agreement 1959 (NIST SP 811, appendix B); US gallon 231 in3
# (NIST Handbook 44, appendix C); imperial gallon 4.54609 L (UK Weights and Measures Act 1985).
DEFINITIONS = """
meter = [length] = m = metre = meters = metres
second = [time] = s = sec = secs = seconds
kilogram = [mass] = kg = kilo = kilos = kilogramme = kilograms
kelvin = [temperature]; offset: 0 = K
degree_Celsius = kelvin; offset: 273.15 = degC = celsius
degree_Fahrenheit = 5 / 9 * kelvin; offset: 233.15 + 200 / 9 = degF = fahrenheit
millimeter = 0.001 * meter = mm = millimetre
centimeter = 0.01 * meter = cm = centimetre
inch = 0.0254 * meter = in = inches
foot = 0.3048 * meter = ft = feet
yard = 0.9144 * meter = yd = yards
minute = 60 * second = min = mins = minutes
hour = 3600 * second = h = hr = hours
day = 86400 * second = d = days
year = 31557600 * second = years
gram = 0.001 * kilogram = g = grams
milligram = 0.001 * gram = mg
pound = 0.45359237 * kilogram = lb = lbs = pounds
ounce = 0.028349523125 * kilogram = oz = ounces
liter = 0.001 * meter ** 3 = l = L = litre = litres = liters
milliliter = 0.000001 * meter ** 3 = ml = mL = millilitre
us_gallon = 231 * inch ** 3 = usgal
imperial_gallon = 4.54609 * liter = impgal = ukgal
us_quart = us_gallon / 4 = usqt
imperial_quart = imperial_gallon / 4 = impqt
us_pint = us_gallon / 8 = uspt
imperial_pint = imperial_gallon / 8 = imppt
square_meter = meter ** 2 = m2
cubic_meter = meter ** 3 = m3
cubic_foot = foot ** 3 = cuft
newton = kilogram * meter / second ** 2 = N
pascal = newton / meter ** 2 = Pa
joule = newton * meter = J
watt = joule / second = W = watts
kilowatt = 1000 * watt = kW
kilowatt_hour = 1000 * watt * hour = kWh
us_gph = us_gallon / hour = usgph
imperial_gph = imperial_gallon / hour = impgph
us_gpm = us_gallon / minute = usgpm
imperial_gpm = imperial_gallon / minute = impgpm
lph = liter / hour = LPH
lpm = liter / minute = LPM
percent = 0.01 = pct
""".strip().splitlines()


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of quantity: its SI unit and, by system, the unit people use and how it is written."""

    si: str
    units: dict[str, str]


def _gallons(metric: str, rest: str) -> dict[str, str]:
    return {"metric": metric, "us": f"us{rest}", "imperial": f"imp{rest}"}


KINDS = {
    "volume": Kind("m3", _gallons("L", "gal")),
    "flow": Kind("m3/s", _gallons("L/h", "gph")),
    "length": Kind("m", {"metric": "m", "us": "ft", "imperial": "ft"}),
    "width": Kind("m", {"metric": "cm", "us": "in", "imperial": "in"}),
    "head": Kind("m", {"metric": "m", "us": "ft", "imperial": "ft"}),
    "mass": Kind("kg", {"metric": "kg", "us": "lb", "imperial": "lb"}),
    "small_mass": Kind("kg", {"metric": "g", "us": "oz", "imperial": "oz"}),
    "area": Kind("m2", {"metric": "m**2", "us": "ft**2", "imperial": "ft**2"}),
    "temperature": Kind("K", {"metric": "degC", "us": "degF", "imperial": "degC"}),
    "salt": Kind("kg/m3", dict.fromkeys(SYSTEMS, "g/L")),
    "concentration": Kind("kg/m3", dict.fromkeys(SYSTEMS, "mg/L")),
    # Water meters count in other units than ponds are talked about in.
    "water_meter": Kind("m3", {"metric": "m**3", "us": "usgal", "imperial": "m**3"}),
    "duration": Kind("s", {"metric": "s", "us": "s", "imperial": "s"}),
    "power": Kind("W", {"metric": "W", "us": "W", "imperial": "W"}),
    "number": Kind("-", {"metric": "", "us": "", "imperial": ""}),
}

STRONG = 0.1  # kg/m3; from here on a solution is told in grams a litre

# How a unit is written for people; pint's own name where it is not listed.
WRITTEN = {
    "usgal": "gal", "impgal": "gal", "usgph": "gal/h", "impgph": "gal/h", "m**3": "m³",
    "m**2": "m²", "ft**2": "ft²", "degC": "°C", "degF": "°F",
}  # fmt: skip

_GALLON_WORDS = {
    "gal": "gal", "gals": "gal", "gallon": "gal", "gallons": "gal", "qt": "qt", "quart": "qt",
    "quarts": "qt", "pt": "pt", "pint": "pt", "pints": "pt", "gph": "gph", "gpm": "gpm",
}  # fmt: skip
_SIGNS = {"'": "ft", "′": "ft", "’": "ft", '"': "in", "″": "in", "”": "in", "''": "in", "°c": "degC", "°f": "degF", "c": "degC", "f": "degF"}  # noqa: E501  # fmt: skip
_FRACTIONS = {"½": "1/2", "¼": "1/4", "¾": "3/4"}
_PLAIN_UNIT = re.compile(r"[A-Za-z]+(\*\*[23])?(/[A-Za-z]+(\*\*[23])?)?")
_PIECE = re.compile(
    r"\s*(?P<number>\d+\s+\d+/\d+|\d+/\d+|\d+(?:\.\d+)?|\.\d+)\s*"
    r"(?P<unit>''|[^\d\s.]+(?:\s*/\s*[A-Za-z]+)?(?:\^?[23])?)?"
)


@cache
def _registry() -> Any:
    registry: Any = UnitRegistry(None, cache_folder=None)
    registry.load_definitions(DEFINITIONS)
    return registry


@cache
def _factor(unit: str, si: str) -> tuple[float, float]:
    """Slope and offset from a unit to SI, so that a screen full of numbers costs one look-up.

    Raises:
        ValueError: The text is not the name of a unit; nothing else typed reaches the parser.
    """
    if not _PLAIN_UNIT.fullmatch(unit):
        raise ValueError(unit)
    registry = _registry()
    zero = registry.Quantity(0.0, unit).to(si).magnitude
    return float(registry.Quantity(1.0, unit).to(si).magnitude - zero), float(zero)


def _number(text: str) -> float:
    whole, _, rest = text.rpartition(" ")
    if "/" in rest:
        top, _, bottom = rest.partition("/")
        if float(bottom) == 0:
            raise PondError("{text} divides by nothing", text=text)
        return (float(whole) if whole.strip() else 0.0) + float(top) / float(bottom)
    return float(rest)


def _plain(text: str, system: str) -> str:
    """Numbers with a point and no thousands marks; fractions spelled out."""
    for sign, words in _FRACTIONS.items():
        text = text.replace(sign, f" {words}")
    text = re.sub(r"(?<=\d)[\u00a0\u202f'](?=\d{3}(?!\d))", "", text)
    text = re.sub(r"\b(\d{1,3}) (?=\d{3}\b(?!/))", r"\1", text)
    if re.search(r"\d{1,3}(,\d{3})+\.\d", text) or re.search(r"\d{1,3}(,\d{3}){2,}", text):
        text = re.sub(r",(?=\d{3})", "", text)
    elif re.search(r"\d{1,3}(\.\d{3})+,\d|\d{1,3}(\.\d{3}){2,}", text):
        text = re.sub(r"\.(?=\d{3})", "", text)
    elif match := re.search(r"(?<!\d)([1-9]\d{0,2}),(\d{3})(?!\d)", text):
        if system == "metric":
            raise PondError(
                "{text} can be read two ways: write {whole}{part} or {whole}.{part}",
                text=text.strip(),
                whole=match[1],
                part=match[2],
            )
        text = text.replace(",", "")
    return text.replace(",", ".")


def _unit(word: str, system: str) -> str:
    cleaned = re.sub(r"\s+", "", word).rstrip(".")
    lower = cleaned.lower()
    if lower in _SIGNS:
        return _SIGNS[lower]
    head, slash, rest = lower.partition("/")
    if head in _GALLON_WORDS:
        prefix = "us" if system == "us" else "imp"
        return prefix + _GALLON_WORDS[head] + slash + rest
    if cleaned in ("K", "W", "N", "J", "L", "Pa", "kW", "kWh", "degC", "degF"):
        return cleaned
    return re.sub(r"\^?([23])$", r"**\1", lower.replace("³", "3").replace("²", "2"))


def parse(text: str, kind: str, system: str, bare_unit: str | None = None) -> float:
    """Read what somebody typed: "1,5", "1.5 m", "5 ft 6 in", "2 gal", "1 1/2 in".

    Args:
        text: The text as typed. A number without a unit takes the field's unit.
        kind: A key of KINDS.
        system: "metric", "us" or "imperial"; says which gallon is meant.
        bare_unit: The field's unit when it is not the usual one of the kind.

    Returns:
        The value in the kind's SI unit.

    Raises:
        PondError: The text is no amount of this kind; the message says what would be.
    """
    about = KINDS[kind]
    field_unit = bare_unit or about.units[system]
    example = f"2.5 {written(field_unit)}".strip()
    plain = _plain(text.strip().removeprefix("+"), system)
    if not plain:
        raise PondError("nothing is entered; write for example {example}", example=example)
    if len(plain) > 60:
        raise PondError("that is too long to be an amount; write for example {example}",
                        example=example)  # fmt: skip
    if plain.startswith(("-", "−")):
        raise PondError("{text} is below zero; write an amount above zero", text=text.strip())
    total, position, last = 0.0, 0, ""
    while position < len(plain):
        piece = _PIECE.match(plain, position)
        if piece is None:
            raise PondError("{text} is not an amount; write for example {example}",
                            text=text.strip(), example=example)  # fmt: skip
        number = _number(piece["number"])
        if piece["unit"]:
            last = _unit(piece["unit"], system)
        elif position and last:
            last = {"ft": "in", "m": "cm", "lb": "oz", "min": "s", "h": "min"}.get(last, "")
            if not last:
                raise PondError("{text} is not an amount; write for example {example}",
                                text=text.strip(), example=example)  # fmt: skip
        else:
            last = field_unit
        if about.si == "-":
            if piece["unit"] not in (None, "%"):
                raise PondError("{text} should be a plain number", text=text.strip())
            total += number / 100 if piece["unit"] == "%" else number
        else:
            try:
                slope, offset = _factor(last, about.si)
            except (PintError, ArithmeticError, AttributeError, ValueError, TypeError) as error:
                raise PondError("{unit} is not a unit that fits here; write for example {example}",
                                unit=piece["unit"] or last, example=example) from error  # fmt: skip
            total += number * slope + offset
        position = piece.end()
    if total > 1e12:
        raise PondError("{text} is too much to be real", text=text.strip())
    return total


def written(unit: str) -> str:
    """How a unit is written for people."""
    return WRITTEN.get(unit, unit)


def unit_for(kind: str, system: str) -> str:
    """The unit that a field of this kind takes when only a number is typed, as written."""
    return written(KINDS[kind].units[system])


def value_in(value: float, kind: str, system: str) -> float:
    """An SI value in the system's usual unit of the kind."""
    about = KINDS[kind]
    if about.si == "-":
        return value
    slope, offset = _factor(about.units[system], about.si)
    return (value - offset) / slope


def significant(number: float, digits: int = 3) -> str:
    """A number rounded to so many significant digits, without an exponent or idle zeros."""
    if number == 0:
        return "0"
    text = f"{number:.{digits}g}"
    if "e" in text:
        text = f"{float(text):.0f}" if abs(number) >= 1 else f"{float(text):.9f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return text


def show(value: float, kind: str, system: str, digits: int = 3) -> str:
    """An SI value as text with its unit, in the reader's system."""
    if kind == "duration" and value >= 120:
        return f"{significant(value / 60, digits)} min"
    kind = _handier(kind, value, system)
    number = significant(value_in(value, kind, system), digits)
    return f"{number} {unit_for(kind, system)}".strip()


def _handier(kind: str, value: float, system: str) -> str:
    """Grams for a little mass, grams a litre for a strong solution: numbers people can say."""
    if kind == "mass" and 0 < value_in(value, kind, system) < 1:
        return "small_mass"
    if kind == "concentration" and value >= STRONG:
        return "salt"
    return kind


def show_range(low: float, high: float, kind: str, system: str, digits: int = 2) -> str:
    """A range of SI values as text, with its unit once; a single value where both read alike."""
    kind = _handier(kind, high, system)
    least, most = (significant(value_in(value, kind, system), digits) for value in (low, high))
    numbers = most if least == most else f"{least} to {most}"
    return f"{numbers} {unit_for(kind, system)}".strip()


def edit_text(value: float, kind: str, system: str) -> str:
    """An SI value as a number to edit in a field of this kind, with nothing lost that matters."""
    return significant(value_in(value, kind, system), 6)


def rewritten(text: str, kind: str, before: str, after: str) -> str:
    """A text typed in one system as it would be typed in another; nonsense stays as it is."""
    try:
        return edit_text(parse(text, kind, before), kind, after)
    except PondError:
        return text


# The kind that shows an amount of this SI unit when nothing better is known.
_KIND_OF = {
    "m3": "volume", "m3/s": "flow", "m": "length", "kg": "mass", "s": "duration", "W": "power",
    "m2": "area", "K": "temperature", "kg/m3": "concentration",
}  # fmt: skip


def tell(message: Message, system: str) -> str:
    """A core message in the reader's own units."""
    filled = {}
    for key, value in message.values.items():
        if isinstance(value, Amount):
            kind = _KIND_OF.get(value.unit)
            filled[key] = show(value.value, kind, system) if kind else str(value)
        else:
            filled[key] = value
    return message.template.format_map(filled)
