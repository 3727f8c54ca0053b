"""The assembly from its sides: what covers what, what is grey, where references point."""

from __future__ import annotations

import re

import pytest
import shapely
from shapely.geometry import box

from planbook.drawing import draw_elevation, to_svg
from planbook.drawing.elevation import _all_seen
from planbook.drawing.recording import FILLS, Circle, Label, Pen, Stroke
from planbook.shape.geometry import Vec
from planbook.shape.model import Component, Placement
from tests.drawing import samples
from tests.drawing.assemblies import X, Y, Z, at, desk_like, shaped, turned
from tests.drawing.samples import NM, Bench

SIDES = ("front", "rear", "left", "right", "top", "below")


def board(length: float, width: float, thickness: float) -> Bench:
    return Bench("board", "Board", (length, width, thickness))


@pytest.mark.parametrize(
    ("side", "across", "up"),
    [("front", 300, 20), ("rear", 300, 20), ("left", 80, 20), ("right", 80, 20), ("top", 300, 80), ("below", 300, 80)],
)
def test_a_lying_board_from_each_side(side: str, across: float, up: float) -> None:
    (seen,) = _all_seen([Component("b", Placement(at(0, 0, 0), X, Y, Z), shaped(board(300, 80, 20)))], side)
    x0, y0, x1, y1 = seen.region.bounds
    assert (x1 - x0, y1 - y0) == pytest.approx((across, up))


@pytest.mark.parametrize("angle", [0.0, 17.0, 90.0, 211.0])
def test_a_turned_board_keeps_its_area(angle: float) -> None:
    along, across = turned(angle)
    placement = Placement(at(40, 0, 10), along, across, Vec(0, -1, 0))
    (seen,) = _all_seen([Component("b", placement, shaped(board(300, 80, 20)))], "front")
    assert seen.region.area == pytest.approx(300 * 80, rel=1e-5)


def test_a_mirrored_part_lies_in_the_same_box_with_its_features_over() -> None:
    bench = board(300, 80, 20)
    bench.cut("notch", "notch", "face", samples.box((0, 0), (60, 30)), 20)
    for mirrored, corner in ((False, (0, 0, 60, 30)), (True, (0, 50, 60, 80))):
        placement = Placement(at(0, 0, 0), X, Y, Z, mirrored)
        (seen,) = _all_seen([Component("b", placement, shaped(bench))], "top")
        assert seen.region.bounds == pytest.approx((0, 0, 300, 80))
        assert seen.region.intersection(box(*corner)).area == pytest.approx(0, abs=1e-6)


def test_through_openings_are_looked_through() -> None:
    (seen,) = _all_seen([Component("top", Placement(at(0, 0, 0), X, Y, Z), shaped(samples.top()))], "top")
    assert len(seen.silhouette.rings[0]) == 2
    assert seen.region.area == pytest.approx(1500 * 600 - 510 * 290 + (4 - 3.14159265) * 12**2, rel=1e-5)


@pytest.mark.parametrize(
    ("side", "area"),
    [("front", 400 * 30), ("top", 400 * 30), ("right", 3.14159265 * 15**2), ("left", 3.14159265 * 15**2)],
)
def test_a_rod_is_a_circle_or_a_rectangle(side: str, area: float) -> None:
    rod = Component("rod", Placement(at(0, 0, 0), X, Y, Z), None, "rod", 15 * NM, 400 * NM)
    (seen,) = _all_seen([rod], side)
    assert seen.region.area == pytest.approx(area, rel=1e-3)


def test_nearer_components_are_painted_last() -> None:
    boards = [
        Component(name, Placement(at(0, y, 0), X, Y, Z), shaped(board(100, 20, 20)))
        for name, y in (("near", 0), ("far", 50))
    ]
    assert [seen.name for seen in _all_seen(boards, "front")] == ["far", "near"]
    assert [seen.name for seen in _all_seen(boards, "rear")] == ["near", "far"]


def test_only_what_is_asked_for_is_shown() -> None:
    full = draw_elevation(desk_like(), "front")
    some = draw_elevation(desk_like(), "front", show=("top",))
    assert len(some.primitives) < len(full.primitives)


def test_emphasis_turns_the_rest_grey() -> None:
    drawing = draw_elevation(desk_like(), "front", emphasise=("apron",))
    tinted = [p for p in drawing.primitives if isinstance(p, Stroke) and p.fill == "tint"]
    assert len(tinted) == 1
    assert any(p.pen is Pen.FAINT for p in drawing.primitives if isinstance(p, Stroke))
    plain = draw_elevation(desk_like(), "front")
    assert not [p for p in plain.primitives if isinstance(p, Stroke) and p.pen is Pen.FAINT]
    assert FILLS["tint"] in to_svg(drawing, "e")


def test_emphasised_components_show_dashed_where_they_are_covered() -> None:
    """The bar lies behind the apron: from the front its outline is dashed."""
    drawing = draw_elevation(desk_like(), "front", emphasise=("bar",))
    assert [p for p in drawing.primitives if isinstance(p, Stroke) and p.pen is Pen.HIDDEN]
    bare = draw_elevation(desk_like(), "front", emphasise=("bar",), show=("bar",))
    assert not [p for p in bare.primitives if isinstance(p, Stroke) and p.pen is Pen.HIDDEN]


def test_references_point_at_what_is_seen() -> None:
    """Each balloon's dot lies in the visible part of its component; what is not seen gets none."""
    components = desk_like()
    labels = {component.name: component.name for component in components}
    drawing = draw_elevation(components, "top", labels=labels, width=300, height=200)
    shown = {p.text for p in drawing.primitives if isinstance(p, Label)}
    assert "top" in shown
    assert "bar" not in shown


def test_a_scale_bar_is_true() -> None:
    board_only = [Component("b", Placement(at(0, 0, 0), X, Y, Z), shaped(board(1000, 80, 20)))]
    for units, unit in (("millimetre", 1.0), ("inch", 25.4)):
        svg = to_svg(draw_elevation(board_only, "top", width=102, height=60, units=units), "e")
        (text,) = re.findall(r">(\d+) (?:mm|in)<", svg)
        (bar,) = re.findall(r'd="M1 [\d.]+L([\d.]+) [\d.]+L[\d.]+ [\d.]+L[\d.]+ [\d.]+Z" stroke="#1a1a1a"', svg)
        assert float(bar) - 1.0 == pytest.approx(float(text) * unit * 0.1, abs=2e-3)


def test_pictures_fit_the_room_they_are_given() -> None:
    for side in SIDES:
        drawing = draw_elevation(desk_like(), side, labels={"top": "1"}, width=150, height=90)
        assert drawing.width <= 150
        assert drawing.height <= 90 + 1e-6
        for p in drawing.primitives:
            if isinstance(p, Circle):
                assert p.radius <= p.centre.x <= 150 - p.radius


def test_nothing_to_show_is_an_empty_picture() -> None:
    assert draw_elevation((), "front", title="nothing").primitives == ()


def test_regions_are_whole() -> None:
    for side in SIDES:
        assert all(shapely.is_valid(seen.region) and seen.region.area > 0 for seen in _all_seen(desk_like(), side))
