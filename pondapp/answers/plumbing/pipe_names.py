"""What hoses and pipes are called: their series in the core also names the units of the sizes."""

from contextlib import suppress

from pondapp import units
from pondapp.answers.plumbing.network import bore
from pondapp.core.base.errors import PondError
from pondapp.core.base.messages import Amount
from pondapp.models.circuit import Pipe
from pondapp.words import t

TITLES = {
    "hose, mm": "Hose",
    "hose, in": "Hose",
    "ribbed hose, mm": "Ribbed hose",
    "ribbed hose, in": "Ribbed hose",
    "PVC pipe, schedule 40": "PVC pipe",
    "PVC pressure pipe, mm outside": "PVC pressure pipe",
}
WITHIN = {"Hose": "hose", "Ribbed hose": "ribbed hose"}


def pipe_title(series: str) -> str:
    """A series at the beginning of a line."""
    return TITLES.get(series, series)


def pipe_within(series: str) -> str:
    """A series inside a sentence, in the reader's language."""
    title = pipe_title(series)
    return t(WITHIN.get(title, title))


def pipe_size(pipe: Pipe) -> Amount | str:
    """The size of a pipe, to stand in a sentence: of a hose, the one that the reader's shops use.

    A rigid pipe goes by what is printed on it, which is its name and no measure.
    """
    if pipe_title(pipe.series) in WITHIN:
        with suppress(PondError):  # of a size that this version does not know
            return Amount(bore(pipe), "nominal")
    return pipe.size


def size_text(pipe: Pipe, system: str) -> str:
    """The size of a pipe as the reader calls it."""
    size = pipe_size(pipe)
    return units.show_amount(*size, system) if isinstance(size, Amount) else size
