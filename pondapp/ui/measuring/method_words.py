"""What to do for each way of measuring, in one or two short steps."""

from collections.abc import Mapping
from typing import NamedTuple

from pondapp.answers.measuring.method_entry import MethodKind


class Guide(NamedTuple):
    """The words of one method."""

    when: str
    """What it is good for."""
    steps: tuple[str, str]
    to_start: str = ""
    to_stop: str = ""
    caution: str = ""


GUIDES: Mapping[MethodKind, Guide] = {
    "bucket": Guide(
        "For most outlets: quick, and good to a few percent.",
        ("Catch the whole flow in the container.",
         "Tap when water starts to fall in, and again when it reaches the mark."),
        "Tap when water starts to fall in",
        "Tap when the water reaches the mark",
    ),
    "weighed": Guide(
        "For a container without a mark.",
        ("Weigh the container empty. Time how long you hold it under the flow.",
         "Then weigh it full."),
        "Tap when water starts to fall in",
        "Tap when you take it away",
    ),
    "level_drop": Guide(
        "For a flow that no bucket can catch: what the pump draws from a basin.",
        ("Lead the return elsewhere, so that nothing runs into this basin.",
         "Time the level from one mark down to another."),
        "Tap when the level passes the upper mark",
        "Tap when it passes the lower mark",
        "a pump that runs dry is damaged: stop before the water is down to its inlet.",
    ),
    "filling": Guide(
        "For a big flow into a box or bog that you can empty first.",
        ("Let the box or bed run down to a lower mark.",
         "Time the rise to an upper mark, with nothing running out."),
        "Tap when the water passes the lower mark",
        "Tap when it passes the upper mark",
    ),
    "lip_depth": Guide(
        "Nothing to catch and nothing to time, but the roughest of all.",
        ("Hold a ruler upright behind the lip, about four times the depth back from it.",
         "Read how high the water stands over the lip's edge."),
    ),
    "meter": Guide(
        "For a pipe with a meter in it.",
        ("Wait until the meter stands still.",
         "Write what it shows, and how far its maker says it may be off."),
    ),
    "nothing": Guide(
        "For a place that stays dry.",
        ("Let the pump run for some minutes: a long hose fills slowly.",
         "Look at the open end, or hold a hand under it."),
    ),
}  # fmt: skip
