"""What flow each part of a pond wants, by the rules in force or by the user's own band."""

from dataclasses import dataclass, field
from functools import partial

from pondapp.answers.features.kinds import PUMP as PUMP
from pondapp.answers.features.kinds import kind_of
from pondapp.answers.rules.working import Working, no_steps
from pondapp.answers.water.volume import water_volume
from pondapp.core.assumptions import Assumptions
from pondapp.core.assumptions.filters import PER_HOUR
from pondapp.core.base.messages import Amount, Message, phrase
from pondapp.core.base.working import ARITHMETIC, ENTERED, Step, Term
from pondapp.core.filters.bands import FlowBand as FlowBand
from pondapp.core.filters.bands import whole_pond_band
from pondapp.core.filters.turnover import whole_pond_flow
from pondapp.models.circuit import Aim as Aim
from pondapp.models.circuit import WaterFeature
from pondapp.models.pond import Pond
from pondapp.models.reading import Band
from pondapp.units import significant
from pondapp.words import t


@dataclass(frozen=True, slots=True)
class Target:
    """A place where water comes out, and the flow wanted there.

    Attributes:
        place_id: Id of the feature or the pump.
        name: Its name.
        kind: The kind of feature, or "pump".
        band: Its least, good and most flow [m3/s].
        rule: The rule that these are from.
        aim: Which of the first two the plan gives it.
        working: How the band was found.
    """

    place_id: str
    name: str
    kind: str
    band: FlowBand
    rule: Message
    aim: Aim = "least"
    working: Working = field(default=no_steps, compare=False, repr=False)

    @property
    def asked(self) -> float:
        """The flow [m3/s] that the plan gives it at least, by its aim."""
        return self.band.target if self.aim == "good" else self.band.low

    def steps(self) -> tuple[Step, ...]:
        """How the band was found."""
        return self.working()


@dataclass(frozen=True, slots=True)
class Targets:
    """A pond's volume and all its targets; the last one is the pump's."""

    volume: float
    places: tuple[Target, ...]

    def place(self, place_id: str) -> Target | None:
        """The target of one place."""
        return next((place for place in self.places if place.place_id == place_id), None)


def band_of(stored: Band) -> FlowBand:
    """A stored band as one to count with."""
    return FlowBand(low=stored.low_m3_s, target=stored.target_m3_s, high=stored.high_m3_s)


def aim_of(pond: Pond, feature: WaterFeature) -> Aim:
    """Which flow a feature is to have: its own choice, else the pond's, else by its kind."""
    return feature.aim or pond.aim or kind_of(feature).aim


def with_aim(pond: Pond, aim: Aim | None) -> Pond:
    """The pond with one aim for everything; None goes back to the usual one of each kind."""
    fed = tuple(feature.model_copy(update={"aim": None}) for feature in pond.fed)
    return pond.model_copy(update={"aim": aim, "fed": fed})


def too_much(flow: float, volume: float, rules: Assumptions) -> Message | None:
    """A word where a flow [m3/s] stirs a pond of this volume [m3] more than it should."""
    most = rules.filters.turnover_most
    if flow <= volume * most:
        return None
    return Message(
        "{flow} takes the pond's water round {times} an hour. Fish and plants want it calmer, "
        "{most} at most: a narrower lip or a larger pond would do.",
        {"flow": Amount(flow, "m3/s"), "times": _times(flow / volume), "most": _times(most)},
    )


def _times(rate: float) -> str:
    """Turnovers an hour, in words."""
    an_hour = rate / PER_HOUR
    return (
        "once" if abs(an_hour - 1.0) < 1e-9 else t("{number} times", number=significant(an_hour, 2))
    )


def own_steps(band: FlowBand) -> tuple[Step, ...]:
    """The working of a band that the user entered."""
    flows = [("least flow", band.low), ("good flow", band.target), ("most flow", band.high)]
    return tuple(
        Step(Term("Q", name, flow, "m3/s"), "Q as entered", (), ENTERED)
        for name, flow in flows
        if flow is not None
    )


def pump_steps(volume: float, rate: float, needs: list[tuple[str, float]]) -> tuple[Step, ...]:
    """The working of what the pump must deliver, from what each part is to have at least [m3/s]."""
    whole = whole_pond_flow(volume, rate)
    least = max([whole.band.target, *(low for _, low in needs)])
    parts = tuple(
        Term("Qi", phrase("flow of {name}, at least", name=name), low, "m3/s")
        for name, low in needs
    )
    turned = Term("Qt", "flow that turns the pond over", whole.band.target, "m3/s")
    wanted = Term("Q", "flow of the pump, at least", least, "m3/s")
    return (*whole.steps(), Step(wanted, "Q = the largest of these", (turned, *parts), ARITHMETIC))


def targets(pond: Pond) -> Targets:
    """Least, good and most flow of each feature the pump feeds, and what the pump must deliver.

    Raises:
        PondError: The pond's shape or a changed rule cannot be; the message says why.
    """
    rules = Assumptions().with_overrides(pond.assumptions)
    volume = water_volume(pond)
    places: list[Target] = []
    for feature in pond.fed:
        kind = kind_of(feature)
        band, rule = kind.band(feature, volume, rules), kind.rule(feature, volume, rules)
        working: Working = partial(kind.steps, feature, volume, rules)
        if feature.band:
            band, rule = band_of(feature.band), Message("Your own range.")
            working = partial(own_steps, band)
        aim = aim_of(pond, feature)
        places.append(Target(feature.id, feature.name, feature.kind, band, rule, aim, working))
    whole = whole_pond_band(volume, rules.filters.turnover_whole)
    wanted = max([whole.target, *(place.asked for place in places)])
    rule = Message(
        "The pond's water {turns} an hour, and enough for the part that needs most.",
        {"turns": _times(rules.filters.turnover_whole)},
    )
    name = pond.pumps[0].name if len(pond.pumps) == 1 else t("Pump")
    needs = [(place.name, place.asked) for place in places]
    working = partial(pump_steps, volume, rules.filters.turnover_whole, needs)
    band = FlowBand(wanted, wanted, None)
    places.append(Target(PUMP, name, PUMP, band, rule, working=working))
    return Targets(volume, tuple(places))
