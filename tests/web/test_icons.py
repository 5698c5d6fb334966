"""The icon font holds what the app names, and little else."""

import io
import json

import pytest
from fontTools.ttLib import TTFont

from pondapp.web import bundle, icons, places

NAME = "assets/fonts/MaterialIcons-Regular.otf"


@pytest.fixture(scope="module")
def whole() -> bytes:
    return (places.client() / NAME).read_bytes()


def codes(font: bytes) -> set[int]:
    return set(TTFont(io.BytesIO(font)).getBestCmap())


def test_names_become_glyphs() -> None:
    sources = [b"ft.Icons.ADD, ft.Icons.TIMER_OUTLINED", b"x = Icons.TIMER_ROUNDED if y else 0"]
    assert icons.named(sources) == {"add_baseline", "timer_outlined", "timer_rounded"}


def test_font_holds_the_icons_of_the_app_under_the_same_codes(whole: bytes) -> None:
    sources = list(bundle.app_files(places.PACKAGE).values())
    cut = icons.font(whole, sources)
    code = {glyph: code for code, glyph in TTFont(io.BytesIO(whole)).getBestCmap().items()}
    wanted = icons.named(sources) | {"arrow_back_baseline", "arrow_drop_down_baseline"}
    assert {code[glyph] for glyph in wanted} <= codes(cut)
    assert len(cut) < 60_000
    assert icons.font(whole, sources) == cut


def test_an_icon_is_added_when_it_is_named(whole: bytes) -> None:
    plain, more = icons.font(whole, []), icons.font(whole, [b"Icons.POOL"])
    assert len(codes(more) - codes(plain)) == 1


def test_unknown_icon_is_refused(whole: bytes) -> None:
    with pytest.raises(places.BuildError, match="no_such_baseline"):
        icons.font(whole, [b"Icons.NO_SUCH"])


def test_every_control_icon_is_in_the_font(whole: bytes) -> None:
    there = set(TTFont(io.BytesIO(whole)).getGlyphOrder())
    assert [name for name in icons.CONTROLS if f"{name}_baseline" not in there] == []


def test_icons_are_named_in_full_where_they_are_used() -> None:
    for path, source in bundle.app_files(places.PACKAGE).items():
        assert b"Icons[" not in source, path
        assert b"getattr(ft.Icons" not in source, path


def test_the_framework_keeps_the_numbers_of_these_icons_alone() -> None:
    known = json.dumps({"ADD": 1, "POOL": 2, "TIMER": 3}).encode()
    assert json.loads(icons.numbers(known, [b"ft.Icons.POOL", b"Icons.ADD"])) == {
        "ADD": 1,
        "POOL": 2,
    }
    assert icons.numbers(known, []) == b"{}"
    with pytest.raises(places.BuildError, match="NO_SUCH"):
        icons.numbers(known, [b"Icons.NO_SUCH"])
