"""Generated parts whose sheets are hard to arrange: they say all, at full lettering height, on pages that are used."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

from benchmarks.sheets import QUARTER, measure, statements, write_set
from planbook.drawing import draw_sheet, to_svg
from planbook.drawing.frame import page_of
from planbook.statement.model import Statement
from tests.drawing.checker import read

HARD = (33, 37, 115, 166, 176)
"""Arc slots side by side or in a narrow part; a thin edge view beside a face that takes a page of its own."""


@lru_cache
def stated() -> tuple[Statement, ...]:
    """Every edition."""
    with TemporaryDirectory() as folder:
        write_set(Path(folder), HARD)
        return tuple(statements(Path(folder), "many"))


@pytest.mark.parametrize("number", [str(500 + number) for number in HARD])
@pytest.mark.parametrize("edition", [0, 1])
def test_a_hard_sheet_says_all_on_pages_that_are_used(number: str, edition: int) -> None:
    statement = stated()[edition]
    field = page_of(statement.edition.paper).field
    drawings, findings = draw_sheet(statement, number)
    assert findings == ()
    for drawing in drawings:
        svg = to_svg(drawing, "s")
        faults, cover = measure(svg, read(svg), field)
        assert not faults
        assert cover >= QUARTER
