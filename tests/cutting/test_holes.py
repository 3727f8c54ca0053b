"""Openings for a router: smaller pieces lie in them, the cutter's diameter inside, and count for the bound."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations
from math import cos, sin, tau

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Point as Spot
from shapely import Polygon, box
from shapely.affinity import translate

from planbook.cutting import Job, Piece, Placed, Plan, Stock, faults_of, nest_sheets
from planbook.cutting.minkowski import fits_in

EFFORT = 5_000
Ring = tuple[tuple[int, int], ...]


def disc(across: int, hole: int = 0) -> Ring:
    """In its rectangle; as a hole of so much, about the middle of that."""
    reach = (hole or across) / 2
    turns = (tau * each / 48 for each in range(48))
    return tuple((round(across / 2 + reach * cos(turn)), round(across / 2 + reach * sin(turn))) for turn in turns)


def ring(key: str, across: int, hole: int, quantity: int = 1) -> Piece:
    return Piece(key, across, across, quantity, outline=disc(across), holes=(disc(across, hole),))


def frame(key: str, length: int, width: int, wood: int, quantity: int = 1, turnable: bool = False) -> Piece:
    """With an opening in the shape of an L, so that it is not the same half round."""
    right, top = length - wood, width - wood
    opening = ((wood, wood), (right, wood), (right, top), (right // 2, top), (right // 2, top // 2), (wood, top // 2))
    corners = ((0, 0), (length, 0), (length, width), (0, width))
    return Piece(key, length, width, quantity, turnable, outline=corners, holes=(opening,))


def shape(placed: Placed) -> Polygon:
    if placed.outline is not None:
        return Polygon(placed.outline, placed.holes)
    place = placed.place
    return box(place.x, place.y, place.x + place.length, place.y + place.width)


def check(job: Job, plan: Plan) -> int:
    """Sound by its own account and by shapely's; how many pieces lie in an opening."""
    assert faults_of(job, plan) == ()
    within = 0
    for layout in plan.layouts:
        for one, other in combinations([shape(each) for each in layout.placed], 2):
            assert one.distance(other) >= job.kerf * (1 - 1e-9)
            assert one.intersection(other).area < 1e-6
            for outer, inner in ((one, other), (other, one)):
                rooms = [Polygon(hole).buffer(-job.kerf + 1e-3) for hole in outer.interiors]
                assert all(room.covers(inner) for room in rooms if room.intersects(inner))
                within += any(room.covers(inner) for room in rooms)
    return within


@given(
    rings=st.lists(st.tuples(st.integers(120, 260), st.integers(30, 95), st.integers(1, 2)), min_size=1, max_size=2),
    frames=st.lists(st.tuples(st.integers(150, 400), st.integers(150, 300), st.booleans()), max_size=2),
    small=st.lists(st.tuples(st.integers(10, 120), st.integers(10, 90), st.integers(1, 4)), min_size=1, max_size=3),
    kerf=st.sampled_from([0, 3, 12]),
)
@settings(max_examples=40)
def test_whatever_lies_in_an_opening_keeps_the_cutter_from_its_border(
    rings: list[tuple[int, int, int]],
    frames: list[tuple[int, int, bool]],
    small: list[tuple[int, int, int]],
    kerf: int,
) -> None:
    pieces = (
        *(ring(f"ring {at}", across, across * share // 100, count) for at, (across, share, count) in enumerate(rings)),
        *(frame(f"frame {at}", *size, 30, turnable=turned) for at, (*size, turned) in enumerate(frames)),
        *(Piece(f"small {at}", *size, True) for at, size in enumerate(small)),
    )
    asked = Job(pieces, (Stock("sheet", 700, 500, end_trim=5, edge_trim=5),), kerf)
    plan = nest_sheets(asked, EFFORT)
    check(asked, plan)
    assert plan.bound.count <= plan.count


def test_rings_within_rings_take_the_room_of_the_largest() -> None:
    pieces = (ring("a", 419, 360), ring("b", 330, 250), ring("c", 220, 150), Piece("d", 120, 120, outline=disc(120)))
    asked = Job(pieces, (Stock("sheet", 430, 430),), 8)
    plan = nest_sheets(asked)
    assert (plan.count, plan.unplaced, plan.bound.count) == (1, (), 1)
    assert check(asked, plan) == 6
    solid = replace(asked, pieces=tuple(replace(each, holes=()) for each in pieces))
    assert nest_sheets(solid).count == 3


def test_an_opening_too_small_by_a_hair_holds_nothing() -> None:
    mm = 1_000_000
    corners, opening = ((box(*ends).exterior.coords[:4]) for ends in ((0, 0, 400, 300), (50, 50, 350, 250)))
    outline, hole = (tuple((int(x) * mm, int(y) * mm) for x, y in each) for each in (corners, opening))
    bezel = Piece("bezel", 400 * mm, 300 * mm, outline=outline, holes=(hole,))
    for size, count in ((288 * mm - 9, 1), (288 * mm + 9, 2)):
        lid = Piece("lid", size, 180 * mm)
        asked = Job((bezel, lid), (Stock("sheet", 410 * mm, 310 * mm),), 6 * mm)
        plan = nest_sheets(asked)
        assert (plan.count, check(asked, plan)) == (count, 2 - count)
        assert plan.proved


def test_the_bound_counts_an_opening_as_wood_for_what_is_larger() -> None:
    """Two frames do not share a sheet, though their wood would."""
    asked = Job((frame("frame", 400, 400, 20, 2), Piece("peg", 20, 20)), (Stock("sheet", 700, 500),), 3)
    plan = nest_sheets(asked, EFFORT)
    assert (plan.count, plan.bound.count, plan.bound.by) == (2, 2, "conflicts")


def test_a_piece_told_with_other_openings_is_found() -> None:
    asked = Job((ring("ring", 300, 200),), (Stock("sheet", 700, 500),), 3)
    plan = nest_sheets(asked, EFFORT)
    (layout,) = plan.layouts
    wrong = tuple(replace(each, holes=()) for each in layout.placed)
    faults = faults_of(asked, replace(plan, layouts=(replace(layout, placed=wrong),)))
    assert any("another outline" in fault for fault in faults)


WEDGE = Polygon([(0, 0), (60, 0), (10, 40)])
ELBOW = Polygon([(0, 0), (70, 0), (70, 20), (20, 20), (20, 50), (0, 50)])
ROOM = Polygon([(10, 10), (210, 10), (210, 160), (120, 160), (120, 70), (10, 90)])


@pytest.mark.parametrize("moving", [WEDGE, ELBOW, box(0, 0, 30, 30)])
@pytest.mark.parametrize("hole", [ROOM, Polygon(disc(150)), box(0, 0, 71, 51)])
@given(shift=st.tuples(st.floats(-60, 220), st.floats(-60, 220)))
@settings(max_examples=150)
def test_the_inner_fit_is_where_it_lies_within(moving: Polygon, hole: Polygon, shift: tuple[float, float]) -> None:
    allowed = fits_in(hole, moving)
    moved = translate(moving, *shift)
    if Spot(shift).distance(allowed.boundary) > 1e-6:
        assert allowed.contains(Spot(shift)) == hole.covers(moved)
