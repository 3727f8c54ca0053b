"""Sweeps against what can be worked out by hand: boxes that slide and turn, their least gap, whether they meet."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planbook.motion.sweep import REACH, Sweep, groups_of
from planbook.motion.travel import Place
from planbook.shape.geometry import Vec
from planbook.shape.model import Component, Placement
from tests.drawing.assemblies import X, Y, Z, at, shaped
from tests.drawing.samples import NM, Bench, round_loop

Triple = tuple[float, float, float]


def box(name: str, size: Triple) -> Component:
    return Component(name, Placement(at(0, 0, 0), X, Y, Z), shaped(Bench("box", "Box", size)))


def there(component: Component, where: Triple) -> Component:
    return replace(component, placement=replace(component.placement, origin=at(*where)))


def places(*along: tuple[Component, ...]) -> tuple[Place, ...]:
    return tuple(Place(float(number), None, components) for number, components in enumerate(along))  # type: ignore[arg-type]


def apart(a: Triple, sa: Triple, b: Triple, sb: Triple) -> float:
    """The distance of two upright boxes; below zero how far they must part to come free."""
    sides = [max(a[k] - b[k] - sb[k], b[k] - a[k] - sa[k]) for k in range(3)]
    if max(sides) <= 0:
        return max(sides)
    return math.hypot(*(max(side, 0.0) for side in sides))


small = st.integers(-60, 60).map(float)
sizes = st.tuples(*(st.integers(4, 40).map(float),) * 3)
ways = st.lists(st.tuples(small, small, small), min_size=4, max_size=9)


@settings(max_examples=40, deadline=None)
@given(size=sizes, other=sizes, way=ways)
def test_the_least_gap_of_sliding_boxes_is_that_of_all_places(size: Triple, other: Triple, way: list[Triple]) -> None:
    moving, still = box("moving", size), box("still", other)
    track = places(*((there(moving, where), still) for where in way))
    found = Sweep(track).nearest_of("moving", "still")
    every = [apart(where, size, (0, 0, 0), other) for where in way]
    if len(set(way)) == 1 or min(every) >= REACH:
        assert found is None
    elif min(every) > 0:
        assert found is not None
        assert found.gap == pytest.approx(min(every), abs=0.011)
        assert every[found.place] == pytest.approx(min(every), abs=0.011)
    else:
        assert found is not None
        assert found.gap <= 0
    if min(every) < -0.5 and len(set(way)) > 1:
        assert found is not None
        assert found.gap < -0.4


def test_gaps_at_every_place() -> None:
    moving, still = box("moving", (10, 10, 10)), box("still", (10, 10, 10))
    track = places(*((there(moving, (x, 0, 0)), still) for x in (11, 13, 18, 90)))
    assert Sweep(track).gaps("moving", "still") == pytest.approx((1, 3, 8, REACH))


@settings(max_examples=30, deadline=None)
@given(size=sizes, one=sizes, other=sizes, way=ways)
def test_the_least_gap_of_several_pairs_at_every_place(
    size: Triple, one: Triple, other: Triple, way: list[Triple]
) -> None:
    """Whichever of them has been measured before, to whatever reach."""
    moving, first, second = box("moving", size), box("first", one), there(box("second", other), (35, 0, 10))
    sweep = Sweep(places(*((there(moving, where), first, second) for where in way)))
    every = [min(apart(where, size, (0, 0, 0), one), apart(where, size, (35, 0, 10), other)) for where in way]
    pairs = [("moving", "first"), ("moving", "second")]
    sweep.nearest_of(*pairs[1], 5.0)
    wanted = [REACH if len(set(way)) == 1 else min(max(each, 0.0), REACH) for each in every]
    assert sweep.least_gaps(pairs) == pytest.approx(wanted, abs=1e-9)


def test_a_long_part_is_measured_where_the_other_passes() -> None:
    """A pin sinks into one of a row of holes and drifts to its side: that one hole counts, and all of it."""
    bench = Bench("plate", "Plate", (400, 60, 12))
    for number in range(8):
        bench.cut(f"hole_{number}", "hole", "face", round_loop((25 + 50 * number, 30), 20), 12)
    plate = Component("plate", Placement(at(0, 0, 0), X, Y, Z), shaped(bench))
    pin = Component("pin", Placement(at(75, 30, 20), Z, X, Y), None, "Pin", 7 * NM, 40 * NM)
    sweep = Sweep(places(*((there(pin, (75 + 0.25 * k, 30, 20 - k)), plate) for k in range(11))))
    found = sweep.nearest_of("pin", "plate")
    assert found is not None
    assert (found.gap, found.place) == (pytest.approx(0.5, abs=0.05), 10)
    above = [math.hypot(8 - k, 3 - 0.25 * k) for k in range(8)]
    assert sweep.gaps("pin", "plate") == pytest.approx([*above, 1, 0.75, 0.5], abs=0.05)


def test_two_that_touch_first_and_meet_later_are_found_to_meet() -> None:
    """The gap where they touch is nothing but rounding; they lie 3 mm deep in one another further on."""
    moving, still = box("moving", (10, 10, 10)), box("still", (30, 10, 10))
    steps = [(0, 0, 10 + 3e-13), (2, 0, 10), (4, 0, 8.5), (6, 0, 7)]
    found = Sweep(places(*((there(moving, where), still) for where in steps))).nearest_of("moving", "still")
    assert found is not None
    assert (found.gap, found.place) == (pytest.approx(-3), 3)


def test_of_equal_gaps_the_first_is_told_whatever_the_rounding() -> None:
    moving, still = box("moving", (10, 10, 10)), box("still", (200, 10, 10))
    steps = [(9.0 * k, 0, 11 - k * 1e-12) for k in range(9)]
    found = Sweep(places(*((there(moving, where), still) for where in steps))).nearest_of("moving", "still")
    assert found is not None
    assert (found.gap, found.place) == (pytest.approx(1), 0)


def test_what_moves_together_is_one_group_and_never_measured() -> None:
    rider, cart, road = box("rider", (10, 10, 10)), box("cart", (20, 20, 5)), box("road", (200, 50, 5))
    track = places(
        *((there(rider, (x, 0, 6)), there(cart, (x, 0, 0)), there(road, (0, 0, -6))) for x in range(0, 90, 9))
    )
    sweep = Sweep(track)
    assert groups_of(sweep.paths) == (("rider", "cart"), ("road",))
    assert sweep.nearest_of("rider", "cart") is None
    assert {(each.one, each.other, round(each.gap, 3)) for each in sweep.nearest()} == {
        ("rider", "road", 7.0),
        ("cart", "road", 1.0),
    }


def test_a_turning_arm_comes_nearest_where_its_corner_passes() -> None:
    """A bar 100 by 20 turned about its corner passes under a block: nearest with its far corner upright."""
    bar, block = box("bar", (100, 10, 20)), there(box("block", (30, 10, 10)), (-15, 0, 103))
    reach = math.hypot(100, 20)
    turned = []
    for angle in np.arange(0, 181, 1.0):
        cos, sin = math.cos(math.radians(angle)), math.sin(math.radians(angle))
        placement = Placement(at(0, 0, 0), Vec(cos, 0, sin), Y, Vec(-sin, 0, cos))
        turned.append((replace(bar, placement=placement), block))
    found = Sweep(places(*turned)).nearest_of("bar", "block")
    assert found is not None
    assert found.gap == pytest.approx(103 - reach, abs=0.03)
    assert found.place == pytest.approx(90 - math.degrees(math.atan2(20, 100)), abs=1.5)


def test_faces_that_touch_are_no_overlap_and_a_mirrored_part_is_followed() -> None:
    moving = replace(box("moving", (10, 10, 10)), placement=Placement(at(0, 0, 0), X, Y, Z, True))
    still = box("still", (10, 10, 10))
    track = places(*((there(moving, (x, 0, 10)), still) for x in (0, 3, 6)))
    found = Sweep(track).nearest_of("moving", "still")
    assert found is not None
    assert found.gap == pytest.approx(0, abs=1e-9)
