"""Runs in the browser's Python while the site is built: sources.bin to compiled.bin."""

import ast
import json
import marshal
import struct
from importlib.util import MAGIC_NUMBER, source_hash
from pathlib import Path
from types import CodeType

OURS = "/app/pondapp/"
WRITTEN = "/dataclasses/"  # by them, and in no file
NEVER_CHECKED = 1  # flag of a compiled file that is trusted without looking for its source


def held(code: CodeType) -> list[object]:
    """Hold all parts of a code object.

    What is written depends on whether anybody else holds a part. With all of them held it does
    not, and the same source gives the same bytes whatever was compiled before it.
    """
    parts: list[object] = []

    def hold(thing: object) -> None:
        parts.append(thing)
        if isinstance(thing, CodeType):
            for name in dir(thing):
                if name.startswith("co_") and name not in ("co_lnotab", "co_lines", "co_positions"):
                    hold(getattr(thing, name))
        elif isinstance(thing, tuple | frozenset):
            for part in thing:
                hold(part)

    hold(code)
    return parts


def untyped(source: bytes) -> ast.Module:
    """A module without the types of what its functions take and return: a sixth of its code.

    Nothing in the app asks for them while it runs. Those of fields stay, and of functions that a
    decorator may look at.
    """
    module = ast.parse(source)
    for node in ast.walk(module):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef) and not node.decorator_list:
            node.returns = None
            for part in ast.walk(node.args):
                if isinstance(part, ast.arg):
                    part.annotation = None
    return module


def by_line(module: ast.Module) -> ast.Module:
    """A module that knows the line at which each part of it begins, and no more.

    Columns and ends would mark a part of a source in a report of an error, and no source ships.
    """
    for node in ast.walk(module):
        at = vars(node)
        if "lineno" in at:
            at.update(end_lineno=at["lineno"], col_offset=-1, end_col_offset=-1)
    return module


def on_one_line(module: ast.Module) -> ast.Module:
    """A module without lines: nobody can look them up."""
    for node in ast.walk(module):
        if "lineno" in vars(node):
            vars(node)["lineno"] = 1
    return by_line(module)


def compiled(path: str, source: bytes) -> bytes:
    """Bytes of the file that an import takes instead of the source."""
    tree = by_line(untyped(source) if path.startswith(OURS) else ast.parse(source))
    if path.startswith(WRITTEN):
        tree, path = on_one_line(tree), "<string>"
    code = compile(tree, path, "exec", dont_inherit=True, optimize=2)
    parts = held(code)
    data = marshal.dumps(code)
    del parts
    return MAGIC_NUMBER + struct.pack("<I", NEVER_CHECKED) + source_hash(source) + data


def unpack(pack: bytes) -> dict[str, bytes]:
    """Take apart what bundle.pack made."""
    (length,) = struct.unpack_from("<I", pack)
    at, files = 4 + length, {}
    for path, size in json.loads(pack[4:at]).items():
        files[path] = pack[at : at + size]
        at += size
    return files


made = {
    path: compiled(path, data) for path, data in unpack(Path("/sources.bin").read_bytes()).items()
}
index = json.dumps({path: len(data) for path, data in made.items()}).encode()
Path("/compiled.bin").write_bytes(struct.pack("<I", len(index)) + index + b"".join(made.values()))
