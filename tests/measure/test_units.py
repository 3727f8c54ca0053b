"""Units have the factors that NIST SP 811 publishes, exactly."""

from fractions import Fraction

import pint
import pytest

from planbook.measure import UNITS, in_words
from planbook.measure.dimensionality import FORCE, LENGTH, Dimensionality

from .reference import published


@pytest.mark.parametrize("entry", published("units"), ids=lambda entry: entry["one"])
def test_a_unit_has_its_published_factor(entry):
    one, other = UNITS[entry["one"]], UNITS[entry["of"]]
    assert one.dimensionality == other.dimensionality
    assert float(one.factor / other.factor) == pytest.approx(entry["is"], rel=1e-12)


@pytest.mark.parametrize("sign", [sign for sign in UNITS if sign != "%"])
def test_pint_agrees_on_every_unit(sign):
    names = {"deg": "degree", "rad": "radian", "in": "inch", "um": "micrometer", "lbf": "force_pound"}
    one, kind = pint.UnitRegistry().Quantity(1, names.get(sign, sign)), UNITS[sign].dimensionality
    base = f"nanometer**{kind.length} * kilogram**{kind.mass} * second**{kind.time} * degree**{kind.angle}"
    assert one.to(base).magnitude == pytest.approx(float(UNITS[sign].factor), rel=1e-12)


def test_an_inch_and_a_pound_are_exact():
    assert UNITS["in"].factor == Fraction(25_400_000)
    assert UNITS["lbf"].factor == Fraction("0.45359237") * Fraction("9.80665") * 10**9


def test_a_dyadic_inch_is_a_whole_number_of_nanometres():
    assert UNITS["in"].to_base(Fraction(1, 64)) == 396_875.0


def test_kinds_have_names():
    assert in_words(LENGTH) == "a length"
    assert in_words(FORCE) == "a force"
    assert in_words(Dimensionality(mass=1, time=-1)) == "a quantity in kg/s"


def test_kinds_multiply_and_divide():
    assert LENGTH * LENGTH == LENGTH**2
    assert Dimensionality() == FORCE / FORCE
