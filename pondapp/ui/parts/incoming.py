"""What a backup or a shared plan holds, looked at before anything of it is kept."""

from collections.abc import Callable
from typing import Any

import flet as ft

from pondapp.sizing.dates import moment_text
from pondapp.store.backup import How, Preview
from pondapp.ui.parts import layout
from pondapp.words import t

KINDS = (("pond", "Ponds"), ("reading", "Readings"), ("entry", "Other entries of the log"))
MOST_LISTED = 12


def when(preview: Preview) -> str:
    """Local date and time at which the file was saved."""
    return moment_text(preview.backup.saved_at)


def _counts(preview: Preview, kind: str) -> str:
    states = (
        (t("new: {count}"), "new"),
        (t("different here: {count}"), "changed"),
        (t("the same: {count}"), "same"),
        (t("only on this device: {count}"), "only here"),
    )
    parts = [
        text.format(count=count)
        for text, state in states
        if (count := preview.count(state, kind))  # type: ignore[arg-type]
    ]
    return ", ".join(parts)


def preview_card(preview: Preview) -> ft.Control:
    """What is new, changed, the same, and what cannot be read."""
    names = ", ".join(pond.name for pond in preview.backup.documents.pond[:MOST_LISTED])
    lines: list[ft.Control] = [layout.body(t("Saved {when}", when=when(preview)))]
    if names:
        lines.append(layout.body(names))
    lines += [
        layout.fact(t(title), counts) for kind, title in KINDS if (counts := _counts(preview, kind))
    ]
    return layout.card(lines, strong=True)


def trouble_lines(preview: Preview) -> list[ft.Control]:
    """What of the file cannot be read here, and what becomes of it."""
    troubles = [one for one in preview.found if one.state in ("unreadable", "newer")]
    lines: list[ft.Control] = [
        layout.small(f"{one.kind} {one.name}: {one.reason}") for one in troubles[:MOST_LISTED]
    ]
    if len(troubles) > MOST_LISTED:
        lines.append(layout.small(t("and {count} more", count=len(troubles) - MOST_LISTED)))
    if not lines:
        return []
    kept = t("What a newer app wrote is kept as it is; the rest of the file can be taken in.")
    return [layout.card([layout.heading(t("Not readable here")), *lines, layout.small(kept)])]


def how_choice(preview: Preview, how: How, choose: Callable[[Any], Any]) -> list[ft.Control]:
    """Merge or replace, with what each does."""
    options = (("merge", t("Add to what is here")), ("replace", t("Replace what is here")))
    if how == "merge":
        told = t("Nothing is removed. Where both differ, the file's version is taken.")
    elif preview.backup.holds == "everything":
        told = t("It becomes as in the file: what is only on this device is removed.")
    else:
        told = t("This pond becomes as in the file. Your other ponds stay.")
    return [layout.choice(t("How should it be taken in"), options, how, choose), layout.small(told)]
