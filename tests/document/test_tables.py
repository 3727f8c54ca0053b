"""Tables and words as values, before any page is set."""

from __future__ import annotations

import re
from dataclasses import replace

from hypothesis import example, given
from hypothesis import strategies as st
from markupsafe import Markup

from planbook.document.changing import changing_tables
from planbook.document.tables import Table, change_tables, list_tables
from planbook.document.words import as_html, long_date, unbroken, version_words
from planbook.statement.model import PrintedStated, StandingStated, Statement

from .tote import state

METRIC = state().statement
IMPERIAL = state("inch", "letter").statement


def plain(html: Markup) -> str:
    return html.striptags().replace("\N{NO-BREAK SPACE}", " ")


@given(st.text())
@example(".0")
@example("a 1/2 <b> 1 3/4 in")
def test_words_survive_and_nothing_in_them_is_markup(text: str) -> None:
    html = str(as_html(text)).replace('<span class="gap">\N{NO-BREAK SPACE}</span>', " ")
    words = Markup(re.sub(r'</?span(?: class="(?:f|whole)")?>', "", html)).unescape()
    assert words.replace("\N{NO-BREAK SPACE}", " ") == text.replace("\N{NO-BREAK SPACE}", " ")


def test_a_measure_is_one_piece_for_whoever_breaks_lines() -> None:
    assert unbroken("8/4 maple, planed to 1 3/4 in") == ["8/4", "maple,", "planed", "to", "1\xa03/4\xa0in"]


def test_only_fractions_become_fractions() -> None:
    assert as_html("23 5/8") == Markup('23<span class="gap">\N{NO-BREAK SPACE}</span><span class="f">5/8</span>')
    assert as_html("±1/32") == Markup('±<span class="f">1/32</span>')
    for text in ("1/4-20", "12/2026/1", "a/b", "https://a/1/2"):
        assert 'class="f"' not in as_html(text) or text == "1/4-20"
    assert as_html("5 < 6") == Markup("5 &lt; 6")


def test_dates_and_versions_read_as_words() -> None:
    assert long_date("2026-03-02") == "2 March 2026"
    assert long_date("soon") == "soon"
    assert version_words("1.0") == "Version 1.0"
    assert version_words("") == "Draft"


def test_dimensions_stand_in_both_units_each_in_its_column() -> None:
    for statement, units, texts in (
        (METRIC, ["mm", "in"], ["460", "[18 1/2]"]),
        (IMPERIAL, ["in", "mm"], ["18 1/2", "[460]"]),
    ):
        table = list_tables(statement)["dimensions"]
        assert [plain(column.title) for column in table.columns] == ["Dimension", "Name", *units, "Tolerance"]
        cells = [plain(cell.html) for cell in table.groups[0].rows[0].cells]
        assert cells == ["Overall length", "tote.length", *texts, "±0.5"]
        assert table.groups[0].rows[0].cells[2].mark == "parameter:tote.length"


def test_dimensions_are_grouped_by_the_head_of_their_names() -> None:
    groups = list_tables(METRIC)["dimensions"].groups
    assert [(group.title, len(group.rows)) for group in groups] == [("Tote", 2), ("Side", 1)]


def test_rows_of_the_parts_list_are_what_references_to_parts_aim_at() -> None:
    rows = list_tables(METRIC)["parts"].groups[0].rows
    assert [row.anchor for row in rows] == ["part.end", "part.side"]
    assert 'href="#sheet.2"' in rows[1].cells[-1].html


def test_columns_of_figures_are_told_from_columns_of_words() -> None:
    looks = {plain(column.title): column.look for column in list_tables(METRIC)["parts"].columns}
    assert looks == {"Item": "no", "Quantity": "figures", "Title": "text", "Length": "figures", "Width": "figures",
                     "Thickness": "figures", "Material": "text", "Sheet": "figures"}  # fmt: skip


def test_an_empty_list_is_no_table() -> None:
    assert "dimensions" in list_tables(METRIC)
    assert set(list_tables(METRIC)) == {"tools", "materials", "hardware", "parts", "dimensions"}


def test_changes_with_other_columns_are_another_table() -> None:
    revisions, log = change_tables(METRIC)
    assert [len(table.groups[0].rows) for table in (revisions, log)] == [2, 1]
    assert (revisions.title, log.title) == ("Revisions", "What changed")


def test_what_is_no_length_says_its_unit_in_both_columns_and_what_moves_is_left_out() -> None:
    pull = replace(
        METRIC.parameters["tote.length"],
        name="load.pull",
        printed=PrintedStated("182", "41", 182e9, "N", "lbf"),
    )
    parameters = {"load.pull": pull, "load.lift": replace(pull, name="load.lift", moving=True)}
    [table] = [list_tables(replace(METRIC, parameters=parameters, lists={}))["dimensions"]]
    [row] = [row for group in table.groups for row in group.rows]
    assert [plain(cell.html) for cell in row.cells[1:4]] == ["load.pull", "182 N", "[41 lbf]"]


def changing(**standings: StandingStated) -> Statement:
    """The tote with a standing for parameters, by name with a low line for the full stop."""
    parameters = {
        name: replace(each, standing=standings.get(name.replace(".", "_"), StandingStated()))
        for name, each in METRIC.parameters.items()
    }
    return replace(METRIC, parameters=parameters)


def rows(table: Table) -> list[list[str]]:
    return [[plain(cell.html) for cell in row.cells] for group in table.groups for row in group.rows]


def test_what_may_change_is_listed_with_its_limits_and_its_reason() -> None:
    length = METRIC.parameters["tote.length"].printed
    least, most = replace(length, text="400"), replace(length, text="600")
    statement = changing(tote_length=StandingStated("free", "what you carry", least, most))
    tables = changing_tables(statement)
    assert list(tables) == ["free"]
    (row,) = rows(tables["free"])
    assert row[:5] == ["Overall length", "460", "[18 1/2]", "400", "600"]
    assert row[-1] == "What you carry"
    assert tables["free"].groups[0].rows[0].cells[1].mark == "parameter:tote.length"
    named = {row[1]: row[-1] for row in rows(list_tables(statement)["dimensions"])}
    assert named["tote.length"] == "yes, 400 to 600"


def test_what_is_critical_is_listed_and_the_named_dimensions_say_no() -> None:
    statement = changing(tote_length=StandingStated("critical", "the rack drops in"))
    tables = changing_tables(statement)
    assert list(tables) == ["critical"]
    assert rows(tables["critical"])[0][-1] == "The rack drops in"
    assert {row[1]: row[-1] for row in rows(list_tables(statement)["dimensions"])}["tote.length"] == "no: critical"


def test_a_critical_measure_that_no_sheet_prints_names_those_that_it_is_reckoned_into() -> None:
    any_one = next(iter(METRIC.dimensions.values()))
    standing = StandingStated("critical", "the rack drops in")
    for formula in ("tote.length", "2 * tote.length"):
        dimension = replace(any_one, formula=formula, inputs=("tote.length",))
        statement = replace(changing(tote_length=standing), dimensions={dimension.id: dimension})
        table = changing_tables(statement)["critical"]
        assert [plain(column.title) for column in table.columns][-2:] == ["Sheets", "Why"]
        assert rows(table)[0][-2] == statement.parts[dimension.part].sheet


def test_nothing_free_and_nothing_critical_is_no_table() -> None:
    assert changing_tables(METRIC) == {}
    assert changing_tables(changing()) == {}
