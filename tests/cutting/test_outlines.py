"""Outlines for a router: laid into one another, checked with shapely, and never more stock than rectangles need."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations
from math import cos, sin, tau

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon, box

from planbook.cutting import Job, Piece, Placed, Plan, Stock, faults_of, nest_sheets

EFFORT = 5_000
BRACKET = ((0, 0), (300, 0), (300, 60), (60, 60), (60, 200), (0, 200))
WEDGE = ((0, 0), (300, 0), (0, 200))


def job(outline: tuple[tuple[int, int], ...], quantity: int, kerf: int, turnable: bool = False) -> Job:
    length, width = (max(point[axis] for point in outline) for axis in (0, 1))
    piece = Piece("part", length, width, quantity, turnable, outline=outline)
    return Job((piece, Piece("plain", 250, 150, 1)), (Stock("sheet", 700, 500, end_trim=5, edge_trim=5),), kerf)


@pytest.mark.parametrize("outline", [BRACKET, WEDGE])
@pytest.mark.parametrize("kerf", [3, 8])
@pytest.mark.parametrize("turnable", [False, True])
def test_pairs_save_a_sheet_and_keep_the_cutter_between_them(
    outline: tuple[tuple[int, int], ...], kerf: int, turnable: bool
) -> None:
    asked = job(outline, 8, kerf, turnable)
    plan = nest_sheets(asked, EFFORT)
    boxes = nest_sheets(replace(asked, pieces=tuple(replace(each, outline=None) for each in asked.pieces)), EFFORT)
    assert plan.count < boxes.count
    _check(asked, plan)


@st.composite
def outlines(draw: st.DrawFn) -> tuple[tuple[int, int], ...]:
    """An L, a trapezoid or a wedge of any proportions."""
    length, width = draw(st.integers(40, 300)), draw(st.integers(40, 200))
    x, y = draw(st.integers(5, length - 5)), draw(st.integers(5, width - 5))
    return draw(
        st.sampled_from(
            [
                ((0, 0), (length, 0), (length, y), (x, y), (x, width), (0, width)),
                ((0, 0), (length, 0), (x, width), (0, width)),
                ((0, 0), (length, 0), (x, width)),
            ]
        )
    )


@given(outline=outlines(), quantity=st.integers(1, 7), kerf=st.sampled_from([0, 3, 12]), turnable=st.booleans())
@settings(max_examples=15)
def test_any_outline_is_nested_soundly(
    outline: tuple[tuple[int, int], ...], quantity: int, kerf: int, turnable: bool
) -> None:
    asked = job(outline, quantity, kerf, turnable)
    _check(asked, nest_sheets(asked, EFFORT))


@st.composite
def rings_and_brackets(draw: st.DrawFn) -> tuple[tuple[int, int], ...]:
    """Any of those, a disc, or a comb with a slot into which others may reach."""
    size, teeth = draw(st.integers(150, 240)), draw(st.integers(10, 60))
    disc = tuple(
        (round(size / 2 * (1 + cos(tau * each / 48))), round(size / 2 * (1 + sin(tau * each / 48))))
        for each in range(48)
    )
    inner = size - teeth, teeth
    comb = ((0, 0), (size, 0), (size, size), (inner[0], size), inner, (teeth, teeth), (teeth, size), (0, size))
    return draw(st.one_of(st.sampled_from([disc, comb]), outlines()))


@given(
    shapes=st.lists(st.tuples(rings_and_brackets(), st.integers(1, 4), st.booleans()), min_size=1, max_size=4),
    kerf=st.sampled_from([0, 3, 12]),
    together=st.booleans(),
)
@settings(max_examples=30)
def test_outlines_that_differ_keep_the_cutter_between_them_and_take_no_more_stock(
    shapes: list[tuple[tuple[tuple[int, int], ...], int, bool]], kerf: int, together: bool
) -> None:
    pieces = []
    for number, (outline, quantity, turnable) in enumerate(shapes):
        length, width = (max(point[axis] for point in outline) for axis in (0, 1))
        group = "pair" if together and number < 2 else None
        pieces.append(Piece(f"part {number}", length, width, quantity, turnable, group, outline))
    stocks = Stock("large", 700, 500, end_trim=5, edge_trim=5), Stock("small", 500, 350, available=2)
    asked = Job((*pieces, Piece("plain", 250, 150, 2)), stocks, kerf)
    plan = nest_sheets(asked, EFFORT)
    assert faults_of(asked, plan) == ()
    boxes = nest_sheets(replace(asked, pieces=tuple(replace(each, outline=None) for each in asked.pieces)), EFFORT)
    left, left_of_boxes = (sum(each.quantity for each in found.unplaced) for found in (plan, boxes))
    assert (left, plan.count) <= (left_of_boxes, boxes.count)
    for layout in plan.layouts:
        for one, other in combinations([_shape(each) for each in layout.placed], 2):
            assert one.distance(other) >= kerf * (1 - 1e-9)
            assert one.intersection(other).area < 1e-6


def test_outlines_that_differ_are_laid_into_one_another() -> None:
    """A wedge, and a bracket into whose corner the plain piece goes: one sheet, where rectangles need two."""
    pieces = (
        Piece("bracket", 680, 480, outline=((0, 0), (680, 0), (680, 60), (60, 60), (60, 480), (0, 480))),
        Piece("wedge", 600, 400, outline=((600, 0), (600, 400), (0, 400))),
        Piece("bar", 250, 150),
    )
    asked = Job(pieces, (Stock("sheet", 700, 500, end_trim=5, edge_trim=5),), 6)
    plan = nest_sheets(asked)
    assert (plan.count, plan.bound.count, plan.unplaced) == (1, 1, ())
    assert faults_of(asked, plan) == ()


def test_a_piece_laid_against_its_grain_or_to_another_outline_is_found() -> None:
    asked = job(WEDGE, 1, 3)
    plan = nest_sheets(asked, EFFORT)
    (layout,) = plan.layouts
    mirrored = ((300, 0), (300, 200), (0, 0))
    wrong = [replace(each, outline=mirrored) if each.outline else each for each in layout.placed]
    faults = faults_of(asked, replace(plan, layouts=(replace(layout, placed=tuple(wrong)),)))
    assert any("another outline" in fault for fault in faults)


def test_the_bound_is_that_of_the_areas_or_of_rectangles_within_the_outlines() -> None:
    """Two seats with rounded corners do not share a sheet, though their areas would."""
    seat = ((20, 0), (380, 0), (400, 20), (400, 380), (380, 400), (20, 400), (0, 380), (0, 20))
    asked = Job((Piece("seat", 400, 400, 2, outline=seat),), (Stock("sheet", 700, 500),), 3)
    plan = nest_sheets(asked, EFFORT)
    assert (plan.count, plan.bound.count, plan.bound.by) == (2, 2, "conflicts")


def test_no_plan_is_begun_that_the_effort_does_not_reach() -> None:
    """Many different outlines: the answer is that of their rectangles, and complete."""
    wedges = tuple(Piece(f"{size}", size, size, outline=((0, 0), (size, 0), (0, size))) for size in range(60, 180))
    asked = Job(wedges, (Stock("sheet", 1500, 1500),), 3)
    plan = nest_sheets(asked, 1_000)
    assert plan.unplaced == ()
    assert faults_of(asked, plan) == ()


def _shape(placed: Placed) -> Polygon:
    place = placed.place
    plain = box(place.x, place.y, place.x + place.length, place.y + place.width)
    return plain if placed.outline is None else Polygon(placed.outline)


def _check(asked: Job, plan: Plan) -> None:
    assert faults_of(asked, plan) == ()
    clear = box(5, 5, 695, 495)
    true = Polygon(asked.pieces[0].outline)
    for layout in plan.layouts:
        shapes = [_shape(each) for each in layout.placed]
        for each, shape in zip(layout.placed, shapes, strict=True):
            assert clear.covers(shape)
            assert each.piece != "part" or shape.area == pytest.approx(true.area)
        for at, one in enumerate(shapes):
            for other in shapes[at + 1 :]:
                assert one.distance(other) >= asked.kerf * (1 - 1e-9)
                assert one.intersection(other).area < 1e-6
