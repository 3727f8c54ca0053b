"""Outlines for a router: pairs that interlock, checked with shapely, and never more stock than rectangles need."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon, box

from planbook.cutting import Job, Piece, Plan, Stock, faults_of, nest_sheets

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


def _check(asked: Job, plan: Plan) -> None:
    assert faults_of(asked, plan) == ()
    clear = box(5, 5, 695, 495)
    true = Polygon(asked.pieces[0].outline)
    for layout in plan.layouts:
        shapes = [
            Polygon(each.outline)
            if each.outline is not None
            else box(each.place.x, each.place.y, each.place.x + each.place.length, each.place.y + each.place.width)
            for each in layout.placed
        ]
        for each, shape in zip(layout.placed, shapes, strict=True):
            assert clear.covers(shape)
            assert each.piece != "part" or shape.area == pytest.approx(true.area)
        for at, one in enumerate(shapes):
            for other in shapes[at + 1 :]:
                assert one.distance(other) >= asked.kerf * (1 - 1e-9)
                assert one.intersection(other).area < 1e-6
