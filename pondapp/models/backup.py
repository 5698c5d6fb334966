"""The file that a backup or a shared plan is: every document in it, in a numbered format."""

from typing import Any, Literal

from pydantic import Field

from pondapp.models.base import Document, Moment, Stored
from pondapp.models.entry import Entry
from pondapp.models.pond import Pond
from pondapp.models.preferences import Draft, Preferences
from pondapp.models.reading import Reading

FORMAT: Literal["pondapp-backup"] = "pondapp-backup"
FORMAT_VERSION: Literal[1] = 1


class Documents(Document):
    """All that the app keeps, by kind; the names of the fields are the kinds."""

    pond: tuple[Pond, ...] = ()
    reading: tuple[Reading, ...] = ()
    entry: tuple[Entry, ...] = ()
    draft: tuple[Draft, ...] = ()
    preferences: tuple[Preferences, ...] = ()


KINDS: dict[str, type[Stored]] = {
    "pond": Pond,
    "reading": Reading,
    "entry": Entry,
    "draft": Draft,
    "preferences": Preferences,
}


class Backup(Document):
    """A backup of everything, or of one pond with its log."""

    format: Literal["pondapp-backup"] = FORMAT
    format_version: Literal[1] = FORMAT_VERSION
    holds: Literal["everything", "pond"]
    saved_at: Moment
    documents: Documents
    as_stored: dict[str, str] = Field(default_factory=dict)
    """Texts that the app which wrote the file could not read, by their place on the device:
    documents of a newer app, and what was set aside as damaged. They come back as they are."""


def schema() -> dict[str, Any]:
    """The JSON Schema of a backup file, for whoever wants to read or write one."""
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "$id": f"urn:{FORMAT}:{FORMAT_VERSION}",
        **Backup.model_json_schema(),
    }
