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
from tests.drawing.samples import Bench

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
