"""Sites and browsers for the tests of this folder."""

import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Error, Playwright, expect, sync_playwright

from pondapp.web import bundle, compiled, places, site

sys.path.insert(0, str(Path(__file__).parent))  # for phones.py, which the tests import too

from phones import PATIENCE, Host, Phone, open_app, wait_offline

expect.set_options(timeout=PATIENCE)

TRIAL = b'''"""An app of one button and one line of rare glyphs."""

import flet as ft
import pint
import pydantic


async def main(page: ft.Page) -> None:
    line = ft.Text("presses: 0")
    presses = 0

    def press(_: object) -> None:
        nonlocal presses
        presses += 1
        line.value = f"presses: {presses}"
        line.update()

    page.add(ft.Text("trial A"), line, ft.Button("Press", on_click=press))
    page.add(ft.Text("\\u2192 \\u2605 \\u2082 \\u6c34"))  # no font of the site has these
    page.add(ft.Text(pydantic.VERSION + pint.UnitRegistry.__name__))


ft.run(main)
'''


@pytest.fixture(scope="session")
def playwright() -> Iterator[Playwright]:
    with sync_playwright() as started:
        yield started


@pytest.fixture(scope="session")
def program(playwright: Playwright) -> str:
    found = compiled.browser()
    if found is None and Path(playwright.chromium.executable_path).exists():
        found = playwright.chromium.executable_path
    if found is None:
        pytest.fail("no browser found: install chromium, or run `playwright install chromium`")
    return found


@pytest.fixture
def phone(playwright: Playwright, program: str, tmp_path: Path) -> Iterator[Phone]:
    made = Phone(playwright, program, tmp_path / "profile")
    made.profile.mkdir()
    yield made
    made.kill()


@pytest.fixture(scope="session")
def first_phone(
    playwright: Playwright,
    program: str,
    tmp_path_factory: pytest.TempPathFactory,
    site_address: str,
) -> Iterator[Phone]:
    """A phone that has visited the app once; for `used_phone` only."""
    made = Phone(playwright, program, tmp_path_factory.mktemp("first") / "profile")
    made.profile.mkdir()
    open_app(made.start(), site_address)
    wait_offline(made.page)
    yield made
    made.kill()


@pytest.fixture
def used_phone(first_phone: Phone, site_address: str) -> Phone:
    """A phone that has the app and nothing of its user's: it starts sooner than a new one.

    A test that changes the browser itself, or ends it, takes a `phone` of its own.
    """
    try:
        first_phone.forget(site_address)
    except Error:  # the page of the test before crashed: only that one is to fail by it
        first_phone.kill()
        first_phone.start()
        first_phone.forget(site_address)
    return first_phone


@pytest.fixture(scope="session")
def site_of_app(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The real app's site, built once."""
    folder = tmp_path_factory.mktemp("site") / "site"
    files = site.best_files(bundle.app_files(places.PACKAGE), print)
    site.write(files, folder, compress=False)
    return folder


@pytest.fixture(scope="session")
def site_host(site_of_app: Path) -> Iterator[Host]:
    """Serves the real app."""
    host = Host(site_of_app)
    yield host
    host.stop()


@pytest.fixture(scope="session")
def site_address(site_host: Host) -> str:
    """Address of the real app."""
    return site_host.address


@pytest.fixture(scope="session")
def trial_files() -> dict[str, bytes]:
    """Site of a tiny app: what is tested is how it is kept, not what it says."""
    return site.site_files({"main.py": TRIAL})


@pytest.fixture(scope="session")
def trial_files_b() -> dict[str, bytes]:
    """The next version of it."""
    return site.site_files({"main.py": TRIAL.replace(b"trial A", b"trial B")})


@pytest.fixture
def host(tmp_path: Path, trial_files: dict[str, bytes]) -> Iterator[Host]:
    made = Host(tmp_path / "host")
    made.deploy(trial_files)
    yield made
    made.stop()
