"""What hoses and pipes are called: their series in the core also names the units of the sizes."""

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
