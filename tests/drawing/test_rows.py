"""Rows of pictures: one scale and one frame for all positions, each under its name."""

from __future__ import annotations

import pytest

from planbook.drawing import Canvas, draw_row
from planbook.drawing.ink import extent
from planbook.drawing.recording import Label, Pen, Stroke
from planbook.shape.model import Component, Placement
from tests.drawing.assemblies import X, Y, Z, at, shaped
from tests.drawing.samples import Bench


def block(name: str, where: tuple[float, float, float]) -> Component:
    return Component(name, Placement(at(*where), X, Y, Z), shaped(Bench("b", "B", (100, 40, 40))))


FRAMES = [("low", [block("a", (0, 0, 0))]), ("half_way", [block("a", (0, 0, 60))]), ("high", [block("a", (0, 0, 120))])]


@pytest.mark.parametrize("seen_from", ["front", "front_left"])
@pytest.mark.parametrize("room", [(170.0, 80.0), (80.0, 170.0), (120.0, 120.0)])
def test_a_row_stays_in_its_room(seen_from: str, room: tuple[float, float]) -> None:
    drawing = draw_row(FRAMES, seen_from, Canvas(*room))
    box = extent(drawing.primitives)
    assert box.left >= -1e-6
    assert box.right <= room[0] + 1e-6
    assert box.bottom <= room[1] + 1e-6
    assert drawing.height <= room[1] + 1e-6


def test_each_picture_has_its_name_and_what_moves_is_seen_to_move() -> None:
    drawing = draw_row(FRAMES, "front", Canvas(170.0, 80.0))
    names = {label.text: label.at for label in drawing.primitives if isinstance(label, Label)}
    assert {"low", "half way", "high"} <= names.keys()
    edges = [each for each in drawing.primitives if isinstance(each, Stroke) and each.pen is Pen.EDGE]
    tops = [min(each.start.y, *(step.end.y for step in each.steps)) for each in edges]
    under = [top - names[name].y for top, name in zip(tops, ("low", "half way", "high"), strict=True)]
    assert under[0] - under[1] == pytest.approx(under[1] - under[2])
    assert under[0] > under[1] > under[2] > 0
