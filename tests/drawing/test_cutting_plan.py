"""Layouts as drawn: to one scale, every piece with its number, no text on text; and small hardware at its true size."""

from __future__ import annotations

from collections import Counter
from itertools import combinations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import LineString, Polygon, box

from planbook.drawing import draw_cutting_plan
from planbook.drawing.ink import Box
from planbook.drawing.lettering import label_corners
from planbook.drawing.outside_numbers import numbers_outside
from planbook.drawing.recording import Circle, Drawing, Label, Pen, Stroke
from planbook.drawing.small_hardware import NEEDS, draw_small_hardware
from planbook.measure import Units
from planbook.source.models.market import Outline
from planbook.statement.cut_order import cut_order
from planbook.statement.layouts import state_layouts
from planbook.statement.model import LayoutStated
from tests.shape.making import plate
from tests.takeoff.taken import small_set, take

ROOM = (170.0, 100.0)
sizes = st.lists(st.tuples(st.integers(30, 900), st.integers(20, 400), st.integers(1, 4)), min_size=1, max_size=7)


def layouts(parts: list[tuple[int, int, int]], stock: str, units: Units) -> tuple[LayoutStated, ...]:
    thick = {"sheet": "18 mm", "board": "27 mm"}[stock]
    made = {
        f"part_{number}": plate(f"{long} mm", f"{wide} mm", thick, number=number, stock=stock,
                                quantity={"as_drawn": count})
        for number, (long, wide, count) in enumerate(parts, start=1)
    }  # fmt: skip
    return state_layouts(take(small_set(made), units)[0].plans, units)


def drawn(layout: LayoutStated) -> Drawing:
    return draw_cutting_plan(layout, cut_order(layout), ROOM, "millimetre")


def boxes(drawing: Drawing) -> list[tuple[str, Polygon]]:
    labels = (each for each in drawing.primitives if isinstance(each, Label))
    return [(label.text, Polygon(label_corners(label))) for label in labels]


@settings(max_examples=25, deadline=None)
@given(sizes, st.sampled_from(["sheet", "board"]), st.sampled_from(list(Units)))
def test_every_piece_has_its_number_and_no_text_stands_on_text(
    parts: list[tuple[int, int, int]], stock: str, units: Units
) -> None:
    for layout in layouts(parts, stock, units):
        drawing = drawn(layout)
        labels = boxes(drawing)
        bold = Counter(each.text for each in drawing.primitives if isinstance(each, Label) and each.bold)
        for number, count in Counter(piece.number for piece in layout.pieces).items():
            assert bold[number] >= count
        for (one, a), (other, b) in combinations(labels, 2):
            assert a.intersection(b).area < 0.05, (one, other)
        paper = Polygon([(0, 0), (drawing.width, 0), (drawing.width, drawing.height), (0, drawing.height)])
        assert all(paper.buffer(0.5).contains(each) for _, each in labels)


@settings(max_examples=15, deadline=None)
@given(sizes)
def test_pieces_are_drawn_to_one_scale(parts: list[tuple[int, int, int]]) -> None:
    for layout in layouts(parts, "sheet", Units.MILLIMETRE):
        stock, *rest = (each for each in drawn(layout).primitives if isinstance(each, Stroke) and each.closed)
        pieces = [each for each in rest if each.fill == "tint"]
        scale = (stock.steps[0].end.x - stock.start.x) / layout.size[0]
        assert len(pieces) == len(layout.pieces)
        for stroke, piece in zip(pieces, layout.pieces, strict=True):
            assert stroke.steps[0].end.x - stroke.start.x == pytest.approx(piece.box[2] * scale)
            assert stroke.start.y - stroke.steps[1].end.y == pytest.approx(piece.box[3] * scale)


def test_a_board_is_interrupted_where_it_is_all_offcut() -> None:
    """Its pieces are drawn larger for it, to one scale, and the offcut keeps its size in words."""
    (layout,) = layouts([(300, 60, 2), (200, 40, 1)], "board", Units.MILLIMETRE)
    drawing = drawn(layout)
    breaks = [each for each in drawing.primitives if isinstance(each, Stroke) and each.pen is Pen.BREAK]
    assert len(breaks) == 2
    stock, *rest = (each for each in drawing.primitives if isinstance(each, Stroke) and each.closed)
    pieces = [each for each in rest if each.fill == "tint"]
    scale = pieces[0].steps[0].end.x - pieces[0].start.x
    for stroke, piece in zip(pieces, layout.pieces, strict=True):
        assert (stroke.steps[0].end.x - stroke.start.x) * layout.pieces[0].box[2] == pytest.approx(scale * piece.box[2])
    true = layout.size[0] * scale / layout.pieces[0].box[2]
    assert stock.steps[0].end.x - stock.start.x < true
    shown = [each.text for each in drawing.primitives if isinstance(each, Label)]
    assert all(offcut.text in shown for offcut in layout.offcuts if offcut.box[2] > layout.size[0] / 2)


def test_a_board_that_is_full_is_not_interrupted() -> None:
    for layout in layouts([(700, 90, 3)], "board", Units.MILLIMETRE):
        assert not [each for each in drawn(layout).primitives if isinstance(each, Stroke) and each.pen is Pen.BREAK]


def test_leaders_go_round_lettering_and_each_other() -> None:
    lettering = np.array([[40.0, 4.0, 60.0, 8.0], [40.0, 32.0, 60.0, 36.0]])
    pieces = [("1", Box(45, 18, 55, 20)), ("2", Box(45, 20, 55, 22)), ("3", Box(45, 22, 55, 24))]
    drawn = numbers_outside(pieces, Box(10, 0, 90, 40), lettering)
    leaders = [LineString([each.start, each.steps[0].end]) for each in drawn if isinstance(each, Stroke)]
    assert len(leaders) == 3
    for leader in leaders:
        assert not any(leader.intersects(box(*each)) for each in lettering)
    assert not any(a.intersects(b) for a, b in combinations(leaders, 2))


@settings(max_examples=25, deadline=None)
@given(sizes, st.sampled_from(["sheet", "board"]))
def test_the_cuts_in_words_give_every_piece(parts: list[tuple[int, int, int]], stock: str) -> None:
    for layout in layouts(parts, stock, Units.MILLIMETRE):
        given_by = Counter(name for cut in layout.cuts for name in cut.gives if name.isdigit())
        assert given_by == Counter(piece.number for piece in layout.pieces)
        for cut in layout.cuts:
            x0, y0, x1, y1 = cut.line
            assert 0 <= x0 <= x1 <= layout.size[0] + 1
            assert 0 <= y0 <= y1 <= layout.size[1] + 1


MEASURES = {
    "diameter": 6.0,
    "head": 12.0,
    "across": 10.0,
    "head_height": 6.0,
    "outside": 32.0,
    "bore": 12.0,
    "width": 10.0,
}


@pytest.mark.parametrize("outline", list(Outline))
def test_small_hardware_is_as_long_and_wide_as_it_is(outline: Outline) -> None:
    drawing = draw_small_hardware(outline, MEASURES, 40.0, "A thing.")
    solid = [each for each in drawing.primitives if isinstance(each, Stroke) and each.closed]
    points = [(p.x, p.y) for stroke in solid[:2] for p in (stroke.start, *(step.end for step in stroke.steps))]
    long = max(x for x, _ in points) - min(x for x, _ in points)
    wide = max(y for _, y in points) - min(y for _, y in points)
    told = {
        Outline.COUNTERSUNK: (40.0, 12.0),
        Outline.ROUND_HEAD: (46.0, 10.0),
        Outline.CYLINDER: (40.0, 6.0),
        Outline.RING: (10.0, 32.0),
    }
    if outline in told:
        assert (long, wide) == pytest.approx(told[outline])
    circles = [2 * each.radius for each in drawing.primitives if isinstance(each, Circle)]
    assert circles == {Outline.RING: [32.0, 12.0], Outline.HEXAGON: [], Outline.COUNTERSUNK: [12.0],
                       Outline.ROUND_HEAD: [10.0], Outline.CYLINDER: [6.0]}[outline]  # fmt: skip
    assert all(name for some in NEEDS[outline] for name in some)
