"""A vent whose divided cover opens, rises and closes: arms, rods and phases, as solids in both markets."""

from __future__ import annotations

import math
import shutil
from collections.abc import Callable
from functools import lru_cache
from pathlib import Path

import pytest

from planbook.design import Design, Overrides, Plan, evaluate, plan_design
from planbook.measure import MILLIMETRE
from planbook.motion import Travel, check_travels, travels_of
from planbook.shape import shape_parts
from planbook.source import Door, load
from planbook.source.content import Content
from planbook.source.findings import Finding
from planbook.statement.judging import judge_rules

FIXTURE = Path(__file__).parents[1] / "fixtures/motion"
SET = "sliding-vent"
MARKETS = ("north_america", "europe")


@lru_cache
def vent(market: str) -> tuple[dict[str, Travel], list[Finding]]:
    """The fixture as it stands."""
    return move(FIXTURE, market)


def move(workspace: Path, market: str = "europe") -> tuple[dict[str, Travel], list[Finding]]:
    """The travels of the vent in a market, and all that is found about it as it moves."""
    content, found = load(Door(workspace), SET)
    assert content is not None, found
    plan, planned = plan_design(content)
    assert plan is not None, planned
    design, worked = evaluate(plan, Overrides(market))
    if design is None:
        return {}, [*found, *planned, *worked]
    travels, moved = moving(content, plan, design)
    return travels, [*found, *planned, *worked, *moved]


def moving(content: Content, plan: Plan, design: Design) -> tuple[dict[str, Travel], list[Finding]]:
    parts, shaped = shape_parts(content, design)
    travels, found = travels_of(content, plan, design, parts)
    units = next(each.units for each in content.plan_set.editions.values() if str(each.market) == design.market)
    because = {str(name): str(rule.because) for name, rule in content.rules.items()}
    _, broken = judge_rules(content, design, plan, units, because, travels)
    return dict(travels), [*shaped, *found, *check_travels(content, travels), *broken]


def millimetres(travel: Travel, name: str) -> list[float]:
    """A parameter at every place of the travel."""
    return [place.design.parameters[name].value.number / MILLIMETRE for place in travel.places]


def number(travel: Travel, name: str) -> list[float]:
    return [place.design.parameters[name].value.number for place in travel.places]


@pytest.mark.parametrize("market", MARKETS)
def test_nothing_is_in_the_way_from_shut_to_ajar(market: str) -> None:
    travels, found = vent(market)
    assert found == []
    assert len(travels["airing"].places) == 61


@pytest.mark.parametrize("market", MARKETS)
def test_what_the_driver_does_not_move_is_placed_once_and_all_else_as_if_nothing_were(market: str) -> None:
    travel = vent(market)[0]["airing"]
    first = travel.places[0].components
    for place in travel.places[1::12]:
        alone, _ = travel.mover.place(place.at)
        assert alone is not None
        assert place.components == alone.components
        same = [one is other for one, other in zip(first, place.components, strict=True)]
        assert any(same)
        assert not all(same)


@pytest.mark.parametrize("market", MARKETS)
@pytest.mark.parametrize(
    ("pin", "rider", "play"),
    [
        ("right_arm_pin", "right_yoke", ("yoke.slot", "pin.thickness")),
        ("rear_crank_pin", "rear_rod", ("rod.bore", "pin.thickness")),
        ("front_shutter_pin", "front_rod", ("rod.bore", "pin.thickness")),
    ],
)
def test_pins_stay_where_the_calculators_say(market: str, pin: str, rider: str, play: tuple[str, str]) -> None:
    """As solids each pin keeps half of its play on both sides, at every step: the travel of arm and slot, and of crank
    and rod with its lean, are those of the calculators."""
    travel = vent(market)[0]["airing"]
    wide, thick = (millimetres(travel, name)[0] for name in play)
    # A facet of pin and bore stands off by up to 0.05 mm.
    assert travel.sweep.gaps(pin, rider) == pytest.approx([(wide - thick) / 2] * len(travel.places), abs=0.06)


@pytest.mark.parametrize("market", MARKETS)
def test_segments_clear_each_other_before_they_rise(market: str) -> None:
    """The gap between neighbours as solids is that of `segment_gap`, two travels along diagonals, less the tongue; and
    nothing has risen until it is there."""
    travel = vent(market)[0]["airing"]
    tongue, play = (millimetres(travel, name)[0] for name in ("tongue.length", "tongue.play"))
    slides = zip(millimetres(travel, "arm.travel"), millimetres(travel, "rod.travel"), strict=True)
    apart = [(one + other) / math.sqrt(2) for one, other in slides]
    rise, gaps = number(travel, "lift.now"), travel.sweep.gaps("right_shutter", "rear_shutter")
    # From the tongue's tip to the lips of the groove that it came from.
    clear = [k for k in range(len(gaps)) if rise[k] == 0 and tongue < apart[k] < tongue + 20]
    assert len(clear) > 3
    assert [gaps[k] for k in clear] == pytest.approx([math.hypot(apart[k] - tongue, play / 2) for k in clear], abs=0.01)
    assert min(apart[k] for k in range(len(gaps)) if 0 < rise[k] < max(rise)) > tongue


def test_the_order_is_open_rise_close() -> None:
    travel = vent("europe")[0]["airing"]
    opened, risen, closed = (number(travel, f"phase.{name}") for name in ("open", "rise", "close"))
    assert all(first == 1 or second == 0 for first, second in zip(opened, risen, strict=True))
    assert all(first == 1 or second == 0 for first, second in zip(risen, closed, strict=True))
    assert (opened[20], risen[40], closed[60]) == (1, 1, 1)


def test_the_pressure_angle_is_told_where_it_is_greatest() -> None:
    """An arm at 60 degrees from mid-stroke; the rods lean most where crank and line are nearest to square."""
    travel = vent("europe")[0]["airing"]
    arms, rods = number(travel, "arm.pressure"), number(travel, "rod.lean")
    assert max(arms) == pytest.approx(60)
    crank, rod = (number(travel, name)[0] for name in ("crank.radius", "rod.length"))
    assert max(rods) == pytest.approx(math.degrees(math.asin(crank / rod)))


Edit = Callable[[Path], None]


def edit(file: str, old: str, new: str) -> Edit:
    def change(folder: Path) -> None:
        path = folder / file
        text = path.read_text(encoding="utf-8")
        assert text.count(old) == 1, (file, old)
        path.write_text(text.replace(old, new), encoding="utf-8")

    return change


BAD = {
    "a driver outside its range": (
        edit("positions.yaml", "ajar: 120 deg", "ajar: 130 deg"),
        "position-outside",
        ["`handle.angle` is 130 deg", "0° to 120°"],
    ),
    "a driver that is given outside its range": (
        edit("parameters.yaml", "{is: 0 deg, means: turn of the crank", "{is: 200 deg, means: turn of the crank"),
        "position-outside",
        ["`handle.angle` is 200° as it is given", "0° to 120°"],
    ),
    "a linkage that cannot close": (
        edit(
            "parameters.yaml", "{north_america: 4 3/4 in, europe: 120 mm}", "{north_america: 4 3/4 in, europe: 48 mm}"
        ),
        "travel-stuck",
        [
            "step 2 of 60, `handle.angle` at 4°",
            "the rod does not reach",
            "r = 50 mm (1.969 in), l = 48 mm (1.89 in), θ = 106 deg",
        ],
    ),
    "a ramp steeper than its roller climbs": (
        edit("parameters.yaml", "{is: 60 deg, means: turn of the ramps}", "{is: 20 deg, means: turn of the ramps}"),
        "rule-broken",
        ["rollers.climb", "33.8° <= 30.5° fails by 3.25°"],
    ),
    "negative play": (
        edit(
            "parameters.yaml", "{north_america: 1/64 in, europe: 0.4 mm}", "{north_america: 1/64 in, europe: -0.4 mm}"
        ),
        "out-of-range",
        ["The tongue is wider than its groove", "t = 4 mm (0.1575 in), g = 3.6 mm (0.1417 in)"],
    ),
    "no friction": (
        edit("parameters.yaml", "friction: {is: 0.25", "friction: {is: 0"),
        "out-of-range",
        ["μ (coefficient of friction) is 0", "above 0 and below 2"],
    ),
    "phases that contradict their order": (
        edit("positions.yaml", "rise: {from: phase.open_to,", "rise: {from: 30 deg,"),
        "phase-order",
        ["The phase rise begins at 30°, before open has ended, at 40°"],
    ),
    "a rise before the tongues are out": (
        edit("positions.yaml", "{from: phase.open_to, to: 80 deg, after: open}", "{from: 2 deg, to: 42 deg}"),
        "travel-blocked",
        ["`right_shutter` and `rear_shutter` run into one another: 0.5 mm", "`handle.angle` at 4°, step 2 of 60"],
    ),
}


@pytest.mark.parametrize("name", BAD)
def test_what_cannot_work_is_told_with_its_step_and_numbers(tmp_path: Path, name: str) -> None:
    change, code, told = BAD[name]
    workspace = shutil.copytree(FIXTURE, tmp_path / "workshop")
    change(workspace / "content" / SET)
    _, found = move(workspace)
    messages = [each.message for each in found if each.code == code]
    assert any(all(words in message for words in told) for message in messages), found
    # What only follows from a formula without a value is not told again.
    assert len(found) == 1 or code in ("rule-broken", "travel-blocked", "travel-stuck")


def test_what_breaks_says_what_it_hangs_on_most(tmp_path: Path) -> None:
    """The ramps' slope against what a roller climbs: turn, radius and rise of the ramp, with values that mend it."""
    workspace = shutil.copytree(FIXTURE, tmp_path / "workshop")
    BAD["a ramp steeper than its roller climbs"][0](workspace / "content" / SET)
    _, found = move(workspace)
    (broken,) = (each for each in found if each.code == "rule-broken" and "rollers.climb" in each.message)
    assert "`lift.flat` from 3 mm to" in broken.remedy
    assert "`lift.roller` from 11 mm to" in broken.remedy
