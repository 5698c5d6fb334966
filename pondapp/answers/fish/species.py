"""Common pond fish: how long they grow, the room and company they want, and what keeps them well.

All figures are what keepers commonly say; none was compared with a printed table.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from pondapp.answers.water.volume import found_basin, water_volume
from pondapp.core.base.errors import PondError
from pondapp.core.base.messages import Amount, Message
from pondapp.models.pond import Pond
from pondapp.models.water import TypedVolume
from pondapp.words import t

Family = Literal["goldfish", "koi", "orfe", "tench", "rudd", "sterlet", "minnow", "stickleback",
                 "bitterling"]  # fmt: skip
SMALL = 0.12  # m; grown, a mouthful for the large ones
LARGE = 0.40
GRAZERS: tuple[Family, ...] = ("goldfish", "koi", "orfe", "rudd")
"""Those that eat a bottom feeder's food before it gets there."""


@dataclass(frozen=True, slots=True)
class Species:
    """A kind of pond fish by its name in the trade.

    Attributes:
        name: In English.
        family: Kinds of one family swim together as one shoal.
        grown: Usual length of a grown fish [m].
        shoal: Least number to keep together.
        volume: Least water of its pond [m3].
        depth: Least depth at the deepest place [m].
        care: What to know of it, in English.
        slow: Whether others are quicker at the food.
        salt: Whether it bears salt as carp do.
    """

    name: str
    family: Family
    grown: float
    shoal: int
    volume: float
    depth: float
    care: str
    slow: bool = False
    salt: bool = True

    @property
    def wants(self) -> tuple[Message, ...]:
        """Its length, room and company."""
        room = Message(
            "Usual length of grown fish: {grown}. Room: {volume} of water or more, and a place "
            "{depth} deep or deeper.",
            {
                "grown": Amount(self.grown, "width"),
                "volume": Amount(self.volume, "m3"),
                "depth": Amount(self.depth, "width"),
            },
        )
        return (room, _shoal(self.shoal)) if self.shoal > 1 else (room,)


def _shoal(least: int) -> Message:
    return Message(
        "It wants company: keep {least} or more together.", {"least": Amount(least, "-")}
    )


SPECIES: Mapping[str, Species] = {
    "goldfish": Species(
        "Goldfish", "goldfish", 0.25, 3, 1.0, 0.8,
        "Hardy and peaceful. It breeds freely: leave room for the young, or there will soon be too "
        "many.",
    ),
    "comet": Species(
        "Comet", "goldfish", 0.30, 3, 1.5, 0.8,
        "A quick, hardy goldfish with a long tail. Give it length to swim.",
    ),
    "sarasa": Species(
        "Sarasa comet", "goldfish", 0.30, 3, 1.5, 0.8,
        "A red and white comet: hardy, quick, and in want of length to swim.",
    ),
    "shubunkin": Species(
        "Shubunkin", "goldfish", 0.25, 3, 1.0, 0.8,
        "A goldfish of many colours. Keep it as you would a plain one.",
    ),
    "fancy": Species(
        "Fancy goldfish", "goldfish", 0.20, 2, 0.5, 0.8,
        "Round and slow. It does not bear winter outside everywhere: where ponds freeze, bring it "
        "into cool water indoors in autumn.",
        slow=True,
    ),
    "koi": Species(
        "Koi", "koi", 0.70, 3, 10.0, 1.5,
        "It grows fast and eats much: it wants a large filter, depth, and clean water all year. It "
        "digs up plants.",
    ),
    "orfe": Species(
        "Golden orfe", "orfe", 0.45, 5, 6.0, 1.0,
        "A quick shoal fish of the surface. It is among the first to suffer when oxygen is short: "
        "keep the water moving on hot nights. It jumps.",
        salt=False,
    ),
    "tench": Species(
        "Tench", "tench", 0.40, 2, 3.0, 0.8,
        "Shy, and at home at the bottom among plants and on soft ground. Give it sinking food "
        "towards evening.",
    ),
    "rudd": Species(
        "Rudd", "rudd", 0.30, 5, 3.0, 0.8,
        "A shoal fish of the surface that also nibbles soft plants. It breeds freely.",
    ),
    "sterlet": Species(
        "Sterlet", "sterlet", 0.80, 1, 15.0, 1.2,
        "It wants cool water with much oxygen, open ground, and sinking food of its own in the "
        "cold months too. Keep blanket weed away: it is caught in it and dies.",
        salt=False,
    ),
    "minnow": Species(
        "Minnow", "minnow", 0.10, 10, 1.0, 0.6,
        "A small shoal fish of cool, clear, moving water with much oxygen.",
    ),
    "stickleback": Species(
        "Three-spined stickleback", "stickleback", 0.07, 3, 0.5, 0.5,
        "Keep it without other fish: a male guards his nest and bites. It eats live food, seldom "
        "flakes.",
    ),
    "bitterling": Species(
        "Bitterling", "bitterling", 0.08, 5, 0.5, 0.6,
        "Small and peaceful. It breeds only in living freshwater mussels, which seldom last in a "
        "garden pond. Take neither from the wild.",
    ),
}  # fmt: skip
"""By the id that is stored with a group of fish."""


@dataclass(frozen=True, slots=True)
class Picked:
    """A group of fish as far as it is entered: its kind, none where it is of no list; how many."""

    species: Species | None
    count: int | None = None


def remarks(pond: Pond, groups: Sequence[Picked]) -> tuple[tuple[Message, ...], ...]:
    """What does not fit the kind of each group: room, company and the other kinds.

    Nothing said is no proof that a kind does well: these are rules of thumb for a few dangers.
    """
    return tuple(tuple(_remarks(pond, groups, group)) for group in groups)


def _remarks(pond: Pond, groups: Sequence[Picked], group: Picked) -> Iterator[Message]:
    kind = group.species
    if kind is None:
        return
    yield from _room(pond, kind)
    alike = [one.count for one in groups if one.species and one.species.family == kind.family]
    # A count that is still to be typed is not known to be too small.
    numbers = [count for count in alike if count is not None]
    if len(numbers) == len(alike) and sum(numbers) < kind.shoal:
        yield _shoal(kind.shoal)
    yield from _company(kind, [one.species for one in groups if one.species])


def _room(pond: Pond, kind: Species) -> Iterator[Message]:
    try:
        volume, depth = water_volume(pond), _depth(pond)
    except PondError:
        return  # the pond's own screen says what is wrong with its shape
    if volume < kind.volume:
        yield Message(
            "This kind wants {least} of water or more; the pond holds {have}.",
            {"least": Amount(kind.volume, "m3"), "have": Amount(volume, "m3")},
        )
    least = Amount(kind.depth, "width")
    if depth is None:
        yield Message(
            "This kind wants a place {least} deep or deeper. How deep the pond is, is not known: "
            "draw its shape.",
            {"least": least},
        )
    elif depth < kind.depth:
        yield Message(
            "This kind wants a place {least} deep or deeper; the pond is {have} deep.",
            {"least": least, "have": Amount(depth, "width")},
        )


def _depth(pond: Pond) -> float | None:
    """Of the deepest basin [m]; none while nothing is drawn."""
    if isinstance(pond.water, TypedVolume):
        return None
    return max((found_basin(drawn).depth for drawn in pond.water.basins), default=None)


def _company(kind: Species, kinds: Iterable[Species]) -> Iterator[Message]:
    """What the other kinds do to this one, or this one to them."""
    others = [one for one in dict.fromkeys(kinds) if one.family != kind.family]
    if kind.family == "stickleback":
        if others:
            yield _said("Best kept without other fish. Here with it: {fish}.", others)
    elif any(one.family == "stickleback" for one in others):
        yield Message("Sticklebacks bite other fish: they are best kept alone.")
    if kind.grown <= SMALL:
        eaters = [one for one in others if one.grown >= LARGE and one.family != "sterlet"]
        if eaters:
            yield _said("Fish that may eat it: {fish}.", eaters)
    if kind.family in ("sterlet", "tench"):
        grazers = [one for one in others if one.family in GRAZERS]
        if grazers:
            yield _said(
                "Fish that eat its food before it finds it: {fish}. Feed it apart, with sinking "
                "food after dark.",
                grazers,
            )
    if kind.slow:
        quicker = [one for one in dict.fromkeys(kinds) if not one.slow and one.grown > SMALL]
        if quicker:
            yield _said("Quicker at the food: {fish}. See that it gets its share.", quicker)


def _said(template: str, kinds: Sequence[Species]) -> Message:
    return Message(template, {"fish": ", ".join(t(one.name) for one in kinds)})
