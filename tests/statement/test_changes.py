"""What is printed of a comparison: the change log part by part with reasons, and honest version numbers."""

from dataclasses import replace

import pytest

from planbook.source.models.changes import ReasonModel
from planbook.source.text import Text
from planbook.statement.changes import Changes, Revision, changed_in, log_changes, log_text, print_changes
from planbook.statement.compare import compare
from planbook.statement.model import BlockStated, RowStated
from planbook.statement.versions import least_version

from .small import STATEMENT, dimension, parameter


def reasons(**about):
    return [ReasonModel(about=Text(name.replace("__", "/")), why=Text(why)) for name, why in about.items()]


def log(new, why=(), old=STATEMENT):
    return log_changes("2.0", old, new, compare(old, new), why)


def texts(new, why=(), old=STATEMENT):
    return [log_text(row) for row in log(new, why, old).rows]


WIDER = replace(STATEMENT, dimensions={**STATEMENT.dimensions, "handle/pivot/x": dimension("handle/pivot/x", 45)})


def test_a_row_says_where_what_and_why():
    assert texts(WIDER, reasons(handle="It pinched.")) == [
        "Part 9, Handle: pivot, x: 44 mm [1.732 in] → 45 mm [1.772 in]. Why: It pinched."
    ]


@pytest.mark.parametrize("about", ["handle", "handle__pivot", "handle__pivot__x"])
def test_a_reason_may_name_the_part_the_feature_or_the_dimension(about):
    (row,) = log(WIDER, reasons(**{about: "It pinched."})).rows
    assert row.cells["why"] == "It pinched."


def test_a_reason_for_a_whole_part_is_given_once():
    both = {**WIDER.dimensions, "handle/blank/length": dimension("handle/blank/length", 310)}
    rows = log(replace(WIDER, dimensions=both), reasons(handle="It pinched.")).rows
    assert [row.cells["why"] for row in rows] == ["It pinched.", ""]


def test_a_reason_that_speaks_of_nothing_is_handed_back():
    why = reasons(handle="It pinched.", end="Nothing happened.")
    assert [str(each.about) for each in log(WIDER, why).idle] == ["end"]


@pytest.mark.parametrize("about", ["how_to", "how-to", "pages/01-how-to.md", "01-how-to.md"])
def test_a_page_is_named_by_key_or_file(about):
    new = replace(STATEMENT, blocks=STATEMENT.blocks[:-1])
    (row,) = log(new, [ReasonModel(about=Text(about), why=Text("It was said twice."))]).rows
    assert row.cells == {
        "version": "2.0",
        "where": "How to",
        "what": "text removed: “Sheets are thinner than they are called.”",
        "why": "It was said twice.",
    }


def test_parts_come_first_by_number_then_the_rest():
    dimensions = {**WIDER.dimensions, "end/blank/length": dimension("end/blank/length", 310)}
    new = replace(
        WIDER,
        dimensions=dimensions,
        parameters={**STATEMENT.parameters, "tote.length": parameter("tote.length", 310)},
        blocks=STATEMENT.blocks[:-1],
    )
    assert [row.cells["where"] for row in log(new).rows] == ["Part 2, End", "Part 9, Handle", "Dimensions", "How to"]


def test_parts_stand_by_number_and_not_by_name():
    parts = {key: replace(each, number=20 - each.number, notes=("New.",)) for key, each in STATEMENT.parts.items()}
    where = [row.cells["where"] for row in log(replace(STATEMENT, parts=parts)).rows]
    assert list(dict.fromkeys(where)) == ["Part 11, Handle", "Part 18, End"]


def test_numbers_that_follow_inside_the_text_are_told_once_for_the_page():
    def telling(*lengths):
        blocks = (
            BlockStated(f"a/start/{i}", "a", "paragraph", f"It is {mm} mm long.") for i, mm in enumerate(lengths, 1)
        )
        return replace(STATEMENT, blocks=tuple(blocks))

    assert texts(telling(310, 320), old=telling(300, 315)) == ["A: numbers in the text follow the changes above."]


def test_what_no_builder_sees_is_not_logged():
    finer = replace(STATEMENT.parameters["tote.width"], formula="tote.length - 100 mm")
    assert texts(replace(STATEMENT, parameters={**STATEMENT.parameters, "tote.width": finer})) == []


def test_printing_puts_revisions_before_the_log_and_dates_the_sheets():
    rows = log(WIDER).rows
    revisions = (Revision("1.0", "2026-03-02", "First."), Revision("2.0", "2026-05-01", "Wider."))
    printed = print_changes(WIDER, Changes(revisions, rows, {"9": "2.0"}, ("handle/old/x",)))
    assert [row.id for row in printed.changes] == ["revision/1.0", "revision/2.0", "change/2.0/1"]
    assert printed.changes[1] == RowStated(
        "revision/2.0", {"version": "2.0", "issued": "2026-05-01", "summary": "Wider."}
    )
    assert {number: sheet.changed_in for number, sheet in printed.sheets.items()} == {"9": "2.0", "2": "1.0"}
    assert printed.retired == ("handle/old/x",)
    assert compare(WIDER, printed).changes == ()


def test_a_sheet_keeps_its_version_while_its_part_is_as_it_was():
    assert changed_in(STATEMENT, WIDER, compare(STATEMENT, WIDER), "2.0") == {"9": "2.0", "2": "1.0"}


def test_version_numbers_are_honest():
    reworded = replace(STATEMENT, blocks=STATEMENT.blocks[:-1])
    assert least_version(compare(STATEMENT, WIDER), "1.9") == "2.0"
    assert least_version(compare(STATEMENT, reworded), "1.9") == "1.10"
    assert least_version(compare(STATEMENT, STATEMENT), "2.0") == "2.1"
