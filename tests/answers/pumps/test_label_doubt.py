"""A label is doubted by what is known of now, however long the log is."""

from collections.abc import Sequence
from datetime import UTC, datetime, timedelta
from typing import Any

import pytest

from pondapp.answers.care.open_matters import measured
from pondapp.answers.learning import kept
from pondapp.answers.log.log import LogItem
from pondapp.answers.pond import WorkedPond
from pondapp.answers.sharing.example import example_pond, example_readings

NOW = datetime(2026, 6, 1, 12, tzinfo=UTC)


def test_a_fit_on_the_way_to_the_first_screen_is_of_the_newest_readings(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    week = timedelta(days=7)
    log = [
        one.model_copy(update={"id": f"{one.id}-{age}", "taken_at": one.taken_at - age * week})
        for age in range(8)
        for one in example_readings(NOW)
        if one.place_id == "box"
    ]
    asked: list[Sequence[LogItem]] = []
    learned_once = kept.learned_once

    def noted(worked: WorkedPond, line: Any, items: Sequence[LogItem], *rest: Any) -> Any:
        asked.append(items)
        return learned_once(worked, line, items, *rest)

    monkeypatch.setattr(kept, "learned_once", noted)
    measured(WorkedPond(example_pond()), log, NOW)
    newest = max(log, key=lambda one: one.taken_at)
    assert asked == [[newest]]
