"""What a piece carries: three loads, two factors that are never rounded up, and a test that proves something."""

from __future__ import annotations

import io
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pypdf import PdfReader

from planbook.document import compose
from planbook.document.loads import load_table
from planbook.source import Door
from planbook.statement import compare, mark_changes
from planbook.statement.factors import factor
from planbook.statement.model import RowStated

from .workspace import state, write

LOADS = """
books:
  title: Books on the board
  working: 10 kg
  test: 15 kg
  strength: 15 kg * board.length / (2 * board.width)
  weakest: the board
  how: Bags of sand for a day, {{ board.length }} long.
  assumes: it lies level
"""


@pytest.fixture
def workspace(tmp_path: Path) -> Path:
    root = write(tmp_path)
    (root / "content/tiny/loads.yaml").write_text(LOADS)
    return root


def row(root: Path, edition: str = "metric") -> RowStated:
    stated, found = state(root, edition)
    assert [finding.code for finding in found if finding.code.startswith("load-")] == []
    (only,) = stated.statement.lists["loads"]
    return only


def codes(root: Path, loads: str) -> list[tuple[str, str]]:
    (root / "content/tiny/loads.yaml").write_text(loads)
    _, found = state(root, "metric")
    return [(finding.code, finding.message) for finding in found if finding.code.startswith("load-")]


def test_it_states_the_three_loads_and_both_factors(workspace: Path) -> None:
    """300 mm over twice 100 mm: the strength is one and a half times the test."""
    cells = row(workspace).cells
    assert cells["Working load"] == "10 kg [22 lb]"
    assert cells["Test load"] == "15 kg [33.1 lb]"
    assert cells["Test over working load"] == "1.5"
    assert cells["Computed strength"] == "22.5 kg [49.6 lb]"
    assert cells["Strength over test load"] == "1.5"
    assert cells["Gives first"] == "the board"
    assert cells["Test"].startswith("Bags of sand for a day, 300 mm")


def test_each_edition_has_its_own_units(workspace: Path) -> None:
    assert row(workspace, "imperial").cells["Working load"] == "22 lb [10 kg]"


def test_the_chapter_on_cautions_prints_it(workspace: Path) -> None:
    stated, _ = state(workspace, "metric")
    composed, _ = compose(stated, Door(workspace))
    read = " ".join(" ".join(page.extract_text() for page in PdfReader(io.BytesIO(composed.pdf)).pages).split())
    for words in ("15 kg [33.1 lb], 1.5 times the working load", "1.5 times the test load", "local codes and licensed"):
        assert words in read.replace("\N{NO-BREAK SPACE}", " ")


def test_a_test_with_less_than_is_carried_stops(workspace: Path) -> None:
    ((code, message),) = codes(workspace, LOADS.replace("test: 15 kg", "test: 9 kg"))
    assert code == "load-untested"
    assert "9 kg" in message
    assert "10 kg" in message


def test_a_test_that_breaks_it_stops(workspace: Path) -> None:
    ((code, message),) = codes(workspace, LOADS.replace("test: 15 kg", "test: 23 kg"))
    assert code == "load-too-great"
    assert "what gives first was worked out at 22.5 kg [49.6 lb]: the board" in message


def test_what_gives_first_is_named_as_printed(workspace: Path) -> None:
    """The words may hold names, and a finding fills them in as the table does."""
    loads = LOADS.replace("weakest: the board", "weakest: a board of {{ board.length }}")
    ((_, message),) = codes(workspace, loads.replace("test: 15 kg", "test: 23 kg"))
    assert "a board of 300 mm" in message


@pytest.mark.parametrize(
    ("was", "now"),
    [("working: 10 kg", "working: 0 kg"), ("working: 10 kg", "working: -10 kg"), ("test: 15 kg", "test: 0 kg")],
)
def test_a_load_of_nothing_or_less_is_no_load(workspace: Path, was: str, now: str) -> None:
    """No factor can be told of it."""
    ((code, message),) = codes(workspace, LOADS.replace(was, now))
    assert code == "load-not-positive"
    assert "not more than nothing" in message


def test_a_strength_below_nothing_stops(workspace: Path) -> None:
    ((code, _),) = codes(workspace, LOADS.replace("strength: 15 kg *", "strength: -15 kg *"))
    assert code == "load-too-great"


@pytest.mark.parametrize("of", ["5 mm", "2", "30 deg"])
def test_a_load_is_a_mass_or_a_force(workspace: Path, of: str) -> None:
    """Three lengths would compare with one another just as well."""
    loads = "\n".join(
        f"  {line.split(':')[0].strip()}: {of}" if line.strip().startswith(("working", "test", "strength")) else line
        for line in LOADS.splitlines()
    )
    (workspace / "content/tiny/loads.yaml").write_text(loads)
    _, found = state(workspace, "metric")
    (wrong,) = (finding for finding in found if finding.code == "wrong-kind")
    assert "a mass or a force" in wrong.remedy
    assert (wrong.place.file, wrong.place.line) == ("content/tiny/loads.yaml", 4)


def test_a_force_is_not_tried_with_a_mass(workspace: Path) -> None:
    (workspace / "content/tiny/loads.yaml").write_text(LOADS.replace("test: 15 kg", "test: 150 N"))
    _, found = state(workspace, "metric")
    assert "wrong-kind" in {finding.code for finding in found}


@given(st.floats(1e-3, 1e6), st.floats(1e-3, 1e6))
def test_a_factor_is_never_rounded_up(more: float, less: float) -> None:
    assert factor(more, less) <= more / less + 1e-7
    assert factor(more, less) > more / less - 0.0101 - 1e-6 * more / less


@pytest.mark.parametrize(
    ("column", "was", "lines"),
    [
        ("Computed strength", "20 kg [44.1 lb]", {"Computed strength"}),
        ("Strength over test load", "1.33", {"Computed strength"}),
        ("Assumes", "dry wood", {"Assumes"}),
        ("Load", "Books", {"Working load", "Test load", "Computed strength", "Gives first", "Test", "Assumes"}),
    ],
)
def test_a_version_marks_the_lines_that_read_otherwise(workspace: Path, column: str, was: str, lines: set[str]) -> None:
    new = state(workspace, "metric")[0].statement
    (now,) = new.lists["loads"]
    then = replace(now, cells={**now.cells, column: was})
    old = replace(new, version="1.0", lists={**new.lists, "loads": (then,)})
    told = mark_changes(compare(old, new), new).told
    shown = {row.told for group in load_table(new)["loads"].groups for row in group.rows}
    assert {each for each in told if each.startswith("list/loads/")} == {f"list/loads/books/{line}" for line in lines}
    assert {f"list/loads/books/{line}" for line in lines} <= shown
