"""Findings of the proof and of fits say where, and in which measure."""

from __future__ import annotations

import pytest

from planbook.dimension.completeness import Unfixed
from planbook.statement.mating import _mention
from planbook.statement.proving import _drawn


@pytest.mark.parametrize(
    ("direction", "value", "text"),
    [("lean x", 12.5, "12.5°"), ("x", 25.4e6, "25.4 mm, 1 in"), ("angle", 25.4e6, "25.4 mm, 1 in along its arc")],
)
def test_what_is_left_open_is_told_in_its_own_measure(direction: str, value: float, text: str) -> None:
    assert _drawn(Unfixed(("hole",), direction, value)) == text


def test_a_name_is_found_where_it_stands_by_itself() -> None:
    assert _mention("dim.end.width", "dim.end.widths - 2 * dim.end.width") == 21
