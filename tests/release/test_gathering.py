"""Findings of several editions are said once."""

from __future__ import annotations

from planbook.release.gathering import gather, settle
from planbook.source.findings import Finding, Place, Severity


def finding(code: str, severity: Severity = Severity.STOP, line: int = 1, edition: str = "") -> Finding:
    return Finding(code, severity, "It is wrong.", "Mend it.", Place("a.yaml", line, 1), edition)


def test_what_holds_in_every_edition_names_none() -> None:
    both = gather({"metric": [finding("a")], "imperial": [finding("a")]})
    assert both == (finding("a"),)
    named = gather({"metric": [finding("a", edition="metric")], "imperial": [finding("a", edition="imperial")]})
    assert named == both


def test_what_holds_in_some_editions_names_each() -> None:
    told = gather({"metric": [finding("a"), finding("b")], "imperial": [finding("b")], "third": [finding("a")]})
    assert told == (
        finding("a", edition="metric"),
        finding("a", edition="third"),
        finding("b", edition="metric"),
        finding("b", edition="imperial"),
    )


def test_stops_come_first_then_the_order_of_the_files() -> None:
    note, late, early = finding("n", Severity.NOTE), finding("s", line=9), finding("s", line=2)
    assert settle([note, late], [early, late]) == (early, late, note)
