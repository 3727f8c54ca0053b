"""Sections: what a plane cuts, where the tool lays it, how it is marked, named and hatched."""

from __future__ import annotations

import io
import math
from collections import Counter
from dataclasses import replace
from itertools import product

import ezdxf
import pytest
import shapely
from hypothesis import example, given, settings
from hypothesis import strategies as st

from planbook.drawing import draw_sheet, to_svg
from planbook.drawing.curves import Arc
from planbook.drawing.cutting import cut_lines, half_removed
from planbook.drawing.dxf import sheet_dxf
from planbook.drawing.facing import FACINGS, Facing
from planbook.drawing.hatching import Pattern, hatched
from planbook.drawing.recording import Drawing, Label, Pen, Stroke
from planbook.drawing.section import _faceted_area, cut_open, pattern_of
from planbook.drawing.sectioning import cuttings
from planbook.drawing.solid import XYZ, Solid
from planbook.drawing.stated_solid import solid_of_stated
from planbook.statement.model import Statement
from tests.drawing import samples
from tests.drawing.checker import faults


def keeper(inch: bool = False) -> samples.Bench:
    """A strip with three stepped holes, and nothing on its edges."""
    bench = samples.Bench("keeper", "Keeper", (240, 60, 20), inch)
    for k, x in enumerate((30, 120, 210)):
        name = f"hole_{k}"
        bench.cut(name, "hole", "back", samples.round_loop((x, 20), 8), 20)
        bench.cut(name, "hole", "back", samples.round_loop((x, 20), 16), 6)
        bench.linear(name, "x", "back", "x", (0, 0, 0), (x, 20, 0))
    bench.diameter("hole_0", "back", (30, 20, 0), (34, 20, 0), suffix="through", callout="keeper/hole_0")
    bench.linear("hole_0", "y", "back", "y", (0, 0, 0), (30, 20, 0))
    bench.overall()
    return bench


def sheet(bench: samples.Bench, substance: str = "plywood", **edition: str) -> tuple[Statement, tuple[Drawing, ...]]:
    statement = samples.statement(bench)
    part = replace(statement.parts[bench.key], substance=substance)
    statement = replace(statement, parts={bench.key: part}, edition=replace(statement.edition, **edition))
    drawings, findings = draw_sheet(statement, "1")
    assert not findings
    return statement, drawings


def labels(drawings: tuple[Drawing, ...]) -> list[Label]:
    return [p for drawing in drawings for p in drawing.primitives if isinstance(p, Label)]


SAMPLES = [samples.leg, samples.apron, samples.ramp_bar, samples.top, samples.button, keeper]


def _ways(facing: Facing) -> tuple[XYZ, XYZ, XYZ]:
    return facing.right, facing.up, facing.eye


@pytest.mark.parametrize("make", SAMPLES)
@given(share=st.floats(0.03, 0.97), name=st.sampled_from(sorted(FACINGS)))
@example(share=0.50390625, name="front_edge")
@settings(max_examples=12, deadline=None)
def test_the_area_cut_is_that_of_the_mesh(make: object, share: float, name: str) -> None:
    """The same plane through the part's mesh, whose chords stay within 0.05 mm of the true curve.

    And place by place, just behind the plane, what is wood by the part's own loops.
    """
    solid = solid_of_stated(make().stated())  # type: ignore[operator]
    facing = FACINGS[name]
    reach = [component * size for component, size in zip(facing.eye, solid.size, strict=True)]
    at = min(sum(reach), 0.0) + share * abs(sum(reach))
    pieces, area = cut_open(solid, facing, at)
    half = Solid(solid.size, solid.blank, (*solid.cuts, half_removed(solid, facing, at)))
    mesh = _faceted_area(half, facing, at)
    assert area.area == pytest.approx(mesh.area, abs=0.05 * area.length + 0.05)
    for x, y in product(*(range(1, 40) for _ in "xy")):
        x0, y0, x1, y1 = area.bounds
        spot = shapely.Point(x0 - 1 + (x1 - x0 + 2) * x / 40.3, y0 - 1 + (y1 - y0 + 2) * y / 40.3)
        if spot.distance(area.boundary) > 0.1:
            place = XYZ(*(r * spot.x + u * spot.y + e * (at - 1e-4) for r, u, e in zip(*_ways(facing), strict=True)))
            assert area.contains(spot) == solid.is_wood(place)
    border = sum(piece.curve.length for piece in cut_lines(solid, facing, at))
    assert border == pytest.approx(area.length, abs=1e-3 * area.length + 0.05)
    assert all(piece.rank < 2 for piece in pieces)


def test_arcs_stay_arcs() -> None:
    """Cut level, the stepped hole is a true circle of 16 mm near the back, of 8 mm near the face."""
    solid = solid_of_stated(keeper().stated())
    for z, radius in ((3.0, 8.0), (15.0, 4.0)):
        arcs = [p.curve for p in cut_lines(solid, FACINGS["face"], z) if isinstance(p.curve, Arc)]
        assert {round(arc.radius, 9) for arc in arcs} == {radius}
        assert sum(abs(arc.sweep) for arc in arcs) == pytest.approx(3 * math.tau)


def test_a_plane_through_the_axes_shows_each_step() -> None:
    solid = solid_of_stated(keeper().stated())
    _, area = cut_open(solid, FACINGS["front_edge"], -20.0)
    assert area.area == pytest.approx(240 * 20 - 3 * (8 * 14 + 16 * 6))


def test_stepped_holes_are_shown_in_section_and_the_plane_is_marked_twice() -> None:
    statement, drawings = sheet(keeper())
    texts = [label.text for label in labels(drawings)]
    assert "SECTION A–A" in texts
    assert "FRONT EDGE" not in texts
    assert texts.count("A") == 2
    assert texts.count("plywood") == 1
    printed = Counter(mark for each in drawings for mark in each.marks)
    assert printed == Counter(f"dimension:{name}" for name in statement.dimensions)
    for drawing in drawings:
        assert not faults(to_svg(drawing, "s"))


@pytest.mark.parametrize("projection", ["first_angle", "third_angle"])
def test_arrows_point_the_way_the_section_looks(projection: str) -> None:
    """The front edge is seen from the front: in the face view, up. Both tips lie on the plane, at 20 mm from below."""
    _, (drawing, *_) = sheet(keeper(), projection=projection)
    letters = [p for p in drawing.primitives if isinstance(p, Label) and p.text == "A"]
    (face,) = [shown for shown in drawing.views if shown.face == "face"]
    plane = face.zero.y - face.scale * 20
    tips = [
        p.start for p in drawing.primitives
        if isinstance(p, Stroke) and p.fill == "solid" and not p.of and abs(p.start.y - plane) < 1e-6
    ]  # fmt: skip
    assert len(letters) == len(tips) == 2
    assert all(letter.at.y > plane for letter in letters)


def test_a_view_with_features_of_its_own_is_not_cut() -> None:
    bench = keeper()
    bench.cut("side", "hole", "front_edge", samples.round_loop((80, 10), 5), 12)
    part = bench.stated()
    assert not cuttings(part, solid_of_stated(part), bench.dimensions)


def test_plain_holes_and_whole_grooves_need_no_section() -> None:
    bench = samples.Bench("plain", "Plain", (240, 60, 20))
    bench.cut("hole", "hole", "face", samples.round_loop((50, 20), 8), 20)
    bench.cut("groove", "groove", "face", samples.box((100, 0), (110, 60)), 6)
    bench.overall()
    part = bench.stated()
    assert not cuttings(part, solid_of_stated(part), bench.dimensions)


def test_a_view_keeps_to_itself_what_the_plane_would_miss() -> None:
    """A dimension of something that is not cut would point at nothing."""
    bench = keeper()
    bench.cut("notch", "notch", "face", samples.box((0, 50), (20, 60)), 10)
    bench.linear("notch", "depth", "front_edge", "z", (0, 50, 10), (0, 50, 20))
    bench.linear("hole_0", "step", "front_edge", "z", (30, 20, 0), (30, 20, 6))
    part = bench.stated()
    assert not cuttings(part, solid_of_stated(part), bench.dimensions)


AREA = shapely.box(0, 0, 80, 20).difference(shapely.Point(40, 10).buffer(6))


@pytest.mark.parametrize("level", [True, False])
def test_each_material_has_strokes_of_its_own_inside_the_cut_face(level: bool) -> None:
    seen = set()
    for pattern in Pattern:
        strokes = hatched(AREA, pattern, level)
        lines = shapely.MultiLineString([[stroke.start, *(step.end for step in stroke.steps)] for stroke in strokes])
        assert AREA.buffer(1e-6).contains(lines)
        assert 0.3 < lines.length / AREA.area < 3
        seen.add(lines.wkt)
    assert len(seen) == len(Pattern)


def test_wood_is_told_across_and_along_the_grain_and_from_other_things() -> None:
    for substance, words in (("wood", "long grain"), ("metal", "metal")):
        _, drawings = sheet(keeper(), substance)
        assert words in [label.text for label in labels(drawings)]
    assert pattern_of("wood", FACINGS["right_end"]) is Pattern.END_GRAIN
    assert pattern_of("", FACINGS["right_end"]) is Pattern.PLAIN


def test_its_dxf_file_has_the_hatching_on_a_layer_of_its_own() -> None:
    statement, drawings = sheet(keeper())
    (page,) = [d for d in drawings if any(isinstance(p, Stroke) and p.pen is Pen.HATCH for p in d.primitives)]
    document = ezdxf.read(io.StringIO(sheet_dxf(statement, page).decode()))
    assert not document.audit().has_issues
    assert len(document.modelspace().query('*[layer=="hatching"]')) > 20
