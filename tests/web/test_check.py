"""What the check refuses."""

from pathlib import Path

import pytest

from pondapp.web import check, places, precache


def good() -> dict[str, bytes]:
    files = {path: b"" for paths in precache.ONLY.values() for path in paths}
    files |= dict.fromkeys(check.OUR_OWN, b"")
    files["icons/a.png"] = b""
    files["manifest.webmanifest"] = (
        b'{"icons": [{"src": "icons/a.png"}], "shortcuts": [], "screenshots": []}'
    )
    return files


def test_good_site_passes() -> None:
    check.check(good())


@pytest.mark.parametrize(
    ("path", "data", "reason"),
    [
        ("boot.js", b'fetch("https://example.org")', "names an address"),
        ("main.dart.wasm", b"..https://fonts.gstatic.com/s/..", "would ask"),
        ("flutter_service_worker.js", b"", "replace our service worker"),
        (
            "manifest.webmanifest",
            b'{"icons": [{"src": "icons/b.png"}], "shortcuts": [], "screenshots": []}',
            "is not there",
        ),
        (
            "manifest.webmanifest",
            b'{"icons": [], "shortcuts": [], "screenshots": [{"src": "screenshots/a.png"}]}',
            "is not there",
        ),
        ("start.bin", bytes(check.KEPT_IN_SOURCES + 1), "budget"),
        ("start.bin", b'"main.pyc"' + bytes(check.KEPT_AT_MOST), "budget"),
    ],
)
def test_bad_site_is_refused(path: str, data: bytes, reason: str) -> None:
    with pytest.raises(places.BuildError, match=reason):
        check.check({**good(), path: data})


def test_first_visit_over_the_budget_is_refused(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    files = {"pack.bin": b"x" * 100}
    (tmp_path / "pack.bin").write_bytes(files["pack.bin"])
    monkeypatch.setattr(check, "SENT_AT_MOST", 50)
    with pytest.raises(places.BuildError, match="to send"):
        check.check_sent(files, tmp_path)
    (tmp_path / "pack.bin.br").write_bytes(b"x" * 50)
    check.check_sent(files, tmp_path)


def test_more_files_than_the_budget_are_refused() -> None:
    room = check.FILES_AT_MOST - len(check._kept(good(), "skwasm"))
    more = {f"assets/{number}": b"" for number in range(room)}
    check.check({**good(), **more})
    with pytest.raises(places.BuildError, match="files to keep; the budget is"):
        check.check({**good(), **more, "assets/one-more": b""})


def test_bytes_that_do_not_pack_are_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(check, "ZIPPED_AT_MOST", 500)
    check.check_zipped({"pack.bin": bytes(100_000)})
    with pytest.raises(places.BuildError, match="zipped"):
        check.check_zipped(
            {"pack.bin": bytes(i * i % 251 for i in range(251)) * 2 + bytes(range(256)) * 3}
        )
