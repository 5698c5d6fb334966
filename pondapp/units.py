"""What people type and read: text to SI floats and back; the only importer of pint."""

import re
from contextlib import suppress
from dataclasses import dataclass
from functools import cache
from math import isclose
from typing import Any

from pondapp import words
from pondapp.core.base.errors import PondError
from pondapp.core.base.messages import Amount, Message, Range
from pondapp.words import current_language, t, tn

SYSTEMS = ("metric", "us", "imperial")

# Only the units in use: the full registry takes twenty times as long to start in the browser.
# Values: international yard and pound agreement 1959 (NIST SP 811, appendix B); US gallon 231 in3
# (NIST Handbook 44, appendix C); imperial gallon 4.54609 L (UK Weights and Measures Act 1985).
DEFINITIONS = """
meter = [length] = m = metre = meters = metres
second = [time] = s = sec = secs = seconds = sek = sekunden = sekund = sekundy
kilogram = [mass] = kg = kilo = kilos = kilogramme = kilograms = kilogramm
kelvin = [temperature]; offset: 0 = K
degree_Celsius = kelvin; offset: 273.15 = degC = celsius
degree_Fahrenheit = 5 / 9 * kelvin; offset: 233.15 + 200 / 9 = degF = fahrenheit
millimeter = 0.001 * meter = mm = millimetre
centimeter = 0.01 * meter = cm = centimetre
inch = 0.0254 * meter = in = inches = zoll = cal = cale = cali
foot = 0.3048 * meter = ft = feet
yard = 0.9144 * meter = yd = yards
minute = 60 * second = min = mins = minutes = minuten = minut = minuty
hour = 3600 * second = h = hr = hours = std = stunden = godz = godzin = godziny
day = 86400 * second = d = days = tage = dni
year = 31557600 * second = years
gram = 0.001 * kilogram = g = grams = gramm
milligram = 0.001 * gram = mg
pound = 0.45359237 * kilogram = lb = lbs = pounds
ounce = 0.028349523125 * kilogram = oz = ounces
liter = 0.001 * meter ** 3 = l = L = litre = litres = liters = litr = litry
milliliter = 0.000001 * meter ** 3 = ml = mL = millilitre
us_gallon = 231 * inch ** 3 = usgal
imperial_gallon = 4.54609 * liter = impgal = ukgal
us_quart = us_gallon / 4 = usqt
imperial_quart = imperial_gallon / 4 = impqt
us_pint = us_gallon / 8 = uspt
imperial_pint = imperial_gallon / 8 = imppt
us_fluid_ounce = us_gallon / 128 = usfloz
imperial_fluid_ounce = imperial_gallon / 160 = impfloz
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
kilopascal = 1000 * pascal = kPa
per_hour = 1 / hour = perh
per_day_share = 0.01 / day = pctpd
per_kilogram_rate = 0.000001 / hour = mgkgh
per_square_meter = 1 / meter ** 2 = persqm
per_square_foot = 1 / foot ** 2 = persqft
per_kilowatt_hour = 1 / kilowatt_hour = perkWh
light_dose = 10 * joule / meter ** 2 = mJsqcm
per_meter = 1 / meter = perm
per_foot = 1 / foot = perft
per_liter = 1 / liter = perL
per_us_gallon = 1 / us_gallon = perusgal
per_imperial_gallon = 1 / imperial_gallon = perimpgal
media_rate = gram / meter ** 2 / day = gsqmd
kelvin_step = kelvin = warmer
celsius_step = kelvin = stepC
fahrenheit_step = 5 / 9 * kelvin = stepF
german_degree = 0.017848 * gram / liter = dH
parts_per_million = 0.001 * gram / liter = ppm
pound_per_cubic_foot = pound / foot ** 3 = pcf
""".strip().splitlines()


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of quantity: its SI unit and, by system, the unit people use and how it is written."""

    si: str
    units: dict[str, str]


def _gallons(metric: str, rest: str) -> dict[str, str]:
    return {"metric": metric, "us": f"us{rest}", "imperial": f"imp{rest}"}


def _everywhere(unit: str) -> dict[str, str]:
    return dict.fromkeys(SYSTEMS, unit)


def _feet(metric: str, rest: str) -> dict[str, str]:
    return {"metric": metric, "us": rest, "imperial": rest}


KINDS = {
    "volume": Kind("m3", _gallons("L", "gal")),
    "little_volume": Kind("m3", _gallons("mL", "floz")),
    "flow": Kind("m3/s", _gallons("L/h", "gph")),
    "length": Kind("m", {"metric": "m", "us": "ft", "imperial": "ft"}),
    "width": Kind("m", {"metric": "cm", "us": "in", "imperial": "in"}),
    "head": Kind("m", {"metric": "m", "us": "ft", "imperial": "ft"}),
    "mass": Kind("kg", {"metric": "kg", "us": "lb", "imperial": "lb"}),
    "small_mass": Kind("kg", {"metric": "g", "us": "oz", "imperial": "oz"}),
    "grams": Kind("kg", _everywhere("g")),
    "milligrams": Kind("kg", _everywhere("mg")),
    "little_area": Kind("m2", _feet("cm**2", "in**2")),
    "area": Kind("m2", {"metric": "m**2", "us": "ft**2", "imperial": "ft**2"}),
    "temperature": Kind("K", {"metric": "degC", "us": "degF", "imperial": "degC"}),
    "warming": Kind("warmer", {"metric": "stepC", "us": "stepF", "imperial": "stepC"}),
    "salt": Kind("kg/m3", dict.fromkeys(SYSTEMS, "g/L")),
    "concentration": Kind("kg/m3", dict.fromkeys(SYSTEMS, "mg/L")),
    # As calcium carbonate: Ca + C + 3 O over Ca + O, times the 10 mg/L of CaO in a degree.
    "hardness": Kind("kg/m3", {"metric": "dH", "us": "ppm", "imperial": "ppm"}),
    # Water meters count in other units than ponds are talked about in.
    "water_meter": Kind("m3", {"metric": "m**3", "us": "usgal", "imperial": "m**3"}),
    "duration": Kind("s", {"metric": "s", "us": "s", "imperial": "s"}),
    "power": Kind("W", {"metric": "W", "us": "W", "imperial": "W"}),
    "number": Kind("-", {"metric": "", "us": "", "imperial": ""}),
    "money": Kind("-", _everywhere("")),
    "share": Kind("-", _everywhere("%")),
    "small": Kind("m", _feet("mm", "in")),
    "bore": Kind("m", _feet("mm", "in")),
    "velocity": Kind("m/s", _feet("m/s", "ft/s")),
    "exchange": Kind("m/s", _everywhere("m/d")),
    "minutes": Kind("s", _everywhere("min")),
    "hours": Kind("s", _everywhere("h")),
    "days": Kind("s", _everywhere("d")),
    "density": Kind("kg/m3", _feet("kg/m**3", "pcf")),
    "pressure": Kind("Pa", _everywhere("kPa")),
    "energy": Kind("J", _everywhere("kWh")),
    "dose": Kind("J/m2", _everywhere("mJsqcm")),
    "tariff": Kind("1/J", _everywhere("perkWh")),
    "turnover": Kind("1/s", _everywhere("perh")),
    "ration": Kind("1/s", _everywhere("pctpd")),
    "respiration": Kind("1/s", _everywhere("mgkgh")),
    "flow_per_width": Kind("m2/s", {"metric": "L/h/cm", "us": "usgph/in", "imperial": "impgph/in"}),
    "viscosity": Kind("m2/s", _everywhere("mm**2/s")),
    "price_length": Kind("1/m", _feet("perm", "perft")),
    "price_volume": Kind("1/m3", {"metric": "perL", "us": "perusgal", "imperial": "perimpgal"}),
    "price_area": Kind("1/m2", _feet("persqm", "persqft")),
    "per_area": Kind("1/m2", _feet("persqm", "persqft")),
    "media_rate": Kind("kg/m2/s", _everywhere("gsqmd")),
    "daily_mass": Kind("kg/s", _everywhere("g/d")),
}

PRICES = frozenset(("money", "tariff", "price_length", "price_area", "price_volume"))
"""Kinds that are in the reader's currency."""
# The sizes that hoses are called by. Either list is only another name for a hose in the other.
HOSES_MM = (13, 16, 19, 20, 25, 32, 38, 40, 50, 63, 75, 90, 110)
HOSES_IN = {
    "1/2": 0.5, "5/8": 0.625, "3/4": 0.75, "1": 1.0, "1 1/4": 1.25, "1 1/2": 1.5, "2": 2.0,
    "2 1/2": 2.5, "3": 3.0, "4": 4.0,
}  # fmt: skip
EDIT_DIGITS = {"water_meter": 10, "number": 10, "money": 10}
"""Of what is told apart by its last digits: a meter before and after, a price."""
MOST_TYPED = 6  # digits that somebody types for an amount
TOLD = 3  # digits that a tape, a scale or a bucket can tell; all of those before the mark
SAME = 1e-9  # share by which two numbers may differ that are the same one
LITTLE_MONEY = 10.0  # below this the cents of a cost are worth telling
LITTLE_HEAD = 0.1  # m; below this a head is told as a small length
FOOT = 0.3048  # m; below this, who measures in feet takes inches
GRAM, LITTLE_OUNCE = 1e-3, 2.8e-3  # kg; below a tenth of an ounce everybody weighs in grams
LITTLE_VOLUME = 5e-5  # m3; below this a volume is told in millilitres or fluid ounces
LITTLE_AREA = 0.05  # m2; below this an area is told in square centimetres or inches
LEAST_TOLD = {
    "concentration": 1e-6,  # kg/m3; no test of a pond's water shows less
    "flow": 0.1 / 3.6e6,  # m3/s; a drop a second, which nobody catches in a bucket
    "head": 1e-4,  # m; no water level stands stiller
    "share": 1e-4,  # [-]; nobody tells such a chance from none
}
"""By kind, what is only told as less than that."""
LEAST_PART = {"head": 0.01}
"""By kind, what of a part is only told as less than that, beside the others in one unit [m]."""
LITTLE = 0.1  # of a unit; a number below it has two digits at most, as people say it
STRONG = 0.1  # kg/m3; from here on a solution is told in grams a litre
COUNTED_IN_THOUSANDS = frozenset(("volume", "flow", "small_mass", "width", "power", "density"))
"""Fields in which "1,500" is fifteen hundred, as it is shown; in one of metres it may be 1.5."""

# How a unit is written for people; pint's own name where it is not listed.
WRITTEN = {
    "usgal": "gal", "impgal": "gal", "usgph": "gal/h", "impgph": "gal/h", "m**3": "m³",
    "usfloz": "fl oz", "impfloz": "fl oz", "cm**2": "cm²", "in**2": "in²",
    "m**2": "m²", "ft**2": "ft²", "degC": "°C", "degF": "°F", "d": "days", "m/d": "m a day",
    "stepC": "°C", "stepF": "°F",
    "mJsqcm": "mJ/cm²",
    "dH": "°dH", "kg/m**3": "kg/m³", "pcf": "lb/ft³", "perkWh": "per kWh", "perh": "an hour",
    "perm": "per m", "perft": "per ft", "perL": "per L", "perusgal": "per gal",
    "perimpgal": "per gal",
    "pctpd": "% a day", "mgkgh": "mg/kg an hour", "L/h/cm": "L/h per cm",
    "usgph/in": "gal/h per in", "impgph/in": "gal/h per in", "mm**2/s": "mm²/s",
    "persqm": "per m²", "persqft": "per ft²", "gsqmd": "g/m² a day", "g/d": "g a day",
}  # fmt: skip

_GALLON_WORDS = {
    "gal": "gal", "gals": "gal", "gallon": "gal", "gallons": "gal", "qt": "qt", "quart": "qt",
    "quarts": "qt", "pt": "pt", "pint": "pt", "pints": "pt", "gph": "gph", "gpm": "gpm",
}  # fmt: skip
_SIGNS = {"'": "ft", "′": "ft", "’": "ft", '"': "in", "″": "in", "”": "in", "''": "in", "°c": "degC", "°f": "degF", "c": "degC", "f": "degF", "dh": "dH", "°dh": "dH", "litrów": "L"}  # noqa: E501  # fmt: skip
_FRACTIONS = {"½": "1/2", "¼": "1/4", "¾": "3/4"}
_PLAIN_UNIT = re.compile(r"[A-Za-z]+(\*\*[23])?(/[A-Za-z]+(\*\*[23])?){0,2}")
# By decimal mark: three digits after the other mark may be thousands, or may not.
_GROUPS = {
    ".": re.compile(r"(?<!\d)([1-9]\d{0,2}),(\d{3})(?!\d)"),
    ",": re.compile(r"(?<!\d)([1-9]\d{0,2})\.(\d{3})(?!\d)"),
}
_PIECE = re.compile(
    r"\s*(?P<number>\d+\s+\d+/\d+|\d+/\d+|\d+(?:\.\d+)?|\.\d+)\s*"
    r"(?P<unit>''|[^\d\s.]+(?:\^?[23](?=\s*/\s*[A-Za-z]))?(?:\s*/\s*[A-Za-z]+)?(?:\^?[23])?)?"
)


# Reading pint takes as long as a quarter of a start. The first screen shows volumes only.
FIRST_SHOWN = {
    ("L", "m3"): (0.001, 0.0),
    ("usgal", "m3"): (0.003785411784, 0.0),
    ("impgal", "m3"): (0.00454609, 0.0),
}


@cache
def _registry() -> Any:
    from pint import UnitRegistry

    registry: Any = UnitRegistry(None, cache_folder=None)
    registry.load_definitions(DEFINITIONS)
    return registry


@cache
def _factor(unit: str, si: str) -> tuple[float, float]:
    """Slope and offset from a unit to SI, so that a screen full of numbers costs one look-up.

    Raises:
        ValueError: The text is not the name of a unit; nothing else typed reaches the parser.
    """
    if (known := FIRST_SHOWN.get((unit, si))) is not None:
        return known
    if not _PLAIN_UNIT.fullmatch(unit):
        raise ValueError(unit)
    return _by_pint(unit, si)


def get_ready() -> None:
    """Read pint now, so that the first key in a field does not wait for it."""
    _registry()


def _by_pint(unit: str, si: str) -> tuple[float, float]:
    registry = _registry()
    si = re.sub(r"(?<=[a-z])([23])", r"**\1", si)
    zero = registry.Quantity(0.0, unit).to(si).magnitude
    return float(registry.Quantity(1.0, unit).to(si).magnitude - zero), float(zero)


def _number(text: str) -> float:
    *whole, rest = text.split()  # at any kind of space
    if "/" in rest:
        top, _, bottom = rest.partition("/")
        if float(bottom) == 0:
            raise PondError("{text} divides by nothing", text=text)
        return (float(whole[0]) if whole else 0.0) + float(top) / float(bottom)
    return float(rest)


def _plain(text: str, kind: str, system: str, decimal: str) -> str:
    """Numbers with a point and no thousands marks; fractions spelled out."""
    for sign, spelled in _FRACTIONS.items():
        text = text.replace(sign, f" {spelled}")
    text = re.sub(r"(?<=\d)[\u00a0\u2009\u202f'](?=\d{3}(?!\d))", "", text)
    text = re.sub(r"\b(\d{1,3}) (?=\d{3}\b(?!/))", r"\1", text)
    if re.search(r"\d{1,3}(,\d{3})+\.\d", text) or re.search(r"\d{1,3}(,\d{3}){2,}", text):
        text = re.sub(r",(?=\d{3})", "", text)
    elif re.search(r"\d{1,3}(\.\d{3})+,\d|\d{1,3}(\.\d{3}){2,}", text):
        text = re.sub(r"\.(?=\d{3})", "", text)
    elif match := re.search(_GROUPS[decimal], text):
        unit = f"{text[: match.start()]}{text[match.end() :]}".strip().lower()
        shown = decimal != current_language().decimal or match[0][-4] == current_language().group
        usual = unit in ("", unit_for(kind, system).lower())
        in_thousands = kind in COUNTED_IN_THOUSANDS and usual and shown
        if not in_thousands and (decimal == "," or system == "metric"):
            raise PondError(
                "{text} can be read two ways: write {whole}{part} or {whole}{mark}{part}",
                text=text.strip(),
                whole=match[1],
                mark=decimal,
                part=match[2],
            )
        text = text.replace("," if decimal == "." else ".", "")
    return text.replace(",", ".")


# Units with a capital inside, however they are typed.
_CAPITALS = {"kpa": "kPa", "kw": "kW", "kwh": "kWh"}


def _unit(word: str, system: str) -> str:
    cleaned = re.sub(r"\s+", "", word).rstrip(".")
    lower = cleaned.lower()
    if lower in _SIGNS:
        return _SIGNS[lower]
    head, slash, rest = lower.partition("/")
    if head in _GALLON_WORDS:
        prefix = "us" if system == "us" else "imp"
        return prefix + _GALLON_WORDS[head] + slash + rest
    if cleaned in ("K", "W", "N", "J", "L", "Pa", "degC", "degF"):
        return cleaned
    if lower in _CAPITALS:
        return _CAPITALS[lower]
    return re.sub(r"\^?([23])(?=/|$)", r"**\1", lower.replace("³", "3").replace("²", "2"))


def parse(text: str, kind: str, system: str, decimal: str | None = None) -> float:
    """Read what somebody typed: "1,5", "1.5 m", "5 ft 6 in", "2 gal", "1 1/2 in".

    Args:
        text: The text as typed. A number without a unit takes the field's unit.
        kind: A key of KINDS.
        system: "metric", "us" or "imperial"; says which gallon is meant.
        decimal: The mark that it was typed with; None is that of the language in use.

    Returns:
        The value in the kind's SI unit.

    Raises:
        PondError: The text is no amount of this kind; the message says what would be.

    Example:
        >>> round(parse("5 ft 6 in", "length", "us"), 4), parse("1,5", "length", "metric")
        (1.6764, 1.5)
    """
    about = KINDS[kind]
    field_unit = about.units[system]
    example = f"{words.number('2.5')} {written(field_unit)}".strip()
    # Half typed, "0." is on its way to "0.5": nothing is wrong with it yet.
    decimal = decimal or current_language().decimal
    if kind in PRICES and (currency := words.current_currency()):
        text = text.replace(currency, " ")
    plain = _plain(text.strip().removeprefix("+"), kind, system, decimal)
    plain = re.sub(r"(?<=\d)[.,]$", "", plain)
    if not plain:
        raise PondError("nothing is entered; write for example {example}", example=example)
    if len(plain) > 60:
        raise PondError("that is too long to be an amount; write for example {example}",
                        example=example)  # fmt: skip
    if plain.startswith(("-", "−")):
        raise PondError("{text} is below zero; write an amount above zero", text=text.strip())
    total, position, last = 0.0, 0, ""
    if re.search(r"\d[eE][+-]?\d", plain):  # as computers write them, and nobody else
        raise PondError("{text} is not an amount; write for example {example}",
                        text=text.strip(), example=example)  # fmt: skip
    while position < len(plain):
        piece = _PIECE.match(plain, position)
        if piece is None:
            raise PondError("{text} is not an amount; write for example {example}",
                            text=text.strip(), example=example)  # fmt: skip
        number = _number(piece["number"])
        if piece["unit"]:
            last = _unit(piece["unit"], system)
            if kind == "warming":  # three degrees warmer are no temperature of three degrees
                last = {"degC": "stepC", "degF": "stepF"}.get(last, last)
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
            percent = (piece["unit"] or field_unit) == "%"
            total += number / 100 if percent else number
        else:
            from pint.errors import PintError

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
    return t(WRITTEN[unit]) if unit in WRITTEN else unit


def unit_for(kind: str, system: str) -> str:
    """The unit that a field of this kind takes when only a number is typed, as written."""
    unit = written(KINDS[kind].units[system])
    return f"{words.current_currency()} {unit}".strip() if kind in PRICES else unit


def value_in(value: float, kind: str, system: str) -> float:
    """An SI value in the system's usual unit of the kind."""
    about = KINDS[kind]
    if about.si == "-":
        return 100 * value if about.units[system] == "%" else value
    slope, offset = _factor(about.units[system], about.si)
    return (value - offset) / slope


def machine_number(number: float, digits: int = 3) -> str:
    """A number rounded to so many significant digits, with a decimal point in every language."""
    if number == 0:
        return "0"
    text = f"{number:.{digits}g}"
    if "e" in text:
        text = f"{float(text):.0f}" if abs(number) >= 1 else f"{float(text):.9f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return text


def significant(number: float, digits: int = 3) -> str:
    """A number rounded to so many significant digits, without an exponent or idle zeros.

    >>> significant(0.012345), significant(1234567.0)
    ('0.0123', '1230000')
    """
    return words.number(machine_number(number, digits))


def fixed(number: float, places: int) -> str:
    """A number with so many digits after its decimal mark."""
    return words.number(f"{number:.{places}f}")


def readable(number: float, digits: int = 3) -> str:
    """A number rounded to so many significant digits, as it stands in a sentence or on a chart."""
    return words.grouped(significant(number, digits))


def _readable_in(value: float, kind: str, system: str, digits: int) -> str:
    """A value in the reader's unit; feet and inches as a tape shows them, to a tenth at most."""
    number = value_in(value, kind, system)
    if digits <= 3 and KINDS[kind].units[system] in ("ft", "in"):
        if abs(number) < 1:
            return readable(number, min(digits, 2))
        number = round(number, 1)
    if digits <= TOLD and abs(number) < LITTLE:
        return readable(number, min(digits, 2))
    return readable(number, digits)


def _price(value: float, kind: str, system: str) -> str:
    """A price with the digits that it has, and two behind the mark if it has any there."""
    text = machine_number(value_in(value, kind, system))
    tenths_only = len(text.partition(".")[2]) == 1
    return words.grouped(words.number(f"{text}0" if tenths_only else text))


def show(value: float, kind: str, system: str, digits: int = 3) -> str:
    """An SI value as text with its unit, in the reader's system.

    >>> show(1e-3, "flow", "metric"), show(1e-3, "flow", "us")
    ('3,600 L/h', '951 gal/h')
    """
    if kind == "money":
        return about_money(value)
    if kind in PRICES:
        return f"{words.sums(_price(value, kind, system))} {written(KINDS[kind].units[system])}"
    if kind == "duration" and value >= 120:
        return f"{readable(value / 60, digits)} min"
    if digits <= TOLD and 0 < value < LEAST_TOLD.get(kind, 0.0) * (1.0 - SAME):
        return t("under {least}", least=show(LEAST_TOLD[kind], kind, system, 1))
    kind = _handier(kind, value, system)
    number = _readable_in(value, kind, system, digits)
    if kind == "concentration" and 0 < value < 10 * LEAST_TOLD[kind]:
        number = fixed(value_in(value, kind, system), 3)
    return f"{number} {unit_for(kind, system)}".strip()


def _handier(kind: str, value: float, system: str) -> str:
    """Grams for a little mass, millimetres for a little head: numbers people can say."""
    if kind == "head" and 0 < value < LITTLE_HEAD:
        return "small"
    if kind in ("length", "head") and system != "metric" and 0 < value < FOOT * (1.0 - 1e-9):
        return "small"
    if kind in ("mass", "small_mass") and 0 < value < GRAM / 10:
        return "milligrams"
    if kind in ("mass", "small_mass") and 0 < value < LITTLE_OUNCE:
        return "grams"
    if kind == "mass" and 0 < value_in(value, kind, system) < 1:
        return "small_mass"
    if kind == "area" and 0 < value < LITTLE_AREA:
        return "little_area"
    if kind == "volume" and 0 < value < LITTLE_VOLUME:
        return "little_volume"
    if kind == "concentration" and value >= STRONG:
        return "salt"
    return kind


def show_part(value: float, whole: float, kind: str, system: str, digits: int = 2) -> str:
    """An SI value in the unit in which the whole is told that it is a part of.

    >>> show_part(0.15, 1.3, "head", "metric"), show_part(0.0035, 1.3, "head", "metric")
    ('0.15 m', 'under 0.01 m')
    """
    told, least = _handier(kind, whole, system), LEAST_PART.get(kind, 0.0)
    if told == kind and 0.0 < value < least * (1.0 - SAME):
        number = _readable_in(least, kind, system, 1)
        return t("under {least}", least=f"{number} {unit_for(kind, system)}")
    return f"{_readable_in(value, told, system, digits)} {unit_for(told, system)}".strip()


def show_range(low: float, high: float, kind: str, system: str, digits: int = 2) -> str:
    """A range of SI values as text, with its unit once; a single value where both read alike."""
    floor = LEAST_TOLD.get(kind, 0.0) * (1.0 - SAME)
    if 0 < high < floor:
        return show(high, kind, system)
    low, kind = (0.0 if low < floor else low), _handier(kind, high, system)
    least, most = (_readable_in(value, kind, system, digits) for value in (low, high))
    numbers = most if least == most else t("{least} to {most}", least=least, most=most)
    return f"{numbers} {unit_for(kind, system)}".strip()


def limit(value: float, kind: str, system: str, *, most: bool) -> str:
    """A limit as text, with as many digits as it takes that what is shown keeps to it."""
    for digits in (3, 4, 5, 6):
        text = show(value, kind, system, digits)
        with suppress(PondError):
            read = parse(text, kind, system)
            if read <= value if most else read >= value:
                break
    return text


def nominal(bore: float, system: str) -> str:
    """The size that a hose of this bore is called by where the reader buys it.

    >>> nominal(0.050, "us"), nominal(0.0508, "metric")
    ('2 in', '50 mm')
    """
    if unit_for("bore", system) == "mm":
        return show(min(HOSES_MM, key=lambda size: abs(size - bore * 1e3)) / 1e3, "bore", system)
    size = min(HOSES_IN, key=lambda size: abs(HOSES_IN[size] * 0.0254 - bore))
    return f"{size} {unit_for('bore', system)}"


def money(value: float) -> str:
    """A sum to the cent in the reader's currency."""
    return words.sums(words.grouped(fixed(value, 2)))


def about_money(low: float, high: float | None = None) -> str:
    """A sum that is only worked out, or a range of it: to the cent only where it is little."""
    ends = [low] if high is None else [low, high]
    told = [words.grouped(fixed(one, 2 if 0 < abs(one) < LITTLE_MONEY else 0)) for one in ends]
    return words.sums(*dict.fromkeys(told))


def by_month_and_year(low: float, high: float | None = None) -> str:
    """A cost of a year, as people hear it from a bill and as they add it up."""
    most = None if high is None else high / 12.0
    return t(
        "{month} a month, {year} a year",
        month=about_money(low / 12.0, most),
        year=about_money(low, high),
    )


def edit_text(value: float, kind: str, system: str, digits: int | None = None) -> str:
    """An SI value as a number to edit in a field of this kind.

    It is the number that was typed, if that had few digits, else one rounded to what its unit can
    tell: see `exact_text` and `as_stored` for what is lost then.

    >>> edit_text(3.2, "head", "metric"), edit_text(3.2, "head", "us")
    ('3.2', '10.5')
    """
    number = value_in(value, kind, system)
    if digits or kind in EDIT_DIGITS:
        return significant(number, digits or EDIT_DIGITS[kind])
    for few in range(1, MOST_TYPED + 1):
        if isclose(float(machine_number(number, few)), number, rel_tol=SAME):
            return significant(number, few)
    whole = len(f"{abs(number):.0f}")
    behind = 2 if KINDS[kind].units[system] in ("m", "ft") else 0
    return significant(number, max(TOLD, whole + behind))


def exact_text(value: float, kind: str, system: str) -> str:
    """What stands beside the text of a field, so that it means all of an SI value; mostly empty."""
    with suppress(PondError):  # of what is below zero, which nobody can type
        read = parse(edit_text(value, kind, system), kind, system)
        return "" if isclose(read, value, rel_tol=SAME) else repr(value)
    return ""


def as_stored(read: float, exact: str, kind: str, system: str) -> float:
    """The amount of a field: what stands beside its text, if nobody has changed the text since.

    >>> as_stored(parse("10.5", "head", "us"), "3.2", "head", "us")
    3.2
    """
    with suppress(PondError, ValueError, OverflowError):
        stored = float(exact)
        if isclose(parse(edit_text(stored, kind, system), kind, system), read, rel_tol=SAME):
            return stored
    return read


def rewritten(
    text: str, kind: str, before: str, after: str, point: str, exact: str = ""
) -> tuple[str, str]:
    """A text typed in one system, with this decimal mark, as it would be typed in another now.

    Where the unit stays, so do the words that it was typed in; nonsense stays as it is. With it
    goes what stands beside it.
    """
    try:
        value = parse(text, kind, before, point)
    except PondError:
        return text, exact
    about = KINDS[kind]
    if about.units[before] == about.units[after]:
        with suppress(PondError):
            same = re.sub(rf"(?<=\d){re.escape(point)}(?=\d)", current_language().decimal, text)
            if isclose(parse(same, kind, after), value):
                return same, exact
    value = as_stored(value, exact, kind, before)
    return edit_text(value, kind, after), exact_text(value, kind, after)


# The kinds that show an amount of this SI unit when nothing better is known: each with the amount
# from which it is the one that people would use.
_KINDS_OF = {
    "m3": ((0.0, "volume"),),
    "m3/s": ((0.0, "flow"),),
    "m": ((0.1, "length"), (0.0, "small")),
    "width": ((0.0, "width"),),
    "bore": ((0.0, "bore"),),
    "small": ((0.0, "small"),),
    "m2": ((0.0, "area"),),
    "kg": ((0.0, "mass"),),
    "s": ((2 * 86400.0, "days"), (7200.0, "hours"), (120.0, "minutes"), (0.0, "duration")),
    "W": ((0.0, "power"),),
    "m/s": ((1e-3, "velocity"), (0.0, "exchange")),
    "K": ((0.0, "temperature"),),
    "warmer": ((0.0, "warming"),),
    "kg/m3": ((10.0, "density"), (0.0, "concentration")),
    "hardness": ((0.0, "hardness"),),
    "salt": ((0.0, "salt"),),
    "share": ((0.0, "share"),),
    "money": ((0.0, "money"),),
    "Pa": ((0.0, "pressure"),),
    "J": ((0.0, "energy"),),
    "J/m2": ((0.0, "dose"),),
    "1/J": ((0.0, "tariff"),),
    "1/s": ((1e-5, "turnover"), (0.0, "ration")),
    "m2/s": ((1e-4, "flow_per_width"), (0.0, "viscosity")),
    "1/m2": ((0.0, "per_area"),),
    "kg/m2/s": ((0.0, "media_rate"),),
    "kg/s": ((0.0, "daily_mass"),),
}


def kind_of(unit: str, value: float) -> str | None:
    """The kind that shows so much of an SI unit best; none if people have no unit of their own."""
    steps = _KINDS_OF.get(unit, ())
    return next((kind for least, kind in steps if abs(value) >= least), None)


def show_amount(value: float, unit: str, system: str, digits: int = 3, beside: float = 0.0) -> str:
    """An amount in SI as the reader would write it, whatever it is an amount of.

    One that stands beside a larger one of the same unit is told in the same kind, as long as
    that is readable.
    """
    if unit == "nominal":
        return nominal(value, system)
    kind = kind_of(unit, max(abs(value), min(beside, 10.0 * abs(value))))
    if kind:
        return show(value, kind, system, digits)
    tiny = 0 < abs(value) < 1e-4
    number = words.number(f"{value:.{digits}g}") if tiny else readable(value, digits)
    for digit, raised in (("2", "²"), ("3", "³")):
        unit = re.sub(f"(?<=[a-zA-Z]){digit}", raised, unit)
    plain = "" if unit == "-" else unit
    return f"{number} {plain}".strip()


def tell(message: Message, system: str) -> str:
    """A core message in the reader's own units and language.

    >>> tell(Message("it lifts {head}", {"head": Amount(2.0, "m")}), "us")
    'it lifts 6.6 ft'
    """
    filled = {}
    amounts = [value for value in message.values.values() if isinstance(value, Amount)]
    for key, value in message.values.items():
        if isinstance(value, Amount):
            beside = max(abs(one.value) for one in amounts if one.unit == value.unit)
            filled[key] = show_amount(value.value, value.unit, system, beside=beside)
        elif isinstance(value, Range):
            kind = kind_of(value.unit, value.high) or value.unit
            filled[key] = show_range(value.low, value.high, kind, system)
        else:
            filled[key] = t(value)
    if message.many:
        return tn(message.template, message.many, message.count, **filled)
    return t(message.template, **filled)


def explain(problem: PondError, system: str) -> str:
    """What is wrong, as a sentence in the reader's own units and language."""
    return words.sentence(tell(problem.message, system))
