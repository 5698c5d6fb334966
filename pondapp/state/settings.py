"""What the user chose for the whole app."""

import asyncio
from collections.abc import Callable, Iterable, Mapping
from contextlib import suppress
from datetime import datetime
from typing import Any

from pondapp.models.base import Stored
from pondapp.models.preferences import Preferences, UnitSystem
from pondapp.models.reading import Container
from pondapp.state.device import Device
from pondapp.state.drafts import Drafts
from pondapp.store.documents import Step, take_steps
from pondapp.store.key_value_store import Changed, StoreError
from pondapp.words import nearest_language, set_currency, set_language, t

US_GALLON, IMPERIAL_GALLON = 3.785411784e-3, 4.54609e-3  # m3
STARTING: Mapping[str, tuple[tuple[str, str, float, float], ...]] = {
    "metric": (
        ("bucket9", "Bucket, 9 L mark", 0.009, 0.0002),
        ("bucket10", "Bucket, 10 L mark", 0.010, 0.0002),
        ("tub40", "Tub, 40 L", 0.040, 0.001),
    ),
    "us": (
        ("us-bucket5", "Five-gallon bucket, 5 gal mark", 5.0 * US_GALLON, 0.0004),
        ("us-bucket2", "Bucket, 2 gal mark", 2.0 * US_GALLON, 0.0002),
        ("us-tote10", "Tote, 10 gal", 10.0 * US_GALLON, 0.001),
    ),
    "imperial": (
        ("uk-bucket2", "Bucket, 2 gal mark", 2.0 * IMPERIAL_GALLON, 0.0002),
        ("uk-bucket3", "Builder's bucket, 3 gal mark", 3.0 * IMPERIAL_GALLON, 0.0003),
        ("uk-tub9", "Tub, 9 gal", 9.0 * IMPERIAL_GALLON, 0.001),
    ),
}
"""By system of units the containers that one begins with: id, name, volume and tolerance [m3]."""


def starting_containers(units: str) -> tuple[Container, ...]:
    """Containers that somebody who thinks in these units may have, named in the language in use."""
    return tuple(
        Container(id=one, name=t(name), volume_m3=volume, tolerance_m3=tolerance)
        for one, name, volume, tolerance in STARTING[units]
    )


# Common practice: where US gallons and feet are bought by. Everywhere else litres are at hand, in
# Britain too, where a pond is measured in either: who thinks in imperial gallons chooses them.
US_UNITS = frozenset(("US", "AS", "GU", "LR", "MP", "PR", "UM", "VI"))


def units_of_region(wanted: str | None) -> UnitSystem:
    """The units to begin with for a reader whose device is set to this language, as in "en-US"."""
    _, *rest = (wanted or "").replace("_", "-").upper().split("-")
    region = next((part for part in rest if len(part) == 2), "")
    return "us" if region in US_UNITS else "metric"


def first_preferences(language: str = "en", units: UnitSystem = "metric") -> Preferences:
    """What counts until the user chooses: a language, units, and containers named in them."""
    set_language(language)
    return Preferences(language=language, units=units, containers=starting_containers(units))


GIVEN = {one: name for system in STARTING.values() for one, name, *_ in system}
"""Names in English of the containers that the app gives, by id."""


def named_anew(containers: Iterable[Container]) -> tuple[Container, ...]:
    """The containers, those of the app with their names in the language in use."""
    return tuple(
        one.model_copy(update={"name": t(GIVEN[one.id])}) if one.id in GIVEN else one
        for one in containers
    )


def in_units(containers: tuple[Container, ...], units: str) -> tuple[Container, ...]:
    """The containers in other units: those of the app are other ones, what the user added stays."""
    own = tuple(one for one in containers if one.id not in GIVEN)
    return containers if len(own) == len(containers) else (*starting_containers(units), *own)


class Settings:
    """The preferences in use, and how they change."""

    def __init__(self, device: Device) -> None:
        self._device = device
        self.drafts = Drafts(device, lambda: self.current.units)
        """What is half done is typed in the units and the language that are chosen here."""
        self.current = first_preferences()
        self._units_here: UnitSystem = "metric"
        """What the device is set to."""
        self._choosing = asyncio.Lock()
        self._stored: dict[str, Preferences | None] = {}
        """As this tab last saw them on the device."""

    def show(self, found: Iterable[Preferences]) -> None:
        """Use what was read from the device."""
        self._stored = {one.id: one for one in found}
        self._use(next(reversed(self._stored.values()), None))

    def _use(self, found: Preferences | None) -> None:
        """Go on with what is chosen on the device: by now, maybe nothing."""
        self.current = found or first_preferences(self.current.language, self._units_here)
        set_language(self.current.language)
        set_currency(self.current.currency)

    @property
    def first_start(self) -> bool:
        """Whether nothing was ever chosen on this device."""
        return not any(self._stored.values())

    def greet(self, language: str | None) -> None:
        """Begin in the language that the device is set to, and in the units of its region."""
        self._units_here = units_of_region(language)
        self.current = first_preferences(nearest_language(language), self._units_here)

    async def remember_greeting(self) -> None:
        """Save what the first start began with: a device set otherwise later changes nothing."""
        with suppress(StoreError):  # it is told with the first thing that matters
            async with self._device.writing:
                if self.first_start:
                    begun = self.current
                    first = Step("preferences", begun.id, Preferences, begun, None)
                    await take_steps(self._device.store, [first])
                    self._stored[begun.id] = begun

    async def save(self, preferences: Preferences) -> None:
        """Save what the user chose.

        What is typed keeps its meaning in other units and another language: it is saved anew in the
        same step, and each draft says what its numbers are in.
        """
        before = self.current
        if (before.units, before.language) != (preferences.units, preferences.language):
            await self.drafts.save_all_held()  # what another tab typed meanwhile joins first
        async with self._device.exclusive(t("the settings")):
            if self.current != before:
                raise Changed("{key} was changed in another tab", key=preferences.id)
            set_language(preferences.language)
            if (before.units, before.language) != (preferences.units, preferences.language):
                preferences = self._with_fitting_containers(preferences)
            known = self._stored.get(preferences.id)
            chosen = Step("preferences", preferences.id, Preferences, preferences, known)
            conversions = self.drafts.conversions(preferences.units)
            try:
                await take_steps(self._device.store, [chosen, *conversions])
            except BaseException:
                set_language(before.language)
                raise
            self.current = self._stored[preferences.id] = preferences
            set_currency(preferences.currency)
            self.drafts.converted(conversions)
        self._device.on_change()

    def _with_fitting_containers(self, chosen: Preferences) -> Preferences:
        """With the containers of the app in the units and the language that are in use from now on.

        What was timed and not saved yet goes by one of those that are there, so they stay.
        """
        timed = any(one.fills or one.before_turn or one.started_at for one in self.drafts.values())
        containers = chosen.containers
        if chosen.units != self.current.units and not timed:
            containers = in_units(containers, chosen.units)
        return chosen.model_copy(update={"containers": named_anew(containers)})

    async def change(self, chosen: Callable[[Preferences], dict[str, Any]]) -> None:
        """Save one choice beside all others: of two quick ones, the second begins from the first.

        It is asked, with what is in use by then, for the fields that become others.
        """
        async with self._choosing:
            await self.save(self.current.model_copy(update=chosen(self.current)))

    async def note_backup(self, at: datetime, readings: int, entries: int) -> None:
        """Remember that everything is in a file now."""
        noted = {
            "backed_up_at": at,
            "backed_up_readings": readings,
            "backed_up_entries": entries,
        }
        with suppress(Changed):
            await self.save(self.current.model_copy(update=noted))
            return
        # What another tab chose a moment ago is in use by now, and stays.
        await self.save(self.current.model_copy(update=noted))

    def apply_remote_change(self, preferences_id: str, found: Stored | None) -> None:
        """Another tab saved this, or deleted what was there."""
        theirs = found if isinstance(found, Preferences) else None
        self._stored[preferences_id] = theirs
        self._use(theirs)
        self.drafts.convert_held()
