"""Lists of things among a screen's texts: each thing has a name, which its own texts begin with.

A list is one text, the names with spaces between: so it is kept in a draft like all else that is
typed. What is removed leaves its texts behind, so that it can come back as it was.
"""

from pondapp.ui.parts.draft import Typed
from pondapp.ui.shell.navigate import say
from pondapp.ui.shell.session_context import session_now

Texts = dict[str, str]


def listed(texts: Texts, key: str) -> list[str]:
    """The names kept in a list of the texts."""
    return texts.get(key, "").split()


def added(texts: Texts, key: str, name: str, more: Texts | None = None) -> Texts:
    """The texts with one more name in a list, and what belongs to it."""
    return {**texts, **(more or {}), key: " ".join([*listed(texts, key), name])}


def removed(texts: Texts, key: str, name: str) -> Texts:
    """The texts with a name gone from a list."""
    return {**texts, key: " ".join(other for other in listed(texts, key) if other != name)}


def put_back(texts: Texts, key: str, name: str, place: int) -> Texts:
    """The texts with a name in a list again, where it was."""
    names = [other for other in listed(texts, key) if other != name]
    return {**texts, key: " ".join([*names[:place], name, *names[place:]])}


def free_name(texts: Texts, letter: str) -> str:
    """A name that nothing has, or had before: what was removed can still come back."""
    used = {part for key in texts for part in key.split(".")}
    used |= {word for text in texts.values() for word in text.split()}  # listed, still empty
    return next(name for number in range(1000) if (name := f"{letter}{number}") not in used)


def take_out(typed: Typed, key: str, name: str, told: str) -> None:
    """Remove a thing from a list, with a way back that keeps what is typed in between."""
    place = listed(typed.texts, key).index(name)

    async def undo() -> None:
        now = session_now().drafts.get(typed.draft_id)
        texts = now.texts if now else typed.texts
        typed.put(put_back(texts, key, name, place))

    typed.put(removed(typed.texts, key, name))
    say(told, undo)
