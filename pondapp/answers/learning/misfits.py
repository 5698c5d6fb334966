"""What does not fit, in words: readings among themselves, beside the pump, beside what was entered.

Nothing that was read is dropped in silence, and where nobody can tell which holds, that is said.
"""

from collections.abc import Iterator, Sequence
from datetime import timedelta
from math import hypot

from pondapp.answers.learning.learning import Learning
from pondapp.answers.learning.model import TooMuch
from pondapp.answers.learning.timeline import Read, Timeline
from pondapp.answers.log.dates import day_text
from pondapp.answers.measuring.certainty import certainty
from pondapp.core.base.messages import Amount, Message, Value
from pondapp.core.calibration.calibrated import Verdict
from pondapp.core.measuring.spread import Spread
from pondapp.core.measuring.verdict import decide

LABEL = "Look at {name}: its label, its speed, and whether it is the one that runs."
"""Said of a pump."""
MOST_SUSPECTS = 3
"""Of what was entered, that is looked at first: who has to look at everything looks at nothing."""
NEAR = timedelta(days=7)
"""Around a cleaning, in which dirt hardly changes a flow: what was read longer before or after may
differ for other reasons. A rule of thumb."""


def misfits_told(found: Learning) -> tuple[Message, ...]:
    """All that does not fit, what weighs most first."""
    told = [_too_much(one) for one in found.too_much]
    told += _dry(found)
    told += _of_states(found)
    told += _weaker_once_clean(found)
    return *told, *_strained(found)


def _read(read: Read) -> dict[str, Value]:
    return {
        "place": read.reading.place_name,
        "day": day_text(read.at),
        "flow": Amount(read.flow, "m3/s"),
    }


def _too_much(one: TooMuch) -> Message:
    most = Amount(one.most, "m3/s")
    if len(one.reads) == 1:
        return Message(
            "{place}, {day}: {flow} is more than this pump can give ({most} at no head), so it is "
            "left out. Check the container, the time, and which pump ran.",
            {**_read(one.reads[0]), "most": most},
        )
    names = ", ".join(dict.fromkeys(read.reading.place_name for read in one.reads))
    return Message(
        "{place}, {day}: {flow} together is more than this pump can give ({most} at no head), so "
        "they are left out. Check the containers, the times, and which pump ran.",
        {
            "place": names,
            "day": day_text(one.reads[-1].at),
            "flow": Amount(sum(read.flow for read in one.reads), "m3/s"),
            "most": most,
        },
    )


def _dry(found: Learning) -> Iterator[Message]:
    for reading in found.model.times.dry.values():
        yield Message(
            "{place}, {day}: no water came, which no fit explains. Read it again once it runs.",
            {"place": reading.place_name, "day": day_text(reading.taken_at)},
        )


def _weaker_once_clean(found: Learning) -> Iterator[Message]:
    """Places that gave less just after a cleaning of the pump than just before it."""
    times, rule = found.model.times, certainty(found.model.worked.rules.measuring)
    for at in times.pump:
        if at == times.changed:
            continue
        for key in dict.fromkeys(read.branch_id for read in found.reads):
            mine = [read for read in found.reads if read.branch_id == key]
            before = [one for one in mine if at - NEAR <= one.at < at]
            after = [one for one in mine if at <= one.at <= at + NEAR]
            if not before or not after or _other_states(times, key, before[-1], after[0]):
                continue
            old, new = before[-1], after[0]
            ratio = new.flow / old.flow
            doubt = ratio * hypot(old.share, old.content, new.share, new.content)
            if decide(Spread(ratio, doubt), 1.0, None, rule).kind == "below":
                yield Message(
                    "{place}: {before} came before the cleaning on {day} and {after} after it, "
                    "though no cleaning makes a pump weaker. Look for air in the pump, a kinked "
                    "hose, a valve that was moved, or something that came loose.",
                    {
                        "place": new.reading.place_name,
                        "before": Amount(old.flow, "m3/s"),
                        "after": Amount(new.flow, "m3/s"),
                        "day": day_text(at),
                    },
                )


def _other_states(times: Timeline, key: str, one: Read, other: Read) -> bool:
    """Whether more than one cleaning lies between two readings of a place, or its valve's turn."""
    pump = abs(times.pump_state(other.at) - times.pump_state(one.at))
    return pump != 1 or times.valve_state(key, one.at) != times.valve_state(key, other.at)


def _of_states(found: Learning) -> Iterator[Message]:
    """Readings that do not agree, those of one state of a place together."""
    doubted = dict(found.contradicted)
    states: dict[str, list[tuple[Read, Verdict]]] = {}
    fitted = found.fitted
    for read, datum, verdict in zip(found.reads, fitted.data, fitted.verdicts, strict=True):
        if verdict != "fits":
            states.setdefault(datum.state, []).append((read, verdict))
    for state, mine in states.items():
        kinds = {verdict for _, verdict in mine}
        reads = [read for read, _ in mine]
        if kinds == {"open"}:
            key = reads[-1].branch_id
            now = state == found.model.state(key, found.now)
            yield doubted.pop(key) if now and key in doubted else _open(reads)
        elif kinds == {"before"}:
            yield Message(
                "{place}: what was read until {day} does not fit what was read since. Something "
                "changed in between, so what was read before counts less.",
                _read(reads[-1]),
            )
        else:
            yield from map(_single, mine)
    told: list[Message] = []
    for why in doubted.values():
        if why not in told:
            told.append(why)
            yield why


def _single(one: tuple[Read, Verdict]) -> Message:
    read, verdict = one
    if verdict == "against":
        return Message(
            "{place}, {day}: {flow} cannot be brought together with the rest. Check the container, "
            "the time, and where it was caught; or read it once more.",
            _read(read),
        )
    return Message(
        "{place}, {day}: {flow} does not fit the other readings and counts less.", _read(read)
    )


def _open(reads: Sequence[Read]) -> Message:
    least, most = (one(reads, key=lambda read: read.flow) for one in (min, max))
    days = dict.fromkeys(day_text(read.at) for read in (reads[0], reads[-1]))
    return Message(
        "{place}, {days}: between {low} and {high} was read, and nothing in the log explains it, "
        "so these count less.",
        {
            "place": reads[-1].reading.place_name,
            "low": Amount(least.flow, "m3/s"),
            "high": Amount(most.flow, "m3/s"),
            "days": " – ".join(days),
        },
    )


def _strained(found: Learning) -> tuple[Message, ...]:
    """What was entered that would have to be wrong, where the readings hold."""
    suspects = suspects_of(found)
    if not suspects:
        return ()
    words = (
        "What was entered does not go with what was read, so all that is told here is less sure. "
        "Look at what follows, and at the unit, time and place of the readings."
    )
    return Message(words), *(Message(template, {"name": name}) for template, name in suspects)


def suspects_of(found: Learning) -> tuple[tuple[str, str], ...]:
    """What of what was entered is looked at first where it cannot be: what to do, and of what."""
    suspects = dict.fromkeys(_suspect(found, place) for place in found.fitted.strained)
    return tuple(suspects)[:MOST_SUSPECTS]


def _suspect(found: Learning, place: int) -> tuple[str, str]:
    """What an unknown belongs to, as something to look at, with its name."""
    kind, _, rest = found.fitted.unknowns[place].key.partition(" ")
    names, line = found.model.worked.names, found.model.line
    key, pump = rest.split(" ")[0], names.lines[line.id]
    if kind == "container":
        held = (read.reading.method for read in found.reads if read.container == key)
        method = next((one for one in held if one.kind == "bucket"), None)
        return "Look at {name}: how much it really holds.", method.container.name if method else ""
    name = names.branches.get(key)
    if name is None and kind == "loss":
        return "Look at the main run of {name}: its hose, and what may block it.", pump
    if name is None:
        return LABEL, pump
    if kind == "lift":
        return "Look at {name}: how high its outlet is over the pond.", name
    if kind in ("handle", "table"):
        return "Look at {name}: how its valve stands.", name
    return "Look at {name}: its hose, and what may block it.", name
