"""How long a pond bears a pump that stands still, and what is said of what is not known."""

from math import inf

from pondapp.answers.keeping.pump_off import PumpOff, pump_off
from pondapp.answers.pond import WorkedPond
from pondapp.models.circuit import BogFilter
from pondapp.models.fish import FishGroup
from pondapp.models.pond import Pond
from pondapp.models.water import TypedVolume

KOI = FishGroup(id="k", name="Koi", count=10, length_m=0.45)
POND = Pond(id="p", name="Invented", water=TypedVolume(volume_m3=5.0), fish=(KOI,),
            fed=(BogFilter(id="bog", name="Bog", bed_volume_m3=0.5),))  # fmt: skip


def told(pond: Pond = POND, *, celsius: float = 24.0, oxygen: float | None = None,
         area: float | None = 6.0) -> PumpOff:  # fmt: skip
    return pump_off(WorkedPond(pond), temperature=celsius + 273.15, oxygen=oxygen, area=area)


def test_many_fish_in_warm_water_are_in_danger_within_the_night() -> None:
    found = told()
    assert found.severity == "danger"
    soonest, likely = (found.verdict.values[one][0] for one in ("soonest", "likely"))
    assert (soonest, likely) == found.danger[:2]
    assert soonest < likely  # the sooner stands first: what is likely may come too late
    assert found.worry[0] <= found.worry[1] <= found.worry[2]
    assert all(worry <= danger for worry, danger in zip(found.worry, found.danger, strict=True))
    assert found.filter_suffers == 4 * 3600.0
    assert "Oxygen is not measured" in str(found.remarks[0])


def test_cold_water_and_few_fish_last_longer_and_measured_oxygen_is_taken() -> None:
    assert told(celsius=8.0).danger[1] > told().danger[1]
    assert told(oxygen=3e-3).danger == (0.0, 0.0, 0.0)
    assert "in danger now" in str(told(oxygen=3e-3).verdict)
    assert not told(oxygen=7e-3).remarks


def test_nothing_is_ever_called_right_and_what_is_missing_is_said() -> None:
    none = POND.model_copy(update={"fish": (), "fed": ()})
    found = told(none, celsius=10.0, area=None)
    words = " ".join(str(one) for one in found.remarks)
    assert "No fish are entered" in words
    assert "open water is not known" in words
    assert found.filter_suffers is None
    assert found.severity != "right"
    lasting = told(none, celsius=6.0, area=8.0, oxygen=11e-3)
    assert lasting.severity == "unknown"
    assert "not known without the fish" in str(lasting.verdict)
    small = FishGroup(id="s", name="Minnow", count=3, length_m=0.05)
    few = POND.model_copy(update={"fish": (small,)})
    kept = told(few, celsius=6.0, area=8.0, oxygen=11e-3)
    assert "that is not sure: bring in air" in str(kept.verdict)
    assert lasting.danger[2] == inf
