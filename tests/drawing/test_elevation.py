"""Pictures of the assembly: what is seen of it, what is grey or dashed, where references point."""

from __future__ import annotations

import math
import re

import pytest
import shapely
from shapely.geometry import box

from planbook.drawing import Canvas, draw_elevation, draw_isometric, to_svg
from planbook.drawing.hidden import SIDES as FACINGS
from planbook.drawing.hidden import facing_area, isometric, regions_of, scene_of
from planbook.drawing.recording import FILLS, Circle, Drawing, Label, LineTo, Pen, Stroke
from planbook.shape.geometry import Vec
from planbook.shape.model import Component, Placement
from planbook.shape.solids import mesh_of_component
from planbook.source.models.figures import Corner
from tests.drawing import samples
from tests.drawing.assemblies import X, Y, Z, at, desk_like, shaped, turned
from tests.drawing.samples import NM, Bench

SIDES = ("front", "rear", "left", "right", "top", "below")


def board(length: float, width: float, thickness: float) -> Bench:
    return Bench("board", "Board", (length, width, thickness))


def regions(components: tuple[Component, ...], side: str) -> dict[str, shapely.Geometry]:
    """What is seen of each component, in millimetres on the plane of view."""
    scene = scene_of({c.name: mesh_of_component(c) for c in components}, FACINGS[side])
    return dict(regions_of(scene, [c.name for c in components]))


def region(component: Component, side: str) -> shapely.Geometry:
    return regions((component,), side)[component.name]


def strokes(drawing: Drawing, pen: Pen) -> list[Stroke]:
    return [p for p in drawing.primitives if isinstance(p, Stroke) and p.pen is pen]


@pytest.mark.parametrize(
    ("side", "across", "up"),
    [("front", 300, 20), ("rear", 300, 20), ("left", 80, 20), ("right", 80, 20), ("top", 300, 80), ("below", 300, 80)],
)
def test_a_lying_board_from_each_side(side: str, across: float, up: float) -> None:
    seen = region(Component("b", Placement(at(0, 0, 0), X, Y, Z), shaped(board(300, 80, 20))), side)
    x0, y0, x1, y1 = seen.bounds
    assert (x1 - x0, y1 - y0) == pytest.approx((across, up))


@pytest.mark.parametrize("angle", [0.0, 17.0, 90.0, 211.0])
def test_a_turned_board_keeps_its_area(angle: float) -> None:
    along, across = turned(angle)
    placement = Placement(at(40, 0, 10), along, across, Vec(0, -1, 0))
    seen = region(Component("b", placement, shaped(board(300, 80, 20))), "front")
    assert seen.area == pytest.approx(300 * 80, rel=1e-5)


def test_a_mirrored_part_lies_in_the_same_box_with_its_features_over() -> None:
    bench = board(300, 80, 20)
    bench.cut("notch", "notch", "face", samples.box((0, 0), (60, 30)), 20)
    for mirrored, corner in ((False, (0, 0, 60, 30)), (True, (0, 50, 60, 80))):
        placement = Placement(at(0, 0, 0), X, Y, Z, mirrored)
        seen = region(Component("b", placement, shaped(bench)), "top")
        assert seen.bounds == pytest.approx((0, 0, 300, 80))
        assert seen.intersection(box(*corner)).area == pytest.approx(0, abs=1e-6)


def test_through_openings_are_looked_through() -> None:
    seen = region(Component("top", Placement(at(0, 0, 0), X, Y, Z), shaped(samples.top())), "top")
    assert len(seen.interiors) == 1
    assert seen.area == pytest.approx(1500 * 600 - 510 * 290 + (4 - math.pi) * 12**2, rel=1e-5)


@pytest.mark.parametrize(
    ("side", "area"),
    [("front", 400 * 30), ("top", 400 * 30), ("right", 3.14159265 * 15**2), ("left", 3.14159265 * 15**2)],
)
def test_a_rod_is_a_circle_or_a_rectangle(side: str, area: float) -> None:
    rod = Component("rod", Placement(at(0, 0, 0), X, Y, Z), None, "rod", 15 * NM, 400 * NM)
    assert region(rod, side).area == pytest.approx(area, rel=3e-3)


def test_nearer_components_cover_farther_ones() -> None:
    boards = tuple(
        Component(name, Placement(at(0, y, 0), X, Y, Z), shaped(board(100, 20, 20)))
        for name, y in (("near", 0), ("far", 50))
    )
    for side, covered in (("front", "far"), ("rear", "near")):
        found = regions(boards, side)
        assert found[covered].is_empty
        assert sum(seen.area for seen in found.values()) == pytest.approx(100 * 20)


def test_parts_that_embrace_one_another_are_seen_in_turn() -> None:
    """A board through a frame's opening: no order of whole components shows both rightly."""
    frame = board(100, 100, 20)
    frame.cut("opening", "opening", "face", samples.box((30, 30), (70, 70)), 20)
    through = Component("through", Placement(at(40, -50, 40), Y, X, Z), shaped(board(120, 20, 20)))
    around = Component("around", Placement(at(0, 20, 0), X, Z, Vec(0, -1, 0)), shaped(frame))
    found = regions((through, around), "left")
    assert found["through"].area == pytest.approx(120 * 20 - 20 * 20)
    assert found["around"].area == pytest.approx(100 * 20)


def test_what_is_seen_of_all_components_fills_the_picture_once() -> None:
    components = desk_like()
    for side in SIDES:
        found = list(regions(components, side).values())
        assert shapely.union_all(found).area == pytest.approx(sum(seen.area for seen in found), rel=2e-3)


def test_only_what_is_asked_for_is_shown() -> None:
    full = draw_elevation(desk_like(), "front")
    some = draw_elevation(desk_like(), "front", show=("top",))
    assert len(some.primitives) < len(full.primitives)


def test_emphasis_turns_the_rest_grey() -> None:
    drawing = draw_elevation(desk_like(), "front", emphasise=("apron",))
    assert [p for p in drawing.primitives if isinstance(p, Stroke) and p.fill == "tint"]
    assert strokes(drawing, Pen.FAINT)
    assert strokes(drawing, Pen.EDGE)
    assert not strokes(draw_elevation(desk_like(), "front"), Pen.FAINT)
    assert FILLS["tint"] in to_svg(drawing, "e")


def test_emphasised_components_show_dashed_where_they_are_covered() -> None:
    """The bar lies behind the apron: from the front its outline is dashed."""
    drawing = draw_elevation(desk_like(), "front", emphasise=("bar",))
    assert strokes(drawing, Pen.HIDDEN)
    bare = draw_elevation(desk_like(), "front", emphasise=("bar",), show=("bar",))
    assert not strokes(bare, Pen.HIDDEN)


def test_nothing_is_dashed_behind_what_is_emphasised_too() -> None:
    drawing = draw_elevation(desk_like(), "front", emphasise=("bar", "apron"), show=("bar", "apron"))
    assert not strokes(drawing, Pen.HIDDEN)


def test_references_point_at_what_is_seen() -> None:
    """Each balloon's dot lies in the visible part of its component; what is not seen gets none."""
    components = desk_like()
    labels = {component.name: component.name for component in components}
    drawing = draw_elevation(components, "top", Canvas(300, 200, labels))
    shown = {p.text for p in drawing.primitives if isinstance(p, Label)}
    assert "top" in shown
    assert "bar" not in shown


def test_a_scale_bar_is_true() -> None:
    board_only = [Component("b", Placement(at(0, 0, 0), X, Y, Z), shaped(board(1000, 80, 20)))]
    for units, unit in (("millimetre", 1.0), ("inch", 25.4)):
        svg = to_svg(draw_elevation(board_only, "top", Canvas(102, 60, units=units)), "e")
        (text,) = re.findall(r">(\d+) (?:mm|in)<", svg)
        (bar,) = re.findall(
            r'd="M1 [\d.]+L([\d.]+) [\d.]+L[\d.]+ [\d.]+L[\d.]+ [\d.]+Z" stroke="#1a1a1a" stroke-width="0.25"', svg
        )
        assert float(bar) - 1.0 == pytest.approx(float(text) * unit * 0.1, abs=2e-3)


def test_pictures_fit_the_room_they_are_given() -> None:
    for side in SIDES:
        drawing = draw_elevation(desk_like(), side, Canvas(150, 90, {"top": "1"}))
        assert drawing.width <= 150
        assert drawing.height <= 90 + 1e-6
        for p in drawing.primitives:
            if isinstance(p, Circle):
                assert p.radius <= p.centre.x <= 150 - p.radius


def test_nothing_to_show_is_an_empty_picture() -> None:
    assert draw_elevation((), "front", Canvas(title="nothing")).primitives == ()


def test_an_isometric_picture_is_true_along_the_axes() -> None:
    """A cube of 100 mm in a room that is wide enough stands at full size: each of its nine seen edges is 100 mm."""
    cube = Component("cube", Placement(at(0, 0, 0), X, Y, Z), shaped(board(100, 100, 100)))
    drawing = draw_isometric([cube], "front_left", Canvas(300, 300))
    for pen, count in ((Pen.EDGE, 6), (Pen.INNER, 3)):
        long = sum(_length(stroke) for stroke in strokes(drawing, pen))
        assert long == pytest.approx(100 * count, abs=0.02)
    svg = to_svg(drawing, "i")
    assert ">20 mm<" in svg or ">40 mm<" in svg


def _length(stroke: Stroke) -> float:
    points = [stroke.start, *(step.end for step in stroke.steps if isinstance(step, LineTo))]
    return sum(math.dist(a, b) for a, b in zip(points, [*points[1:], *points[: stroke.closed]], strict=False))


@pytest.mark.parametrize("corner", list(Corner))
def test_isometric_pictures_fit_their_room_and_keep_their_references_apart(corner: Corner) -> None:
    labels = {component.name: str(k) for k, component in enumerate(desk_like())}
    drawing = draw_isometric(desk_like(), corner, Canvas(150, 110, labels))
    assert drawing.height <= 110 + 1e-6
    balloons = [p for p in drawing.primitives if isinstance(p, Circle) and p.fill == "white"]
    assert len(balloons) >= 3
    for a in balloons:
        assert all(a is b or math.dist(a.centre, b.centre) > a.radius + b.radius for b in balloons)


def test_regions_are_whole() -> None:
    for facing in (*FACINGS.values(), *map(isometric, Corner)):
        scene = scene_of({c.name: mesh_of_component(c) for c in desk_like()}, facing)
        found = regions_of(scene, scene.names)
        assert all(shapely.is_valid(seen) for seen in found.values())
        assert all(seen.area <= facing_area(scene, [name]) + 1e-6 for name, seen in found.items())
        assert found["top"].area > 0 or facing is FACINGS["below"]
