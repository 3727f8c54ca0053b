"""DXF files of sheets: every recorded line is there, every dimension is one, and it measures what the part is."""

from __future__ import annotations

import math
from dataclasses import dataclass

import pytest

from planbook.drawing import draw_sheet
from planbook.drawing.dxf import sheet_dxf
from planbook.drawing.dxf.paper import layer_of
from planbook.drawing.recording import ArcTo, Circle, Drawing, Label, Pen, Pt, Stroke
from planbook.statement.model import Statement
from tests.drawing import samples
from tests.drawing.checker import arc_points
from tests.drawing.dxf.reading import Read, read

MEASURABLE = ("linear", "diameter", "radius")


@dataclass(frozen=True)
class Sheet:
    statement: Statement
    page: Drawing
    found: Read


def drawn(sample, inch: bool) -> Sheet:
    statement = samples.statement(sample(inch))
    page = draw_sheet(statement, next(iter(statement.sheets)))[0][0]
    return Sheet(statement, page, read(sheet_dxf(statement, page)))


def named(pair) -> str:
    return f"{pair[0].__name__}-{'inch' if pair[1] else 'millimetre'}"


@pytest.fixture(scope="module", params=[(s, inch) for s in samples.ALL for inch in (False, True)], ids=named)
def sheet(request: pytest.FixtureRequest) -> Sheet:
    return drawn(*request.param)


def test_each_dimension_is_a_dimension_that_measures_the_part(sheet: Sheet) -> None:
    """ezdxf measures between the entity's own places; with its factor that is the part's true measure.

    The factor is that of its style, or one of its own where it leads across an interruption.
    """
    said = {label.of: label for label in reversed(sheet.page.primitives) if isinstance(label, Label) and label.mark}
    known = sheet.statement.dimensions
    wanted = [key for key in said if known[key].kind in MEASURABLE and len(known[key].points) > 1]
    found = []
    for entity in sheet.found.of("DIMENSION"):
        factor = entity.override().get("dimlfac")
        assert entity.get_measurement() * factor == pytest.approx(entity.dxf.actual_measurement, abs=0.001)
        found.append((entity.dxf.text, pytest.approx(entity.dxf.actual_measurement * sheet.found.unit)))
    assert wanted
    assert sorted((said[key].text, known[key].nominal * 1e-6) for key in wanted) == sorted(found, key=by_text)


def test_a_dimension_style_is_named_by_its_scale_paper_first(sheet: Sheet) -> None:
    """ISO 5455: 1:2 is half size, 2:1 is double size."""
    styles = sheet.found.document.dimstyles
    for entity in sheet.found.of("DIMENSION"):
        style = styles.get(entity.dxf.dimstyle)
        paper, part = style.dxf.name.replace("_", ".").removeprefix("scale ").split(" to ")
        assert float(part) / float(paper) == pytest.approx(style.dxf.dimlfac, rel=1e-4)


def by_text(found: tuple[str, object]) -> tuple[str, float]:
    return found[0], found[1].expected


def test_a_dimension_shows_what_was_recorded(sheet: Sheet) -> None:
    for entity in sheet.found.of("DIMENSION"):
        block = sheet.found.document.blocks.get(entity.dxf.geometry)
        assert entity.dxf.text in {text.dxf.text for text in block.query("TEXT")}
        assert block.query("LINE LWPOLYLINE HATCH")


def test_all_lettering_is_there(sheet: Sheet) -> None:
    texts = [text.dxf.text for block in sheet.found.document.blocks for text in block.query("TEXT")]
    assert sorted(texts) == sorted(p.text for p in sheet.page.primitives if isinstance(p, Label))


def test_lines_arcs_and_circles_are_on_layers_named_for_what_they_hold(sheet: Sheet) -> None:
    space = sheet.found.document.modelspace()
    for pen in (Pen.OUTLINE, Pen.HIDDEN, Pen.CENTRE):
        recorded = [p for p in sheet.page.primitives if not isinstance(p, Label) and p.pen is pen]
        entities = space.query(f'*[layer=="{layer_of(pen)}"]')
        assert len(entities) == len(recorded)
        circles = [p for p in recorded if isinstance(p, Circle)]
        assert len(entities.query("CIRCLE")) == len(circles)
    for name in ("outline", "dimensions", "text", "frame"):
        assert space.query(f'*[layer=="{name}"]'), name


def test_each_visible_edge_stands_where_it_was_recorded(sheet: Sheet) -> None:
    height, unit = sheet.page.height, sheet.found.unit
    lines = [
        tuple(value * unit for p in (line.dxf.start, line.dxf.end) for value in (p.x, p.y))
        for line in sheet.found.document.modelspace().query('LINE[layer=="outline"]')
    ]
    strokes = [p for p in sheet.page.primitives if isinstance(p, Stroke) and p.pen is Pen.OUTLINE]
    expected = [
        (p.start.x, height - p.start.y, p.steps[0].end.x, height - p.steps[0].end.y)
        for p in strokes if len(p.steps) == 1 and not hasattr(p.steps[0], "radius")
    ]  # fmt: skip
    assert lines == [pytest.approx(place, abs=0.001) for place in expected]


def test_arcs_keep_centre_and_radius() -> None:
    """The turn button's corners have a radius of 6 mm; at 2:1 that is 12 mm on paper, about centres 6 mm in."""
    sheet = drawn(samples.button, inch=False)
    scale = next(shown.scale for shown in sheet.page.views if shown.face == "face")
    zero = next(shown.zero for shown in sheet.page.views if shown.face == "face")
    arcs = sheet.found.document.modelspace().query('ARC[layer=="outline"]')
    centres = sorted(
        (round(a.dxf.center.x - zero.x, 3), round(a.dxf.center.y - sheet.page.height + zero.y, 3)) for a in arcs
    )
    assert centres == sorted((x * scale, y * scale) for x in (6, 48) for y in (6, 20))
    assert {round(arc.dxf.radius, 6) for arc in arcs} == {6 * scale}


@pytest.mark.parametrize("large", [False, True])
@pytest.mark.parametrize("sweep", [False, True])
def test_arcs_turn_as_they_were_recorded(large: bool, sweep: bool) -> None:
    """Oracle: the arc flags of SVG 1.1, appendix F.6.5, as the tests' own reader of SVG takes them."""
    start, end = Pt(60.0, 80.0), Pt(75.0, 95.0)
    page = Drawing(297.0, 210.0, (Stroke(start, (ArcTo(end, 16.0, large, sweep),), Pen.OUTLINE),))
    (arc,) = read(sheet_dxf(samples.statement(samples.button()), page)).of("ARC")
    (x, y, _), turn = arc.dxf.center, (arc.dxf.end_angle - arc.dxf.start_angle) % 360
    assert (turn > 180) is large
    for px, py in arc_points(start, [16.0, 16.0, 0.0, large, sweep, *end])[:-1]:
        angle = math.degrees(math.atan2(210.0 - py - y, px - x))
        assert math.hypot(px - x, 210.0 - py - y) == pytest.approx(16.0, abs=0.001)
        assert (angle - arc.dxf.start_angle) % 360 <= turn + 1e-6


def test_the_same_sheet_gives_the_same_bytes() -> None:
    statement = samples.statement(samples.button())
    page = draw_sheet(statement, "1")[0][0]
    assert sheet_dxf(statement, page) == sheet_dxf(statement, page)
