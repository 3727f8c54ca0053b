"""The part's small picture on its sheet: where it stands, what it costs, what it shows."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest

from planbook.drawing import draw_sheet, to_svg
from planbook.drawing.frame import page_of
from planbook.drawing.ink import Box, around, shifted
from planbook.drawing.pictorial import draw_pictorial
from planbook.drawing.recording import Drawing, Label, Pen, Pt, Stroke
from planbook.drawing.stated_solid import solid_of_stated
from planbook.drawing.tracing import flatten
from tests.drawing import samples
from tests.drawing.checker import faults

PAGE = page_of("a4")
PENS = (Pen.EDGE, Pen.INNER)


def drawn(drawing: Drawing) -> list[Stroke]:
    return [p for p in drawing.primitives if isinstance(p, Stroke) and p.pen in PENS]


@pytest.mark.parametrize("make", [samples.leg, samples.top, samples.ramp_bar, samples.button])
@pytest.mark.parametrize("inch", [False, True])
def test_a_sheet_has_one_picture_of_its_part_and_nothing_touches_it(make: object, inch: bool) -> None:
    drawings, _ = draw_sheet(samples.statement(make(inch)), "1")  # type: ignore[operator]
    assert sum(bool(drawn(drawing)) for drawing in drawings) == 1
    for drawing in drawings:
        assert not faults(to_svg(drawing, "s"))


def test_its_edges_lie_along_the_three_axes_of_iso_5456_3() -> None:
    """A plain board: edges upright, and 30 degrees off level to both sides."""
    board = solid_of_stated(samples.Bench("board", "Board", (300, 80, 20)).stated())
    edges = [p for p in draw_pictorial(board, (), (), PAGE, 1.0) if isinstance(p, Stroke)]
    angles = set()
    for edge in edges:
        points = flatten(edge)
        for a, b in pairwise(points):
            angles.add(round(math.degrees(math.atan2(a.y - b.y, b.x - a.x)) % 180))
    assert angles == {30, 90, 150}


def test_a_full_page_has_none() -> None:
    board = solid_of_stated(samples.Bench("board", "Board", (300, 80, 20)).stated())
    ruled = [shifted(Label("word", Pt(0, 0), 2.5), x, y) for x in range(24, 280, 12) for y in range(16, 160, 12)]
    assert draw_pictorial(board, (), (), PAGE, 1.0)
    assert draw_pictorial(board, ruled, (), PAGE, 1.0) == ()


def test_it_is_no_larger_than_the_views() -> None:
    board = solid_of_stated(samples.Bench("board", "Board", (100, 60, 20)).stated())
    for scale in (1.0, 0.5):
        picture = [p for p in draw_pictorial(board, (), (), PAGE, scale) if isinstance(p, Stroke)]
        box: Box = around([point for stroke in picture for point in flatten(stroke)])
        assert box.right - box.left <= (100 + 60) * math.cos(math.radians(30)) * scale
    assert draw_pictorial(board, (), (), PAGE, 0.1) == ()


def test_a_part_worked_from_its_back_is_shown_from_below() -> None:
    """The ring of a blind hole shows only from the side that it is bored from."""
    seen = {}
    for face in ("face", "back"):
        bench = samples.Bench("board", "Board", (100, 60, 20))
        for k in range(3):
            bench.cut(f"hole_{k}", "hole", face, samples.round_loop((20 + 25 * k, 30), 12), 8)
        seen[face] = len(draw_pictorial(solid_of_stated(bench.stated()), (), (), PAGE, 1.0))
    plain = len(draw_pictorial(solid_of_stated(samples.Bench("b", "B", (100, 60, 20)).stated()), (), (), PAGE, 1.0))
    assert min(seen.values()) > plain
