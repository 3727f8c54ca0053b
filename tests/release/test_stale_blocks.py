"""Which blocks of an original are others since it was translated, by the lines at which they stand today."""

from __future__ import annotations

import pytest

from planbook.release.translations import _blocks as blocks
from planbook.release.translations import _changed as changed

THEN = "One.\n\nTwo.\n\nThree.\n"


@pytest.mark.parametrize(
    ("now", "lines"),
    [
        (THEN, []),
        ("One.\n\n\nTwo.\n\nThree.", []),
        ("One.\n\nTwo, again.\n\nThree.\n", [3]),
        ("One.\n\nTwo.\nAnd more.\n\nThree.\n", [3]),
        ("One.\n\nA half.\n\nTwo.\n\nThree.\n", [3]),
        ("One.\n\nThree.\n", [3]),
        ("One.\n\nTwo.\n", [3]),
        ("", []),
    ],
)
def test_a_block_that_is_new_or_other_or_follows_one_taken_out(now: str, lines: list[int]) -> None:
    assert [each.line for each in changed(blocks(THEN, 1), blocks(now, 1))] == lines
