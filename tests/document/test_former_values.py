"""The table of former values says each reason once."""

from __future__ import annotations

from planbook.document.former_values import former_rows
from planbook.statement.marks import SheetMark


def mark(number: int, why: str) -> SheetMark:
    return SheetMark(number, "Width", "98 mm", why)


def test_a_reason_stands_once_and_then_where_it_stands() -> None:
    rows = former_rows(
        {"12": (mark(1, "Lower."), mark(2, "Lower."), mark(3, "")), "13": (mark(6, "Lower."), mark(7, "New."))}
    )
    assert [(row.sheet, row.mark, row.why) for row in rows] == [
        ("12", 1, "Lower."),
        ("12", 2, "as 1"),
        ("12", 3, ""),
        ("13", 6, "as sheet 12, 1"),
        ("13", 7, "New."),
    ]
    assert {row.was for row in rows} == {"Width: 98 mm"}
