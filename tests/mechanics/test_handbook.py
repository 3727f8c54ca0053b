"""The handbook as readers have it: complete in the docs, each calculator told in full."""

from __future__ import annotations

from pathlib import Path

import pytest

from planbook.mechanics import CALCULATORS, SUBJECTS, Calculator

GUIDE = (Path(__file__).parents[2] / "docs/mechanics.md").read_text(encoding="utf-8")


def test_no_name_is_given_twice() -> None:
    assert len(CALCULATORS) == sum(map(len, SUBJECTS.values()))


@pytest.mark.parametrize("calculator", CALCULATORS.values(), ids=CALCULATORS)
def test_a_calculator_tells_all_that_its_reader_needs(calculator: Calculator) -> None:
    assert f"| `{calculator.usage}` |" in GUIDE
    assert calculator.source in GUIDE
    assert all((calculator.title, calculator.formula, calculator.assumes, calculator.compute.__doc__))
    missing = [each.symbol for each in calculator.takes if each.symbol not in calculator.formula]
    assert not missing or " from " in calculator.formula or " after " in calculator.formula
