"""When what the app kept is deleted under it: by its user, by the browser, by another page."""

from collections.abc import Iterable, Mapping

import flet as ft

from pondapp import units
from pondapp.models.base import Stored
from pondapp.store.box import StoreError
from pondapp.ui.parts import layout
from pondapp.ui.shell.navigate import say
from pondapp.ui.shell.session import Session
from pondapp.words import t


def texts_in_hand(session: Session) -> dict[str, str]:
    """All that the app still holds in memory, as it would lie on the device."""
    held: Mapping[str, Iterable[Stored]] = {
        "pond": (*session.ponds.values(), *session.leaving.values()),
        "reading": session.readings.values(),
        "entry": session.entries.values(),
        "draft": session.drafts.values(),
        "preferences": () if session.first_start else (session.preferences,),
    }
    return {
        f"{kind}/{document.place()}": document.model_dump_json()
        for kind, documents in held.items()
        for document in documents
    }


async def save_again(session: Session) -> int:
    """Put on the device what is in memory and not on it; how many documents that were."""
    async with session.writing:
        there = set(await session.box.keys())
        missing = {key: text for key, text in texts_in_hand(session).items() if key not in there}
        if missing:
            await session.box.apply(missing, dict.fromkeys(missing))
    return len(missing)


def tell(page: ft.Page, session: Session) -> None:
    """Say that it is gone, and offer to save it again."""
    count = len(texts_in_hand(session))
    if not count:
        return
    told = ft.Text(
        t(
            "Somebody, or the browser, deleted what this app keeps here. It still has "
            "{count} documents in hand: ponds, log entries, what is half done. Once this page is "
            "closed they are gone too.",
            count=count,
        )
    )

    async def again(_: object) -> None:
        try:
            saved = await save_again(session)
        except StoreError as error:
            told.value = layout.sentence(units.tell(error.message, session.system))
            told.update()
            return
        page.pop_dialog()
        say(t("Saved again: {count} documents.", count=saved))

    page.show_dialog(
        ft.AlertDialog(
            title=ft.Text(t("What was kept here is gone")),
            content=told,
            modal=True,
            actions=[
                layout.main_button(t("Save it again"), again),
                layout.quiet_button(t("Leave it deleted"), lambda _: page.pop_dialog()),
            ],
        )
    )
