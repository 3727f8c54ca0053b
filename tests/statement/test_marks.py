"""What a version marks: from the comparison of kept releases, and of the same with single things changed."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from planbook.source.models.changes import ReasonModel
from planbook.source.text import Text
from planbook.statement import Marks, SheetMark, changed_sheets, compare, mark_changes, read_statement
from planbook.statement.model import Statement
from planbook.statement.model.measures import StandingStated
from planbook.statement.model.shapes import SectionStated

from .small import STATEMENT, printed

VERSIONS = Path(__file__).parents[2] / "versions" / "tool-tote"
WHY = ReasonModel(about=(Text("rack.hole"), Text("handle")), why=Text("Slim tools fell through."))


@cache
def told(version: str) -> Statement:
    path = VERSIONS / version / "metric" / "statement.json"
    return read_statement(path.read_bytes(), str(path))


def marks(old: Statement, new: Statement, *reasons: ReasonModel) -> Marks:
    return mark_changes(compare(old, new), new, reasons)


def test_a_release_that_only_reworded_a_step_marks_its_paragraph() -> None:
    found = marks(told("1.0"), told("1.1"))
    assert found == Marks("1.0", "1.1", frozenset({"block/grooves_in_the_sides/start/1"}))


def test_a_changed_number_is_marked_on_its_sheet_and_wherever_it_is_told() -> None:
    found = marks(told("1.1"), told("2.0"), WHY)
    mark = SheetMark(1, "Tools, diameter", "6x Ø19 mm through", "Slim tools fell through.", "tool_rack/tools/diameter")
    assert found.sheets == {"5": (mark,)}
    assert found.told == {
        "block/handle_and_rack/start/2",
        "dimension/tool_rack/tools/diameter",
        "figure/tote",
        "figure/tote_above",
        "parameter/rack.hole",
        "sheet/5",
    }


def test_a_reason_may_speak_of_what_a_number_is_worked_out_from() -> None:
    new = told("2.0")
    end = new.parameters["side.length"]
    old = replace(new, version="1.9", parameters={**new.parameters, "side.length": _printed(end, "430")})
    depth = new.parameters["housing.depth"]
    old = replace(old, parameters={**old.parameters, "housing.depth": _printed(depth, "5")})
    length = new.dimensions["side/blank/length"]
    old = replace(old, dimensions={**old.dimensions, length.id: _printed(length, "430")})
    (mark,) = marks(old, new, ReasonModel(about=Text("housing"), why=Text("More glue."))).sheets["2"]
    assert (mark.dimension, mark.why) == ("side/blank/length", "More glue.")
    assert mark.was.startswith("430 mm")


def _printed(thing: object, text: str) -> object:
    return replace(thing, printed=replace(thing.printed, text=text))  # type: ignore[attr-defined, type-var]


def test_a_new_dimension_says_so_and_one_that_is_gone_is_told_by_name() -> None:
    new = told("2.0")
    named = "tool_rack/tools/diameter"
    without = replace(new, dimensions={key: each for key, each in new.dimensions.items() if key != named})
    (come,) = marks(without, new).sheets["5"]
    assert (come.was, come.dimension, come.words) == ("", named, "Tools, diameter: new")
    (gone,) = marks(new, without).sheets["5"]
    assert (gone.gone, gone.dimension) == (True, "")
    assert gone.words == "Tools, diameter: 6x Ø16 mm through, taken out"


def test_what_else_a_sheet_says_has_marks_without_a_dimension() -> None:
    new = told("2.0")
    part = new.parts["handle"]
    before = replace(part, as_drawn=2, notes=("Leave the edges square.",))
    old = replace(new, parts={**new.parts, "handle": before})
    first, second = marks(old, new).sheets["6"]
    assert (first.words, first.dimension) == ("Make: 2", "")
    assert second.note == part.notes[0]
    assert second.was == "“Leave the edges square.”"
    assert [each.number for each in (first, second)] == [1, 2]


def test_what_stands_on_every_sheet_is_marked_on_every_sheet() -> None:
    new = told("2.0")
    old = replace(new, plan_set=replace(new.plan_set, general_tolerance=("Lengths ±2 mm",)))
    found = marks(old, new).sheets
    assert set(found) == set(new.sheets)
    assert {mark.words for those in found.values() for mark in those} == {"General tolerance: Lengths ±2 mm"}


def test_a_new_part_has_no_marks_all_of_its_sheet_is_new() -> None:
    new = told("2.0")
    old = replace(
        new,
        parts={key: each for key, each in new.parts.items() if key != "tool_rack"},
        dimensions={key: each for key, each in new.dimensions.items() if each.part != "tool_rack"},
        sheets={key: each for key, each in new.sheets.items() if each.part != "tool_rack"},
    )
    assert marks(old, new).sheets == {}


def test_words_that_are_taken_out_are_told_whole_and_a_page_by_its_title() -> None:
    old = told("2.0")
    block = next(each for each in old.blocks if each.id == "handle_and_rack/start/2")
    found = marks(old, replace(old, blocks=tuple(each for each in old.blocks if each is not block)))
    assert [(each.where, each.text) for each in found.removed] == [("Step 4, Make the handle and the rack", block.text)]
    assert "block/handle_and_rack/start/2" not in found.told
    without = replace(old, blocks=tuple(each for each in old.blocks if each.page != "finishing"))
    assert [(each.where, each.text) for each in marks(old, without).removed] == [
        ("Finishing and care", "Taken out as a whole.")
    ]


def test_sides_of_a_step_and_rows_of_lists_are_named_as_pages_name_them() -> None:
    new = told("2.0")
    first, *others = new.steps
    old = replace(new, steps=(replace(first, hold="Nothing.", tools=("Saw",), open_time="1 min"), *others))
    assert marks(old, new).told == {f"sheet/{n}" for n, sheet in new.sheets.items() if sheet.changed_in == "2.0"} | {
        f"step.{first.key}/{side}" for side in ("hold", "tools", "joining")
    }
    row = new.lists["hardware"][0]
    lists = {**new.lists, "hardware": (replace(row, cells={**row.cells, "Quantity": "9"}),)}
    assert f"list/hardware/{row.id}" in marks(replace(new, lists=lists), new).told


def test_the_reason_for_a_part_is_nearer_than_one_for_what_its_numbers_are_worked_out_from() -> None:
    new = told("2.0")
    part, key = new.parts["side"], "side/blank/length"
    end = new.parameters["side.length"]
    old = replace(
        new,
        version="1.9",
        parameters={**new.parameters, end.name: _printed(end, "430")},
        dimensions={**new.dimensions, key: _printed(new.dimensions[key], "430")},
        parts={**new.parts, "side": replace(part, stock_note="accepted 1 to 2 mm")},
    )
    reasons = [("side", "The side."), ("side.length", "The length."), (part.stock, "The board.")]
    given = [ReasonModel(about=Text(about), why=Text(why)) for about, why in reasons]
    why = {mark.subject: mark.why for mark in marks(old, new, *given).sheets["2"]}
    assert why == {"Length": "The side.", "Stock range": "The board."}


def test_a_new_section_is_a_row_in_words_and_nothing_said_is_said() -> None:
    new = told("2.0")
    part = new.parts["handle"]
    cut = replace(part, sections={"A": SectionStated("face", 10.0)})
    now = replace(new, parts={**new.parts, "handle": cut})
    assert [each.words for each in marks(new, now).sheets["6"]] == ["Section A in the face: new"]
    assert [each.words for each in marks(now, new).sheets["6"]] == ["Section A in the face: was drawn, taken out"]
    key = "tool_rack/tools/diameter"
    made = replace(new.dimensions[key], method="drilled with the rack clamped")
    now = replace(new, dimensions={**new.dimensions, key: made})
    assert [each.was for each in marks(new, now).sheets["5"]] == ["method: nothing was said"]


def test_where_nothing_changed_nothing_is_said_of_marks() -> None:
    kept = told("1.1")
    later = replace(kept, version="1.2")
    assert mark_changes(compare(kept, later), later) == Marks(version="1.2")


@pytest.mark.parametrize(
    ("now", "marked"),
    [
        (StandingStated("free", "to your reach", printed(250), printed(410)), False),
        (StandingStated("critical", "the panel slides in it"), True),
    ],
)
def test_a_sheet_is_marked_for_the_sign_that_it_prints_not_for_limits_that_stand_in_a_table(
    now: StandingStated, marked: bool
) -> None:
    was = StandingStated("free", "to your reach", printed(250), printed(400))
    name = "handle/pivot/x"
    old, new = (
        replace(
            STATEMENT, dimensions={**STATEMENT.dimensions, name: replace(STATEMENT.dimensions[name], standing=each)}
        )
        for each in (was, now)
    )
    comparison = compare(old, new)
    found = mark_changes(comparison, new, ())
    assert f"dimension/{name}" in found.told, "the table is marked"
    assert bool(found.sheets) == marked
    assert bool(changed_sheets(comparison)) == marked
