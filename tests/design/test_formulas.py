"""What formulas mean, against Fraction, pint and published values."""

import math
from fractions import Fraction

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from planbook.measure.dimensionality import ANGLE, LENGTH, PRESSURE
from planbook.source.text import Formula

from .reference import published
from .solving import design_of, number

INCH, MM = 25_400_000.0, 1_000_000.0


@pytest.mark.parametrize(
    ("formula", "value"),
    [
        ("18 mm", 18 * MM),
        ("3/4 in", 0.75 * INCH),
        ("1 1/2 in", 1.5 * INCH),
        ("1 / (2 in) * 1 in^2", 0.5 * INCH),
        ("-1 1/2 in", -1.5 * INCH),
        ("23 5/8 in + 1/64 in", 23.640625 * INCH),
        ("2 * 3/4 in", 1.5 * INCH),
        ("6 in / 3/4 in", 8),
        ("12 ft", 144 * INCH),
        ("2 m^3", 2e27),
        ("(2 m)^3", 8e27),
        ("2^3^2", 512),
        ("-2^2", -4),
        ("2^-1", 0.5),
        ("1 1/2", 1.5),
        (".5 mm", 0.5 * MM),
        ("1e3 um", MM),
        ("100 % - 15 %", 0.85),
        ("7 - 2 - 1", 4),
        ("8 / 4 / 2", 1),
        ("2 + 3 * 4", 14),
        ("(2 + 3) * 4", 20),
        ("+3 mm", 3 * MM),
        ("sin(90 deg)", 1),
        ("cos(90 deg)", 0),
        ("cos(60 deg)", pytest.approx(0.5)),
        ("tan(45 deg)", pytest.approx(1)),
        ("tan(180 deg)", 0),
        ("atan(1)", pytest.approx(45)),
        ("asin(1)", 90),
        ("acos(0)", 90),
        ("atan2(3 in, 3 in)", pytest.approx(45)),
        ("atan2(-1 mm, 0 mm)", -90),
        ("hypot(3 mm, 4 mm)", 5 * MM),
        ("sqrt(9 mm^2)", 3 * MM),
        ("abs(-3 mm)", 3 * MM),
        ("min(3 mm, 1/8 in, 4 mm)", 3 * MM),
        ("max(3 mm, 1/8 in)", 0.125 * INCH),
        ("floor(7/2)", 3),
        ("ceil(7/2)", 4),
        ("ceil(0.1 * 3 / 0.1)", 3),
        ("round(10.3 mm, 0.5 mm)", 10.5 * MM),
        ("round(1.25 mm, 0.5 mm)", MM),
        ("round_up(10.1 mm, 0.5 mm)", 10.5 * MM),
        ("round_down(10.4 mm, 0.5 mm)", 10 * MM),
        ("round_up(0.1 deg + 0.2 deg, 0.1 deg)", pytest.approx(0.3)),
        ("clamp(7 mm, 1 mm, 5 mm)", 5 * MM),
        ("where(1 in > 25 mm, 1 mm, 2 mm)", MM),
        ("where(1 in == 25.4 mm, 1, 2)", 1),
        ("where(1 mm < 2 mm <= 2 mm < 1 mm, 1, 2)", 2),
        ("where(1 > 2, 1 / (1 - 1), 5)", 5),
        ("180 deg / 1 rad", pytest.approx(math.pi)),
        ("15 kg * 9.81 m/s^2 / 1 N", pytest.approx(147.15)),
        ("12 N / 3 mm^2 / 1 MPa", pytest.approx(4)),
    ],
)
def test_values(formula, value):
    assert number(formula) == value


@pytest.mark.parametrize("entry", published("products"), ids=lambda entry: entry["formula"])
def test_published_products(entry):
    assert number(entry["formula"]) == pytest.approx(entry["is"], abs=entry["within"])


@pytest.mark.parametrize("fraction", published("sixty_fourths")["table"])
def test_every_sixty_fourth_is_exact(fraction):
    assert number(f"{fraction} in") == published("sixty_fourths")["table"][fraction][0] * INCH


counts = st.integers(0, 200)
sixty_fourths = st.integers(1, 63)
literals = st.one_of(
    counts.map(lambda whole: (f"{whole} mm", whole * Fraction(10**6))),
    counts.map(lambda tenths: (f"{tenths / 10} mm", Fraction(tenths * 10**5))),
    st.tuples(counts, sixty_fourths).map(
        lambda pair: (f"{pair[0]} {pair[1]}/64 in", (pair[0] + Fraction(pair[1], 64)) * 25_400_000)
    ),
    sixty_fourths.map(lambda top: (f"{top}/64 in", Fraction(top, 64) * 25_400_000)),
)


def _joined(children):
    sums = st.tuples(children, st.sampled_from("+-"), children).map(_combine)
    scaled = st.tuples(st.integers(1, 9), children).map(
        lambda pair: (f"{pair[0]} * ({pair[1][0]})", pair[0] * pair[1][1])
    )
    halved = st.tuples(children, st.sampled_from([2, 4, 8])).map(
        lambda pair: (f"({pair[0][0]})/{pair[1]}", pair[0][1] / pair[1])
    )
    negated = children.map(lambda child: (f"-({child[0]})", -child[1]))
    return sums | scaled | halved | negated


def _combine(parts):
    (left, one), sign, (right, other) = parts
    return (f"({left}) {sign} ({right})", one + other if sign == "+" else one - other)


@given(st.recursive(literals, _joined, max_leaves=12))
def test_lengths_are_exact_on_random_formulas(drawn):
    formula, exact = drawn
    assert Fraction(number(formula)) == exact


UNITS = pint.UnitRegistry()
_SPELT = {"mm": "millimeter", "in": "inch", "kg": "kilogram", "N": "newton", "deg": "degree"}
quantities = st.tuples(st.integers(1, 999).map(lambda count: count / 8), st.sampled_from(sorted(_SPELT)))
leaves = quantities.map(lambda pair: (f"{pair[0]} {pair[1]}", pair[0] * UNITS(_SPELT[pair[1]])))


def _products(children):
    times = st.tuples(children, children).map(lambda pair: (f"({pair[0][0]} * {pair[1][0]})", pair[0][1] * pair[1][1]))
    over = st.tuples(children, children).map(lambda pair: (f"({pair[0][0]} / ({pair[1][0]}))", pair[0][1] / pair[1][1]))
    return times | over


@given(st.recursive(leaves, _products, max_leaves=4))
def test_pint_agrees_on_random_products(drawn):
    formula, oracle = drawn
    value, found = design_of({}).solve(Formula(formula))
    assert found == ()
    kind = value.quantity.dimensionality
    base = f"nanometer**{kind.length} * kilogram**{kind.mass} * second**{kind.time} * degree**{kind.angle}"
    assert value.number == pytest.approx(oracle.to(base).magnitude, rel=1e-9)


def test_kinds_come_out_of_formulas():
    design = design_of({"rise": "3 in", "run": "12 1/2 in", "load": "150 N"})
    kinds = {
        formula: design.solve(Formula(formula))[0].quantity.dimensionality
        for formula in ("atan(rise / run)", "load / (rise * run)", "sqrt(rise * run)")
    }
    assert kinds == {"atan(rise / run)": ANGLE, "load / (rise * run)": PRESSURE, "sqrt(rise * run)": LENGTH}
