"""First visit, restart without a network after the browser was killed, and nobody else is asked."""

from phones import Host, Phone, open_app, wait_offline, wait_true


def test_first_visit_asks_nobody_else_and_reports_no_error(phone: Phone, host: Host) -> None:
    page = phone.start()
    open_app(page, host.address)  # with glyphs that no font of the site has
    page.get_by_text("UnitRegistry").wait_for(state="attached")  # to its last line
    wait_offline(page)
    assert phone.strangers(host.address) == []
    assert [error for error in phone.errors if "404" not in error] == []
    assert any(url.endswith("pack.bin") for url in phone.requests), "the requests were not seen"


def test_offline_restart_after_the_browser_was_killed(phone: Phone, host: Host) -> None:
    page = phone.start()
    open_app(page, host.address)
    wait_offline(page)
    phone.kill()
    host.stop()

    page = phone.start()
    phone.errors.clear()
    open_app(page, f"{host.address}#/measure")
    page.get_by_role("button", name="Press").click()
    page.get_by_text("presses: 1").wait_for(state="attached")
    assert phone.strangers(host.address) == []
    host.start(0)  # so that the fixture has something to stop


def test_return_visit_keeps_our_service_worker(phone: Phone, host: Host) -> None:
    page = phone.start()
    open_app(page, host.address)
    wait_offline(page)
    open_app(page, host.address)
    workers = page.evaluate(
        "navigator.serviceWorker.getRegistrations()"
        ".then(all => all.map(one => one.active.scriptURL))"
    )
    assert [url.split("?")[0] for url in workers] == [f"{host.address}sw.js"]


def test_an_address_that_is_not_of_the_app_is_left_to_the_network(phone: Phone, host: Host) -> None:
    page = phone.start()
    open_app(page, host.address)
    wait_offline(page)
    for elsewhere in ("elsewhere", "elsewhere/", "elsewhere/index.html"):
        answer = page.goto(f"{host.address}{elsewhere}")
        assert answer is not None
        assert answer.status == 404
    open_app(page, f"{host.address}index.html")
    page.get_by_text("trial A").wait_for(state="attached")


def test_kept_answers_have_type_and_policy(phone: Phone, host: Host) -> None:
    page = phone.start()
    open_app(page, host.address)
    wait_offline(page)
    host.stop()
    headers = page.evaluate(
        "fetch('pyodide/pyodide.asm.wasm').then(answer => Object.fromEntries(answer.headers))"
    )
    assert headers["content-type"] == "application/wasm"
    assert "default-src 'none'" in headers["content-security-policy"]
    assert headers["x-content-type-options"] == "nosniff"
    host.start(0)


def test_press_is_stamped_on_the_way_down(phone: Phone, host: Host) -> None:
    page = phone.start()
    open_app(page, host.address)
    page.evaluate(
        "window.stamps = []; window.ear = new BroadcastChannel(pondappName('touch'));"
        "ear.onmessage = (event) => stamps.push({...event.data, now: performance.now()}); true"
    )
    page.mouse.move(200, 600)
    page.mouse.down()
    wait_true(page, "stamps.length === 1")  # before the finger is lifted
    page.mouse.up()
    stamp = page.evaluate("stamps[0]")
    assert stamp["tab"]
    assert stamp["away"] is False
    assert stamp["origin"] == page.evaluate("performance.timeOrigin")
    assert -5 <= stamp["now"] - stamp["t"] <= 1000


def test_refused_storage_is_said(phone: Phone, host: Host) -> None:
    page = phone.start()
    page.add_init_script("indexedDB.open = () => { throw new DOMException('no', 'SecurityError') }")
    page.goto(host.address)
    page.get_by_text("does not let the app keep anything").wait_for()


def test_old_browser_is_told(phone: Phone, host: Host) -> None:
    page = phone.start()
    page.add_init_script("delete window.BroadcastChannel")
    page.goto(host.address)
    page.get_by_text("too old for the app").wait_for()


def test_the_app_itself_starts(phone: Phone, site_address: str) -> None:
    page = phone.start()
    open_app(page, site_address)
    page.get_by_role("button").first.wait_for(state="attached")
    assert page.get_by_text("Error running app").count() == 0
    assert phone.strangers(site_address) == []
    assert phone.errors == []
