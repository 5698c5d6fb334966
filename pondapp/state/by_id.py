"""Documents of one kind that the app holds, by their id: everybody reads, their owner changes."""

from collections.abc import Iterator, Mapping
from typing import TypeVar

Model = TypeVar("Model")


class ById(Mapping[str, Model]):
    """A mapping that only its own methods change, since what they change is saved too."""

    def __init__(self) -> None:
        self._held: dict[str, Model] = {}

    def __getitem__(self, document_id: str) -> Model:
        """The document of this id."""
        return self._held[document_id]

    def __iter__(self) -> Iterator[str]:
        """All ids."""
        return iter(self._held)

    def __len__(self) -> int:
        """How many there are."""
        return len(self._held)
