"""Interrupted views: what is left out, what stays exact, and what a reader of the sheet finds."""

from __future__ import annotations

import io
from collections import Counter
from dataclasses import replace
from itertools import pairwise

import ezdxf
import pytest
from hypothesis import given
from hypothesis import strategies as st

from planbook.drawing import draw_sheet, to_svg
from planbook.drawing.curves import XY, Line
from planbook.drawing.dxf import sheet_dxf
from planbook.drawing.facing import FACINGS, Gap, shortened
from planbook.drawing.folding import break_lines, folded
from planbook.drawing.interrupting import gaps_for, plain_stretches, rows_between
from planbook.drawing.recording import Circle, Drawing, Pen, Pt, Shown, Stroke
from planbook.drawing.sight import see
from planbook.drawing.solid import XYZ
from planbook.drawing.stated_solid import solid_of_stated
from planbook.drawing.tracing import Setting
from planbook.statement.model import Statement
from tests.drawing import samples
from tests.drawing.checker import faults

NM = 1e6


def rail(length: float = 1800.0, width: float = 60.0, thickness: float = 24.0) -> samples.Bench:
    """A long rail with a mortise near each end and nothing between."""
    bench = samples.Bench("rail", "Long rail", (length, width, thickness))
    for name, x in (("near", 40.0), ("far", length - 90.0)):
        bench.cut(name, "mortise", "face", samples.box((x, 20), (x + 50, 32)), 15)
        bench.linear(name, "x", "face", "x", (0, 0, thickness), (x, 20, thickness))
        bench.linear(name, "length", "face", "x", (x, 20, thickness), (x + 50, 20, thickness))
        bench.linear(name, "y", "face", "y", (0, 0, thickness), (x, 20, thickness))
        bench.linear(name, "width", "face", "y", (x, 20, thickness), (x, 32, thickness))
        bench.note(name, "depth", "face", (x + 25, 26, thickness), 15, suffix="deep")
    bench.overall()
    return bench


def sheet(bench: samples.Bench) -> tuple[Statement, tuple[Drawing, ...]]:
    statement = samples.statement(bench)
    drawings, findings = draw_sheet(statement, "1")
    assert not findings
    return statement, drawings


def breaks(drawing: Drawing) -> list[Stroke]:
    return [p for p in drawing.primitives if isinstance(p, Stroke) and p.pen is Pen.BREAK]


GAPS = st.lists(st.floats(5, 900), min_size=2, max_size=4, unique=True).map(sorted).filter(lambda v: len(v) % 2 == 0)


@given(GAPS, st.floats(0.1, 4), st.floats(-10, 1000), st.floats(-10, 1000))
def test_places_keep_their_order_and_their_distance_outside_gaps(
    ends: list[float], shown: float, a: float, b: float
) -> None:
    gaps = tuple(
        Gap(low, high, shown) for low, high in zip(ends[::2], ends[1::2], strict=True) if high - low > shown + 1e-3
    )
    a, b = sorted((a, b))
    moved = shortened(b, gaps) - shortened(a, gaps)
    assert moved >= 0
    if not any(gap.low < b and gap.high > a for gap in gaps):
        assert moved == pytest.approx(b - a, abs=1e-9)
    whole = shortened(1000.0, gaps)
    assert whole == pytest.approx(1000.0 - sum(gap.saved for gap in gaps), abs=1e-9)


@pytest.mark.parametrize("make", [samples.leg, samples.apron, samples.ramp_bar, samples.top, rail])
def test_no_view_has_anything_but_lines_along_the_part_in_a_plain_stretch(make: object) -> None:
    bench = make()  # type: ignore[operator]
    solid = solid_of_stated(bench.stated())
    stretches = plain_stretches(solid, bench.dimensions)
    for facing in FACINGS.values():
        if facing.right.x:
            for piece in see(solid, facing, frozenset()):
                x0, y0, x1, y1 = piece.curve.box
                low, high = sorted((x0 * facing.right.x, x1 * facing.right.x))
                if any(a + 1e-3 < high and low < b - 1e-3 for a, b in stretches):
                    assert isinstance(piece.curve, Line)
                    assert y1 - y0 < 1e-6
    for each in bench.dimensions:
        for point in each.points:
            assert not any(a + 1e-3 < point[0] / NM < b - 1e-3 for a, b in stretches)


@given(st.floats(0.02, 2), st.lists(st.tuples(st.floats(0, 900), st.floats(1, 900)), min_size=1, max_size=4))
def test_what_is_left_out_fits_the_room_and_keeps_clear_of_what_is_drawn(
    scale: float, found: list[tuple[float, float]]
) -> None:
    stretches = [(low, low + size) for low, size in found]
    gaps = gaps_for(stretches, (), 2000.0, scale, 200.0)
    assert len(gaps) <= 2
    if gaps:
        assert (2000.0 - sum(gap.saved for gap in gaps)) * scale <= 200.0 + 1e-6
    for gap in gaps:
        assert any(a + 8 / scale <= gap.low + 1e-6 and gap.high <= b - 8 / scale + 1e-6 for a, b in stretches)


def test_a_line_along_the_part_ends_at_both_break_lines_and_goes_on_behind_them() -> None:
    for name in ("face", "back", "front_edge", "rear_edge"):
        facing = replace(FACINGS[name], gaps=(Gap(100, 300, 10),))
        way = facing.right.x
        pieces = list(folded(Line(XY(0, 5), XY(way * 500, 5)), facing))
        ends = sorted(tuple(sorted((p.start.x * way, p.end.x * way))) for p in pieces)
        assert ends == [(0, 100), (110, 310)]


def test_a_long_rail_is_drawn_interrupted_with_its_true_length() -> None:
    statement, drawings = sheet(rail())
    (drawing,) = drawings
    assert len(breaks(drawing)) == 4
    assert max(shown.scale for shown in drawing.views) >= 1 / 2
    printed = Counter(mark for each in drawings for mark in each.marks)
    assert printed == Counter(f"dimension:{name}" for name in statement.dimensions)
    texts = {p.mark: p.text for p in drawing.primitives if hasattr(p, "mark") and p.mark}
    assert texts["dimension:rail/blank/length"] == "1800"
    assert not faults(to_svg(drawing, "s"))


def strip(count: int = 9, *, other: bool = False) -> samples.Bench:
    """A long strip with a row of stepped holes, and perhaps a notch among them."""
    bench = samples.Bench("strip", "Strip", (1200, 56, 10))
    for k in range(count):
        for diameter, depth in ((5, 10), (9, 3)):
            bench.cut("row", "hole", "face", samples.round_loop((20 + 145 * k, 14), diameter), depth)
    bench.features["row"] = replace(bench.features["row"], count=count)
    bench.linear("row", "x", "face", "x", (0, 0, 10), (20, 14, 10))
    bench.linear("row", "pitch", "face", "x", (20, 14, 10), (165, 14, 10), count=count - 1)
    bench.linear("row", "y", "face", "y", (0, 0, 10), (20, 14, 10))
    bench.diameter("row", "face", (20, 14, 10), (22.5, 14, 10), suffix="through", count=count)
    if other:
        bench.cut("cable", "notch", "face", samples.box((600, 46), (620, 56)), 10)
    bench.overall()
    return bench


def test_a_long_row_is_interrupted_between_its_second_and_its_last() -> None:
    statement, (drawing,) = sheet(strip())
    (face,) = [shown for shown in drawing.views if shown.face == "face"]
    assert face.scale == 1 / 2
    printed = Counter(drawing.marks)
    assert printed == Counter(f"dimension:{name}" for name in statement.dimensions)
    assert not faults(to_svg(drawing, "s"))
    centres = {round(p.centre.x, 6) for p in drawing.primitives if isinstance(p, Circle) and p.pen is Pen.OUTLINE}
    assert centres == {round(_place(face, x).x, 6) for x in (20, 165, 1180)}
    ends = [_place(face, x).x for x in (0, 20, 165, 1180, 1200)]
    steps = [b - a for a, b in pairwise(ends)]
    assert [step for k, step in enumerate(steps) if k != 2] == pytest.approx([10.0, 72.5, 10.0])


def test_a_row_with_something_else_in_it_or_a_short_one_is_not() -> None:
    for bench in (strip(4), strip(other=True)):
        part = bench.stated()
        assert rows_between(solid_of_stated(part), part.features, bench.dimensions) == ()
    part = strip().stated()
    (places,) = rows_between(solid_of_stated(part), part.features, strip().dimensions)
    assert places == pytest.approx([20 + 145 * (k + 0.5) for k in range(1, 8)])


def test_features_near_both_ends_stay_exact() -> None:
    """Each mortise is drawn 50 mm long to scale, at its true distance from its own end."""
    _, (drawing,) = sheet(rail())
    (face,) = [shown for shown in drawing.views if shown.face == "face"]
    places = [_place(face, x).x for x in (0, 40, 90, 1710, 1760, 1800)]
    steps = [(b - a) / face.scale for a, b in pairwise(places)]
    assert [steps[k] for k in (0, 1, 3, 4)] == pytest.approx([40, 50, 50, 40])
    assert steps[2] < 600


def _place(shown: Shown, x: float) -> Pt:
    return Setting(shown.scale, *shown.zero)(shown.facing.flat(XYZ(x, 0, 0)))


def test_its_dxf_file_has_the_break_lines_and_measures_the_true_length() -> None:
    statement, (drawing,) = sheet(rail())
    document = ezdxf.read(io.StringIO(sheet_dxf(statement, drawing).decode()))
    assert not document.audit().has_issues
    assert len(document.modelspace().query('LWPOLYLINE[layer=="break"]')) == 4
    (length,) = [d for d in document.modelspace().query("DIMENSION") if d.dxf.text == "1800"]
    assert length.dxf.actual_measurement == pytest.approx(1800)


def test_a_part_of_six_metres_by_five_millimetres_is_a_good_drawing() -> None:
    bench = samples.Bench("lath", "Lath", (6000, 5, 5))
    bench.overall()
    bench.cut("pin", "hole", "face", samples.round_loop((20, 2.5), 2), 5)
    bench.diameter("pin", "face", (20, 2.5, 5), (21, 2.5, 5), suffix="through")
    bench.linear("pin", "x", "face", "x", (0, 0, 5), (20, 2.5, 5))
    statement, (drawing,) = sheet(bench)
    assert breaks(drawing)
    assert min(shown.scale for shown in drawing.views) >= 1
    assert len(drawing.marks) == len(statement.dimensions)
    assert not faults(to_svg(drawing, "s"))


def test_a_part_that_is_wide_enough_or_busy_all_along_is_drawn_whole() -> None:
    _, drawings = sheet(samples.top())
    assert not any(breaks(drawing) for drawing in drawings)
    _, drawings = sheet(samples.ramp_bar())
    assert not any(breaks(drawing) for drawing in drawings)


def test_where_no_line_crosses_a_gap_there_is_nothing_to_interrupt() -> None:
    """A blank longer than the outline that is drawn on it: the gap lies where there is no wood."""
    facing = replace(FACINGS["face"], gaps=(Gap(100, 300, 10),))
    assert break_lines((), facing) == ()
