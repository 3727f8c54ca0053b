"""Exploded views: where trace lines run; step pictures: from where, how much, what is black."""

from __future__ import annotations

import math

import numpy as np
import pytest

from planbook.drawing import Canvas, draw_exploded, draw_step
from planbook.drawing.elevation import best_corner
from planbook.drawing.hidden import Scene, isometric, scene_of
from planbook.drawing.recording import Drawing, Label, Pen, Stroke
from planbook.drawing.trace_lines import Shift, trace_lines
from planbook.shape.model import Component, Placement
from planbook.shape.solids import mesh_of_component
from planbook.source.models.figures import Corner
from tests.drawing.assemblies import X, Y, Z, at, desk_like, shaped
from tests.drawing.samples import Bench

SHORT = math.sqrt(2 / 3)
"""A length along an axis as projected (ISO 5456-3)."""


def block(name: str, x: float, y: float, z: float, size: tuple[float, float, float] = (40, 40, 40)) -> Component:
    return Component(name, Placement(at(x, y, z), X, Y, Z), shaped(Bench("block", "Block", size)))


def traced(components: list[Component], moves: dict[str, Shift]) -> list[float]:
    """Lengths as seen of the pieces of trace lines."""
    meshes = {each.name: mesh_of_component(each) for each in components}
    facing = isometric(Corner.FRONT_LEFT)
    moved = {name: mesh for name, mesh in meshes.items() if name not in moves}
    for each in components:
        if each.name in moves:
            x, y, z = (b + m for b, m in zip(meshes[each.name].points.min(axis=0), moves[each.name], strict=True))
            moved[each.name] = mesh_of_component(Component(each.name, Placement(at(x, y, z), X, Y, Z), each.part))
    return [math.dist(a, b) for a, b in trace_lines(meshes, moves, scene_of(moved, facing), facing)]


def test_a_trace_line_bridges_the_gap_and_is_hidden_inside_the_parts() -> None:
    """The upper block stands 100 mm over the lower: of the line between the joints the part over the lower's top face
    is seen, up to where the upper block covers it; from above that is the height less what its near corner hides."""
    pair = [block("low", 0, 0, 0), block("high", 0, 0, 40)]
    (seen,) = traced(pair, {"high": (0, 0, 100)})
    # From the middle of the top face, up to the sight line past the lower corner of the other block, 20 mm to the left
    # and to the front: it hides 20 mm of height (z upright and x, y at 30 degrees: two times a half of 20).
    assert seen == pytest.approx((100 - 20) * SHORT, abs=0.1)


def test_what_is_moved_alike_has_no_trace_line_and_what_does_not_touch_neither() -> None:
    both = [block("a", 0, 0, 0), block("b", 40, 0, 0)]
    assert traced(both, {"a": (0, 0, 90), "b": (0, 0, 90)}) == []
    assert traced([block("a", 0, 0, 0), block("b", 90, 0, 0)], {"b": (0, 0, 90)}) == []


def test_a_way_in_two_directions_follows_the_axes_and_only_where_no_straight_one_leads() -> None:
    pair = [block("low", 0, 0, 0), block("high", 0, 0, 40)]
    crooked = traced(pair, {"high": (-150, 0, 200)})
    assert len(crooked) == 3
    assert crooked[1] == pytest.approx(150 * SHORT, abs=1e-6) or max(crooked) == pytest.approx(150 * SHORT, abs=1e-6)
    # "high" is now joined straight to "side", and "low" to "other": the crooked line between the two goes.
    more = [*pair, block("side", 40, 0, 40), block("other", 0, 40, 0)]
    moves = {"high": (-150, 0, 200), "side": (0, 0, 200), "other": (0, 80, 0)}
    straight = traced(more, moves)
    assert len(straight) <= 2 < len(crooked)


def test_an_exploded_view_moves_what_it_is_told_to() -> None:
    """Blocks side by side, one moved 60 mm away: the picture grows by the projected way, at full size."""
    pair = [block("a", 0, 0, 0), block("b", 40, 0, 0)]
    heights = [draw_exploded(pair, "front_left", {"b": (0, 0, up)}, Canvas(400, 400)).height for up in (0.0, 60.0)]
    assert heights[1] - heights[0] == pytest.approx(60, abs=0.5)


def weighed(drawing: Drawing, pen: Pen) -> int:
    return sum(isinstance(p, Stroke) and p.pen is pen for p in drawing.primitives)


def test_a_step_shows_in_black_what_it_adds_and_numbers_it() -> None:
    drawing = draw_step(desk_like(), "front_left", {"top"}, Canvas(labels={"top": "1"}))
    assert weighed(drawing, Pen.FAINT) > 0
    assert weighed(drawing, Pen.EDGE) > 0
    assert "1" in [p.text for p in drawing.primitives if isinstance(p, Label)]


def test_a_part_that_is_to_be_numbered_and_is_hidden_is_told() -> None:
    """A small block behind a large one: from the front nothing is seen of it, from the rear it has its number."""
    pair = [block("screen", 0, 0, 0, (200, 20, 200)), block("knob", 80, 60, 20)]
    labels = Canvas(labels={"screen": "1", "knob": "2"})
    front, rear = (draw_step(pair, corner, {"screen", "knob"}, labels) for corner in ("front_left", "rear_left"))
    for drawing, numbers, unseen in ((front, {"1"}, ("2",)), (rear, {"1", "2"}, ())):
        texts = {p.text for p in drawing.primitives if isinstance(p, Label)}
        assert texts & {"1", "2"} == numbers
        assert drawing.unseen == unseen


def test_a_small_addition_is_shown_large_and_a_large_one_whole() -> None:
    around = [block("board", 0, 0, 0, (2000, 600, 20)), block("knob", 1000, 200, 20)]
    cropped, whole = draw_step(around, "front_left", {"knob"}), draw_step(around, "front_left", {"board"})
    assert weighed(cropped, Pen.GRID) == 1
    assert weighed(whole, Pen.GRID) == 0
    for drawing in (cropped, whole):
        points = np.array([s.start for s in drawing.primitives if isinstance(s, Stroke)])
        assert points.min() >= 0
        assert (points.max(axis=0) <= (drawing.width, drawing.height)).all()


@pytest.mark.parametrize(
    ("x", "y", "z", "corners"),
    [
        (-40, 280, 300, {Corner.FRONT_LEFT, Corner.REAR_LEFT}),
        (600, 280, 300, {Corner.FRONT_RIGHT, Corner.REAR_RIGHT}),
        (280, -40, 300, {Corner.FRONT_LEFT, Corner.FRONT_RIGHT}),
        (280, 280, -40, {corner for corner in Corner if corner.endswith("below")}),
    ],
)
def test_the_best_corner_looks_at_the_side_where_something_is_added(
    x: float, y: float, z: float, corners: set[Corner]
) -> None:
    chest = [block("chest", 0, 0, 0, (600, 600, 600)), block("knob", x, y, z)]
    assert best_corner(_from_all_corners(*chest), {"knob"}) in corners


def test_what_shows_as_well_from_above_is_shown_from_above() -> None:
    assert not best_corner(_from_all_corners(block("cube", 0, 0, 0)), {"cube"}).endswith("below")


def _from_all_corners(*components: Component) -> dict[Corner, Scene]:
    meshes = {each.name: mesh_of_component(each) for each in components}
    return {corner: scene_of(meshes, isometric(corner)) for corner in Corner}
