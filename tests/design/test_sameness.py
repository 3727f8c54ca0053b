"""Formulas that say the same have the same plain form, and others have not."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planbook.design.sameness import plain_form


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("a + b / 2", "b * 50 % + a"),
        ("w - i - h + (h)", "w - i"),
        ("2 * (a + b)", "a + a + 2 * b"),
        ("1 in", "25.4 mm"),
        ("1 1/2 in + x", "x + 1.5 in"),
        ("max(a, b) / 2", "0.5 * max(a, b)"),
        ("max(a + b, c)", "max(b + a, c)"),
        ("a / (b + c)", "a / (c + b)"),
        ("(a + b)^2", "a^2 + 2 * a * b + b^2"),
        ("a * b / b", "a"),
        ("a - a", "0 mm"),
    ],
)
def test_the_same(one: str, other: str) -> None:
    assert plain_form(one) == plain_form(other)


@pytest.mark.parametrize(
    ("one", "other"),
    [("a - b", "b - a"), ("max(a, b)", "min(a, b)"), ("a / b", "b / a"), ("a", "b"), ("10 mm", "10.001 mm")],
)
def test_not_the_same(one: str, other: str) -> None:
    assert plain_form(one) != plain_form(other)


def test_what_is_no_formula_is_like_itself_only() -> None:
    assert plain_form("18 mm +") == "18 mm +"


def test_a_long_product_of_sums_is_not_multiplied_out() -> None:
    product = " * ".join(f"(a{k} + b{k})" for k in range(60))
    assert plain_form(product) == plain_form(product.replace("(a0 + b0)", "(b0 + a0)"))
    assert len(plain_form(product)) < 10_000


NAMES = {"a": 3, "b": 5, "c": 7}
formulas = st.recursive(
    st.sampled_from(sorted(NAMES)) | st.integers(1, 9).map(str),
    lambda inner: st.builds("({} {} {})".format, inner, st.sampled_from("+-*"), inner),
    max_leaves=8,
)


@given(formulas, formulas)
def test_formulas_of_one_form_have_one_value(one: str, other: str) -> None:
    """Against Python's own arithmetic: two whole-number expressions of one form agree, a sum with its terms swapped has
    one form."""
    assert plain_form(f"{one} + {other}") == plain_form(f"{other} + {one}")
    if plain_form(one) == plain_form(other):
        assert eval(one, {}, NAMES) == eval(other, {}, NAMES)
    assert plain_form(f"{one} * ({other})") == plain_form(f"({other}) * {one}")
