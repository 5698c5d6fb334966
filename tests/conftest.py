"""Markers by folder, so that no test file needs to say where it lives."""

import os
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings

from pondapp import words

# How long an example takes says more about the machine than about the code.
settings.register_profile("pondapp", deadline=None, suppress_health_check=[HealthCheck.too_slow])
# The same few examples each time, for runs that repeat a test thousands of times.
settings.register_profile(
    "few", settings.get_profile("pondapp"), max_examples=15, derandomize=True, database=None
)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "pondapp"))

HERE = Path(__file__).parent
FOLDERS = {"core", "models", "answers", "store", "state", "ui", "web", "published", "browser", "."}


@pytest.fixture(autouse=True)
def english_afterwards() -> Iterator[None]:
    yield
    words.set_language("en")
    words.set_currency("")


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    for item in items:
        folder = item.path.relative_to(HERE).parts[0]
        if item.path.parent == HERE:
            folder = "."
        if folder not in FOLDERS:
            raise pytest.UsageError(f"{item.path}: a test outside the known folders")
        if folder in ("published", "browser"):
            item.add_marker(folder)
    # The browser's driver keeps an event loop running, in which no other test could start one.
    items.sort(key=lambda item: item.get_closest_marker("browser") is not None)
