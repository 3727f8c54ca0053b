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
from planbook.drawing.dxf import sheet_dxf
from planbook.drawing.recording import Circle, Drawing, Label
from planbook.drawing.scales import INCH, ISO_5455, Scale
from planbook.drawing.solid import XYZ
from planbook.drawing.tracing import Setting
from planbook.statement.model import Statement
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
