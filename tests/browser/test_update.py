"""A new version comes whole or not at all, when the user says so, and never mixes with the old."""

import pytest
from phones import BOOT, Host, Phone, open_app, shows, wait_offline, wait_started, wait_true
from playwright.sync_api import Page

LOOK = "navigator.serviceWorker.getRegistration().then(one => one.update()).then(() => true)"


def kept_versions(page: Page) -> int:
    return page.evaluate(
        "caches.keys().then(all => all.filter(one => one.startsWith('pondapp-')).length)"
    )


def start_a(phone: Phone, host: Host) -> Page:
    page = phone.start()
    open_app(page, host.address)
    wait_offline(page)
    return page


def restart_into_b(page: Page) -> None:
    wait_true(page, "pondappUpdate.ready")
    with page.expect_navigation(timeout=BOOT):
        page.get_by_role("button", name="New version: restart").click()
    wait_started(page)
    shows(page, "trial B")
    wait_true(
        page,
        "caches.keys().then(all => all.filter(one => one.startsWith('pondapp-')).length === 1)",
    )


def test_new_version_waits_until_the_user_restarts(
    phone: Phone, host: Host, trial_files_b: dict[str, bytes]
) -> None:
    page = start_a(phone, host)
    host.deploy(trial_files_b)
    page.evaluate(LOOK)
    wait_true(page, "pondappUpdate.ready")
    open_app(page, host.address)  # loading again is not yet a yes
    shows(page, "trial A")
    assert kept_versions(page) == 2
    restart_into_b(page)


@pytest.mark.parametrize("harm", ["spoilt", "half", "missing"])
def test_broken_download_leaves_the_old_version_working(
    phone: Phone, host: Host, trial_files_b: dict[str, bytes], harm: str
) -> None:
    page = start_a(phone, host)
    broken = dict(trial_files_b)
    if harm == "spoilt":
        broken["start.bin"] = broken["start.bin"][:-1] + b"?"
    host.deploy(broken)
    if harm == "half":
        host.cut.add("start.bin")
    if harm == "missing":
        (host.folder / "start.bin").unlink()
    page.evaluate("document.documentElement.dataset.update = ''")
    page.evaluate(f"{LOOK}.catch(() => false)")
    page.wait_for_selector("html[data-update=redundant]", state="attached", timeout=BOOT)
    assert page.evaluate("pondappUpdate.ready") is False
    open_app(page, host.address)
    shows(page, "trial A")

    host.cut.clear()
    host.deploy(trial_files_b)  # mended: the next look finds it whole
    page.evaluate(f"{LOOK}.catch(() => false)")
    restart_into_b(page)


def test_lost_entry_is_fetched_again_only_if_it_is_of_this_version(
    phone: Phone, host: Host, trial_files_b: dict[str, bytes]
) -> None:
    page = start_a(phone, host)
    lose = (
        "caches.keys().then(all => caches.open(all.find(one => one.startsWith('pondapp-'))))"
        ".then(cache => cache.delete(new URL('start.bin', document.baseURI).href))"
    )
    assert page.evaluate(lose) is True
    open_app(page, host.address)
    shows(page, "trial A")

    assert page.evaluate(lose) is True
    (host.folder / "start.bin").write_bytes(trial_files_b["start.bin"])
    page.goto(host.address)
    page.get_by_text("The app could not start").wait_for(timeout=BOOT)  # said, and never mixed
