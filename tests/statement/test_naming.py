"""How a dimension reads in a sentence or a table."""

from __future__ import annotations

from dataclasses import replace

import pytest

from planbook.statement.naming import with_prefix
from planbook.statement.things import read_dimension
from tests.statement.small import STATEMENT


@pytest.mark.parametrize(
    ("prefix", "told"),
    [("", "8 mm"), ("Ø", "Ø8 mm"), ("R", "R8 mm"), ("counterbore Ø", "counterbore Ø8 mm"), ("slot", "slot 8 mm")],
)
def test_a_sign_stands_close_to_its_number_and_a_word_does_not(prefix: str, told: str) -> None:
    assert with_prefix(prefix, "8 mm") == told


def test_the_change_log_reads_a_dimension_as_the_sheet_does() -> None:
    some = next(iter(STATEMENT.dimensions.values()))
    printed = replace(some.printed, text="8", other="", unit="mm")
    slot = replace(some, prefix="slot", printed=printed, tolerance="±0.1", suffix="through", count=2)
    assert read_dimension(slot) == "2x slot 8 mm ±0.1 through"
