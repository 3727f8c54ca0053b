"""A factor that builders are told is never more than there is, and never a hundredth less for binary arithmetic."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from planbook.statement.factors import factor


@given(st.integers(1, 10_000), st.integers(1, 1_000_000))
def test_a_factor_that_is_a_whole_number_of_hundredths_is_told_as_that(hundredths: int, less: int) -> None:
    assert factor(hundredths / 100 * less, less) == hundredths / 100


@given(st.integers(1, 100_000), st.integers(1, 1_000))
def test_any_other_is_rounded_down(more: int, less: int) -> None:
    assert Fraction(round(100 * factor(more, less))) == 100 * more // less
