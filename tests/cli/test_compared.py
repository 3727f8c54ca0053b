"""A comparison as a person reads it on a terminal, line for line."""

from __future__ import annotations

from dataclasses import replace

from planbook.cli.compared import compared_lines
from planbook.release import Compared
from planbook.release.across import headings_across, others_across, parts_across
from planbook.release.numbering import number_due
from planbook.release.reports.compared import ChangeLine, EditionCompared
from planbook.release.since import Since
from planbook.release.version import Version
from planbook.statement import compare
from planbook.statement.model import Statement
from tests.statement.small import MM, STATEMENT, dimension, hole, part

TEXT = "one two three four five six seven eight nine ten eleven twelve thirteen"


def told(**editions: tuple[Statement, Statement]) -> list[str]:
    sinces = {name: Since(compare(*pair)) for name, pair in editions.items()}
    reports = tuple(EditionCompared(name, since.impact, ()) for name, since in sinces.items())
    due = number_due(Version(1, 0), sinces, same_look=True)
    parts, headings, others = parts_across(sinces), headings_across(sinces), others_across(sinces)
    return list(compared_lines(Compared("tote", "1.0", "draft", reports, "Tote", parts, headings, due, others=others)))


def moved(mm: float, step: str = "seven") -> Statement:
    blocks = (*STATEMENT.blocks, replace(STATEMENT.blocks[1], id="how_to/start/9", text=TEXT.replace("seven", step)))
    (figure,) = STATEMENT.figures.values()
    return replace(
        STATEMENT,
        blocks=blocks,
        dimensions={**STATEMENT.dimensions, "handle/pivot/x": dimension("handle/pivot/x", mm)},
        figures={"tote": replace(figure, number=3, content=f"{mm:064}")},
    )


def test_a_comparison_is_told_by_part_with_the_words_of_each_edition() -> None:
    assert told(imperial=(moved(44), moved(45, "NEW")), metric=(moved(44), moved(46, "NEW"))) == [
        "Tote: from 1.0 to the content as it stands",
        "",
        "Check the fit",
        "   9  Handle",
        "      imperial  pivot, position along x: 44 mm → 45 mm",
        "      metric    pivot, position along x: 44 mm → 46 mm",
        "",
        "One other part is as before.",
        "",
        "Steps that you may have done",
        "  Step 1, Cut the panels: part 9 is not as before",
        "",
        "Part 9, Handle",
        "  Pivot, position along x",
        "    imperial  44 mm → 45 mm",
        "    metric    44 mm → 46 mm",
        "",
        "How to",
        "    before  “… three four five six seven eight nine ten eleven …”",
        "    now     “… three four five six NEW eight nine ten eleven …”",
        "",
        "Figures",
        "  Figure 3 is redrawn",
        "",
        "Next version: 2.0",
        "  Builders of 1.0 may have to measure part 9, Handle (imperial edition, part 9: pivot, position",
        "  along x: 44 mm → 45 mm).",
    ]


def test_what_changed_in_one_edition_only_is_told_of_that_one() -> None:
    lines = told(imperial=(moved(44), moved(44)), metric=(moved(44), moved(45)))
    at = lines.index("   9  Handle")
    assert lines[at + 1 :][:2] == [
        "      imperial  unchanged",
        "      metric    check the fit: pivot, position along x: 44 mm → 45 mm",
    ]
    assert lines[lines.index("Part 9, Handle") + 1 :][:2] == [
        "  Pivot, position along x",
        "    metric    44 mm → 45 mm",
    ]


def test_what_every_edition_says_alike_is_said_once() -> None:
    slotted = part("handle", 9, "Handle", (hole("pivot", 40 * MM), hole("slot", 60 * MM)))
    new = replace(STATEMENT, parts={**STATEMENT.parts, "handle": slotted})
    lines = told(imperial=(STATEMENT, new), metric=(STATEMENT, new))
    assert [line for line in lines if "lot" in line] == [
        "      cut hole slot as on sheet 9",
        "  Slot: new hole",
        "  Builders of 1.0 may have to rework part 9, Handle (imperial edition, part 9: cut hole slot as on",
    ]


def test_nothing_changed_is_said_and_no_number_is_due() -> None:
    assert told(metric=(STATEMENT, STATEMENT))[1:] == [
        "",
        "Nothing that is printed reads differently.",
        "",
        "Next version: none is due",
        "  It tells the same as 1.0 in every edition.",
    ]


def test_an_edition_that_is_new_is_told_by_its_name() -> None:
    added = EditionCompared("letter", None, (ChangeLine("edition", "letter", "", "Metric on Letter"),))
    lines = list(compared_lines(Compared("tote", "1.0", "1.1", (added,), "Tote", (), ())))
    assert lines[0] == "Tote: from 1.0 to 1.1"
    assert "The letter edition is new." in lines
