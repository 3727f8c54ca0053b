"""What is wrong in a formula is told once, at its column, with the author's own value mended."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planbook.design import Overrides, evaluate, plan_design
from planbook.measure.dimensionality import ANGLE, LENGTH
from planbook.source.findings import Place
from planbook.source.text import Formula

from .contents import EUROPE, content
from .solving import HERE, design_of, fault

NAMES = {"top.length": "1500 mm", "top.depth": "600 mm", "ramp.slope": "13.5 deg", "count": "4"}


@pytest.mark.parametrize(
    ("formula", "code", "offset", "told"),
    [
        ("", "syntax", 0, "there is none"),
        ("1 mm +", "syntax", 6, "ends too early"),
        ("(1 mm", "syntax", 5, "`(1 mm)`"),
        ("7,5 mm", "syntax", 1, "`7.5 mm`"),
        ("18 × 2", "syntax", 3, "`18 * 2`"),
        ("23 ½ in", "syntax", 3, "`23 1/2 in`"),
        ('3"', "syntax", 1, "`3 in`"),
        ("90°", "syntax", 2, "`90 deg`"),
        ("2**3", "syntax", 2, "power with ^"),
        ("1 3/2 in", "syntax", 0, "no mixed fraction"),
        ("1/0 in", "syntax", 0, "no mixed fraction"),
        ("1 mm + 1 / 2 in", "syntax", 7, "`1/2 in`"),
        ("9 1 / 2 in", "syntax", 2, "`9 1/2 in`"),
        ("9 1 /2 in + top.depth", "syntax", 2, "`9 1/2 in + top.depth`"),
        ("top.depth =< 9 in", "syntax", 10, "`top.depth <= 9 in`"),
        ("top.depth => 9 in", "syntax", 10, "`top.depth >= 9 in`"),
        ("2 top.length", "syntax", 2, "`2 * top.length`"),
        ("+".join(["count"] * 200), "syntax", 0, "nested"),
        ("1" * 3000, "syntax", 0, "3000 characters"),
        ("3 inch", "unknown-unit", 2, "`3 in`"),
        ("3 MM", "unknown-unit", 2, "`3 mm`"),
        ("1 mm + top.lenght", "unknown-name", 7, "`top.length`"),
        ("top", "unknown-name", 0, "`top.length` or `top.depth`"),
        ("depth * 2", "unknown-name", 0, "`top.depth`"),
        ("sin", "unknown-name", 0, "sin(angle)"),
        ("flor(3)", "unknown-function", 0, "`floor`"),
        ("clearance(top.length, top.depth)", "unknown-function", 0, "clearance: {between: [..., ...], least: ...}"),
        ("abs(1, 2)", "wrong-arguments", 0, "`abs` takes 1 argument, 2 given"),
        ("top.length + 18", "missing-unit", 13, "18 mm or 18 in"),
        ("top.length + 18 in - 3", "missing-unit", 21, "3 in?"),
        ("max(18, top.length)", "missing-unit", 4, "`18` needs a unit"),
        ("ramp.slope - 0.5", "missing-unit", 13, "0.5 deg"),
        ("top.length + ramp.slope", "mixed-units", 13, "(an angle) cannot be added"),
        ("top.length / top.depth + ramp.slope", "mixed-units", 25, "(a plain number)"),
        ("ramp.slope + count", "mixed-units", 13, "divided by 1 rad"),
        ("min(top.length, ramp.slope)", "mixed-units", 16, "min"),
        ("sin(count)", "wrong-kind", 4, "`count * 1 deg`"),
        ("sin(30)", "missing-unit", 4, "30 deg"),
        ("atan(top.length)", "wrong-kind", 5, "a plain number"),
        ("sqrt(top.length)", "wrong-kind", 5, "no square root"),
        ("top.length^count", "wrong-kind", 11, "whole number"),
        ("2^top.length", "wrong-kind", 2, "An exponent"),
        ("count > 3", "wrong-kind", 0, "compares"),
        ("(count > 3) * 2", "wrong-kind", 0, "compares"),
        ("where(count, 1, 2)", "wrong-kind", 6, "no comparison"),
        ("where(count > 1, 1, 2 mm)", "missing-unit", 17, "1 mm"),
        ("1 mm / (count - 4)", "division-by-zero", 7, "`(count - 4)`"),
        ("sqrt(count - 5)", "no-value", 0, "sqrt(-1)"),
        ("asin(count)", "no-value", 0, "from -1 to 1"),
        ("tan(90 deg)", "no-value", 0, "no tangent"),
        ("atan2(0 mm, 0 mm)", "no-value", 0, "must not be 0"),
        ("sqrt(top.depth * top.depth - top.length * top.length)", "no-value", 0, "`sqrt(-1.89e+06 mm^2)` has no value"),
        ("0^-1", "no-value", 0, "`0^-1` has no value"),
        ("(-8)^(1/3)", "no-value", 0, "root"),
        ("9^9^9", "no-value", 0, "finite"),
        ("round(top.length, 0 mm)", "no-value", 0, "greater than 0"),
        ("clamp(3, 5, 1)", "no-value", 0, "clamp(value, least, greatest)"),
        ("1e99 * 1e99 * 1e99 * 1e99", "not-finite", 0, "too large"),
        ("floor(1e99 * 1e99 * 1e99 * 1e99)", "no-value", 0, "finite"),
        ("sin(1e99 deg * 1e99 * 1e99 * 1e99)", "no-value", 0, "finite"),
        ("round(1e99 mm * 1e99 * 1e99 * 1e99, 1 mm)", "no-value", 0, "round(inf"),
        ("where(1e99 mm * 1e99 * 1e99 * 1e99 > 1 mm, 1, 2)", "not-finite", 6, "compared"),
        ("min(1 mm)", "wrong-arguments", 0, "at least 2 arguments"),
    ],
)
def test_faults(formula, code, offset, told):
    finding = fault(formula, NAMES)
    assert finding.code == code
    assert finding.place == Place(HERE.file, HERE.line, HERE.column + offset)
    assert told in f"{finding.message} | {finding.remedy}"


def test_a_formula_must_give_the_kind_that_is_expected():
    assert fault("18", expect=LENGTH).code == "missing-unit"
    assert fault("ramp.slope", NAMES, LENGTH).message == "This takes a length, but `ramp.slope` is an angle."
    assert fault("count", NAMES, ANGLE).remedy == "Give it a unit: `count * 1 deg`."


def test_each_fault_of_a_formula_is_told():
    _, found = design_of(NAMES).solve(Formula("top.lengt + nothing_like_it * (1 mm + 2)", HERE))
    assert [finding.code for finding in found] == ["unknown-name", "unknown-name", "missing-unit"]


@given(st.text(alphabet="0123456789 ./*+-^(),<>=abmnisdegtop", max_size=30))
def test_no_text_whatever_ends_in_a_traceback(words):
    value, found = design_of(NAMES).solve(Formula(words, HERE))
    assert (value is None) == bool(found)


@pytest.mark.parametrize(
    "formula", ["(" * 900 + "1" + ")" * 900, "-" * 900 + "1", "2^" * 900 + "2", "abs(" * 400 + "1" + ")" * 400]
)
def test_deep_nesting_is_read_or_refused(formula):
    plan, _ = plan_design(content({"deep": formula}))
    design, found = evaluate(plan, Overrides(EUROPE))
    assert design is not None
    assert found == ()
