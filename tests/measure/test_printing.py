"""What a builder reads, and that `value` is what the text states."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planbook.measure import (
    INCH,
    MILLIMETRE,
    UNITS,
    Precision,
    Quantity,
    Units,
    print_calculated,
    print_quantity,
    printed_diameter,
    snap,
)
from planbook.measure.dimensionality import (
    ANGLE,
    DENSITY,
    FORCE,
    LENGTH,
    MASS,
    PRESSURE,
    SCALAR,
    TIME,
    TORQUE,
    Dimensionality,
)

from .reference import published

WOODWORK, CALIPER = Precision.WOODWORK, Precision.CALIPER
lengths = st.floats(-3e9, 3e9)


def inch(count, precision=WOODWORK):
    return print_quantity(Quantity(count * INCH, LENGTH), Units.INCH, precision)


def millimetre(count, precision=WOODWORK):
    return print_quantity(Quantity(count * MILLIMETRE, LENGTH), Units.MILLIMETRE, precision)


def read(text):
    """A printed number as a person reads it."""
    sign, text = (-1, text[1:]) if text.startswith("−") else (1, text)
    return sign * sum((Fraction(part) for part in text.split()), Fraction(0))


@pytest.mark.parametrize("fraction", published("sixty_fourths")["table"])
def test_every_sixty_fourth_prints_as_itself(fraction):
    decimal, millimetres = published("sixty_fourths")["table"][fraction]
    printed = inch(decimal)
    assert (printed.text, printed.unit) == (fraction, "in")
    assert printed.value / MILLIMETRE == pytest.approx(millimetres, abs=6e-5)


@pytest.mark.parametrize("millimetres", ["19", "12", "3"])
def test_the_fraction_nearest_to_a_metric_thickness(millimetres):
    # 610 mm is nearest to 24 1/64, which woodwork does not print unless it is exact
    fraction = published("nearest_sixty_fourth")["table"][millimetres]
    assert inch(Fraction(millimetres) / Fraction("25.4")).text == fraction


@pytest.mark.parametrize(
    ("count", "precision", "full"),
    [
        (23.625, WOODWORK, "23 5/8 in [600 mm]"),
        (23.63, WOODWORK, "23 5/8 in [600 mm]"),
        (3, WOODWORK, "3 in [76 mm]"),
        (1 / 64, WOODWORK, "1/64 in [0.4 mm]"),
        (1 + 1 / 64, WOODWORK, "1 1/64 in [26 mm]"),
        (1.017, WOODWORK, "1 1/32 in [26 mm]"),
        (0, WOODWORK, "0 in [0 mm]"),
        (-1 / 32, WOODWORK, "−1/32 in [−0.8 mm]"),
        (0.515, CALIPER, ".515 in [13.1 mm]"),
        (0.5123, CALIPER, ".510 in [13 mm]"),
        (1.454, CALIPER, "1.454 in [36.9 mm]"),
        (-0.010, CALIPER, "−.010 in [−0.3 mm]"),
        (0.004, CALIPER, ".004 in [0.1 mm]"),
        (3, CALIPER, "3.000 in [76.2 mm]"),
        (0, CALIPER, "0 in [0 mm]"),
    ],
)
def test_inches(count, precision, full):
    assert inch(count, precision).full == full


@pytest.mark.parametrize(
    ("count", "precision", "full"),
    [
        (600, WOODWORK, "600 mm [23 5/8 in]"),
        (501.5, WOODWORK, "501.5 mm [19 3/4 in]"),
        (76.3, WOODWORK, "76.5 mm [3 in]"),
        (12.25, WOODWORK, "12 mm [15/32 in]"),
        (0.5, WOODWORK, "0.5 mm [.020 in]"),
        (1.5, WOODWORK, "1.5 mm [1/16 in]"),
        (12.75, WOODWORK, "13 mm [1/2 in]"),
        (12.2, CALIPER, "12.2 mm [15/32 in]"),
        (38.84, CALIPER, "38.8 mm [1 17/32 in]"),
        (-0.2, CALIPER, "−0.2 mm [−.008 in]"),
    ],
)
def test_millimetres(count, precision, full):
    assert millimetre(count, precision).full == full


def test_a_clearance_under_the_floor_does_not_vanish():
    assert millimetre(0.1).text == "0.1"
    assert inch(0.004).text == ".004"
    assert inch(0.0011, CALIPER).text == ".001"


def test_on_a_drawing_the_unit_is_left_to_the_note():
    assert inch(23.625).bare == "23 5/8 [600]"


@given(lengths, st.sampled_from(Units), st.sampled_from(Precision))
def test_value_is_what_the_text_states(nm, units, precision):
    printed = print_quantity(Quantity(nm, LENGTH), units, precision)
    unit = INCH if units is Units.INCH else MILLIMETRE
    assert snap(printed.value) == snap(float(read(printed.text) * Fraction(unit)))


@given(lengths, st.sampled_from(Precision))
def test_text_is_within_half_a_step_of_the_measure(nm, precision):
    step = {WOODWORK: INCH / 32, CALIPER: INCH / 200}[precision]
    assert abs(print_quantity(Quantity(nm, LENGTH), Units.INCH, precision).value - nm) <= step / 2 + 1e-3


@given(lengths)
def test_woodwork_inches_have_no_finer_denominator_than_64(nm):
    text = print_quantity(Quantity(nm, LENGTH), Units.INCH, WOODWORK).text
    if "/" in text:
        assert int(text.rpartition("/")[2]) in {2, 4, 8, 16, 32, 64}


@given(lengths, st.sampled_from(Units), st.sampled_from(Precision))
def test_the_negative_prints_alike_with_a_minus(nm, units, precision):
    plus, minus = (print_quantity(Quantity(value, LENGTH), units, precision) for value in (abs(nm), -abs(nm)))
    assert minus.text in {f"−{plus.text}", "0"}
    assert minus.value == -plus.value


@pytest.mark.parametrize(
    ("value", "kind", "inches", "millimetres"),
    [
        (52.4e9, FORCE, "11.8 lbf [52.4 N]", "52.4 N [11.8 lbf]"),
        (15, MASS, "33.1 lb [15 kg]", "15 kg [33.1 lb]"),
        (9.52e-3, PRESSURE, "1380 psi [9.52 MPa]", "9.52 MPa [1380 psi]"),
        (10e18, TORQUE, "7.38 lbf·ft [10 N·m]", "10 N·m [7.38 lbf·ft]"),
        (700e-27, DENSITY, "43.7 lb/ft³ [700 kg/m³]", "700 kg/m³ [43.7 lb/ft³]"),
        (13.52, ANGLE, "13.5°", "13.5°"),
        (-7.5, ANGLE, "−7.5°", "−7.5°"),
        (0.1, ANGLE, "0.1°", "0.1°"),
        (0.152, SCALAR, "0.152", "0.152"),
        (1200, SCALAR, "1200", "1200"),
        (123456, SCALAR, "123456", "123456"),
        (2.5, TIME, "2.5 s", "2.5 s"),
        (0, FORCE, "0 lbf [0 N]", "0 N [0 lbf]"),
        (1.5, Dimensionality(mass=1, time=-1), "1.5 kg/s", "1.5 kg/s"),
        (9.80665e9, Dimensionality(length=1, time=-2), "32.2 ft/s² [9.81 m/s²]", "9.81 m/s² [32.2 ft/s²]"),
        (245e3, Dimensionality(mass=1, time=-2), "1400 lbf/in [245 N/mm]", "245 N/mm [1400 lbf/in]"),
    ],
)
def test_other_quantities(value, kind, inches, millimetres):
    assert print_quantity(Quantity(value, kind), Units.INCH, WOODWORK).full == inches
    assert print_quantity(Quantity(value, kind), Units.MILLIMETRE, WOODWORK).full == millimetres


def test_a_figure_that_no_tool_is_set_to_keeps_three_digits():
    sag = Quantity(0.15341e6, LENGTH)
    assert print_calculated(sag, Units.MILLIMETRE).full == "0.153 mm [.00604 in]"
    assert print_calculated(sag, Units.INCH).full == ".00604 in [0.153 mm]"
    assert print_calculated(Quantity(600e6, LENGTH), Units.MILLIMETRE).full == "600 mm [23 5/8 in]"
    assert print_calculated(Quantity(18e6, LENGTH), Units.INCH).full == ".709 in [18 mm]"


@pytest.mark.parametrize(
    ("degrees", "text"),
    [(0.28648, "0.286°"), (7.125, "7.12°"), (12.531, "12.5°"), (57.2958, "57.3°"), (90, "90°"), (161.93, "161.9°"),
     (-10, "−10°"), (0, "0°")],
)  # fmt: skip
def test_a_calculated_angle_is_told_more_finely_than_one_that_a_tool_is_set_to(degrees, text):
    assert print_calculated(Quantity(degrees, ANGLE), Units.INCH).full == text


@given(st.floats(0.01, 1e6))
def test_a_force_is_stated_to_three_digits(newtons):
    printed = print_quantity(Quantity(newtons * float(UNITS["N"].factor), FORCE), Units.MILLIMETRE, WOODWORK)
    assert printed.value == pytest.approx(newtons * 1e9, rel=5.1e-3)
    assert printed.value == pytest.approx(float(printed.text) * 1e9)


INCH_DRILLS = [INCH * count / 64 for count in range(4, 65)]
METRIC_DRILLS = [MILLIMETRE * count / 10 for count in range(10, 131)]


@pytest.mark.parametrize("units", list(Units))
def test_a_drill_keeps_the_name_by_which_it_is_sold(units):
    assert printed_diameter(INCH * 9 / 32, units, INCH_DRILLS).full == "9/32 in [7 mm]"
    assert printed_diameter(INCH / 2, units, INCH_DRILLS).full == "1/2 in [12.5 mm]"
    assert printed_diameter(6.6 * MILLIMETRE, units, METRIC_DRILLS).full == "6.6 mm [1/4 in]"
    assert printed_diameter(12.7 * MILLIMETRE, units, METRIC_DRILLS).full == "12.7 mm [1/2 in]"


def test_a_diameter_that_no_drill_has_is_printed_in_the_editions_unit():
    assert printed_diameter(38 * MILLIMETRE, Units.MILLIMETRE, METRIC_DRILLS).text == "38"
    assert printed_diameter(20.3 * MILLIMETRE, Units.MILLIMETRE, METRIC_DRILLS).text == "20.3"
    assert printed_diameter(INCH * 0.515, Units.INCH, INCH_DRILLS).text == ".515"
    assert printed_diameter(INCH * 1.5, Units.INCH, []).text == "1 1/2"
