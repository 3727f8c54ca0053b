"""Enlarged details: when there is one, what moves to it, and that it shows the same thing larger."""

from __future__ import annotations

import io
import math
from collections import Counter

import ezdxf
import pytest
from hypothesis import given
from hypothesis import strategies as st

from planbook.drawing import draw_sheet, to_svg
from planbook.drawing.curves import XY, Line, circle
from planbook.drawing.detail import Detail, inside
from planbook.drawing.detail_ends import foot_of
from planbook.drawing.detailing import SMALL
from planbook.drawing.dxf import sheet_dxf
from planbook.drawing.recording import Circle, Drawing, Label
from planbook.drawing.scales import INCH, ISO_5455, Scale
from planbook.drawing.solid import XYZ
from planbook.drawing.tracing import Setting
from planbook.statement.model import SegmentStated, Statement
from tests.drawing import samples
from tests.drawing.checker import faults


def leaf(inch: bool = False) -> samples.Bench:
    """A panel with a rabbet of 13 by 1.5 mm, seen in its front edge."""
    bench = samples.Bench("leaf", "Leaf", (260, 300, 18), inch)
    bench.cut("seat", "rabbet", "face", samples.box((247, 0), (260, 300)), 1.5)
    bench.linear("seat", "width", "front_edge", "x", (247, 0, 16.5), (260, 0, 16.5))
    bench.linear("seat", "depth", "front_edge", "z", (247, 0, 16.5), (247, 0, 18))
    bench.overall()
    return bench


def sheet(bench: samples.Bench) -> tuple[Statement, Drawing]:
    statement = samples.statement(bench)
    (drawing,), findings = draw_sheet(statement, "1")
    assert not findings
    return statement, drawing


def words(drawing: Drawing) -> list[str]:
    return [p.text for p in drawing.primitives if isinstance(p, Label)]


@pytest.mark.parametrize("inch", [False, True])
def test_a_shallow_rabbet_is_shown_again_at_a_larger_scale_of_the_series(inch: bool) -> None:
    statement, drawing = sheet(leaf(inch))
    assert words(drawing).count("A") == 1
    assert "DETAIL A" in words(drawing)
    shown = {each.face: each for each in drawing.views}
    larger, parent = shown["detail_a"], shown["front_edge"]
    assert larger.scale >= 2 * parent.scale
    assert larger.scale in [scale.factor for scale in (INCH if inch else ISO_5455)]
    assert larger.holds == {"leaf/seat/width", "leaf/seat/depth"}
    printed = Counter(drawing.marks)
    assert printed == Counter(f"dimension:{name}" for name in statement.dimensions)
    assert not faults(to_svg(drawing, "s"))


def test_its_circle_stands_round_the_place_in_both_views() -> None:
    """The two circles are one circle of the part: concentric in its own measure, wider by the scales."""
    _, drawing = sheet(leaf())
    shown = {each.face: each for each in drawing.views}
    rings = sorted((p for p in drawing.primitives if isinstance(p, Circle) and p.radius > 3), key=lambda p: p.radius)
    small, large = rings[0], rings[-1]
    parent, larger = shown["front_edge"], shown["detail_a"]
    assert large.radius / small.radius == pytest.approx(larger.scale / parent.scale)
    middle = parent.facing.flat(XYZ(247, 0, 17.25))
    for ring, view in ((small, parent), (large, larger)):
        assert math.dist(Setting(view.scale, *view.zero)(middle), ring.centre) < 1e-6


def test_dimensions_are_measured_at_the_scale_of_the_detail_in_dxf() -> None:
    statement, drawing = sheet(leaf())
    document = ezdxf.read(io.StringIO(sheet_dxf(statement, drawing).decode()))
    assert not document.audit().has_issues
    found = {d.dxf.text: d for d in document.modelspace().query("DIMENSION")}
    for text, measure in (("13", 13.0), ("1.5", 1.5)):
        assert found[text].get_measurement() * found[text].override().get("dimlfac") == pytest.approx(measure)


def handle(inch: bool = False) -> samples.Bench:
    """A rail whose lower edge is arched by 2.5 mm between 75 and 375 mm, seen in its face."""
    rise, half = 2.5, 150.0
    radius = (half**2 + rise**2) / (2 * rise)
    ends = [(75.0 * samples.NM, 0.0), (375.0 * samples.NM, 0.0)]
    outline = samples.lines((0, 0), (75, 0), (375, 0), (450, 0), (450, 44), (0, 44))
    arch = SegmentStated(*ends, (225.0 * samples.NM, (rise - radius) * samples.NM), ccw=False)
    bench = samples.Bench("handle", "Handle", (450, 44, 19), inch, outline=(outline[0], arch, *outline[2:]))
    bench.linear("outline.arch", "rise", "face", "y", (225, 0, 19), (225, rise, 19))
    bench.overall()
    return bench


@pytest.mark.parametrize("inch", [False, True])
def test_a_measure_stays_in_the_view_if_a_detail_would_not_show_what_it_goes_from(inch: bool) -> None:
    """The rise of a flat arch is short on paper, and the line that it starts from ends far away at both sides."""
    statement, drawing = sheet(handle(inch))
    shown = {each.face: each for each in drawing.views}
    assert statement.dimensions["handle/outline.arch/rise"].nominal * 1e-6 * shown["face"].scale < SMALL
    assert not any(each.startswith("DETAIL") for each in words(drawing))
    assert "dimension:handle/outline.arch/rise" in drawing.marks
    assert not faults(to_svg(drawing, "s"))


def test_a_circle_grows_to_show_what_a_measure_goes_from() -> None:
    """Measured beside the floor of the rabbet: the circle holds where the floor starts."""
    bench = leaf()
    bench.dimensions.clear()
    bench.linear("seat", "depth", "front_edge", "z", (240, 0, 16.5), (240, 0, 18))
    bench.overall()
    _, drawing = sheet(bench)
    shown = {each.face: each for each in drawing.views}
    larger = shown["detail_a"]
    setting = Setting(larger.scale, *larger.zero)
    rings = [p for p in drawing.primitives if isinstance(p, Circle)]
    floor = setting(larger.facing.flat(XYZ(247, 0, 16.5)))
    assert larger.holds == {"leaf/seat/depth"}
    assert any(math.dist(ring.centre, floor) < ring.radius for ring in rings)


SQUARE = (Line(XY(0, 0), XY(10, 0)), Line(XY(10, 0), XY(10, 4)), Line(XY(10, 4), XY(0, 8)))


@pytest.mark.parametrize(
    ("end", "level", "foot"),
    [
        (XY(3, 0), False, XY(6, 0)),
        (XY(3, 4), False, XY(10, 4)),
        (XY(3, 2), False, None),
        (XY(5, 6), False, XY(5, 6)),
        (XY(3, 0), True, None),
        (XY(10, 9), True, XY(10, 1)),
    ],
    ids=["an edge along it", "a corner level with it", "nothing", "on a slope", "square to an edge", "an upright edge"],
)
def test_an_end_stands_at_what_is_drawn_level_with_it(end: XY, level: bool, foot: XY | None) -> None:
    assert foot_of(end, level, SQUARE, near=XY(6, 1)) == foot


def test_an_end_stands_at_the_outermost_of_an_arc_and_not_at_its_side() -> None:
    disc = (circle(XY(5, 5), 3),)
    assert foot_of(XY(20, 8), False, disc, near=XY(5, 5)) == pytest.approx(XY(5, 8))
    assert foot_of(XY(20, 5), False, disc, near=XY(5, 5)) is None


def test_what_can_be_read_needs_no_detail() -> None:
    for make in (samples.button, samples.ramp_bar):
        drawings, _ = draw_sheet(samples.statement(make()), "1")
        assert not any(shown.holds for drawing in drawings for shown in drawing.views)


@given(st.tuples(*(st.floats(-30, 30) for _ in range(4))), st.floats(1, 15))
def test_what_a_detail_shows_of_a_line_lies_in_its_circle_and_all_of_it(
    ends: tuple[float, float, float, float], radius: float
) -> None:
    a, b = XY(*ends[:2]), XY(*ends[2:])
    if math.dist(a, b) < 0.1:
        return
    detail = Detail("A", "face", XY(1, 2), radius, (Scale(1, 1),), frozenset())
    line = Line(a, b)
    parts = list(inside(line, detail))
    for k in range(101):
        p = line.point(k / 100)
        away = math.dist(p, detail.centre) - radius
        held = any(abs(math.dist(q.start, p) + math.dist(p, q.end) - q.length) < 1e-7 for q in parts)
        if abs(away) > 1e-4:
            assert held == (away < 0)


def test_what_a_detail_shows_of_an_arc_is_an_arc() -> None:
    detail = Detail("A", "face", XY(10, 0), 3.0, (Scale(1, 1),), frozenset())
    parts = list(inside(circle(XY(0, 0), 10.0), detail))
    assert all(part.radius == 10.0 for part in parts)  # type: ignore[union-attr]
    # Two circles of 10 and 3 with centres 10 apart meet at cos = 1 - 9/200 from the first one's centre.
    assert sum(part.length for part in parts) == pytest.approx(20 * math.acos(1 - 9 / 200))
