"""Documents by kind: pydantic models in, JSON text in the Box."""

from dataclasses import dataclass
from typing import Any, Generic, TypeVar

from pydantic import BaseModel, ValidationError

from pondapp.store.box import Box

Model = TypeVar("Model", bound=BaseModel)


@dataclass(frozen=True, slots=True)
class Trouble:
    """A document that could not be read; its text stays where it is."""

    key: str
    reason: str


@dataclass(frozen=True, slots=True)
class Listed(Generic[Model]):
    """What could be read, and what could not."""

    documents: list[Model]
    troubles: list[Trouble]


async def list_all(box: Box, kind: str, model: type[Model]) -> Listed[Model]:
    """All documents of a kind."""
    documents: list[Model] = []
    troubles: list[Trouble] = []
    for key, text in (await box.items(f"{kind}/")).items():
        try:
            documents.append(model.model_validate_json(text))
        except ValidationError as error:
            first = error.errors()[0]
            troubles.append(Trouble(key, f"{'.'.join(map(str, first['loc']))} {first['msg']}"))
    return Listed(documents, troubles)


async def save(box: Box, kind: str, document: Any) -> None:
    """Keep a document under its id; durable when this returns."""
    await box.put(f"{kind}/{document.id}", document.model_dump_json())


async def delete(box: Box, kind: str, document_id: str) -> None:
    """Forget a document."""
    await box.delete(f"{kind}/{document_id}")
