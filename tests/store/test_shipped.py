import asyncio
import json

import pytest

import pondapp
from pondapp.store.shipped import CLIENT, LICENCES, SHIPPED, VERSION, notices, texts_of
from pondapp.web import places, wheels

PARTS = {part.name: part for part in SHIPPED}


def test_every_locked_package_is_listed_as_it_ships():
    locked = {name: version for name, (version, _) in wheels.locked(places.LOCK).items()}
    ours = {"pondapp", "Pyodide", "CPython", CLIENT.name}
    assert {name: part.version for name, part in PARTS.items() if name not in ours} == locked


def test_client_and_runtime_are_listed_as_they_ship():
    runtime = json.loads((places.client() / "pyodide/pyodide-lock.json").read_bytes())["info"]
    assert PARTS["Pyodide"].version == runtime["abi_version"]
    assert PARTS["CPython"].version == runtime["python"]
    assert PARTS["flet"].version == CLIENT.version


def test_the_app_and_its_licence_are_the_projects():
    assert f'\nversion = "{VERSION}"\n' in (places.ROOT / "pyproject.toml").read_text()
    assert (LICENCES / "mit.txt").read_text() == (places.ROOT / "LICENSE").read_text()
    assert (places.ROOT / "assets/CHANGELOG.md").read_text().count(f"## {VERSION}") == 1
    assert pondapp.__doc__


@pytest.mark.parametrize("name", PARTS)
def test_each_has_a_text(name):
    texts = asyncio.run(texts_of(PARTS[name]))
    assert texts
    assert all(len(text) > 100 for _, text in texts[:20])


def test_notices_are_told_apart():
    text = "one\ntwo\n\nFirst text.\n" + "-" * 80 + "\nthree\n\nSecond.\n\nMore.\n"
    assert notices(text) == (("one, two", "First text."), ("three", "Second.\n\nMore."))
