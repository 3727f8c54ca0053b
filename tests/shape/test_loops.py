"""Loops against shapely: areas, bounds and places of lines and arcs."""

from __future__ import annotations

import math

import pytest
import shapely
from hypothesis import assume, given
from hypothesis import strategies as st

from planbook.shape.geometry import Arc, Line, Loop, Point
from planbook.shape.loops import (
    SAGITTA,
    along,
    arc_through,
    area,
    bounds,
    circle,
    fillet,
    flatten,
    rectangle,
    stadium,
    sweep,
)

MM = 1_000_000.0
lengths = st.floats(1 * MM, 2000 * MM)
places = st.builds(Point, st.floats(-3000 * MM, 3000 * MM), st.floats(-3000 * MM, 3000 * MM))


@st.composite
def rounded_rectangles(draw: st.DrawFn) -> Loop:
    low, width, height = draw(places), draw(lengths), draw(lengths)
    most = min(width, height) / 2.001
    radii = [draw(st.sampled_from([0.0, 0.3, 1.0])) * most for _ in range(4)]
    return rectangle(low, Point(low.x + width, low.y + height), radii)


@st.composite
def stadiums(draw: st.DrawFn) -> Loop:
    start, angle, length = draw(places), draw(st.floats(0, math.tau)), draw(lengths)
    end = Point(start.x + length * math.cos(angle), start.y + length * math.sin(angle))
    return stadium(start, end, draw(lengths))


loops = rounded_rectangles() | stadiums() | st.builds(circle, places, lengths)


@given(loops)
def test_area_agrees_with_shapely(loop: Loop) -> None:
    polygon = shapely.Polygon(flatten(loop))
    assert area(loop) == pytest.approx(polygon.area, abs=polygon.length * SAGITTA, rel=1e-9)


@given(loops)
def test_bounds_agree_with_shapely(loop: Loop) -> None:
    low, high = bounds(loop)
    assert (*low, *high) == pytest.approx(shapely.Polygon(flatten(loop)).bounds, abs=SAGITTA, rel=1e-9)


@given(loops)
def test_loops_are_closed_and_counter_clockwise(loop: Loop) -> None:
    ends = [segment.end for segment in loop.segments]
    starts = [segment.start for segment in loop.segments]
    for end, start in zip(ends, starts[1:] + starts[:1], strict=True):
        assert math.dist(end, start) < 1.0
    assert area(loop) > 0
    assert shapely.Polygon(flatten(loop)).is_valid


@given(lengths)
def test_area_of_a_circle_is_pi_r_squared(radius: float) -> None:
    assert area(circle(Point(3 * MM, -2 * MM), radius)) == pytest.approx(math.pi * radius**2, rel=1e-12)


@given(places, places, places)
def test_an_arc_through_three_points_passes_through_them(start: Point, middle: Point, end: Point) -> None:
    assume(min(math.dist(start, middle), math.dist(middle, end), math.dist(end, start)) > 1000)
    arc = arc_through(start, middle, end)
    if arc is None:
        cross = (middle.x - start.x) * (end.y - start.y) - (middle.y - start.y) * (end.x - start.x)
        assert abs(cross) <= 2e-9 * math.dist(start, middle) * math.dist(start, end)
        return
    assert math.dist(arc.centre, middle) == pytest.approx(arc.radius, rel=1e-6)
    assert math.dist(arc.centre, end) == pytest.approx(arc.radius, rel=1e-6)
    to_middle = sweep(Arc(start, middle, arc.centre, arc.ccw))
    assert abs(to_middle) <= abs(sweep(arc)) + 1e-6


@given(st.floats(0.05, 3.0), st.floats(-math.pi, math.pi), st.sampled_from([-1, 1]), st.floats(1 * MM, 50 * MM))
def test_a_fillet_is_tangent_to_both_sides(bend: float, heading: float, side: int, radius: float) -> None:
    corner = Point(10 * MM, 20 * MM)
    before = Point(corner.x - 1000 * MM * math.cos(heading), corner.y - 1000 * MM * math.sin(heading))
    after = Point(
        corner.x + 1000 * MM * math.cos(heading + side * bend), corner.y + 1000 * MM * math.sin(heading + side * bend)
    )
    arc = fillet(before, corner, after, radius)
    assert arc.ccw == (side > 0)
    assert arc.radius == pytest.approx(radius, rel=1e-9)
    for end, other in ((arc.start, before), (arc.end, after)):
        along_side = Point(other.x - corner.x, other.y - corner.y)
        spoke = Point(end.x - arc.centre.x, end.y - arc.centre.y)
        dot = along_side.x * spoke.x + along_side.y * spoke.y
        assert abs(dot) < 1e-6 * math.hypot(*along_side) * radius
    assert abs(sweep(arc)) == pytest.approx(bend, rel=1e-6)


def test_a_share_of_an_arc() -> None:
    quarter = Arc(Point(1, 0), Point(0, 1), Point(0, 0), ccw=True)
    assert along(quarter, 0.5) == pytest.approx((math.sqrt(0.5), math.sqrt(0.5)))
    assert bounds(Loop((quarter, Line(Point(0, 1), Point(0, 0)), Line(Point(0, 0), Point(1, 0))))) == ((0, 0), (1, 1))
