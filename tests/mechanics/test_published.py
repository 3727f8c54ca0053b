"""Calculators against published values and worked examples; the source stands with each value in the reference file."""

from __future__ import annotations

import math
from pathlib import Path
from typing import Any

import pytest
from ruamel.yaml import YAML

from planbook.measure.units import UNITS
from planbook.mechanics import CALCULATORS

_FILE = Path(__file__).parents[1] / "reference" / "mechanics.yaml"
VALUES: list[dict[str, Any]] = YAML(typ="safe").load(_FILE)


def base(given: object) -> float:
    """A number, or a number with its unit: `300 mm`, `8000 MPa`, `0.245 N/mm`."""
    number, _, unit = str(given).partition(" ")
    value = float(number)
    over, _, under = unit.partition("/")
    for sign, way in ((over, 1), (under, -1)):
        if sign:
            name, _, power = sign.partition("^")
            value *= float(UNITS[name].factor) ** (way * int(power or 1))
    return value


@pytest.mark.parametrize("case", VALUES, ids=[case["id"] for case in VALUES])
def test_a_published_value(case: dict[str, Any]) -> None:
    worked_out = CALCULATORS[case["calculator"]].compute(*map(base, case["given"]))
    expected, unit = base(case["is"]), str(case["is"]).partition(" ")[2]
    assert abs(worked_out - expected) <= case["within"] * (expected / float(str(case["is"]).split()[0]) if unit else 1)


def test_every_case_names_its_source() -> None:
    assert all(case["source"] and case["confidence"] in {"read", "memory", "arithmetic"} for case in VALUES)


def test_a_level_push_is_not_the_sum_of_slope_and_friction() -> None:
    """A web page gives W (tan slope + friction) for a level push: wrong."""
    push = CALCULATORS["ramp_push"].compute(100.0, 10.0, 0.3)
    assert push > 100 * (math.tan(math.radians(10)) + 0.3) + 2
