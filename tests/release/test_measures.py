"""What people type when they look for a printed number, and what it finds."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planbook.release.reading_measures import Reading, read_measure, reads_so
from planbook.statement.model import PrintedStated

FIVE_AND_THREE_EIGHTHS = PrintedStated("5 3/8", "136.5", 136_525_000.0, "in", "mm")
METRIC = PrintedStated("137", "5 13/32", 137_000_000.0, "mm", "in")
ANGLE = PrintedStated("13.5", "", 13.5, "°", "")
THIN = PrintedStated(".180", "4.6", 4_572_000.0, "in", "mm")


@pytest.mark.parametrize(
    "typed",
    [
        "5 3/8",
        "5-3/8",
        " 5  3/8 ",
        "5 - 3/8",
        '5 3/8"',
        "5 3/8 in",
        "5 3/8 in.",
        "5-3/8 inches",
        "5⅜",
        "5 3⁄8",
        "5 3/8″",
    ],
)
def test_a_fraction_is_found_however_it_is_typed(typed: str) -> None:
    reading = read_measure(typed)
    assert reading is not None
    assert reads_so(FIVE_AND_THREE_EIGHTHS, reading)
    assert not reads_so(METRIC, reading)


@pytest.mark.parametrize(
    "typed", ["137", "137 mm", "137mm", "137.0", "137 mm [5 13/32 in]", "5 13/32", "Ø137", "4x 137"]
)
def test_either_unit_is_found(typed: str) -> None:
    reading = read_measure(typed)
    assert reading is not None
    assert reads_so(METRIC, reading)
    assert not reads_so(FIVE_AND_THREE_EIGHTHS, reading)


def test_a_unit_that_was_typed_must_be_the_one_that_is_printed() -> None:
    for typed in ("137 in", "5 13/32 mm", "137 deg"):
        reading = read_measure(typed)
        assert reading is not None
        assert not reads_so(METRIC, reading)


def test_decimals_read_the_same_with_or_without_idle_noughts() -> None:
    for typed in (".180", "0.18", "0.180 in", ".18"):
        reading = read_measure(typed)
        assert reading is not None
        assert reads_so(THIN, reading)


def test_angles() -> None:
    for typed in ("13.5", "13.5°", "13.5 deg", "13.5 degrees"):
        reading = read_measure(typed)
        assert reading is not None
        assert reads_so(ANGLE, reading)


@pytest.mark.parametrize("typed", ["", "abc", "5 3/", "/8", "mm", "..", "five", "5,3"])
def test_what_is_no_measure_reads_as_none(typed: str) -> None:
    reading = read_measure(typed)
    assert reading is None or not reads_so(METRIC, reading)


@given(st.integers(1, 200), st.integers(1, 63), st.sampled_from(["{} {}/{}", "{}-{}/{}", "{}  {}/{} in"]))
def test_every_mixed_fraction_reads_as_itself(whole: int, numerator: int, form: str) -> None:
    part = Fraction(numerator, 64)
    typed = form.format(whole, part.numerator, part.denominator)
    reading = read_measure(typed)
    assert reading == Reading(f"{whole} {part.numerator}/{part.denominator}", "in" if typed.endswith("in") else "")
