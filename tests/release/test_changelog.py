"""CHANGES.md: what editions say differently is told of each, and what they share is told once."""

from __future__ import annotations

from pathlib import Path

from planbook.impact import Impact, PartImpact
from planbook.release import compare_set
from planbook.release.across import PartAcross
from planbook.release.changelog import _in_order, _lines, _part
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


def test_headings_stand_in_the_order_of_every_edition() -> None:
    assert _in_order([["Fits"], ["Advisories", "Part 3", "Fits", "Rules"]]) == ["Advisories", "Part 3", "Fits", "Rules"]
    assert _in_order([["Part 1", "Part 4"], ["Part 2", "Part 4"]]) == ["Part 2", "Part 1", "Part 4"]


def test_a_part_that_concerns_one_edition_is_told_of_that_one() -> None:
    def impact(impact: Impact, because: str = "") -> PartImpact:
        return PartImpact(3, "rack", "Rack", impact, because)

    def said(**impacts: PartImpact) -> list[str]:
        return list(_part(PartAcross(3, "rack", "Rack", impacts), 2, ()))

    unchanged, recut = impact(Impact.UNCHANGED), impact(Impact.RECUT, "Width: 105 mm → 150 mm")
    assert said(imperial=unchanged, metric=recut) == ["- Part 3, Rack, metric edition only: Width: 105 mm → 150 mm."]
    assert said(imperial=impact(Impact.REPRINT), metric=recut) == [
        "- Part 3, Rack:",
        "  - Imperial edition: reprint only.",
        "  - Metric edition: recut: Width: 105 mm → 150 mm.",
    ]
    assert said(imperial=impact(Impact.REPRINT), metric=impact(Impact.REPRINT)) == ["- Part 3, Rack."]


def test_a_set_that_is_not_there_is_said_before_its_versions(tmp_path: Path) -> None:
    (tmp_path / "content").mkdir()
    compared, [finding] = compare_set(tmp_path, "tote", "1.0")
    assert compared is None
    assert finding.code == "set-unknown"
