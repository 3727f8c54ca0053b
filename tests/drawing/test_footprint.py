"""What primitives take up in arrays: the same answers as for one box and one stroke at a time."""

from __future__ import annotations

import math

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from planbook.drawing.footprint import boxes_met, footprint, strokes_about, strokes_crossed, strokes_met, together
from planbook.drawing.ink import Box, Segment, extent, label_box, segments_of
from planbook.drawing.lines import arrowhead, dot, stroke
from planbook.drawing.recording import Label, Pen, Pt
from planbook.drawing.room import CELL, Room

places = st.builds(Pt, st.integers(-20, 120), st.integers(-20, 90))
boxes = st.builds(
    lambda p, width, height: Box(p.x, p.y, p.x + width, p.y + height), places, st.integers(1, 40), st.integers(1, 40)
)
segments = st.builds(Segment, places, places).filter(lambda segment: segment.a != segment.b)


def _rows(many: list[Segment]) -> np.ndarray:
    return np.array([(*a, *b) for a, b in many], dtype=np.float64)


DRAWN = (
    Label("23 5/8", Pt(10, 20), 2.5),
    Label("up", Pt(40, 20), 3.5, angle=90.0),
    dot(Pt(30, 30)),
    arrowhead(Pt(60, 5), Pt(70, 5)),
    stroke(Pt(0, 0), Pt(50, 0), Pt(50, 40)),
    stroke(Pt(-90, 0), Pt(90, 90), pen=Pen.HATCH),
)


def test_a_footprint_is_all_lettering_and_all_strokes_but_hatching() -> None:
    found = footprint(DRAWN)
    assert found.boxes.tolist() == [list(label_box(each)) for each in DRAWN if isinstance(each, Label)]
    assert found.strokes.tolist() == [[*a, *b] for a, b in segments_of(DRAWN)]
    assert found.extent == extent(DRAWN)


def test_footprints_move_and_join() -> None:
    moved = footprint(DRAWN).moved(5, -3)
    assert moved.extent == extent(DRAWN).moved(5, -3)
    both = together([footprint(DRAWN), moved])
    assert len(both.strokes) == 2 * len(moved.strokes)
    assert both.extent.right == moved.extent.right


@given(st.lists(segments, min_size=1), boxes)
def test_many_strokes_meet_a_box_as_each_does(many: list[Segment], box: Box) -> None:
    found = strokes_met(np.array([(*a, *b) for a, b in many], dtype=np.float64), box)
    assert found.tolist() == [segment.meets(box) for segment in many]


@given(st.lists(segments, min_size=1), st.lists(boxes, min_size=1))
def test_many_strokes_meet_many_boxes_as_each_does(many: list[Segment], around: list[Box]) -> None:
    found = strokes_met(_rows(many)[:, None], np.array(around, dtype=np.float64))
    assert found.tolist() == [[segment.meets(box) for box in around] for segment in many]


@given(st.lists(segments, min_size=1), st.lists(segments, min_size=1))
def test_many_strokes_cross_many_as_each_does(many: list[Segment], others: list[Segment]) -> None:
    found = strokes_crossed(_rows(many)[:, None], _rows(others))
    assert found.tolist() == [[segment.crosses(other) for other in others] for segment in many]


@given(st.lists(segments, min_size=1), boxes)
def test_no_stroke_that_meets_an_extent_is_missing_about_it(many: list[Segment], box: Box) -> None:
    about = strokes_about(_rows(many), np.array(box, dtype=np.float64)).tolist()
    assert all([*segment.a, *segment.b] in about for segment in many if segment.meets(box))
    assert all(max(x0, x1) >= box.left and min(x0, x1) <= box.right for x0, _, x1, _ in about)


@given(st.lists(boxes, min_size=1), boxes)
def test_many_boxes_meet_a_box_as_each_does(many: list[Box], box: Box) -> None:
    assert boxes_met(np.array(many, dtype=np.float64), box).tolist() == [each.meets(box) for each in many]


@given(st.lists(boxes, min_size=1, max_size=6))
def test_boxes_marked_together_are_marked_as_one_by_one(many: list[Box]) -> None:
    field = Box(0, 0, 100, 70)
    one, all_of_them = Room(field), Room(field)
    for box in many:
        one.mark_box(box)
    all_of_them.mark_boxes(np.array(many, dtype=np.float64))
    assert (one.taken == all_of_them.taken).all()


@given(st.builds(Segment, places, places))
def test_all_along_a_stroke_no_cell_is_free(segment: Segment) -> None:
    field = Box(0, 0, 100, 70)
    room = Room(field)
    room.mark_strokes(np.array([(*segment.a, *segment.b)], dtype=np.float64), 0.6)
    count = max(1, math.ceil(math.dist(*segment) / 0.1))
    for k in range(count + 1):
        x = segment.a.x + (segment.b.x - segment.a.x) * k / count
        y = segment.a.y + (segment.b.y - segment.a.y) * k / count
        if 0 <= x < room.columns * CELL and 0 <= y < room.rows * CELL:
            assert room.taken[int(y / CELL), int(x / CELL)]
