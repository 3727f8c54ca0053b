"""Overlapping and floating components are told once for all positions, with both names and where."""

from __future__ import annotations

from pathlib import Path

import pytest

from planbook.source.findings import Finding, Severity
from tests.statement.workspace import edited, state, write

ASSEMBLY = "content/tiny/assembly.yaml"
BOARD = "board: {part: board, at: [0 mm, 0 mm, lift]}"


def about(root: Path, components: str, edition: str = "metric") -> list[Finding]:
    """The findings about an assembly of these components; the driver `lift` goes from 0 to 40 mm."""
    stated, findings = state(write(root, assembly=edited(ASSEMBLY, BOARD, components)), edition)
    assert stated is not None
    return [each for each in findings if each.code in ("components-overlap", "component-floats")]


def block(name: str, z: str, more: str = "") -> str:
    return f"{name}: {{part: board, at: [0 mm, 0 mm, {z}]}}{more}\n          "


def test_boards_that_lie_on_one_another_are_sound(tmp_path: Path) -> None:
    assert about(tmp_path, block("low", "0 mm") + block("high", "20 mm")) == []


def test_an_overlap_names_both_where_and_how_deep(tmp_path: Path) -> None:
    (finding,) = about(tmp_path, block("low", "0 mm") + block("high", "15 mm"))
    assert (finding.code, finding.severity) == ("components-overlap", Severity.WARN)
    assert finding.message == (
        "`low` and `high` lie in one another, up to 5 mm, 0.1969 in deep: they share a space of 300.0 by 100.0 by "
        "5.0 mm about x 150, y 50, z 18 mm."
    )
    assert "between: [low, high]" in finding.remedy
    assert finding.place is not None
    assert (finding.place.file, finding.place.line) == (ASSEMBLY, 2)
    assert [each.place.line for each in finding.related] == [3]


def test_an_overlap_of_one_position_says_which(tmp_path: Path) -> None:
    components = block("fixed", "0 mm") + block("moving", "20 mm + lift") + block("stop", "50 mm", "")
    overlaps = [each for each in about(tmp_path, components) if each.code == "components-overlap"]
    assert [each.message.split(",")[0] for each in overlaps] == ["`moving` and `stop` lie in one another in `high`"]


def test_an_overlap_that_is_meant_is_allowed_by_name(tmp_path: Path) -> None:
    components = block("low", "0 mm") + block("high", "15 mm")
    allowed = "\n        overlaps:\n          pressed: {between: [high, low], because: they are pressed together}"
    assert about(tmp_path, components + allowed) == []


def test_an_allowed_overlap_names_components(tmp_path: Path) -> None:
    allowed = "\n        overlaps:\n          pressed: {between: [low, hihg], because: x}"
    with pytest.raises(AssertionError, match="component-unknown"):
        about(tmp_path, block("low", "0 mm") + block("high", "20 mm") + allowed)


def test_what_hangs_in_the_air_is_told_with_what_hangs_on_it(tmp_path: Path) -> None:
    (finding,) = about(tmp_path / "one", block("low", "0 mm") + block("high", "70 mm"))
    assert (finding.code, finding.severity) == ("component-floats", Severity.WARN)
    assert finding.message.startswith("`high` touches nothing else within 1 mm")
    ground = block("low", "0 mm") + block("middle", "20 mm")
    (finding,) = about(tmp_path / "two", ground + block("high", "70 mm") + block("top", "90 mm"))
    assert "`high` and `top` touch one another and nothing else" in finding.message


def test_what_stands_on_the_floor_or_is_all_there_is_does_not_float(tmp_path: Path) -> None:
    beside = "far: {part: board, at: [900 mm, 0 mm, 0 mm]}"
    assert about(tmp_path / "floor", block("low", "0 mm") + beside) == []
    assert about(tmp_path / "alone", block("only", "300 mm")) == []


def test_what_floats_in_one_position_says_which(tmp_path: Path) -> None:
    (finding,) = about(tmp_path, block("fixed", "0 mm") + block("moving", "20 mm + lift"))
    assert "within 1 mm, 0.0394 in in `high`, and the floor neither" in finding.message
