"""Rounding is exact for dyadic inches and micrometres, with Fraction as the oracle."""

import math
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planbook.measure import INCH, MILLIMETRE, UNITS, Direction, round_plain, round_to, settled, snap
from planbook.measure.numerals import significant

from .reference import published

STEPS = [INCH / 64, INCH / 32, INCH / 1000 * 5, MILLIMETRE / 2, MILLIMETRE / 10, 1000.0, INCH]
lengths = st.integers(-(10**10) * 1024, 10**10 * 1024).map(lambda grains: grains / 1024)
steps = st.sampled_from(STEPS)


@given(lengths, steps)
def test_nearest_is_what_fraction_says_ties_to_even(value, step):
    assert Fraction(round_to(value, step)) == round(Fraction(value) / Fraction(step)) * Fraction(step)


@given(lengths, steps)
def test_up_and_down_are_ceiling_and_floor(value, step):
    quotient = Fraction(value) / Fraction(step)
    assert Fraction(round_to(value, step, Direction.UP)) == math.ceil(quotient) * Fraction(step)
    assert Fraction(round_to(value, step, Direction.DOWN)) == math.floor(quotient) * Fraction(step)


@given(st.integers(-(10**6), 10**6), steps, st.sampled_from(Direction), st.floats(-1e-4, 1e-4))
def test_a_multiple_stays_whatever_the_direction_and_noise(count, step, direction, noise):
    assert round_to(count * step + noise, step, direction) == count * step


@given(st.integers(-(10**6), 10**6), steps)
def test_a_tie_goes_to_the_even_multiple(count, step):
    assert round_to((count + Fraction(1, 2)) * Fraction(step), step) == (count + count % 2) * step


@given(st.floats(-1e12, 1e12))
def test_snap_moves_at_most_half_a_grain_and_only_once(value):
    assert abs(Fraction(snap(value)) - Fraction(value)) <= Fraction(1, 2048)
    assert snap(snap(value)) == snap(value)


@given(st.integers(-1000, 1000), st.sampled_from(Direction))
def test_a_tenth_of_a_degree_is_not_pushed_up_by_binary_noise(count, direction):
    assert round_plain(sum([0.1] * abs(count)) * (1 if count >= 0 else -1), 0.1, direction) == pytest.approx(count / 10)


@pytest.mark.parametrize("entry", published("rounded"), ids=lambda entry: f"{entry['value']} {entry['of']}")
def test_published_conversions(entry):
    unit = float(UNITS[entry["to"]].factor)
    value = UNITS[entry["of"]].to_base(Fraction(str(entry["value"])))
    rounding = round_to if entry["to"] != "kg" else round_plain
    assert rounding(value, entry["step"] * unit) / unit == pytest.approx(entry["is"], abs=1e-12)


@pytest.mark.parametrize("entry", published("ties"), ids=lambda entry: entry["value"])
def test_published_tie(entry):
    places = -Decimal(entry["step"]).as_tuple().exponent
    assert significant(float(entry["value"]), places + 1) == Decimal(entry["is"])
    assert round_plain(float(entry["value"]), float(entry["step"])) == pytest.approx(float(entry["is"]))
    assert round_to(float(entry["value"]) * INCH, float(entry["step"]) * INCH) == float(entry["is"]) * INCH


def test_settled_drops_noise_only():
    assert settled(0.1 + 0.2) == settled(0.3)
    assert settled(0.3) != settled(0.300000001)
