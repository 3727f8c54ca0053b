"""Tolerances and limits are never printed wider than the author said."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planbook.measure import INCH, MILLIMETRE, UNITS, Precision, Units, print_limits, print_tolerance, snap
from planbook.measure.dimensionality import ANGLE

from .reference import published

WOODWORK, CALIPER = Precision.WOODWORK, Precision.CALIPER
deviations = st.floats(0, 5e6)


@pytest.mark.parametrize("entry", published("limits"), ids=lambda entry: entry["lower"])
def test_published_limits(entry):
    unit = UNITS[entry["of"]]
    nominal, both = Fraction(str(entry["nominal"])), Fraction(str(entry["plus_minus"]))
    ends = unit.to_base(nominal - both), unit.to_base(nominal + both)
    lower, upper = print_limits(*ends, Units(entry["printed_in"]), CALIPER)
    assert (lower.text, upper.text) == (entry["lower"], entry["upper"])


@pytest.mark.parametrize(
    ("plus", "minus", "units", "precision", "text"),
    [
        (INCH / 32, INCH / 32, Units.INCH, WOODWORK, "±1/32"),
        (INCH / 32, INCH / 32, Units.MILLIMETRE, WOODWORK, "±0.7"),
        (0.3 * MILLIMETRE, 0.3 * MILLIMETRE, Units.MILLIMETRE, WOODWORK, "±0.3"),
        (0.3 * MILLIMETRE, 0.3 * MILLIMETRE, Units.INCH, WOODWORK, "±.010"),
        (0.5 * MILLIMETRE, 0, Units.MILLIMETRE, WOODWORK, "+0.5/0"),
        (0, 0.5 * MILLIMETRE, Units.MILLIMETRE, WOODWORK, "0/−0.5"),
        (0.5 * MILLIMETRE, 0.2 * MILLIMETRE, Units.MILLIMETRE, WOODWORK, "+0.5/−0.2"),
        (INCH / 16, INCH / 32, Units.INCH, WOODWORK, "+1/16 / −1/32"),
        (0.1 * MILLIMETRE, 0.1 * MILLIMETRE, Units.INCH, CALIPER, "±.002"),
        (0.2 * MILLIMETRE, 0.2 * MILLIMETRE, Units.INCH, CALIPER, "±.005"),
        (0.45 * MILLIMETRE, 0.45 * MILLIMETRE, Units.INCH, CALIPER, "±.015"),
        (0.007 * INCH, 0.007 * INCH, Units.INCH, CALIPER, "±.007"),
        (0.004 * INCH, 0.004 * INCH, Units.INCH, WOODWORK, "±.004"),
        (INCH / 64, INCH / 64, Units.MILLIMETRE, CALIPER, "±0.3"),
        (0.002 * INCH, 0.002 * INCH, Units.MILLIMETRE, CALIPER, "±0.05"),
        (0.004 * INCH, 0.004 * INCH, Units.MILLIMETRE, CALIPER, "±0.1"),
        (0, 0, Units.MILLIMETRE, CALIPER, "±0"),
    ],
)
def test_texts(plus, minus, units, precision, text):
    assert print_tolerance(plus, minus, units, precision).text == text


def test_a_tolerance_of_an_angle_carries_its_sign():
    assert print_tolerance(0.5, 0.5, Units.INCH, WOODWORK, ANGLE).text == "±0.5°"
    assert print_tolerance(0.25, 0, Units.INCH, WOODWORK, ANGLE) == ("+0.2°/0", pytest.approx(0.2), 0)


@given(deviations, deviations, st.sampled_from(Units), st.sampled_from(Precision))
def test_never_outward(plus, minus, units, precision):
    printed = print_tolerance(plus, minus, units, precision)
    assert 0 <= printed.upper <= plus + 1e-3
    assert -minus - 1e-3 <= printed.lower <= 0


@given(st.floats(1e6, 1e9), st.floats(2e6, 5e7), st.sampled_from(Units), st.sampled_from(Precision))
def test_limits_lie_inside(lower, width, units, precision):
    least, greatest = print_limits(lower, lower + width, units, precision)
    assert snap(lower) <= snap(least.value) <= snap(greatest.value) <= snap(lower + width)
