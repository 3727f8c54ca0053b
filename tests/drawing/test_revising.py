"""Revision marks: over the sheet as it was, in its free room, each with its former value or named as untold."""

from __future__ import annotations

import math
from dataclasses import replace
from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import box as rectangle

from planbook.drawing import draw_sheet, label_places, mark_sheet, to_svg
from planbook.drawing.ink import Box, around, label_box
from planbook.drawing.recording import Drawing, Label, LineTo, Pen, Pt, Stroke
from planbook.statement import SheetMark
from planbook.statement.model import Statement
from tests.drawing import samples
from tests.drawing.checker import faults, read

REASON = "Builders with loose plywood asked for more glue surface, and the wood is thick enough for it."
Pages = tuple[Drawing, ...]


@cache
def drawn(name: str, inch: bool) -> tuple[Statement, Pages]:
    statement = samples.statement(getattr(samples, name)(inch))
    return statement, draw_sheet(statement, "1")[0]


def marked(name: str, inch: bool, *marks: SheetMark) -> tuple[Pages, tuple[SheetMark, ...]]:
    statement, pages = drawn(name, inch)
    return mark_sheet(pages, marks, "1.0", statement.edition.paper)


def over(before: Pages, after: Pages) -> tuple[list[Label], list[Stroke]]:
    """What is drawn over the pages: lettering and strokes."""
    new = [each for was, now in zip(before, after, strict=True) for each in now.primitives[len(was.primitives) :]]
    return [each for each in new if isinstance(each, Label)], [each for each in new if isinstance(each, Stroke)]


def printed(page: Drawing) -> dict[str, Label]:
    """The lettering of each dimension."""
    labels = (each for each in page.primitives if isinstance(each, Label) and each.mark)
    return {each.mark.removeprefix("dimension:"): each for each in labels}


def apart(one: Box, other: Box) -> float:
    x = max(0.0, other.left - one.right, one.left - other.right)
    return math.hypot(x, max(0.0, other.top - one.bottom, one.top - other.bottom))


def triangles(strokes: list[Stroke]) -> list[Box]:
    return [around(_corners(each)) for each in strokes if each.words == "changed"]


@pytest.mark.parametrize("inch", [False, True], ids=["metric", "inch"])
@pytest.mark.parametrize("name", ["button", "leg", "ramp_bar", "apron", "top"])
@settings(max_examples=8, deadline=None)
@given(data=st.data())
def test_marks_move_nothing_and_touch_nothing(name: str, inch: bool, data: st.DataObject) -> None:
    statement, pages = drawn(name, inch)
    ids = data.draw(st.lists(st.sampled_from(sorted(statement.dimensions)), unique=True, min_size=1))
    marks = [SheetMark(at, key, "173 mm", REASON if at % 2 else "", key) for at, key in enumerate(ids, start=1)]
    after, untold = marked(name, inch, *marks)
    for before, now in zip(pages, after, strict=True):
        assert now.primitives[: len(before.primitives)] == before.primitives
        assert (now.width, now.height, now.views, now.marks) == (
            before.width,
            before.height,
            before.views,
            before.marks,
        )
        assert label_places(now) == label_places(before)
        assert set(faults(to_svg(now, "s"))) == set(faults(to_svg(before, "s")))
    labels, strokes = over(pages, after)
    told = sum(label.bold for label in labels)
    assert told == len(triangles(strokes))
    assert len(marks) - len(untold) <= told <= 2 * len(marks) - len(untold)
    assert set(untold) <= set(marks)


@pytest.mark.parametrize("name", ["leg", "ramp_bar", "apron"])
def test_a_triangle_is_nearest_to_its_own_number_or_leads_to_it_or_words_name_it(name: str) -> None:
    statement, _ = drawn(name, False)
    beside = 0
    for key in statement.dimensions:
        after, _ = marked(name, False, SheetMark(1, "Subject", "5 mm", "", key))
        labels, strokes = over(drawn(name, False)[1], after)
        if len(triangles(strokes)) == 1:
            assert "Subject: 5 mm" in [each.text for each in labels], key
            continue
        page = next(page for page in after if key in printed(page))
        triangle, home = triangles(strokes)[0], label_box(printed(page)[key])
        lines = [each for each in strokes if not each.closed and each.pen == "dimension"]
        lettering = [label_box(each) for other, each in printed(page).items() if other != key]
        foreign = [*lettering, *_lines_of_others(page, printed(page)[key], key)]
        if lines:
            (leader,) = lines
            assert apart(around([leader.steps[-1].end]), home) < 1.2, key
            assert all(apart(triangle, other) > 2 for other in foreign), key
            assert all(apart(around(_corners(leader)), other) > 0 for other in foreign), key
        else:
            beside += 1
            assert apart(triangle, home) < min(apart(triangle, other) for other in foreign), key
    assert beside > len(statement.dimensions) / 3


def _lines_of_others(page: Drawing, home: Label, key: str) -> list[Box]:
    """The level and upright lines of other dimensions."""
    lines = [each for each in page.primitives if isinstance(each, Stroke) and each.of not in ("", key, home.of)]
    boxes = [around(_corners(each)) for each in lines if len(each.steps) == 1]
    return [each for each in boxes if min(each.right - each.left, each.bottom - each.top) < 0.01]


def test_a_sheet_without_room_for_a_table_says_where_the_former_values_stand() -> None:
    _, pages = drawn("leg", False)
    page = pages[0]
    rows = [Pt(12.0, 12.0 + 9 * at) for at in range(30)]
    full = tuple(Stroke(at, (LineTo(Pt(page.width - 12, at.y)),), Pen.DIMENSION) for at in rows)
    crowded = replace(page, primitives=(*page.primitives, *full))
    mark = SheetMark(1, "Thing", "2 mm", REASON)
    (after,), untold = mark_sheet((crowded,), (mark,), "1.0", drawn("leg", False)[0].edition.paper)
    labels, _ = over((crowded,), (after,))
    assert untold == (mark,)
    assert [each.text for each in labels] == ["Changed: see “Former values”"]


def test_a_row_says_what_it_was_and_why() -> None:
    mark = SheetMark(1, "Rail, length", "137 mm", "A misprint.", "leg/rail/length")
    after, untold = marked("leg", False, mark)
    labels, strokes = over(drawn("leg", False)[1], after)
    assert untold == ()
    assert [each.text for each in labels] == [
        "1",
        "WAS IN VERSION 1.0",
        "CHANGED BECAUSE",
        "1",
        "137 mm",
        "A misprint.",
    ]
    assert len(triangles(strokes)) == 2
    assert after[0].title.endswith("Changed since version 1.0: 1, Rail, length: 137 mm")


def test_what_is_gone_or_has_no_place_is_told_with_its_name() -> None:
    marks = (
        SheetMark(1, "Screw, diameter", "4 mm", gone=True),
        SheetMark(2, "Quantity", "2"),
        SheetMark(3, "Blank, width", "", dimension="button/blank/width"),
    )
    after, _ = marked("button", False, *marks)
    labels, strokes = over(drawn("button", False)[1], after)
    told = " ".join(each.text for each in labels)
    assert "Screw, diameter: 4 mm, taken out" in told
    assert "Quantity: 2" in told
    assert "3 new" in told
    assert len(triangles(strokes)) == 4


def test_a_reason_that_stands_above_is_named_by_its_number() -> None:
    marks = [SheetMark(at, "Thing", "2", "It was too small.") for at in (1, 2)]
    labels, _ = over(drawn("button", False)[1], marked("button", False, *marks)[0])
    assert [each.text for each in labels][-3:] == ["2", "Thing: 2", "as 1"]


def test_a_note_that_changed_has_the_triangle() -> None:
    statement, pages = drawn("leg", False)
    note = statement.parts["leg"].notes[0]
    after, _ = marked("leg", False, SheetMark(1, "Notes", "“Mark the legs.”", note=note))
    _, strokes = over(pages, after)
    first = next(e for page in after for e in page.primitives if isinstance(e, Label) and note.startswith(e.text))
    assert apart(triangles(strokes)[0], label_box(first)) < 12


def test_what_finds_no_room_is_named() -> None:
    marks = [SheetMark(at, f"Thing {at}", "what it was in many words " * 8, REASON) for at in range(1, 40)]
    after, untold = marked("ramp_bar", False, *marks)
    labels, _ = over(drawn("ramp_bar", False)[1], after)
    told = len(marks) - len(untold)
    assert 0 < told < len(marks)
    assert list(untold) == marks[told:]
    assert labels[-1].text == "The rest: see “Former values”"


@pytest.mark.parametrize("name", ["leg", "apron", "top"])
def test_the_table_stands_in_no_view(name: str) -> None:
    """It would be read as something that the view shows."""
    pages = drawn(name, False)[1]
    for count in range(1, 9):
        after, _ = marked(name, False, *(SheetMark(at, "Thing", "2 mm", REASON) for at in range(1, count)))
        frames = [each for each in over(pages, after)[1] if each.closed and not each.words]
        views = read(to_svg(pages[0], "s")).views
        assert len(frames) == (count > 1)
        assert not any(view.intersects(rectangle(*around(_corners(each)))) for view in views for each in frames)


def _corners(stroke: Stroke) -> list[Pt]:
    return [stroke.start, *(step.end for step in stroke.steps)]
