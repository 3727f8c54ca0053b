"""Sections and details that a part's file asks for: where they cut, where they stand, and asks that lead nowhere."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from pathlib import Path

import pytest

from planbook.drawing import draw_sheet, to_svg
from planbook.drawing.recording import Circle, Drawing, Label, Shown, Stroke
from planbook.drawing.tracing import Setting
from planbook.source import Door, load
from planbook.source.findings import Finding, Severity
from planbook.statement import compare, read_statement, write_statement
from planbook.statement.comparison import Verdict
from planbook.statement.model import Statement
from tests.drawing.checker import faults
from tests.statement.workspace import edited, state, write

BOARD = "content/tiny/parts/board.yaml"
MIDDLE = "middle: {hole: hardware.bolt.clearance, at: [board.half, board.width / 2]}"
POST = "post: {mortise: [30 mm, 10 mm], at: [220 mm, 60 mm], depth: 8 mm}"
"""From x 220 to 250, y 60 to 70."""
PEG = "peg: {hole: hardware.bolt.clearance, on: front_edge, at: [70 mm, 10 mm], depth: 20 mm}"


def asking(*lines: str, peg: bool = True) -> str:
    """The board's file with a mortise, perhaps a hole in its front edge, and what is asked for."""
    more = f"{MIDDLE}\n          {POST}" + (f"\n          {PEG}" if peg else "")
    asked = "".join(f"        {line}\n" for line in lines)
    return edited(BOARD, MIDDLE, more).replace("number: 7\n", f"number: 7\n{asked}")


def drawn(root: Path, *lines: str, peg: bool = True) -> tuple[Statement, tuple[Drawing, ...]]:
    """The board's sheet, after a look at what it must always be: whole, each dimension once, nothing touched."""
    found, findings = state(write(root, board=asking(*lines, peg=peg)), "metric")
    assert found is not None, findings
    drawings, findings = draw_sheet(found.statement, "7")
    assert not findings
    printed = Counter(mark for each in drawings for mark in each.marks)
    assert printed == Counter(f"dimension:{name}" for name in found.statement.dimensions)
    for drawing in drawings:
        assert not faults(to_svg(drawing, "s"))
    return found.statement, drawings


def wrong(root: Path, *lines: str) -> tuple[Finding, ...]:
    """What is found in the files, or else when they are worked out."""
    write(root, board=asking(*lines))
    content, findings = load(Door(root), "tiny")
    return findings if content is None else state(root, "metric")[1]


def words(drawings: tuple[Drawing, ...]) -> Counter[str]:
    return Counter(p.text for drawing in drawings for p in drawing.primitives if isinstance(p, Label))


def shown(drawings: tuple[Drawing, ...]) -> dict[str, tuple[Drawing, Shown]]:
    return {each.face: (drawing, each) for drawing in drawings for each in drawing.views}


def test_a_section_stands_beside_a_view_that_shows_something_of_its_own(tmp_path: Path) -> None:
    _, drawings = drawn(tmp_path, "sections: {A: {through: post, view: front_edge}}")
    texts = words(drawings)
    assert texts["FRONT EDGE"] == texts["SECTION A–A"] == 1
    assert texts["A"] == 2
    assert {"front_edge", "section_a"} <= shown(drawings).keys()


def test_a_section_takes_the_place_of_a_view_that_loses_nothing(tmp_path: Path) -> None:
    _, drawings = drawn(tmp_path, "sections: {Q: {through: post, view: front_edge}}", peg=False)
    texts = words(drawings)
    assert texts["SECTION Q–Q"] == 1
    assert not texts["FRONT EDGE"]
    assert "section_q" not in shown(drawings)


@pytest.mark.parametrize(("asked", "axis", "at"), [
    ("{through: post, view: front_edge}", "y", 65.0),
    ("{through: post, view: right_end}", "x", 235.0),
    ("{at: 12 mm, view: left_end}", "x", 12.0),
])  # fmt: skip
def test_its_plane_is_marked_in_the_face_where_it_cuts(tmp_path: Path, asked: str, axis: str, at: float) -> None:
    """Both arrows rest on the plane: their tips lie on it."""
    _, drawings = drawn(tmp_path, f"sections: {{A: {asked}}}")
    drawing, face = shown(drawings)["face"]
    heads = [p for p in drawing.primitives if isinstance(p, Stroke) and p.fill == "solid" and not p.of]
    if axis == "y":
        on_plane = [p for p in heads if abs(p.start.y - (face.zero.y - face.scale * at)) < 1e-6]
    else:
        on_plane = [p for p in heads if abs(p.start.x - (face.zero.x + face.scale * at)) < 1e-6]
    assert len(on_plane) == 2


def test_letters_that_the_tool_gives_are_others(tmp_path: Path) -> None:
    """The front edge is not asked for, and becomes a section by itself, which is not another A."""
    _, drawings = drawn(tmp_path, "sections: {A: {at: 12 mm, view: left_end}}", peg=False)
    texts = words(drawings)
    assert texts["SECTION A–A"] == texts["SECTION B–B"] == 1


@pytest.mark.parametrize("lines", [
    ("details: {B: {around: post, view: face, scale: 1:1}}",),
    ("sections: {A: {through: post, view: front_edge}}", "details: {B: {around: post, view: A, scale: 1:1}}"),
    ("details: {B: {at: [235 mm, 65 mm], radius: 19 mm, view: face, scale: 1:1}}",),
])  # fmt: skip
def test_a_detail_shows_its_feature_at_the_scale_asked_for(tmp_path: Path, lines: tuple[str, ...]) -> None:
    statement, drawings = drawn(tmp_path, *lines)
    asked = statement.parts["board"].details["B"]
    drawing, larger = shown(drawings)["detail_b"]
    assert larger.scale == 1.0
    rings = [p for p in drawing.primitives if isinstance(p, Circle) and p.radius > 5]
    ring = max(rings, key=lambda p: p.radius)
    setting = Setting(larger.scale, *larger.zero)
    low, high = (220.0, 60.0), (250.0, 70.0)
    y = "A" not in statement.parts["board"].sections
    corners = [(x, (low[1] if y else 12.0) + k) for x in (low[0], high[0]) for k in (0.0, 8.0)]
    for corner in corners:
        spot = setting(larger.facing.flat((corner[0], corner[1] if y else 0.0, 0.0 if y else corner[1])))  # type: ignore[arg-type]
        assert (spot.x - ring.centre.x) ** 2 + (spot.y - ring.centre.y) ** 2 < ring.radius**2
    assert asked.scale == "1:1"
    assert words(drawings)["DETAIL B"] == 1


def test_what_lies_in_a_detail_is_dimensioned_there(tmp_path: Path) -> None:
    _, drawings = drawn(tmp_path, "details: {B: {around: post, view: face, scale: 1:1}}")
    _, larger = shown(drawings)["detail_b"]
    assert larger.holds == {"board/post/length", "board/post/width"}


def test_one_without_room_beside_its_view_has_a_page_of_its_own(tmp_path: Path) -> None:
    _, drawings = drawn(tmp_path, "details: {B: {around: post, view: face, scale: 2:1}}")
    pages = shown(drawings)
    assert len(drawings) == 2
    assert pages["face"][0] is drawings[0]
    assert pages["detail_b"][0] is drawings[1]
    assert words(drawings)["B"] == 1


def test_a_detail_no_larger_than_its_view_is_told_and_left_out(tmp_path: Path) -> None:
    lines = "details: {B: {around: post, view: face, scale: 1:50}}"
    found, _ = state(write(tmp_path, board=asking(lines)), "metric")
    assert found is not None
    drawings, (finding,) = draw_sheet(found.statement, "7")
    assert (finding.code, finding.severity) == ("detail-left-out", Severity.WARN)
    assert "detail B" in finding.message
    assert "detail_b" not in shown(drawings)


@pytest.mark.parametrize(("line", "code", "told"), [
    ("sections: {A: {through: pots, view: front_edge}}", "feature-unknown", "`post`"),
    ("sections: {A: {at: 0 mm, view: front_edge}}", "section-misses-part", "`through`"),
    ("sections: {A: {at: 3 m, view: right_end}}", "section-misses-part", "length"),
    ("sections: {A: {at: 3 mm, through: post, view: right_end}}", "values-together", "through: NAME"),
    ("sections: {A: {view: right_end}}", "values-together", "through: NAME"),
    ("sections: {A: {through: post, view: face}}", "value-choice", "`front_edge`"),
    ("sections: {I: {through: post, view: right_end}}", "value-form", "`A`"),
    ("details: {B: {around: pots, view: face}}", "feature-unknown", "`post`"),
    ("details: {B: {around: post, view: top}}", "value-form", "`right_end`"),
    ("details: {B: {around: post, view: C}}", "section-unknown", "sections"),
    ("details: {B: {around: post, view: face, scale: large}}", "value-form", "`2:1`"),
    ("details: {B: {around: post, radius: 3 mm, view: face}}", "values-together", "around: NAME"),
    ("details: {B: {at: [235 mm, 5 m], radius: 3 mm, view: face}}", "detail-outside-part", "width"),
    ("details: {B: {at: [235 mm, 5 mm], radius: 0 mm, view: face}}", "size-not-positive", "greater than zero"),
])  # fmt: skip
def test_asks_that_lead_nowhere_are_told_at_their_place(tmp_path: Path, line: str, code: str, told: str) -> None:
    (finding,) = wrong(tmp_path, line)
    assert finding.code == code
    assert told in finding.remedy
    assert finding.place is not None
    assert finding.place.file == BOARD
    assert finding.place.line == 2


def test_one_letter_is_not_given_twice(tmp_path: Path) -> None:
    lines = "sections: {A: {through: post, view: right_end}}", "details: {A: {around: post, view: face}}"
    (finding,) = wrong(tmp_path, *lines)
    assert (finding.code, finding.remedy) == ("letter-twice", "Call the detail B.")
    assert [each.note for each in finding.related] == ["section A"]


def test_what_is_asked_for_is_kept_and_reprints_the_sheet(tmp_path: Path) -> None:
    lines = "sections: {A: {through: post, view: right_end}}", "details: {B: {around: post, view: A, scale: 1:1}}"
    statement, _ = drawn(tmp_path, *lines)
    assert read_statement(write_statement(statement)) == statement
    board = statement.parts["board"]
    older = replace(statement, parts={**statement.parts, "board": replace(board, sections={}, details={})})
    comparison = compare(older, statement)
    assert [(each.old, each.new) for each in comparison.changes] == [
        ("none", "section A in the right end, detail B of A")
    ]
    assert {each.verdict for each in comparison.parts if each.key == "board"} == {Verdict.REPRINT}
