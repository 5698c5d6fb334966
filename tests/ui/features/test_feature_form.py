"""The form of a filter, lip, jet or skimmer: its texts become the feature, or say what is wrong."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from samples_of_kinds import SAMPLES

from pondapp.answers.features.kinds import KINDS
from pondapp.models.circuit import (
    BogFilter,
    Branch,
    Feature,
    HighFlowFilter,
    Jet,
    Lip,
    Pipe,
    Skimmer,
    Stream,
    WaterFeature,
)
from pondapp.models.reading import Band
from pondapp.ui.features.feature_form import hose_texts, read_feature, read_hose, texts_of
from pondapp.ui.features.features import TRIED
from pondapp.ui.features.looks import LOOKS

OWN = Band(low_m3_s=1e-4, target_m3_s=2e-4, high_m3_s=3e-4)
OPEN = Band(low_m3_s=1e-4, target_m3_s=1e-4, high_m3_s=None)
FEATURES: tuple[WaterFeature, ...] = (
    BogFilter(id="a", name="Reed bed", bed_volume_m3=0.25),
    BogFilter(id="a", name="Reed bed", bed_volume_m3=0.25, band=OWN),
    HighFlowFilter(id="a", name="Barrel"),
    HighFlowFilter(id="a", name="Barrel", media_volume_m3=0.06, band=OPEN),
    Lip(id="a", name="Slate", width_m=0.4, fall_m=0.8),
    Lip(id="a", name="Slate", width_m=0.4),
    Jet(id="a", name="Frog", flow_m3_s=2e-4),
    Skimmer(id="a", name="Skimmer", opening_m=0.2),
    Stream(id="a", name="Brook", length_m=6.0, width_m=0.5, fall_m=0.4, bed="gravel"),
    SAMPLES["stream"].model_copy(update={"id": "a", "bed": "boulders"}),
    Lip(id="a", name="Slate", width_m=0.4, aim="least"),
    BogFilter(id="a", name="Reed bed", bed_volume_m3=0.25, aim="good"),
)


def close(one: object, other: object) -> bool:
    if isinstance(one, float) and isinstance(other, float):
        return one == pytest.approx(other, rel=1e-4)
    if isinstance(one, dict) and isinstance(other, dict):
        return one.keys() == other.keys() and all(close(one[key], other[key]) for key in one)
    return one == other


@pytest.mark.parametrize("feature", FEATURES)
@pytest.mark.parametrize("system", ["metric", "us", "imperial"])
def test_a_feature_as_typed_is_the_feature(feature: WaterFeature, system: str) -> None:
    made, errors = read_feature(texts_of(feature, system), feature.kind, "a", system)
    assert errors == {}
    assert made is not None
    assert close(made.model_dump(), feature.model_dump())


@pytest.mark.parametrize("kind", KINDS)
def test_each_amount_that_is_asked_is_stored_and_says_what_is_wrong(kind: str) -> None:
    assert set(KINDS) == set(LOOKS)
    stored = set(KINDS[kind].stored.model_fields) - set(Feature.model_fields) - {"kind"}
    look = LOOKS[kind]
    assert {*look.stored_names().values(), *(one.stored for one in look.choices)} == stored
    some = dict.fromkeys(look.only_with.values(), "2")
    for asked in look.form.fields:
        made, errors = read_feature({**some, asked.key: "wet"}, kind, "a", "metric")
        assert made is None
        assert set(errors) == {asked.key}


def test_empty_is_no_error_and_no_feature() -> None:
    assert read_feature({}, "bog", "a", "metric") == (None, {})


@given(
    low=st.floats(100, 10_000), best=st.floats(100, 10_000), high=st.floats(100, 10_000),
)  # fmt: skip
@settings(max_examples=60)
def test_an_own_band_is_in_order_or_refused(low: float, best: float, high: float) -> None:
    texts = {
        "bog": "100", "whose": "own",
        "band_low": f"{low:.1f}", "band_best": f"{best:.1f}", "band_high": f"{high:.1f}",
    }  # fmt: skip
    made, errors = read_feature(texts, "bog", "a", "metric")
    low, best, high = (float(texts[key]) for key in ("band_low", "band_best", "band_high"))
    if low <= best <= high:
        assert made is not None
        assert made.band is not None
    else:
        assert made is None
        assert list(errors) == ["band_best" if best < low else "band_high"]


def test_lift_and_hose_are_asked_where_the_feature_is_entered() -> None:
    hose, errors = read_hose({"lift": "0", "hose_length": "3", "bore": "25"}, None, "metric")
    assert errors == {}
    assert (hose.lift, hose.length, hose.bore) == (0.0, 3.0, pytest.approx(0.025))
    empty, errors = read_hose({}, None, "metric")
    assert (empty.lift, empty.length, empty.bore, errors) == (None, None, None, {})
    _, errors = read_hose({"hose_length": "3"}, None, "metric")
    assert list(errors) == ["bore"]


def test_an_entered_hose_is_left_to_its_own_form() -> None:
    pipe = Pipe(series="hose, mm", size="25 mm", length_m=3.0)
    branch = Branch(id="b", name="B", pipe=pipe, lift_m=0.6)
    assert hose_texts(branch, "metric") == {"lift": "0.6"}
    assert hose_texts(Branch(id="b", name="B"), "metric") == {}
    hose, errors = read_hose({"lift": "0.7", "hose_length": "wet"}, branch, "metric")
    assert (hose.lift, hose.length, errors) == (0.7, None, {})


@pytest.mark.parametrize("feature", FEATURES)
def test_a_new_feature_is_tried_under_an_id_that_a_feature_may_have(feature: WaterFeature) -> None:
    made, errors = read_feature(texts_of(feature, "metric"), feature.kind, TRIED, "metric")
    assert errors == {}
    assert made is not None
