"""The sheet number that is proposed for one that another part had: it is free, or the next whole one is."""

from __future__ import annotations

from string import ascii_lowercase

import pytest

from planbook.release.retirement import _free_sheet as free_sheet


@pytest.mark.parametrize(
    ("taken", "free"),
    [
        ({"12"}, "12a"),
        ({"12", "12a", "13"}, "12b"),
        ({"12", "12b", "13"}, "12a"),
        ({"12", "14", *(f"12{letter}" for letter in ascii_lowercase)}, "15"),
    ],
)
def test_the_first_inserted_sheet_that_no_version_had_is_proposed(taken: set[str], free: str) -> None:
    assert free_sheet("12", taken) == free
