"""Slips of the unit are seen: markets that lie far apart, parts that nobody can cut."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from planbook.release import start_workspace
from planbook.release.compilation import prepare, state_all
from planbook.release.occasion import Occasion
from planbook.source import Door
from planbook.source.findings import Finding, Severity

SET = "tool-tote"


def check(root: Path, old: str = "", new: str = "") -> list[Finding]:
    """The warnings of sizes after a change of the small set's parameters."""
    start_workspace(root)
    path = root / "content" / SET / "parameters.yaml"
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new), encoding="utf-8")
    door = Door(root)
    prepared, findings = prepare(door, SET)
    assert prepared
    _, more = state_all(door, prepared, Occasion("", date(2026, 5, 4), None), prepared.editions)
    return [each for each in (*findings, *more) if each.code in ("markets-differ", "larger-than-stock")]


def test_the_small_set_has_no_such_slip(tmp_path: Path) -> None:
    assert check(tmp_path / "w") == []


def test_centimetres_for_millimetres_are_seen(tmp_path: Path) -> None:
    slip, *large = check(tmp_path / "w", "18 in, europe: 460 mm", "20 in, europe: 510 cm")
    assert (slip.code, slip.severity) == ("markets-differ", Severity.WARN)
    assert "`20 in` in north_america" in slip.message
    assert "`510 cm` in europe" in slip.message
    assert "Did you mean `510 mm` for europe?" in slip.remedy
    assert {each.code for each in large} == {"larger-than-stock"}
    assert {each.edition for each in large} == {"metric"}
    assert "2500 × 1250 mm" in large[0].message


@pytest.mark.parametrize(("north", "warned"), [("9 in", False), ("4 in", True), ("95 in", True)])
def test_markets_may_differ_by_what_is_sold_there(tmp_path: Path, north: str, warned: bool) -> None:
    found = check(tmp_path / "w", "9 1/2 in, europe: 240 mm", f"{north}, europe: 240 mm")
    assert ("markets-differ" in {each.code for each in found}) == warned


def test_boards_are_glued_up_in_width_but_not_in_length(tmp_path: Path) -> None:
    found = check(tmp_path / "w", "18 in, europe: 460 mm", "2450 mm, europe: 2450 mm")
    assert any("Handle" in each.message and "2400 mm" in each.message for each in found if each.edition == "metric")
