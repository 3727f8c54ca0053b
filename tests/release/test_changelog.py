"""CHANGES.md: what editions say differently is told of each, and what they share is told once."""

from __future__ import annotations

from pathlib import Path

from planbook.release import compare_set
from planbook.release.changelog import _lines
from planbook.statement.model import RowStated


def row(what: str, why: str = "It was thin.") -> RowStated:
    return RowStated("change/2.0/x", {"version": "2.0", "where": "Part 1, End", "what": what, "why": why})


def test_a_reason_that_all_editions_share_is_given_once() -> None:
    rows = {"imperial": row("Width: 1 in → 2 in"), "metric": row("Width: 25 mm → 50 mm")}
    assert list(_lines(rows, 2)) == [
        "- Imperial edition: Width: 1 in → 2 in.",
        "- Metric edition: Width: 25 mm → 50 mm.",
        "- Why: It was thin.",
    ]
    assert list(_lines({"imperial": row("A"), "metric": row("A")}, 2)) == ["- A. Why: It was thin."]


def test_a_set_that_is_not_there_is_said_before_its_versions(tmp_path: Path) -> None:
    (tmp_path / "content").mkdir()
    compared, [finding] = compare_set(tmp_path, "tote", "1.0")
    assert compared is None
    assert finding.code == "set-unknown"
