import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pondapp.models.migrate import Plain, TooNew, Unmigratable, migrated
from pondapp.models.preferences import Draft


def rename(data: Plain) -> Plain:
    data["name"] = data.pop("title")
    return data


def to_cubic_metres(data: Plain) -> Plain:
    return {"name": data["name"], "volume_m3": data["litres"] / 1000}


STEPS = {"tub": (rename, to_cubic_metres)}
OLD: Plain = {"schema_version": 1, "title": "Tub", "litres": 40}


def test_takes_every_step_in_order_and_leaves_the_given_alone() -> None:
    given_data = dict(OLD)
    assert migrated("tub", given_data, 3, STEPS) == {
        "schema_version": 3, "name": "Tub", "volume_m3": 0.04,
    }  # fmt: skip
    assert given_data == OLD


def test_starts_at_the_version_it_finds() -> None:
    middle: Plain = {"schema_version": 2, "name": "Tub", "litres": 40}
    assert migrated("tub", middle, 3, STEPS) == migrated("tub", OLD, 3, STEPS)


def test_a_current_document_is_left_as_it_is() -> None:
    assert migrated("tub", OLD, 1, STEPS) == OLD


def test_a_newer_document_is_told_apart() -> None:
    with pytest.raises(TooNew, match="format 4, known up to 3"):
        migrated("tub", {"schema_version": 4}, 3, STEPS)


@pytest.mark.parametrize("version", [None, "1", 1.0, True, 0, -1])
def test_refuses_what_is_no_version(version: object) -> None:
    with pytest.raises(Unmigratable, match="does not say"):
        migrated("tub", {"schema_version": version}, 3, STEPS)


def test_refuses_a_kind_without_a_way() -> None:
    with pytest.raises(Unmigratable, match="no way from format 1"):
        migrated("other", OLD, 2, STEPS)
    with pytest.raises(Unmigratable, match="no way from format 1"):
        migrated("tub", OLD, 4, STEPS)


VALUES = st.none() | st.text(max_size=3) | st.integers() | st.lists(st.none(), max_size=2)


@given(st.dictionaries(st.sampled_from(["title", "litres", "name"]), VALUES))
@settings(max_examples=50)
def test_a_damaged_document_never_escapes_as_another_error(rest: Plain) -> None:
    try:
        result = migrated("tub", {"schema_version": 1, **rest}, 3, STEPS)
    except Unmigratable:
        return
    assert result["schema_version"] == 3


def test_a_draft_of_version_1_says_what_its_amounts_are() -> None:
    early = {
        "schema_version": 1,
        "id": "water-p",
        "texts": {"volume": "500", "a.s0.shelf_depth": "30", "name": "4", "date": "6/1/2025",
                  "rule_flow": "7", "rule_": "8"},
        "units": "us",
    }  # fmt: skip
    draft = Draft.model_validate(migrated("draft", early, 3))
    assert draft.kinds == {
        "volume": "volume", "a.s0.shelf_depth": "width", "date": "date", "rule_flow": "flow",
        "rule_": "",
    }  # fmt: skip
    assert draft.texts == early["texts"]


def test_a_draft_of_version_1_keeps_its_tolerances_under_their_names_of_now() -> None:
    early = {
        "schema_version": 1,
        "id": "fills-p-lip",
        "texts": {"scale_give": "5", "empty_weight": "400", "note": "a give"},
    }
    draft = Draft.model_validate(migrated("draft", early, 3))
    assert draft.texts == {"scale_tolerance": "5", "empty_weight": "400", "note": "a give"}
    assert draft.kinds == {"scale_tolerance": "mass", "empty_weight": "mass"}


def test_a_draft_of_version_2_has_its_fills_from_before_a_turn_as_one_set() -> None:
    fills = [{"seconds": 9.52, "typed": False, "struck": False}, {"seconds": 7.27, "struck": True}]
    early = {
        "schema_version": 2,
        "id": "fills-p-lip-bucket",
        "texts": {"before.1.full_weight": "9.4"},
        "fills": [{"seconds": 20.0}],
        "before_turn": fills,
    }
    draft = Draft.model_validate(migrated("draft", early, 3))
    (before,) = draft.before_turn
    assert [(fill.seconds, fill.excluded) for fill in before.fills] == [(9.52, False), (7.27, True)]
    assert (before.container, before.opened, before.until) == (None, None, None)
    assert draft.texts == early["texts"]
    for none in ({}, {"before_turn": []}):
        bare = {"schema_version": 2, "id": "d", **none}
        assert Draft.model_validate(migrated("draft", bare, 3)).before_turn == ()
