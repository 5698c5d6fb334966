"""The file that a backup or a shared plan is: one document a line, in a numbered format."""

from typing import Annotated, Any, Literal

from pydantic import Field, TypeAdapter

from pondapp.models.base import Document, Moment, Stored
from pondapp.models.entry import Entry
from pondapp.models.pond import Pond
from pondapp.models.preferences import Draft, Preferences
from pondapp.models.reading import Reading

FORMAT: Literal["pondapp-backup"] = "pondapp-backup"
FORMAT_VERSION: Literal[2] = 2
"""Version 1 was one document of JSON for all, and is still read."""

KINDS: dict[str, type[Stored]] = {
    "pond": Pond,
    "reading": Reading,
    "entry": Entry,
    "draft": Draft,
    "preferences": Preferences,
}

Key = Annotated[str, Field(max_length=300)]
"""Where a document lies on the device: "pond/<id>", "reading/<pond>/<id>"."""
Holds = Literal["everything", "pond"]


class Head(Document):
    """The first line."""

    format: Literal["pondapp-backup"] = FORMAT
    format_version: Literal[2] = FORMAT_VERSION
    holds: Holds
    """A backup of everything, or of one pond with or without its log."""
    saved_at: Moment


class DocumentLine(Document):
    """A line for each document; photos come last."""

    key: Key
    document: Pond | Reading | Entry | Draft | Preferences


class TextLine(Document):
    """A text that the app which wrote the file could not read.

    It may be a document of a newer app, or what was set aside as damaged. It comes back as it is.
    """

    key: Key
    text: str


class End(Document):
    """The last line: a file without it was cut off."""

    end: dict[str, int]
    """How many lines there are of each kind."""
    sha256: str = ""
    """Of all bytes before this line, in hexadecimal digits; empty where nobody counted."""


def schema() -> dict[str, Any]:
    """The JSON Schema of a line of a backup file, for whoever wants to read or write one."""
    line: TypeAdapter[Any] = TypeAdapter(Head | DocumentLine | TextLine | End)
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "$id": f"urn:{FORMAT}:{FORMAT_VERSION}",
        **line.json_schema(),
    }
