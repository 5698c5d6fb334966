"""Units are switched without a pause while forms are half typed, until the browser is killed."""

import random
from dataclasses import dataclass, field
from math import isclose
from typing import Any

from there import There

FORMS = 8
SHORTEST, LONGEST = 20, 900  # ms between the first switch and the end


@dataclass
class Switched:
    """What was switched before all ends so far, and what meant something else after one of them."""

    ends: int = 0
    switches: int = 0
    wrong: list[str] = field(default_factory=list)

    def compare(self, typed: dict[str, float], means: dict[str, float], units: set[Any]) -> None:
        """Note what means another amount than was typed, and units that do not agree."""
        after = f"after end {self.ends}"
        self.wrong += [
            f"{key} is {means.get(key)}, not {value}, {after}"
            for key, value in typed.items()
            if not isclose(means.get(key, 0.0), value, rel_tol=0.001)
        ]
        if len(units) != 1:
            self.wrong.append(f"written in {sorted(map(str, units))} {after}")

    def __str__(self) -> str:
        return (
            f"{self.ends} ends while switching {FORMS} forms, {self.switches} switches "
            f"acknowledged, {len(self.wrong)} wrong"
        )


def switch_often(device: There, ends: int, seed: int) -> Switched:
    """End the browser or its worker at random moments of a switch; look after each at the forms."""
    chance, found = random.Random(seed), Switched()
    for _ in range(ends):
        device.do(0, ["units", "metric"])
        device.do(0, ["type forms", FORMS])
        typed = device.do(0, ["forms"])
        number = device.tell(0, ["switch for ever"])
        device.said(0, number)  # the first is done, and the next are under way
        device.pages[0].wait_for_timeout(chance.uniform(SHORTEST, LONGEST))
        found.switches += device.said(0, number)
        found.ends += 1
        device.end(0, whole=chance.random() < 0.5)
        found.compare(typed, device.do(0, ["forms"]), device.written_in())
    return found
