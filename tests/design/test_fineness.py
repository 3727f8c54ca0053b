"""A measure is printed as finely as what it hangs on, until the design rounds it."""

from __future__ import annotations

import pytest

from planbook.design.fineness import fineness
from planbook.design.syntax import parse
from planbook.measure.systems import Precision

KNOWN = {"fit": Precision.CALIPER, "step": Precision.WOODWORK, "fine": Precision.CALIPER}


@pytest.mark.parametrize(
    ("formula", "expected"),
    [
        ("fit", Precision.CALIPER),
        ("step + 3 mm", Precision.WOODWORK),
        ("step + max(fit, 1 mm)", Precision.CALIPER),
        ("-(fit * 2)", Precision.CALIPER),
        ("round_down(fit * 2, step)", Precision.WOODWORK),
        ("round(step, fine)", Precision.CALIPER),
        ("round_up(fit, 1 mm) + fit", Precision.CALIPER),
        ("round_up(fit, 1 mm) + step", Precision.WOODWORK),
    ],
)
def test_rounding_makes_a_value_as_coarse_as_its_step(formula: str, expected: Precision) -> None:
    assert fineness(parse(formula), KNOWN) is expected
