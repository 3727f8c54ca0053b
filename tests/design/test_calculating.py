"""Calculators in formulas: checked by kind and by range, told in the words of their inputs."""

import math

import pytest

from planbook.measure import UNITS

from .contents import EUROPE
from .solving import HERE, design_of, fault, number

NEWTON = float(UNITS["N"].factor)


def test_a_calculator_is_a_function_of_formulas():
    push = number("ramp_push(load.lifted, ramp.slope, 0.1)", {"load.lifted": "180 N", "ramp.slope": "10 deg"})
    assert push == pytest.approx(180 * NEWTON * math.tan(math.radians(10) + math.atan(0.1)))


@pytest.mark.parametrize(
    ("formula", "code", "offset", "told"),
    [
        ("ramp_push(20 kg, 10 deg, 0.1)", "wrong-kind", 10, "`ramp_push` for W (load that is lifted) takes a force"),
        ("ramp_push(20 N, 10, 0.1)", "missing-unit", 16, "`10` needs a unit"),
        ("ramp_push(20 N, 10 deg)", "wrong-arguments", 0, "takes 3 arguments, 2 given"),
        (
            "ramp_push(20 N, 95 deg, 0.1)",
            "out-of-range",
            16,
            "α (slope) is 95 deg; the formula holds above 0 deg and below 90 deg",
        ),
        ("ramp_push(20 N, 10 deg, 0)", "out-of-range", 24, "coefficient of friction"),
        ("ramp_push(20 N, 80 deg, 0.5)", "out-of-range", 0, "it jams"),
        ("segment_gap(20 mm, 5.5)", "out-of-range", 19, "for whole numbers from 2 to 100"),
        ("bush_tilt(0 mm - 0.1 mm, 20 mm)", "out-of-range", 10, "clearance on the diameter"),
        ("crank_travel(60 mm, 40 mm, 90 deg)", "out-of-range", 0, "does not reach"),
        ("four_bar_angle(100 mm, 20 mm, 30 mm, 30 mm, 180 deg)", "out-of-range", 0, "does not close"),
    ],
)
def test_what_a_calculator_does_not_hold_for_is_told(formula, code, offset, told):
    finding = fault(formula)
    assert finding.code == code
    assert finding.place.column == HERE.column + offset
    assert told in finding.message
    assert finding.remedy


@pytest.mark.parametrize(
    ("formula", "told"),
    [
        ("tongue_step(5/32 in, 4 mm - 1/16 in)", "Here t = 3.96875 mm (0.1562 in), g = 2.4125 mm (0.09498 in)."),
        ("ramp_push(10 lbf, 80 deg, 0.5)", "Here W = 44.4822 N (10 lbf), α = 80 deg, μ = 0.5."),
        ("bush_tilt(0 mm - 0.1 mm, 20 mm)", "is -0.1 mm (-0.003937 in); the formula holds from 0 mm up only."),
        ("four_bar_angle(100 mm, 20 mm, 30 mm, 30 mm, 180 deg)", "span the 120 mm (4.724 in) between their far pins."),
    ],
)
def test_a_finding_that_stands_in_no_edition_gives_both_systems(formula, told):
    assert told in fault(formula).message


def test_a_parameter_worked_out_by_a_calculator_follows_its_inputs():
    design = design_of({"rise": "3 in", "run": "12 1/2 in", "slope": "ramp_slope(rise, run)"})
    assert design.market == EUROPE
    assert design.parameters["slope"].value.number == pytest.approx(13.4957, abs=1e-4)
    assert design.parameters["slope"].value.inputs == ("rise", "run")
