"""Angles on sheets: an arc with two arrowheads between the legs, lettering that touches nothing, in both editions."""

from __future__ import annotations

import math
from collections.abc import Iterator
from datetime import date
from functools import lru_cache
from pathlib import Path

import pytest
from ezdxf.entities import Dimension
from hypothesis import given
from hypothesis import strategies as st

from planbook.design import plan_design
from planbook.drawing import draw_sheet, to_svg
from planbook.drawing.angles import Corner, corner_of, place_angles
from planbook.drawing.dxf import part_dxf, sheet_dxf
from planbook.drawing.facing import FACINGS
from planbook.drawing.flat import flat_part
from planbook.drawing.ink import segments_of
from planbook.drawing.ledger import Ledger
from planbook.drawing.lines import stroke
from planbook.drawing.profile import signed_area
from planbook.drawing.recording import ArcTo, Circle, Label, Pen, Pt, Stroke
from planbook.drawing.solid import XYZ
from planbook.drawing.tracing import Setting
from planbook.drawing.wording import Line
from planbook.source import Door, load
from planbook.source.findings import Severity
from planbook.statement import state_edition
from planbook.statement.model import DimensionStated, PrintedStated, SegmentStated, Statement
from tests.drawing.checker import faults, read
from tests.drawing.dxf import reading as dxf_reading

FIXTURE = Path(__file__).parents[1] / "fixtures/shapes"
EDITIONS = ("metric", "imperial")
SHEETS = ("1", "2", "3", "4")


@lru_cache
def statement(edition: str) -> Statement:
    """The small set of shapes that turn and lean."""
    door = Door(FIXTURE)
    content, findings = load(door, "turning-stand")
    assert content is not None, findings
    plan, findings = plan_design(content)
    assert plan is not None, findings
    stated, findings = state_edition(content, edition, door, plan, "", date(2026, 1, 1))
    assert not [finding for finding in findings if finding.severity is Severity.STOP]
    assert stated is not None
    return stated.statement


@pytest.mark.parametrize("edition", EDITIONS)
@pytest.mark.parametrize("sheet", SHEETS)
def test_nothing_touches_and_every_dimension_is_there(sheet: str, edition: str) -> None:
    stated = statement(edition)
    drawings, findings = draw_sheet(stated, sheet)
    assert findings == ()
    pages = [to_svg(drawing, "s") for drawing in drawings]
    assert [fault for page in pages for fault in faults(page)] == []
    printed = sorted(text.mark for page in pages for text in read(page).texts if text.mark)
    part = stated.sheets[sheet].part
    assert printed == sorted(f"dimension:{each.id}" for each in stated.dimensions.values() if each.part == part)


@pytest.mark.parametrize("edition", EDITIONS)
@pytest.mark.parametrize("sheet", SHEETS)
def test_an_arc_runs_from_leg_to_leg(sheet: str, edition: str) -> None:
    """Both arrowheads point at places as far from the corner as the arc, and the printed angle apart."""
    stated = statement(edition)
    drawings, _ = draw_sheet(stated, sheet)
    for drawing in drawings:
        for dimension in stated.dimensions.values():
            own = [each for each in drawing.primitives if each.of == dimension.id]
            if dimension.kind != "angle" or not own:
                continue
            arcs = [each for each in own if isinstance(each, Stroke) and isinstance(each.steps[0], ArcTo)]
            tips = [each.start for each in own if isinstance(each, Stroke) and each.fill == "solid" and each.closed]
            assert len(arcs) == 1
            step = arcs[0].steps[0]
            assert isinstance(step, ArcTo)
            chord = 2 * step.radius * abs(math.sin(math.radians(dimension.nominal) / 2))
            assert math.dist(*tips[:2]) == pytest.approx(chord, abs=1e-6)


def test_a_pitch_circle_and_middle_lines_are_centre_lines() -> None:
    stated = statement("metric")
    (plate, *_), _ = draw_sheet(stated, "2")
    circles = [each for each in plate.primitives if isinstance(each, Circle) and each.pen is Pen.CENTRE]
    assert len(circles) == 1
    (scale,) = {shown.scale for shown in plate.views if shown.face == "face"}
    assert circles[0].radius == pytest.approx(75 / 2 * scale)
    (disc, *_), _ = draw_sheet(stated, "1")
    arcs = [each for each in disc.primitives if isinstance(each, Stroke) and each.pen is Pen.CENTRE]
    radii = {step.radius for each in arcs for step in each.steps if isinstance(step, ArcTo)}
    assert sorted(radii) == pytest.approx([75 * scale, 115 * scale])


corners = st.builds(
    Corner,
    st.builds(Pt, st.floats(0, 120), st.floats(0, 90)),
    st.floats(-math.pi, math.pi),
    st.floats(math.radians(1), math.radians(350)) | st.floats(math.radians(-350), math.radians(-1)),
    st.floats(1, 40),
    st.sampled_from([(Line("12° or 64 over 300"),), (Line("90°"),), (Line("5.5°"), Line("marked from part 3"))]),
    st.uuids().map(str),
)
walls = st.builds(
    stroke,
    st.builds(Pt, st.floats(0, 120), st.floats(0, 90)),
    st.builds(Pt, st.floats(120.5, 200), st.floats(0, 90)),
)


@given(st.lists(corners, max_size=5, unique_by=lambda corner: corner.key), st.lists(walls, max_size=4))
def test_lettering_of_angles_touches_nothing(wanted: list[Corner], strokes: list[Stroke]) -> None:
    ledger = Ledger()
    missing = place_angles([(corner,) for corner in wanted], strokes, ledger)
    assert {each.of for each in ledger.primitives} | set(missing) == {corner.key for corner in wanted}
    lines = [*segments_of(strokes), *segments_of([p for p in ledger.primitives if not isinstance(p, Label)])]
    assert not any(line.meets(box) for box in ledger.boxes for line in lines)
    assert not any(a.meets(b) for i, a in enumerate(ledger.boxes) for b in ledger.boxes[:i])


@given(corners)
def test_a_lone_angle_always_finds_room(corner: Corner) -> None:
    ledger = Ledger()
    assert place_angles([(corner,)], (), ledger) == ()
    assert len([each for each in ledger.primitives if isinstance(each, Label)]) == len(corner.lines)


def test_an_arc_does_not_run_on_the_rim_of_a_disc_about_its_corner() -> None:
    corner = Corner(Pt(0, 0), math.pi / 2, math.radians(60), 50.0, (Line("60°"),), "angle")
    free, disc = Ledger(), Ledger()
    assert place_angles([[corner]], [], free) == ()
    radius = next(_radii(free))
    assert place_angles([[corner]], [Circle(Pt(0, 0), radius, Pen.OUTLINE)], disc) == ()
    assert abs(next(_radii(disc)) - radius) > 2.0


def _radii(ledger: Ledger) -> Iterator[float]:
    for each in ledger.primitives:
        if isinstance(each, Stroke) and isinstance(each.steps[0], ArcTo):
            yield each.steps[0].radius


def test_an_angle_said_for_equal_ones_stands_where_there_is_room() -> None:
    hemmed, free = (Corner(Pt(x, 60), 0.0, math.radians(20), 10.0, (Line("2x 20°"),), "own") for x in (40, 200))
    hatched = [stroke(Pt(-60, y), Pt(140, y)) for y in range(-60, 180)]
    assert place_angles([(hemmed,)], hatched, Ledger()) == ("own",)
    ledger = Ledger()
    assert place_angles([(hemmed, free)], hatched, ledger) == ()
    assert all(box.left > 140 for box in ledger.boxes)


@pytest.mark.parametrize("face", sorted(FACINGS))
@given(st.floats(1, 350), st.floats(-180, 180))
def test_every_view_joins_the_legs_whichever_way_it_sees_them(face: str, nominal: float, start: float) -> None:
    """A face that is seen mirrored shows its angles mirrored."""
    facing = FACINGS[face]
    across = [axis for axis in range(3) if abs((facing.eye.x, facing.eye.y, facing.eye.z)[axis]) < 0.5]
    points = []
    for turn in (math.radians(start), math.radians(start + nominal)):
        leg = [5e6, 5e6, 5e6]
        leg[across[0]] += 20e6 * math.cos(turn)
        leg[across[1]] += 20e6 * math.sin(turn)
        points.append(tuple(leg))
    printed = PrintedStated(f"{nominal:g}°", "", nominal, "", "")
    dimension = DimensionStated(
        "a/b/c", "a", "b", "c", "angle", face, "", ((5e6, 5e6, 5e6), points[0], points[1]), nominal, printed
    )
    corner = corner_of(dimension, facing, Setting(0.5))
    for share, point in ((0.0, points[0]), (1.0, points[1])):
        there = Setting(0.5)(facing.flat(XYZ(*(c / 1e6 for c in point))))
        assert math.dist(corner.place(corner.reach, share), there) < 1e-6


@pytest.mark.parametrize("edition", EDITIONS)
def test_flat_parts_are_cut_as_they_are_shaped(edition: str) -> None:
    """Slots, sectors and pockets are chains of a DXF file at their depth; what slopes is named as left out."""
    parts = statement(edition).parts
    disc, plate, tray = (flat_part(parts[key]) for key in ("disc", "plate", "tray"))
    assert (len(disc.outline), len(disc.recesses), disc.left_out) == (3, 1, ())
    assert (len(plate.outline), len(plate.recesses)) == (7, 3)
    assert tray.left_out == ("near", "far", "under")
    wanted = sum(cut_area(cut.loop) for cut in parts["plate"].features["rests"].cuts) * 1e-12
    assert sum(signed_area(recess.chains[0]) for recess in plate.recesses) == pytest.approx(wanted)
    text = part_dxf(statement(edition), "tray").decode()
    assert "Not in this file: under" in text


def cut_area(loop: tuple[SegmentStated, ...]) -> float:
    """Of a ring sector, from its own radii and angles."""
    outer, inner = loop[0], loop[2]
    assert outer.centre is not None
    turn = 2 * math.asin(math.dist(outer.start, outer.end) / 2 / math.dist(outer.centre, outer.start))
    return turn / 2 * (math.dist(outer.centre, outer.start) ** 2 - math.dist(outer.centre, inner.start) ** 2)


@pytest.mark.parametrize("edition", EDITIONS)
@pytest.mark.parametrize("sheet", SHEETS)
def test_angles_are_dimensions_of_a_dxf_file(sheet: str, edition: str) -> None:
    """ezdxf measures between the legs of each entity; the file passes its audit."""
    stated = statement(edition)
    (page, *_), _ = draw_sheet(stated, sheet)
    found = dxf_reading.read(sheet_dxf(stated, page))
    angles = [each for each in found.of("DIMENSION") if each.dimtype == Dimension.ANGULAR_3P]
    part = stated.sheets[sheet].part
    wanted = [each.nominal for each in stated.dimensions.values() if each.part == part and each.kind == "angle"]
    assert sorted(each.get_measurement() for each in angles) == pytest.approx(sorted(wanted))
    measured = sorted(math.degrees(each.dxf.actual_measurement) for each in angles)
    assert measured == pytest.approx(sorted(wanted))
