"""Stacks against published examples, error propagation by a general-purpose library, and the case of one sheet."""

from __future__ import annotations

import math
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from ruamel.yaml import YAML
from uncertainties import ufloat

from planbook.mechanics.stacks import Layer, Range, accepted, root_sum_square, worst_case

_FILE = Path(__file__).parents[1] / "reference" / "stacks.yaml"
EXAMPLES: list[dict[str, Any]] = YAML(typ="safe").load(_FILE)


def layers_of(example: dict[str, Any]) -> list[Layer]:
    return [
        Layer(str(number), each["nominal"], each["plus"], each["minus"], each.get("rate", 1))
        for number, each in enumerate(example["layers"])
    ]


@pytest.mark.parametrize("example", EXAMPLES, ids=[each["id"] for each in EXAMPLES])
def test_a_published_example(example: dict[str, Any]) -> None:
    layers = layers_of(example)
    nominal = sum(each.rate * each.nominal for each in layers)
    worst, likely = worst_case(nominal, layers), root_sum_square(nominal, layers)
    assert nominal == pytest.approx(example["nominal"])
    assert (worst.low, worst.high) == pytest.approx(tuple(example["worst"]), abs=example["within"])
    if "root_sum_square" in example:
        assert (likely.high - likely.low) / 2 == pytest.approx(example["root_sum_square"], abs=example["within"])
    assert example["source"]
    assert example["confidence"] in {"read", "memory", "arithmetic"}


LAYERS = st.lists(
    st.builds(
        lambda nominal, limit, rate: Layer("a", nominal, limit, limit, rate),
        st.floats(1, 500),
        st.floats(0.001, 5),
        st.sampled_from([-3.0, -1.0, -0.5, 0.25, 1.0, 2.0]),
    ),
    min_size=1,
    max_size=8,
)


@given(LAYERS)
def test_root_sum_square_is_how_independent_errors_propagate(layers: list[Layer]) -> None:
    total = sum(each.rate * ufloat(each.nominal, each.plus) for each in layers)
    likely = root_sum_square(total.nominal_value, layers)
    assert (likely.high - likely.low) / 2 == pytest.approx(total.std_dev, rel=1e-9)
    assert (likely.high + likely.low) / 2 == pytest.approx(total.nominal_value, abs=1e-9)


@given(LAYERS)
def test_the_worst_case_is_met_by_some_corner_and_exceeded_by_none(layers: list[Layer]) -> None:
    worst = worst_case(0.0, layers)
    corners = [0.0]
    for each in layers:
        corners = [was + each.rate * by for was in corners for by in (each.plus, -each.minus)]
    assert (min(corners), max(corners)) == pytest.approx((worst.low, worst.high))
    likely = root_sum_square(0.0, layers)
    assert worst.low - 1e-9 <= likely.low <= likely.high <= worst.high + 1e-9


@pytest.mark.parametrize(
    ("size", "hole", "shaft", "clearance"),
    [
        (12, (18, 0), (-6, -17), (6, 35)),  # H7/g6, over 10 to 18 mm
        (12, (27, 0), (-16, -34), (16, 61)),  # H8/f7
        (12, (18, 0), (0, -11), (0, 29)),  # H7/h6
        (30, (21, 0), (-7, -20), (7, 41)),  # H7/g6, over 18 to 30 mm
    ],
)
def test_a_pin_in_its_bore_has_the_clearance_of_the_standard(
    size: float, hole: tuple[float, float], shaft: tuple[float, float], clearance: tuple[float, float]
) -> None:
    """ISO 286-2, limit deviations and clearances in micrometres (from memory)."""

    def layer(name: str, limits: tuple[float, float], rate: float) -> Layer:
        upper, lower = limits
        half = (upper - lower) / 2000
        return Layer(name, size + (upper + lower) / 2000, half, half, rate)

    layers = layer("hole", hole, 1), layer("shaft", shaft, -1)
    worst = worst_case(layers[0].nominal - layers[1].nominal, layers)
    assert (1000 * worst.low, 1000 * worst.high) == pytest.approx(clearance, abs=1e-6)


def test_layers_by_name_are_more_than_layers_by_caliper() -> None:
    """Common practice, no source: three sheets called 3/4 in are 2 1/4 in before play, two called 1/2 in are 1 in.
    Three that really are 23/32 in come to 2 5/32 in, 3/32 in short.
    """

    def total(inches: Fraction, sheets: int) -> float:
        layer = Layer("sheet", 25.4 * float(inches), 0, 0, sheets)
        return worst_case(layer.rate * layer.nominal, [layer]).high / 25.4

    assert total(Fraction(3, 4), 3) == 2.25
    assert total(Fraction(1, 2), 2) == 1
    assert total(Fraction(23, 32), 3) == pytest.approx(2 + 5 / 32)
    assert total(Fraction(3, 4), 3) - total(Fraction(23, 32), 3) == pytest.approx(3 / 32)


def test_a_sheet_that_lies_in_several_times_counts_once() -> None:
    """EN 315, 18 mm sanded: three plies of one sheet add thrice what it is off; three sheets may not all be off."""
    one = root_sum_square(54, [Layer("sheet", 18, 0.7, 0.7, 3)])
    three = root_sum_square(54, [Layer(name, 18, 0.7, 0.7) for name in "abc"])
    assert one.high - 54 == pytest.approx(2.1)
    assert three.high - 54 == pytest.approx(0.7 * math.sqrt(3))


def test_sheets_that_a_rise_takes() -> None:
    """rise = 171.45 mm - sheet, plus or minus 0.8, half of it kept for the making: 17.6 to 18.4 mm."""
    nominal = 171.45 - 18
    allowed = Range(nominal - 0.8, nominal + 0.8).kept(nominal, 0.5)
    takes = accepted(lambda sheet: 171.45 - sheet, 18, allowed)
    assert (takes.low, takes.high) == pytest.approx((17.6, 18.4), abs=1e-5)
    assert not takes.holds(Range(17.0, 17.0))
    assert 171.45 - 17.0 - nominal == pytest.approx(1.0)


def test_a_stack_that_does_not_work_as_drawn_takes_no_sheet_but_the_nominal() -> None:
    assert accepted(lambda sheet: sheet, 18, Range(10, 12)) == Range(18, 18)


def test_what_closes_a_stack_widens_what_may_come_in() -> None:
    assert Range(-0.8, 0.0).opened(Range(-0.5, 0.25)) == Range(-1.05, 0.5)
