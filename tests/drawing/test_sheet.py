"""Sheets against the standards that they follow, and the fields of the title block."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from ruamel.yaml import YAML

from planbook.drawing import draw_sheet, to_svg
from planbook.drawing.frame import page_of
from planbook.drawing.lettering import text_width
from planbook.drawing.projection_sign import projection_sign
from planbook.drawing.recording import PEN_WIDTHS, Circle, Drawing, Label, Pen, Pt, Stroke
from planbook.drawing.scales import INCH, ISO_5455
from planbook.drawing.title_block import fit, material, quantity
from tests.drawing import samples
from tests.drawing.checker import lengths, read

REFERENCE: dict[str, Any] = {
    entry["id"]: entry["expected"]
    for entry in YAML(typ="safe").load(Path(__file__).parents[1] / "reference" / "drawing.yaml")
}


def pages(make: Any, inch: bool = False, **edition: str) -> tuple[Drawing, ...]:
    statement = samples.statement(make(inch))
    drawings, findings = draw_sheet(replace(statement, edition=replace(statement.edition, **edition)), "1")
    assert not findings
    return drawings


def sheet(make: Any, inch: bool = False, **edition: str) -> Drawing:
    """Its first page."""
    return pages(make, inch, **edition)[0]


def words(drawing: Drawing) -> set[str]:
    return {p.text for p in drawing.primitives if isinstance(p, Label)}


def test_paper_sizes_are_iso_216_and_asme_y14_1() -> None:
    metric, inch = sheet(samples.button), sheet(samples.button, True)
    assert [metric.height, metric.width] == REFERENCE["sheet-a4"]["mm"]
    assert [round(v / 25.4, 9) for v in (inch.height, inch.width)] == REFERENCE["sheet-letter"]["in"]


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_frame_is_iso_5457(paper: str) -> None:
    border = REFERENCE["sheet-border"]
    page = page_of(paper)
    assert page.frame.left == border["left_filing_mm"]
    others = (page.frame.top, page.width - page.frame.right, page.height - page.frame.bottom)
    assert others == pytest.approx([border["other_sides_mm"]] * 3)
    drawing = sheet(samples.button, paper=paper)
    (frame,) = [p for p in drawing.primitives if isinstance(p, Stroke) and p.pen is Pen.FRAME]
    assert frame.start == (page.frame.left, page.frame.top)
    assert PEN_WIDTHS[Pen.FRAME] == border["frame_line_mm"]


def test_line_widths_are_of_iso_128_wide_twice_narrow() -> None:
    series = REFERENCE["line-widths"]["mm"]
    assert all(width in [*series, 0.18] for width in PEN_WIDTHS.values())
    assert PEN_WIDTHS[Pen.OUTLINE] == REFERENCE["line-widths"]["wide_to_narrow"] * PEN_WIDTHS[Pen.DIMENSION]


def test_scales_are_standard_ones() -> None:
    iso, inch = REFERENCE["scale-iso5455"], REFERENCE["scale-inch"]
    assert {str(s) for s in ISO_5455} <= {*iso["enlarge"], iso["full"], *iso["reduce"]}
    assert {str(s) for s in INCH} == {*inch["enlarge"], inch["full"], *inch["reduce"]}
    assert [s.factor for s in ISO_5455] == sorted((s.factor for s in ISO_5455), reverse=True)


def test_the_scale_is_as_large_as_the_paper_allows() -> None:
    """834 mm at 1:2 is wider than the paper; at 1:5 the ramp bar and its dimensions fit."""
    assert "1:5" in words(sheet(samples.ramp_bar))
    assert "2:1" in words(sheet(samples.button))


def test_outline_is_drawn_to_scale() -> None:
    drawing = sheet(samples.ramp_bar)
    assert any(abs(length - 834 / 5) < 0.002 for length in lengths(to_svg(drawing, "s")))


def test_lettering_heights_are_of_iso_3098() -> None:
    heights = {p.height for p in sheet(samples.apron, True).primitives if isinstance(p, Label)}
    assert heights <= set(REFERENCE["lettering-heights"]["mm"])


def test_title_block_has_the_fields_of_iso_7200() -> None:
    """Each mandatory field by its caption and value."""
    fields = {
        "legal owner": ("LEGAL OWNER", "Lindenhof Workshop"),
        "identification number": ("NUMBER", "LW-07-1"),
        "date of issue": ("ISSUED", "2026-03-01"),
        "sheet number": ("SHEET", "1"),
        "title": ("TITLE", "Leg"),
        "approval person": ("APPROVED BY", "K. Hof"),
        "creator": ("DRAWN BY", "M. Linden"),
        "document type": ("DOCUMENT", "Part drawing"),
    }
    assert set(fields) == set(REFERENCE["iso7200-fields"]["mandatory"])
    shown = words(sheet(samples.leg))
    for caption, value in fields.values():
        assert caption in shown
        assert value in shown
    assert len("2026-03-01") == REFERENCE["iso7200-fields"]["date_characters"]
    block = page_of("a4").title_block
    assert block.right - block.left == REFERENCE["iso7200-fields"]["title_block_width_mm"]


def test_a_draft_says_so_and_a_version_is_named() -> None:
    (drawing, *_), _ = draw_sheet(samples.statement(samples.leg(), version=""), "1")
    assert "draft" in words(drawing)
    assert "1.0" in words(sheet(samples.leg))


def test_quantity_and_material_in_words() -> None:
    part = samples.leg().stated()
    assert quantity(part) == "2 as drawn, 2 mirrored"
    assert quantity(replace(part, mirrored=0)) == "2"
    told = {
        ("18 mm birch plywood", "Birch plywood, sanded"): "18 mm birch plywood, sanded",
        ("32 mm hard maple, planed", "Hard maple"): "32 mm hard maple, planed",
        ("Board", "Oak"): "Board, Oak",
        ("Board", ""): "Board",
    }
    for (stock, made_of), text in told.items():
        assert material(replace(part, stock_title=stock, material=made_of)) == text


def test_units_note_names_what_the_brackets_hold() -> None:
    assert "inches [millimetres for reference]" in words(sheet(samples.leg, True))
    assert "millimetres [inches for reference]" in words(sheet(samples.leg))


def test_stock_is_to_be_measured_where_it_matters() -> None:
    shown = words(sheet(samples.top, True))
    assert {"Accepted .700 to .730", "Measured"} <= shown
    assert "Measured" not in words(sheet(samples.leg, True))


def test_general_tolerances_are_all_printed_even_if_they_are_many() -> None:
    statement = samples.statement(samples.button())
    many = tuple(f"Tolerance number {k} of this workshop, said at some length" for k in range(5))
    (drawing, *_), _ = draw_sheet(replace(statement, plan_set=replace(statement.plan_set, general_tolerance=many)), "1")
    shown = " ".join(p.text for p in drawing.primitives if isinstance(p, Label))
    assert all(text in shown for text in many)


def test_projection_sign_turns_with_the_method() -> None:
    """ISO 5456-2: the cone's small end points left; the circles stand at the right in first angle, left in third."""
    for method, side in (("first_angle", 1), ("third_angle", -1)):
        sign = projection_sign(0.0, 0.0, method)
        (cone,) = [p for p in sign if isinstance(p, Stroke) and p.closed]
        xs = [cone.start, *(step.end for step in cone.steps)]
        low, high = min(p.x for p in xs), max(p.x for p in xs)
        assert _height(xs, low) < _height(xs, high)
        rounds = [p for p in sign if isinstance(p, Circle)]
        assert len(rounds) == 2
        assert all((p.centre.x - (low + high) / 2) * side > 0 for p in rounds)


def _height(points: list[Pt], x: float) -> float:
    ys = [p.y for p in points if p.x == x]
    return max(ys) - min(ys)


@pytest.mark.parametrize(("method", "below"), [("third_angle", True), ("first_angle", False)])
def test_views_stand_by_the_projection_method(method: str, below: bool) -> None:
    """The button's front edge is shown in section: it looks the same way and stands in the same place."""
    drawing = sheet(samples.button, projection=method)
    places = {p.text: p.at.y for p in drawing.primitives if isinstance(p, Label)}
    assert (places["SECTION A–A"] > places["FACE"]) == below


def test_each_view_is_named_in_words_with_its_scale() -> None:
    shown = {word for page in pages(samples.leg) for word in words(page)}
    assert {"FACE", "SECTION A–A", "RIGHT END"} <= shown


def test_arrowheads_are_filled_and_of_one_size() -> None:
    """ISO 129-1: closed filled arrowheads; here 2.6 mm, within the 2.5 to 3 mm that suit 2.5 mm lettering."""
    heads = [
        p for p in sheet(samples.button).primitives if isinstance(p, Stroke) and p.fill == "solid" and len(p.steps) == 2
    ]
    assert heads
    for head in heads:
        tip, left, right = head.start, head.steps[0].end, head.steps[1].end
        middle = ((left.x + right.x) / 2, (left.y + right.y) / 2)
        length = ((tip.x - middle[0]) ** 2 + (tip.y - middle[1]) ** 2) ** 0.5
        assert 2.5 <= length <= 3.0


def test_a_value_too_long_for_its_field_gets_smaller_and_at_last_shorter() -> None:
    assert fit("Leg", 40, 5.0) == ("Leg", 5.0)
    text, height = fit("Leg with a long name", 40, 5.0)
    assert text == "Leg with a long name"
    assert height < 5.0
    cut, height = fit("x" * 200, 40, 5.0)
    assert cut.endswith("…")
    assert text_width(cut, height) <= 40


def test_sheets_are_the_same_again() -> None:
    assert to_svg(sheet(samples.leg, True), "s") == to_svg(sheet(samples.leg, True), "s")


def test_numbers_stand_as_stated() -> None:
    drawn = [read(to_svg(page, "s")) for page in pages(samples.apron, True)]
    texts = {t.mark: t.words for picture in drawn for t in picture.texts if t.mark}
    bench = samples.apron(True)
    for d in bench.dimensions:
        shown = texts[f"dimension:{d.id}"]
        assert f"{d.printed.text} [{d.printed.other}]" in shown
        assert d.tolerance in shown
        assert (f"{d.count}x " in shown) == (d.count > 1)
