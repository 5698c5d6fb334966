"""A water change: how much, what to put into the fresh water, and what it does to the pond."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Literal

from pondapp.answers.keeping.label_dose import LabelDose, label_dose
from pondapp.answers.keeping.pond_volume import volume_span
from pondapp.answers.pond import WorkedPond
from pondapp.answers.rules.working import Step, Term
from pondapp.answers.water.volume import water_volume
from pondapp.core.assumptions import Assumptions
from pondapp.core.base.errors import NoSolution, OutOfRange
from pondapp.core.base.messages import Amount, Message
from pondapp.core.base.working import ARITHMETIC
from pondapp.core.dosing.dechlorinator import (
    ammonia_from_chloramine,
    ascorbic_acid_ratio,
    dechlorinate,
    thiosulfate_ratio,
)
from pondapp.core.dosing.mixing import HEAT_BALANCE, mixed_temperature, share_by_warmth
from pondapp.core.dosing.salt import salt_dose
from pondapp.core.dosing.water_change import (
    WaterChange,
    changes_needed,
    concentration_after,
    remaining_continuous,
    too_much_at_once,
)
from pondapp.core.stock.ammonia import unionised_share

Treated = Literal["unknown", "chlorine", "chloramine", "none"]
Binder = Literal["crystals", "dry", "vitamin", "label"]

BROUGHT_DOWN = ("nitrate", "nitrite", "ammonia", "general_hardness", "salt_level")
SUBSTANCES = (
    "nitrate", "nitrite", "ammonia", "carbonate_hardness", "general_hardness", "salt_level",
)  # fmt: skip
"""Values of a water test that fresh water changes, by their names in the log."""
NOT_IN_TAP_WATER = ("nitrite", "salt_level")
OWN_UNITS = {"general_hardness": "hardness", "salt_level": "salt"}
"""By what is brought down: the unit that it is told in, where that is no concentration."""
AS_SHOWN = 5e-3  # of the pond: its volume is told with three digits, and so it is typed again
LEAST_GOAL = 1e-6  # kg/m3: an ammonia that is poison in any amount has no goal


@dataclass(frozen=True, slots=True)
class ChangeAsked:
    """What is known of a change; None is not known.

    Attributes:
        water: Water to replace [m3].
        treated: What the water works put into the tap water.
        chlorine: Chlorine in the tap water, chloramine counted as chlorine [kg/m3].
        binder: What takes it out.
        label_dose: Dose on the label of a product, in the label's own unit [-].
        dosed_in: The label's own unit.
        label_water: Water that the label gives it for [m3].
        whole_pond: Whether the label wants the whole pond dosed.
        temperature: Of the pond [K].
        tap_temperature: Of the tap water [K].
        hose: Flow of the hose [m3/s].
        pond: Values of the pond's water in SI, by name.
        tap: The same of the tap water.
        what: Which of them is to be brought down.
        goal: To how much [kg/m3].
        ph: Of the pond.
    """

    water: float
    temperature: float
    treated: Treated = "unknown"
    chlorine: float | None = None
    binder: Binder = "crystals"
    label_dose: float | None = None
    dosed_in: str = "ml"
    label_water: float | None = None
    whole_pond: bool = False
    tap_temperature: float | None = None
    hose: float | None = None
    pond: Mapping[str, float] = field(default_factory=dict)
    tap: Mapping[str, float] = field(default_factory=dict)
    what: str = "nitrate"
    goal: float | None = None
    ph: float | None = None


@dataclass(frozen=True, slots=True)
class Binding:
    """What takes the chlorine out.

    Attributes:
        mass: Of what is weighed [kg]; none for a product.
        least: The least that printed tables give [kg]; none if there is no other.
        product: Dose of a product by its label; none until that is known.
        remarks: What is assumed, and what to mind.
    """

    mass: float | None
    least: float | None
    product: LabelDose | None
    remarks: tuple[Message, ...]


@dataclass(frozen=True, slots=True)
class Effect:
    """What one change makes of a value of the water [kg/m3]."""

    key: str
    before: float
    fresh: float
    after: float
    fresh_known: bool


@dataclass(frozen=True, slots=True)
class Change:
    """The answer.

    Attributes:
        water: Water to replace [m3].
        share: Its share of the pond [-].
        binding: What takes the chlorine out; none where there is none to take out.
        temperature: Of the pond afterwards [K]; none while the tap's is not known.
        warmer: How much that is warmer [K]; below 0, cooler.
        salt: Salt to put in, so that its level stays [kg]; none where there is none.
        minutes: How long the hose runs [s].
        running_over: Share replaced [-] if old water runs over while the hose runs.
        effects: What it does to the values that are known.
        course: Changes of this size that reach the goal, or why none do; none without a goal.
        fresh: What the tap water holds of what is brought down [kg/m3].
        fresh_known: Whether that is known, or else assumed.
        troubles: What is wrong with so much at once.
        steps: The working.
    """

    water: float
    share: float
    binding: Binding | None
    temperature: float | None
    warmer: float | None
    salt: float | None
    minutes: float | None
    running_over: float | None
    effects: tuple[Effect, ...]
    course: WaterChange | Message | None
    fresh: float
    fresh_known: bool
    troubles: tuple[Message, ...]
    steps: tuple[Step, ...]


def share_of(water: float, volume: float) -> float:
    """The share of a pond [-] that so much water [m3] is.

    Raises:
        OutOfRange: It is more than the pond holds.
    """
    if water > volume * (1.0 + AS_SHOWN):
        raise OutOfRange(
            "{water} is more than the {volume} that the pond holds",
            water=Amount(water, "m3"),
            volume=Amount(volume, "m3"),
        )
    return min(1.0, water / volume)


def most_ammonia(temperature: float, ph: float, rules: Assumptions) -> float:
    """Ammonia nitrogen [kg/m3] whose toxic part is just the limit, as far as the formula reaches.

    Raises:
        PondError: The temperature is outside its range.
    """
    return rules.stock.unionised_limit / unionised_share(temperature, min(max(ph, 5.0), 11.0))


def goal_of(key: str, asked: ChangeAsked, rules: Assumptions) -> float | None:
    """The amount that suits a pond [kg/m3], where a rule or a formula has one."""
    if key == "ammonia":
        if asked.ph is None:
            return None
        most = most_ammonia(asked.temperature, asked.ph, rules)
        return most if most > LEAST_GOAL else None
    return {
        "nitrate": rules.water.nitrate_most,
        "nitrite": rules.water.nitrite_most,
        "general_hardness": rules.water.general_hardness_high,
        "salt_level": rules.stock.salt_caution,
    }.get(key)


def worst_of(asked: ChangeAsked, rules: Assumptions) -> str:
    """The value that is furthest above what suits a pond; nitrate where none is."""
    over = {
        key: asked.pond[key] / goal
        for key in BROUGHT_DOWN
        if key in asked.pond and (goal := goal_of(key, asked, rules))
    }
    worst = max(over, key=lambda key: over[key], default="nitrate")
    return worst if over.get(worst, 0.0) > 1.0 else "nitrate"


def water_change(worked: WorkedPond, asked: ChangeAsked) -> Change:
    """All about one change of so much water.

    Raises:
        PondError: More than the pond holds is asked for, or an amount is outside its range.
    """
    rules, volume = worked.rules, water_volume(worked.pond)
    share = share_of(asked.water, volume)
    asked = replace(asked, water=min(asked.water, volume))
    steps = [_share_step(asked.water, volume, share)]
    troubles = list(too_much_at_once(share, rules.stock.water_change_most))
    binding = _binding(worked, asked, volume, steps)
    if binding and binding.product and binding.product.remark:
        troubles.append(binding.product.remark)
    temperature = warmer = None
    if asked.tap_temperature is not None:
        temperature = mixed_temperature(asked.temperature, asked.tap_temperature, share)
        warmer = temperature - asked.temperature
        steps.append(_warmth_step(asked, share, temperature))
        troubles += _shock_of_warmth(asked, volume, warmer, rules)
    before = asked.pond.get("salt_level")
    salt = None
    if before:
        left = concentration_after(before, asked.tap.get("salt_level", 0.0), share, 1)
        if left < before:
            dose = salt_dose(volume, left, before, rules.stock.salt_caution, rules.stock.salt_most)
            salt = dose.mass
            steps += dose.steps()
    minutes = asked.water / asked.hose if asked.hose else None
    running_over = None
    if asked.hose and minutes:
        running_over = 1.0 - remaining_continuous(volume, asked.hose, minutes)
    effects = tuple(_effects(asked, share, rules))
    troubles += _softened(effects, rules)
    troubles += _ammonia_of_chloramine(asked, share, rules)
    fresh, fresh_known = _fresh(asked.what, asked, rules)
    return Change(
        water=asked.water,
        share=share,
        binding=binding,
        temperature=temperature,
        warmer=warmer,
        salt=salt,
        minutes=minutes,
        running_over=running_over,
        effects=effects,
        course=_course(asked, share, volume, rules, steps),
        fresh=fresh,
        fresh_known=fresh_known,
        troubles=tuple(troubles),
        steps=tuple(steps),
    )


def _share_step(water: float, volume: float, share: float) -> Step:
    return Step(
        Term("x", "share of the water changed", share, "share"), "x = Vt / V",
        (Term("Vt", "tap water added", water, "m3"), Term("V", "water in the pond", volume, "m3")),
        ARITHMETIC,
    )  # fmt: skip


def _warmth_step(asked: ChangeAsked, share: float, found: float) -> Step:
    return Step(
        Term("T", "temperature afterwards", found, "K"), "T = T0 + x (Tt - T0)",
        (Term("T0", "temperature of the pond", asked.temperature, "K"),
         Term("Tt", "temperature of the tap water", asked.tap_temperature or 0.0, "K"),
         Term("x", "share of the water changed", share, "share")),
        HEAT_BALANCE,
    )  # fmt: skip


def _shock_of_warmth(
    asked: ChangeAsked, volume: float, warmer: float, rules: Assumptions
) -> tuple[Message, ...]:
    most = rules.stock.warming_most
    if asked.tap_temperature is None or abs(warmer) <= most:
        return ()
    by_warmth = share_by_warmth(asked.temperature, asked.tap_temperature, most)
    at_most = min(by_warmth, rules.stock.water_change_most)
    words = (
        "{change} colder at once is a shock for fish: change {water} at a time, or let the water "
        "stand in the sun first"
        if warmer < 0.0
        else "{change} warmer at once is a shock for fish: change {water} at a time"
    )
    return (
        Message(
            words,
            {"change": Amount(abs(warmer), "warmer"), "water": Amount(at_most * volume, "m3")},
        ),
    )


COUNTED_AS_CHLORAMINE = Message(
    "Chlorine or chloramine is not known: it is counted as chloramine, the worse of the two. The "
    "water works tell it."
)
NO_CHLORINE = Message(
    "By what is entered there is no chlorine in the tap water, so nothing is needed against it. "
    "Make sure of it: a test strip for free chlorine does not show chloramine."
)
AIRING = Message(
    "Chlorine leaves water that stands or is stirred for a day or two; chloramine does not."
)


def chlorine_in(asked: ChangeAsked, rules: Assumptions) -> float:
    """Chlorine in the tap water [kg/m3], as entered or else as the rule has it."""
    if asked.treated == "none":
        return 0.0
    return rules.stock.tap_chlorine if asked.chlorine is None else asked.chlorine


def ratio_of(binder: Binder, rules: Assumptions) -> tuple[float, float]:
    """What binds a mass of chlorine [-]: to be safe, and the least that printed tables give."""
    stock = rules.stock
    if binder == "vitamin":
        return max(stock.ascorbic_ratio, ascorbic_acid_ratio()), ascorbic_acid_ratio()
    safe = stock.thiosulfate_ratio
    least = min(stock.thiosulfate_ratio_neutral, safe)
    if binder == "crystals":
        return safe, least
    # Without its five waters there is more in a gram.
    dry = thiosulfate_ratio(False, "tetrathionate") / thiosulfate_ratio(True, "tetrathionate")
    return safe * dry, least * dry


def _binding(
    worked: WorkedPond, asked: ChangeAsked, volume: float, steps: list[Step]
) -> Binding | None:
    if asked.treated == "none":
        return None
    rules = worked.rules
    remarks: list[Message] = []
    chlorine = chlorine_in(asked, rules)
    chloramine = asked.treated != "chlorine"
    if asked.treated == "unknown":
        remarks.append(COUNTED_AS_CHLORAMINE)
    if asked.chlorine == 0.0:  # as a strip or the water works say: nothing to put in
        return Binding(None, None, None, (NO_CHLORINE,))
    if asked.binder == "label":
        product = None
        if asked.label_dose is not None and asked.label_water is not None:
            # The whole pond as far as it is sure to hold so much, and no less than what is new.
            sure = volume_span(worked).span.low if asked.whole_pond else 0.0
            treated = max(asked.water, sure)
            product = label_dose(treated, asked.label_dose, asked.label_water, asked.dosed_in)
            steps.append(product.step)
        if chloramine and chlorine > 0.0:
            freed = dechlorinate(asked.water, chlorine, 1.0, volume, chloramine)
            remarks += freed.warnings[1:]
            remarks.append(Message("Take a product whose label names chloramine."))
        return Binding(None, None, product, tuple(remarks))
    if asked.chlorine is None:
        remarks.append(
            Message(
                "How much chlorine is in it is not entered: {chlorine} is counted, a limit by law, "
                "to be safe. The water works tell what it is, and a test strip shows it.",
                {"chlorine": Amount(chlorine, "kg/m3")},
            )
        )
    safe, least = ratio_of(asked.binder, rules)
    dose = dechlorinate(asked.water, chlorine, safe, volume, chloramine)
    steps += dose.steps()
    remarks += dose.warnings[1:]
    if asked.treated == "chlorine":
        remarks.append(AIRING)
    return Binding(dose.mass, dose.mass * least / safe, None, tuple(remarks))


def _fresh(key: str, asked: ChangeAsked, rules: Assumptions) -> tuple[float, bool]:
    """What the tap water holds of something [kg/m3], and whether that is known."""
    if key in asked.tap:
        return asked.tap[key], True
    if key == "ammonia":  # what is left of chloramine once its chlorine is bound
        if asked.treated in ("chlorine", "none"):
            return 0.0, True
        return ammonia_from_chloramine(min(chlorine_in(asked, rules), 0.1)), False
    return 0.0, key in NOT_IN_TAP_WATER


def _effects(asked: ChangeAsked, share: float, rules: Assumptions) -> list[Effect]:
    found = []
    for key in SUBSTANCES:
        if key not in asked.pond:
            continue
        before = asked.pond[key]
        fresh, known = _fresh(key, asked, rules)
        after = concentration_after(before, fresh, share, 1)
        found.append(Effect(key, before, fresh, after, known))
    return found


def _softened(effects: tuple[Effect, ...], rules: Assumptions) -> list[Message]:
    """Soft tap water or rain may take more carbonate hardness than the pond can spare."""
    least = rules.water.carbonate_hardness_low
    return [
        Message(
            "carbonate hardness falls to {after}, below {least}: the pH can fall suddenly",
            {"after": Amount(one.after, "hardness"), "least": Amount(least, "hardness")},
        )
        for one in effects
        if one.key == "carbonate_hardness"
        and one.fresh_known
        and one.after < min(least, one.before)
    ]


def _ammonia_of_chloramine(
    asked: ChangeAsked, share: float, rules: Assumptions
) -> tuple[Message, ...]:
    """Chloramine may bring more ammonia than the pond bears at its pH, or at a usual one."""
    chloramine = asked.treated in ("unknown", "chloramine") and "ammonia" not in asked.tap
    if not chloramine:
        return ()
    fresh, _ = _fresh("ammonia", asked, rules)
    before = asked.pond.get("ammonia", 0.0)
    after = concentration_after(before, fresh, share, 1)
    ph = rules.water.ph_usual if asked.ph is None else asked.ph
    most = most_ammonia(asked.temperature, ph, rules)
    if after <= max(before, most):
        return ()
    words = (
        "the chloramine brings ammonia to {after} in the pond, and {most} is the most at pH {ph} "
        "and {warmth}: change less at a time, or take a product that binds ammonia too"
        if asked.treated == "chloramine"
        else "if the tap water holds chloramine, it brings ammonia to {after} in the pond, and "
        "{most} is the most at pH {ph} and {warmth}: change less at a time, or take a product "
        "that binds ammonia too"
    )
    return (
        Message(
            words,
            {
                "after": Amount(after, "kg/m3"),
                "most": Amount(most, "kg/m3"),
                "ph": Amount(ph, "-"),
                "warmth": Amount(asked.temperature, "K"),
            },
        ),
    )


def _as_far_as_assumed(asked: ChangeAsked, fresh: float, share: float, goal: float) -> Message:
    """How far changes get with ammonia that is only assumed to be in the tap water."""
    start = asked.pond["ammonia"]
    words = (
        "if the tap water holds chloramine, changes bring ammonia down towards {fresh}, and not "
        "to the {goal} wanted. They help all the same: this one makes {after} of {start}. Take a "
        "product that binds ammonia too"
        if fresh < start
        else "if the tap water holds chloramine, it brings {fresh} of ammonia, no less than the "
        "pond holds: changes reach {goal} only with a product that binds ammonia too"
    )
    values = {"fresh": Amount(fresh, "kg/m3"), "goal": Amount(goal, "kg/m3")}
    if fresh < start:
        values["after"] = Amount(concentration_after(start, fresh, share, 1), "kg/m3")
        values["start"] = Amount(start, "kg/m3")
    return Message(words, values)


def _course(
    asked: ChangeAsked, share: float, volume: float, rules: Assumptions, steps: list[Step]
) -> WaterChange | Message | None:
    """How many changes of this size bring the chosen value to its goal."""
    start = asked.pond.get(asked.what)
    if start is None or asked.goal is None or share <= 0.0:
        return None
    fresh, known = _fresh(asked.what, asked, rules)
    if start <= asked.goal:
        return None
    if not known and fresh >= asked.goal and asked.what == "ammonia":
        return _as_far_as_assumed(asked, fresh, share, asked.goal)
    try:
        found = changes_needed(
            volume, start, fresh, asked.goal, share, rules.stock.water_change_most
        )
    except NoSolution as problem:
        unit = OWN_UNITS.get(asked.what, "kg/m3")
        told = {
            key: Amount(value.value, unit)
            if isinstance(value, Amount) and value.unit == "kg/m3"
            else value
            for key, value in problem.message.values.items()
        }
        return Message(problem.message.template, told)
    steps += found.steps()
    return found
