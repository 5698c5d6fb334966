"""A KeyValueStore on a desktop: one file per key, in one folder."""

import os
import re
import tempfile
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from pathlib import Path

from pondapp.store.key_value_store import AT_ONCE, KEY, StoreError, check_key, require_expected

ENDING = ".json"


def _name(key: str) -> str:
    # Capitals are spelled out: some file systems take "A" and "a" for the same file. The kind in
    # front of the dot keeps ids such as "con" and "nul" from being devices.
    spelled = re.sub("[A-Z]", lambda found: f"%{ord(found[0]):02x}", check_key(key))
    return spelled.replace("/", ".") + ENDING


def _key(name: str) -> str | None:
    """The key that this file name stands for; None for a file that is not ours."""
    spelled = name.removesuffix(ENDING).replace(".", "/")
    key = re.sub("%([0-9a-f]{2})", lambda found: chr(int(found[1], 16)), spelled)
    return key if KEY.fullmatch(key) and _name(key) == name else None


def _sync_folder(folder: Path) -> None:
    """Make the names in a folder durable, where the system has a way to ask for it."""
    if os.name == "nt":  # a folder cannot be opened there
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


class FolderStore:
    """Files in one folder.

    Nothing here waits for another task, so writes keep the order in which they were asked for.
    """

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.cleared: Callable[[], None] = lambda: None  # nobody tells of a deleted folder

    async def get(self, key: str) -> str | None:
        """The text under the key, or None."""
        return self._read(key)

    async def put(self, key: str, text: str) -> None:
        """Keep the text: written beside the old file, made durable, then renamed over it."""
        name = _name(key)
        with self._reported("written"):
            self._make_folder()
            handle, written = tempfile.mkstemp(dir=self.folder, prefix=".", suffix=".part")
            part = Path(written)
            try:
                with os.fdopen(handle, "wb") as file:
                    file.write(text.encode("utf-8", "surrogateescape"))
                    file.flush()
                    os.fsync(file.fileno())
                part.replace(self.folder / name)
            except BaseException:
                part.unlink(missing_ok=True)
                raise
            _sync_folder(self.folder)

    async def delete(self, key: str) -> None:
        """Forget the key; it need not be there."""
        name = _name(key)
        with self._reported("written"):
            if (self.folder / name).exists():
                (self.folder / name).unlink(missing_ok=True)
                _sync_folder(self.folder)

    async def apply(
        self,
        changes: Mapping[str, str | None],
        expected: Mapping[str, str | None] | None = None,
        done: Callable[[int], None] = lambda _: None,
    ) -> None:
        """All texts are kept before anything is forgotten, so a cut leaves too much, not less."""
        names = [check_key(key) for key in changes]
        for key, text in (expected or {}).items():
            require_expected({key: self._read(key)}, {key: text})
        # False before True: what is kept before what is forgotten.
        for number, key in enumerate(sorted(names, key=lambda key: changes[key] is None)):
            text = changes[key]
            await (self.delete(key) if text is None else self.put(key, text))
            if number % AT_ONCE == 0:
                done(len(expected or {}) + number)

    async def get_many(self, keys: Sequence[str]) -> dict[str, str]:
        """The texts under the keys that are there."""
        texts = {key: self._read(key) for key in keys}
        return {key: text for key, text in texts.items() if text is not None}

    async def keys(self, prefix: str = "") -> list[str]:
        """All keys that start with the prefix, sorted."""
        with self._reported("read"):
            names = [path.name for path in self.folder.iterdir()] if self.folder.exists() else []
        found = (_key(name) for name in names)
        return sorted(key for key in found if key is not None and key.startswith(prefix))

    async def items(self, prefix: str = "") -> list[tuple[str, str]]:
        """All keys that start with the prefix and their texts, sorted by key."""
        texts = [(key, self._read(key)) for key in await self.keys(prefix)]
        return [(key, text) for key, text in texts if text is not None]

    def listen(self, told: Callable[[str], None]) -> None:
        """Never calls: a desktop has one window."""

    def _read(self, key: str) -> str | None:
        name = _name(key)
        with self._reported("read"):
            try:
                # Bytes that are not UTF-8 come through unchanged, so that a damaged file can be
                # copied as it is; what they mean is judged by whoever reads the text.
                return (self.folder / name).read_bytes().decode("utf-8", "surrogateescape")
            except FileNotFoundError:
                return None

    def _make_folder(self) -> None:
        missing = [path for path in (self.folder, *self.folder.parents) if not path.exists()]
        self.folder.mkdir(parents=True, exist_ok=True)
        for path in missing:
            _sync_folder(path.parent)

    @contextmanager
    def _reported(self, done: str) -> Iterator[None]:
        try:
            yield
        except OSError as error:
            raise StoreError(
                "the folder {folder} could not be {done}: {reason}",
                folder=str(self.folder),
                done=done,
                reason=error.strerror or type(error).__name__,
            ) from error
