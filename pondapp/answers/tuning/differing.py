"""Readings of one water at one setting that do not agree: nobody can tell which of them holds."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import hypot, log, sqrt

from pondapp.answers.learning.priors import wear_rate
from pondapp.answers.learning.timeline import Read
from pondapp.answers.log.dates import moment_text
from pondapp.core.assumptions import Assumptions
from pondapp.core.base.messages import Amount, Message
from pondapp.core.calibration.agreement import agreement, without_drift
from pondapp.core.calibration.calibrated import MODEL_SCATTER
from pondapp.core.calibration.fit import farthest_good

PARTS = sqrt(2.0)
"""Pump and branch may both clog, each as fast as the rules allow."""


@dataclass(frozen=True, slots=True)
class Differing:
    """The newest reading of a water, and the one before it, which contradicts it."""

    before: Read
    newest: Read

    def told(self) -> Message:
        """Both, when they were taken, and what decides."""
        return Message(
            "{place}: {before} on {then}, {newest} on {last}, and nothing in the log explains it. "
            "Nobody can tell which holds: time it once more.",
            {
                "place": ", ".join(
                    dict.fromkeys(one.reading.place_name for one in (self.before, self.newest))
                ),
                "before": Amount(self.before.flow, "m3/s"),
                "then": moment_text(self.before.at),
                "newest": Amount(self.newest.flow, "m3/s"),
                "last": moment_text(self.newest.at),
            },
        )


@dataclass(frozen=True, slots=True)
class Apart:
    """A pump's flow, measured as a whole, and the flows of branches that are more than that."""

    whole: Read
    parts: tuple[Read, ...]

    @property
    def doubted(self) -> tuple[Read, ...]:
        """What tells nothing of now: the branches, and the pump, unless it was read last.

        Too little from a pump is too little, whatever its branches gave before.
        """
        last = all(one.at <= self.whole.at for one in self.parts)
        return self.parts if last else (self.whole, *self.parts)

    def told(self) -> Message:
        """Both, when they were taken, and what decides."""
        return Message(
            "{pump}: {whole} on {last}, less than the {flow} that was measured behind it, until "
            "{then}, at {places}. Nothing in the log explains it, and nobody can tell which holds: "
            "time all of them once more.",
            {
                "pump": self.whole.reading.place_name,
                "whole": Amount(self.whole.flow, "m3/s"),
                "last": moment_text(self.whole.at),
                "flow": Amount(sum(one.flow for one in self.parts), "m3/s"),
                "then": moment_text(max(one.at for one in self.parts)),
                "places": ", ".join(one.reading.place_name for one in self.parts),
            },
        )


def apart(whole: Read, parts: Sequence[Read], rules: Assumptions, of: int) -> Apart | None:
    """Whether branches were read to carry more, together, than their pump was read to give.

    Less is no contradiction, since water may leave between: by a leak, or where nobody measured.
    Their doubts are added up, since the same container may be wrong in all of them.

    Args:
        whole: The pump's flow.
        parts: The newest flow of each branch that was read, at the same setting.
        rules: The rules of the pond.
        of: How many readings are looked at in all, of which few may seem wrong by chance.

    Raises:
        OutOfRange: A changed rule cannot be.
    """
    flow = sum(one.flow for one in parts)
    if flow <= whole.flow:
        return None
    together = replace(
        max(parts, key=lambda one: one.at),
        flow=flow,
        share=sum(one.flow * one.share for one in parts) / flow,
        content=sum(one.flow * one.content for one in parts) / flow,
        freedom=min(one.freedom for one in parts),
        container="several",
    )
    both = sorted((whole, together), key=lambda one: one.at)
    return Apart(whole, tuple(parts)) if differing(both, rules, of) else None


def differing(reads: Sequence[Read], rules: Assumptions, of: int) -> Differing | None:
    """Whether the newest reading of a water is contradicted by others at the same setting.

    The rule is that of the calibration of a line: what wear explains is no contradiction.
    One more that agrees with the newest decides, whatever was read before.

    Args:
        reads: All of that water at the setting of now, oldest first.
        rules: The rules of the pond.
        of: How many readings are looked at in all, of which few may seem wrong by chance.

    Raises:
        OutOfRange: A changed rule cannot be.
    """
    if len(reads) < 2:
        return None
    several = len({one.container for one in reads}) > 1
    doubts = [hypot(one.share, MODEL_SCATTER, one.content * several) for one in reads]
    start = reads[0].at
    offs = without_drift(
        [log(one.flow) for one in reads],
        [(one.at - start).total_seconds() for one in reads],
        doubts,
        PARTS * wear_rate(rules),
    )
    chance = rules.measuring.outlier_chance / of
    limit = farthest_good(chance, min(one.freedom for one in reads))
    *others, last = range(len(reads))
    apart = [abs(offs[one] - offs[last]) / hypot(doubts[one], doubts[last]) for one in others]
    if apart[-1] <= limit or agreement(offs, doubts, limit).kind != "open":
        return None
    return Differing(reads[others[-1]], reads[last])
