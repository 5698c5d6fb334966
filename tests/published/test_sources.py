"""SOURCES.md tells of every source in the code, and of nothing else."""

from importlib import import_module

import pytest
import sources
from verified import CONSTANTS, VERIFIED

HONEST = {
    "published": {"verified", "corrected"},
    "computed": {"verified", "corrected", "follows"},
    "common practice": {"not checked"},
    "rule of thumb": {"not checked"},
    "from memory": {"not checked"},
}


def test_every_source_of_the_code_was_looked_at() -> None:
    found = {source.text for source in sources.all_sources()}
    missing = found - set(VERIFIED)
    assert not missing, "say in tests/published/verified.py how each was looked at"
    assert not set(VERIFIED) - found


def test_no_source_claims_more_than_was_done() -> None:
    for source in sources.all_sources():
        outcome, how = VERIFIED[source.text]
        assert outcome in HONEST[source.status], source.text
        assert how


@pytest.mark.parametrize("name", CONSTANTS)
def test_constants_are_the_printed_ones(name: str) -> None:
    module, _, attribute = name.rpartition(".")
    value = getattr(import_module(f"pondapp.core.{module}"), attribute)
    assert value == pytest.approx(CONSTANTS[name][0], rel=1e-12)


def test_the_page_is_up_to_date() -> None:
    written = sources.FILE.read_text(encoding="utf-8")
    assert written == sources.page(), "run python tests/published/sources.py"
