"""The guide for authors names all that a formula may use, and its examples are read as it says."""

import re
from pathlib import Path

import pytest

from planbook.design import RESERVED_ROOTS
from planbook.design.functions import FUNCTIONS
from planbook.measure import UNITS

from .solving import number

DOCS = Path(__file__).parents[2] / "docs"
GUIDE = (DOCS / "formulas.md").read_text(encoding="utf-8")
FUNCTIONS_TOLD = GUIDE + (DOCS / "mechanics.md").read_text(encoding="utf-8")


@pytest.mark.parametrize("word", [*UNITS, *sorted(RESERVED_ROOTS)])
def test_every_unit_and_reserved_word_is_in_the_guide(word):
    assert f"`{word}`" in GUIDE


@pytest.mark.parametrize("function", FUNCTIONS)
def test_every_function_is_in_the_guide(function):
    assert f"`{function}(" in FUNCTIONS_TOLD


def test_the_guide_names_no_function_that_is_not_there():
    assert set(re.findall(r"`(\w+)\(", FUNCTIONS_TOLD)) == set(FUNCTIONS)


@pytest.mark.parametrize(("formula", "value"), [("2 m^3", 2e27), ("(2 m)^3", 8e27), ("-2^2", -4), ("1 1/2 in", 38.1e6)])
def test_the_guides_examples(formula, value):
    assert f"`{formula}`" in GUIDE
    assert number(formula) == value
