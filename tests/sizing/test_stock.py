"""Fish, filter and oxygen of a whole pond."""

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pondapp.core.errors import PondError
from pondapp.models.circuit import BogFilter, Branch, HighFlowFilter, Line, Lip
from pondapp.models.fish import FishGroup
from pondapp.models.pond import Pond
from pondapp.models.water import Basin, Drawn, Rectangle, TypedVolume
from pondapp.sizing.stock import ammonia_test, stock, toxic_shares

POOL = Basin(id="b", name="Pool", outline=Rectangle(length_m=4, width_m=3), depth_m=1)
BOG = BogFilter(id="bog", name="Bog", bed_volume_m3=1.2)
LIP = Lip(id="lip", name="Fall", width_m=0.3, fall_m=0.5)
FEW = FishGroup(id="g", name="Goldfish", count=6, length_m=0.15, grown_length_m=0.25)


def pond(**more: Any) -> Pond:
    known: dict[str, Any] = {
        "id": "p", "name": "Invented", "water": Drawn(basins=(POOL,)), "fish": (FEW,),
        "fed": (BOG, LIP), "water_temperature_c": 22,
    }  # fmt: skip
    return Pond(**{**known, **more})


def many(count: int) -> tuple[FishGroup, ...]:
    return (FEW.model_copy(update={"count": count}),)


def test_a_few_goldfish_and_a_bog_go_together() -> None:
    found = stock(pond(), grown=False)
    assert found.good
    assert "go together" in str(found.verdict)
    assert found.balance.levers == ()
    assert found.left_out == ()
    assert len(found.counted) == 3


def test_too_many_fish_are_said_and_each_lever_settles_it() -> None:
    small = BOG.model_copy(update={"bed_volume_m3": 0.2})
    crowded = pond(fish=many(400), fed=(small, LIP))
    found = stock(crowded, grown=True)
    assert not found.good
    levers = {lever.kind: lever for lever in found.balance.levers}
    assert {"more media", "fewer fish", "less feed"} <= set(levers)
    bigger = BOG.model_copy(update={"bed_volume_m3": 0.2 + levers["more media"].amount.value})
    mended = stock(crowded.model_copy(update={"fed": (bigger, LIP)}), grown=True)
    assert mended.balance.filter_fit == "likely enough"
    fewer = 400 - int(levers["fewer fish"].amount.value)
    assert stock(pond(fish=many(fewer), fed=(small, LIP)), grown=True).good


@given(st.integers(1, 300), st.integers(1, 300))
@settings(max_examples=15, deadline=None)
def test_more_fish_never_ask_for_less(count: int, more: int) -> None:
    few, lots = (stock(pond(fish=many(n)), grown=False) for n in (count, count + more))
    assert lots.ammonia.likely > few.ammonia.likely
    assert lots.oxygen_use.likely > few.oxygen_use.likely
    assert lots.capacity == few.capacity


def test_grown_fish_weigh_by_the_cube_of_their_length() -> None:
    now, grown = (stock(pond(), grown=grown).fish.likely for grown in (False, True))
    assert grown / now == pytest.approx((0.25 / 0.15) ** 3)


def test_feed_by_hand_counts_instead_of_the_charts() -> None:
    found = stock(pond(feed_kg_day=0.02), grown=False)
    assert found.feed.low == found.feed.high == pytest.approx(0.02)
    # 35 % protein and 9.2 % of it as ammonia nitrogen: Timmons and Ebeling.
    assert found.ammonia.likely == pytest.approx(0.02 * 0.35 * 0.092)


def test_a_measured_flow_counts_before_the_wanted_one() -> None:
    wanted, measured = (
        stock(pond(), grown=False, flows=flows).balance.oxygen.by_fall.likely
        for flows in ({}, {"lip": 4 / 3600 / 2})
    )
    assert measured == pytest.approx(wanted / 2)


def test_what_is_not_known_is_named_and_not_guessed() -> None:
    bare = pond(
        water=TypedVolume(volume_m3=12),
        fed=(
            HighFlowFilter(id="box", name="Box"),
            LIP.model_copy(update={"fall_m": None}),
        ),
    )
    found = stock(bare, grown=False)
    assert found.capacity.high == 0
    assert found.oxygen_supply.high == 0
    assert found.balance.filter_fit == "too little"
    said = " ".join(map(str, found.left_out))
    for words in ("volume of its media", "height of its fall", "draw the pond's shape"):
        assert words in said


def test_a_pump_on_a_timer_counts_for_nothing_at_night() -> None:
    branches = (
        Branch(id="one", name="One", feeds=("bog",)),
        Branch(id="two", name="Two", feeds=("lip",)),
    )
    line = Line(id="line", name="Pump", branches=branches)
    by_day = line.model_copy(update={"hours_per_day": 12.0})
    assert stock(pond(lines=(line,)), grown=False).balance.oxygen.by_fall.likely > 0
    found = stock(pond(lines=(by_day,)), grown=False)
    assert found.capacity.high == 0
    assert found.balance.oxygen.by_fall.likely == 0
    assert len(found.left_out) == 2
    only_bog = line.model_copy(update={"branches": branches[:1]})
    assert "no branch" in str(stock(pond(lines=(only_bog,)), grown=False).left_out[0])


def test_toxic_ammonia_grows_with_ph_and_past_the_limit_it_is_said() -> None:
    shares = [share for _, share in toxic_shares(pond())]
    assert shares == sorted(shares)
    assert ammonia_test(pond(), 0.5e-3, 7.0).warnings == ()
    assert ammonia_test(pond(), 0.5e-3, 9.0).warnings
    with pytest.raises(PondError):
        ammonia_test(pond(), 0.5e-3, 14.0)
