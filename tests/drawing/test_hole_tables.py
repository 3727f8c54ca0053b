"""Many holes in one face: a table states them, each dimension stands once, and no lettering is touched."""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import replace
from typing import Any

import pytest

from planbook.dimension import dimension_parts
from planbook.drawing import Drawing, draw_sheet, to_svg
from planbook.measure import Units
from planbook.shape import shape_parts
from planbook.source.findings import Finding
from planbook.statement.model import SheetStated, Statement
from planbook.statement.restating import Wording, state_dimension, state_part
from tests.drawing import samples
from tests.drawing.checker import faults, read
from tests.shape.making import content_of, design_of, plate

TAG = re.compile(r"[A-HJ-NP-Z][0-9]+")


def holes(across: int, down: int, **more: Any) -> dict[str, Any]:
    """Holes of two sizes in a field in which no two places are level."""
    found: dict[str, Any] = {}
    for k in range(across * down):
        row, column = divmod(k, across)
        x, y = 20 + 360 / across * column + 0.6 * row, 15 + 170 / down * row + 0.7 * column
        found[f"h{k}"] = {"hole": ("5 mm", "8 mm")[k % 2], "at": (f"{x:.2f} mm", f"{y:.2f} mm"), **more}
    return found


def sheet_of(features: dict[str, Any]) -> tuple[Statement, tuple[Drawing, ...], tuple[Finding, ...]]:
    content = content_of({"plate": plate(features=features)})
    design = design_of(content)
    parts, _ = shape_parts(content, design)
    dimensions, _ = dimension_parts(content, design, parts, Units.MILLIMETRE)
    words = Wording((), dict.fromkeys(parts["plate"].features, ""), frozenset(parts["plate"].features))
    stated = state_part(parts["plate"], parts, design, Units.MILLIMETRE, words)
    statement = replace(
        samples.statement(samples.leg()),
        parts={"plate": stated},
        dimensions={key: state_dimension(each) for key, each in dimensions.items()},
        sheets={"1": SheetStated("1", "plate", "Plate", "1.0")},
    )
    return statement, *draw_sheet(statement, "1")


@pytest.mark.parametrize(("across", "down"), [(3, 3), (5, 4), (12, 8)])
def test_every_dimension_stands_once_and_every_hole_has_its_tag(across: int, down: int) -> None:
    statement, pages, findings = sheet_of(holes(across, down))
    assert findings == ()
    marks = Counter(mark for page in pages for mark in page.marks)
    assert marks == Counter({f"dimension:{name}": 1 for name in statement.dimensions})
    svgs = [to_svg(page, f"p{k}") for k, page in enumerate(pages)]
    assert [faults(svg) for svg in svgs] == [[] for _ in svgs]
    tags = Counter(text.words for svg in svgs for text in read(svg).texts if TAG.fullmatch(text.words))
    assert len(tags) == across * down
    assert set(tags.values()) == {2}, "each once at its hole and once in the table"


def test_what_another_row_says_is_repeated_in_brackets() -> None:
    _, pages, _ = sheet_of(holes(4, 3))
    words = [text.words for page in pages for text in read(to_svg(page, "p")).texts]
    assert sum(each.startswith("Ø5") for each in words) == 1
    assert sum(each.startswith("(Ø5") for each in words) == 5


def test_few_holes_keep_their_leaders() -> None:
    _, pages, _ = sheet_of(holes(2, 2))
    words = [text.words for page in pages for text in read(to_svg(page, "p")).texts]
    assert not any(TAG.fullmatch(each) for each in words)


def test_a_hole_with_a_method_keeps_its_own_leader() -> None:
    features = holes(5, 2) | {
        "bolt": {"hole": "10 mm", "at": ("370 mm", "180 mm"), "method": {"how": "oversize_then_trim"}}
    }
    statement, pages, _ = sheet_of(features)
    words = [text.words for page in pages for text in read(to_svg(page, "p")).texts]
    assert "cut oversize, then trim" in words
    assert Counter(m for page in pages for m in page.marks) == Counter(f"dimension:{n}" for n in statement.dimensions)


def test_a_field_too_dense_for_tags_is_said_and_not_drawn_over() -> None:
    features = {name: each | {"hole": "2 mm"} for name, each in holes(30, 12).items()}
    _, pages, findings = sheet_of(features)
    assert [finding.code for finding in findings] == ["sheet-crowded"]
    assert "360 holes lie too close together for their tags" in findings[0].message
    words = [text.words for page in pages for text in read(to_svg(page, "p")).texts]
    assert not any(TAG.fullmatch(each) for each in words), "neither tags nor a table that nobody could use"
    assert [faults(to_svg(page, f"p{k}")) for k, page in enumerate(pages)] == [[] for _ in pages]
