"""What a backup or a shared plan holds, looked at before anything of it is kept."""

from collections import Counter
from collections.abc import Callable, Mapping
from typing import Any

import flet as ft

from pondapp.answers.log.dates import moment_text
from pondapp.models.limits import MOST_PHOTOS, MOST_TAKEN_IN
from pondapp.store.backup import How, Preview
from pondapp.store.browser.room import Room
from pondapp.ui.parts import layout
from pondapp.words import t, tn

KINDS = (("pond", "Ponds"), ("reading", "Readings"), ("entry", "Other entries of the log"))
MOST_LISTED = 12
OVERHEAD = 1.5  # what a storage takes for a letter, at most


def when(preview: Preview) -> str:
    """Local date and time at which the file was saved."""
    return moment_text(preview.saved_at)


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
    names = ", ".join(preview.ponds[:MOST_LISTED])
    lines: list[ft.Control] = [layout.body(t("Saved {when}", when=when(preview)))]
    if names:
        lines.append(layout.body(names))
    lines += [
        layout.fact(t(title), counts) for kind, title in KINDS if (counts := _counts(preview, kind))
    ]
    return layout.card(lines, strong=True)


def merge_card(preview: Preview, title: str, names: Mapping[str, str]) -> list[ft.Control]:
    """By pond, what merging brings, and which version stays where both differ."""
    lines = []
    for pond_id, tally in preview.of_pond.items():
        name = preview.names.get(pond_id) or names.get(pond_id) or t("Without a pond")
        if parts := _merged(tally):
            lines.append(layout.fact(name, ", ".join(parts)))
    more = len(lines) - MOST_LISTED
    lines = lines[:MOST_LISTED]
    if more > 0:
        lines.append(layout.small(tn("and {count} more", "and {count} more", more)))
    return [layout.card([layout.heading(title), *lines])] if lines else []


def _merged(tally: Counter[tuple[str, str]]) -> list[str]:
    """What merging does to a pond and its log."""
    of_pond = (
        ("new", t("a new pond")),
        ("theirs", t("the pond as it was changed in the file")),
        ("mine", t("the pond as it was changed here")),
        ("both", t("the pond was changed on both and is kept twice, one as “(2)”")),
    )
    readings, entries = tally["reading", "new"], tally["entry", "new"]
    of_log = (
        (readings, t("new readings: {count}", count=readings)),
        (entries, t("other new entries: {count}", count=entries)),
        *((number, words.format(count=number)) for number, words in _corrected(tally)),
    )
    return [text for outcome, text in of_pond if tally["pond", outcome]] + [
        text for number, text in of_log if number
    ]


def _corrected(tally: Counter[tuple[str, str]]) -> list[tuple[int, str]]:
    words = (
        ("theirs", t("corrected in the file: {count}")),
        ("mine", t("corrected here: {count}")),
        ("both", t("corrected on both, all versions kept: {count}")),
    )
    return [(tally["reading", one] + tally["entry", one], text) for one, text in words]


def problem_lines(preview: Preview) -> list[ft.Control]:
    """What of the file cannot be read here, and what becomes of it."""
    lines: list[ft.Control] = [
        layout.small(f"{one.kind} {one.name}: {t(one.reason)}" if one.kind else t(one.reason))
        for one in preview.problems[:MOST_LISTED]
    ]
    more = preview.count("unreadable") + preview.count("newer") - len(lines)
    if more > 0:
        lines.append(layout.small(tn("and {count} more", "and {count} more", more)))
    if not lines:
        return []
    if preview.count("newer"):
        rest = t("What a newer app wrote is kept as it is; the rest of the file can be taken in.")
    else:
        rest = t("The rest of the file can be taken in.")
    return [layout.card([layout.heading(t("Not readable here")), *lines, layout.small(rest)])]


def file_cautions(preview: Preview) -> list[ft.Control]:
    """That the file is not as it was written."""
    if not preview.complete:
        told = t(
            "The file is damaged or cut off. What is left of it can be added to what is here; "
            "nothing can be replaced by it."
        )
        return [layout.caution(told)]
    if preview.touched:
        return [layout.caution(t("The file was changed since the app wrote it."))]
    return []


def photo_caution(preview: Preview, how: How) -> list[ft.Control]:
    """How many photos find no room, said before."""
    left_out = len(preview.too_many_photos(how))
    if not left_out:
        return []
    return [
        layout.caution(
            tn(
                "{most} photos are the most on one device. The oldest of the file finds no room "
                "here and stays in the file only.",
                "{most} photos are the most on one device. The {count} oldest of the file find no "
                "room here and stay in the file only.",
                left_out, most=MOST_PHOTOS,
            )
        )
    ]  # fmt: skip


def later_caution(preview: Preview) -> list[ft.Control]:
    """That not all of it can be taken in at once, said before."""
    if not preview.later:
        return []
    return [
        layout.caution(
            t(
                "More is new in this file than can be taken in at once ({most} MB). Documents "
                "that have to wait: {count}. Take this in, then choose the file again, until none "
                "waits. Only what came last can be taken back.",
                most=MOST_TAKEN_IN // 1_000_000, count=preview.later,
            )
        )
    ]  # fmt: skip


def room_for_copy(preview: Preview, how: How, room: Room | None) -> bool:
    """Whether what is here fits a second time, so that a restore can be taken back."""
    if room is None:
        return True
    writes, keeps = preview.needs(how)
    return room.used + (writes + keeps) * OVERHEAD < room.limit


def how_choice(preview: Preview, how: How, choose: Callable[[Any], Any]) -> list[ft.Control]:
    """Merge or replace, with what each does."""
    options = [("merge", t("Add to what is here"))]
    if preview.may_replace:
        options.append(("replace", t("Replace what is here")))
    if how == "merge":
        told = t(
            "Nothing is removed and nothing is lost. Where both differ, the version that follows "
            "from the other stays. To go back to what the file says, replace."
        )
    elif preview.holds == "everything":
        told = t("It becomes as in the file: what is only on this device is removed.")
    else:
        told = t("This pond becomes as in the file. Your other ponds stay.")
    return [layout.choice(t("How should it be taken in"), options, how, choose), layout.small(told)]
