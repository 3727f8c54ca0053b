"""Lateral load of fasteners: published examples and tables, the work of each mechanism, what grows with what."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from planbook.measure.units import UNITS
from planbook.mechanics import CALCULATORS

IN, LBF, MM, MPA = (float(UNITS[unit].factor) for unit in ("in", "lbf", "mm", "MPa"))
PSI = LBF / IN**2
SIX = ("I (main member)", "I (side member)", "II", "III (main member)", "III (side member)", "IV")


def ways(name: str, *inputs: float) -> dict[str, float]:
    calculator = CALCULATORS[name]
    assert calculator.ways is not None
    return {way.name: way.value for way in calculator.ways(*inputs)}


def pounds(main: float, main_length: float, side: float, side_length: float, diameter: float, bending: float) -> tuple:
    """In psi and inches, without a gap."""
    return main * PSI, main_length * IN, side * PSI, side_length * IN, diameter * IN, bending * PSI, 0.0


# AWC Technical Report 12 (2015), example 3.1, as quoted in public code: a 1/2 in bolt, Fyb = 45,000 psi, two members of
# 1 1/2 in, Fe = 4,800 psi along and 2,550 psi across the grain; reference values of all six modes in whole pounds.
EXAMPLE = [
    (4800, 4800, 0.0, [900, 900, 414, 550, 550, 663]),
    (4800, 2550, 0.0, [720, 383, 250, 380, 324, 442]),
    (2550, 2550, 0.0, [383, 383, 176, 289, 289, 387]),
    (4800, 4800, 0.25, [900, 900, 370, 482, 482, 576]),
    (4800, 2550, 0.25, [720, 383, 224, 341, 284, 393]),
    (2550, 2550, 0.25, [383, 383, 157, 258, 258, 349]),
    (4800, 4800, 0.5, [900, 900, 333, 426, 426, 501]),
    (4800, 2550, 0.5, [720, 383, 202, 307, 250, 350]),
    (2550, 2550, 0.5, [383, 383, 142, 231, 231, 315]),
]


@pytest.mark.parametrize(("main", "side", "gap", "published"), EXAMPLE)
def test_the_published_example_of_a_bolted_joint_with_a_gap(
    main: int, side: int, gap: float, published: list[int]
) -> None:
    *joint, _ = pounds(main, 1.5, side, 1.5, 0.5, 45_000)
    angle = 0.0 if main == side == 4800 else 90.0
    told = ways("single_shear_value", *joint, gap * IN, angle)
    assert tuple(told) == SIX
    assert [value / LBF for value in told.values()] == pytest.approx(published, abs=0.51)


# NDS 2018, as quoted in public code: bearing strengths as in table 12.3.3, values of tables 12A (two members bolted),
# 12J (lag screws), 12L (wood screws) and 12N (common nails, penetration of ten diameters); tables 12A and 12J are
# rounded to 10 lb. Douglas fir, G = 0.50.
TABLES = [
    ("12A, along", pounds(5600, 1.5, 5600, 1.5, 0.5, 45_000), 0, 480, 5),
    ("12A, side across", pounds(5600, 1.5, 3150, 1.5, 0.5, 45_000), 90, 300, 5),
    ("12A, across", pounds(3150, 1.5, 3150, 1.5, 0.5, 45_000), 90, 220, 5),
    ("12E, half an inch in concrete", pounds(7500, 6, 5600, 1.5, 0.5, 45_000), 0, 650, 5),
    ("12E, five eighths", pounds(7500, 6, 5600, 1.5, 0.625, 45_000), 0, 930, 5),
    ("12J, along", pounds(5600, 2, 5600, 0.5, 0.173, 70_000), 0, 120, 5),
    ("12J, across", pounds(4450, 2, 4450, 0.5, 0.173, 70_000), 90, 80, 5),
    ("12L, number 10", pounds(4650, 1.71, 4650, 0.5, 0.152, 80_000), 0, 90, 0.5),
    ("12N, 6d", pounds(4650, 1.017, 4650, 0.75, 0.113, 100_000), 0, 72, 0.5),
    ("12N, 8d", pounds(4650, 1.179, 4650, 0.75, 0.131, 100_000), 0, 90, 0.5),
    ("12N, 10d", pounds(4650, 1.332, 4650, 0.75, 0.148, 90_000), 0, 105, 0.5),
    ("12N, 16d", pounds(4650, 1.458, 4650, 0.75, 0.162, 90_000), 0, 121, 0.5),
    ("12N, 8d, side of 1 in", pounds(4650, 1.179, 4650, 1.0, 0.131, 100_000), 0, 97, 0.5),
    ("12N, 16d, side of 1 in", pounds(4650, 1.458, 4650, 1.0, 0.162, 90_000), 0, 141, 0.5),
]


@pytest.mark.parametrize(
    ("joint", "angle", "published", "within"), [row[1:] for row in TABLES], ids=[r[0] for r in TABLES]
)
def test_published_tables_of_two_members(joint: tuple, angle: float, published: float, within: float) -> None:
    value = CALCULATORS["single_shear_value"].compute(*joint, angle)
    assert value / LBF == pytest.approx(published, abs=within)


def test_the_published_table_of_three_members() -> None:
    """NDS table 12F, as quoted in public code: 1/2 in bolt, 1 1/2 in each, Douglas fir along the grain: 1,050 lb."""
    value = CALCULATORS["double_shear_value"].compute(*pounds(5600, 1.5, 5600, 1.5, 0.5, 45_000), 0.0)
    assert value / LBF == pytest.approx(1050, abs=5)


@pytest.mark.parametrize(
    ("gravity", "diameter", "angle", "published"),
    [(0.5, 0.5, 0, 5600), (0.5, 0.5, 90, 3150), (0.5, 0.25, 90, 4450), (0.5, 0.19, 45, 4650), (0.43, 0.5, 90, 2550)],
)
def test_bearing_strengths_as_the_table_rounds_them(
    gravity: float, diameter: float, angle: float, published: int
) -> None:
    """NDS 2018 table 12.3.3 is rounded to 50 psi."""
    strength = CALCULATORS["dowel_bearing"].compute(gravity, diameter * IN, angle)
    assert strength / PSI == pytest.approx(published, abs=25)


BEARINGS = st.floats(8, 80).map(lambda value: value * MPA)
LENGTHS = st.floats(4, 120).map(lambda value: value * MM)
DIAMETERS = st.floats(2, 25).map(lambda value: value * MM)
BENDINGS = st.floats(150, 900).map(lambda value: value * MPA)
GAPS = st.floats(0, 60).map(lambda value: value * MM)
JOINTS = st.tuples(BEARINGS, LENGTHS, BEARINGS, LENGTHS, DIAMETERS, BENDINGS, GAPS)


def least_work(joint: tuple[float, ...], even: bool) -> float:
    """The least load that drives any mechanism, by its work: an upper bound that the least mechanism reaches.

    The members part by 1. Between the points where the fastener stands still in the main and in the side member it is a
    straight line, `a` and `b` beyond the faces. Past such a point it leans on, crushing wood the other way, or a hinge
    there leaves the rest at peace. In an even joint of three members, per face, the main one has its half of the hole,
    and a hinge.
    """
    main, main_length, side, side_length, diameter, bending, gap = joint
    main, side, moment = main * diameter, side * diameter, bending * diameter**3 / 6
    main_length = main_length / 2 if even else main_length
    steps = np.linspace(0.001, 1, 500) ** 2
    a, b = main_length * steps[:, None], side_length * steps[None, :]
    hinged_main, hinged_side = main * a**2 / 2 + moment, side * b**2 / 2 + moment
    leaning_main = main * (a**2 + (main_length - a) ** 2) / 2
    leaning_side = side * (b**2 + (side_length - b) ** 2) / 2
    works = [hinged_main + hinged_side, hinged_main + leaning_side]
    works += [] if even else [leaning_main + hinged_side, leaning_main + leaning_side]
    least = min(float((work / (a + b + gap)).min()) for work in works)
    return min(least, main * main_length, side * side_length) * (2 if even else 1)


@given(JOINTS)
def test_two_members_yield_under_the_least_load_that_does_the_work_of_a_mechanism(joint: tuple[float, ...]) -> None:
    told = CALCULATORS["single_shear_yield"].compute(*joint)
    assert told == pytest.approx(least_work(joint, even=False), rel=2e-3)


@given(JOINTS)
def test_three_members_yield_under_the_least_load_that_does_the_work_of_a_mechanism(joint: tuple[float, ...]) -> None:
    told = CALCULATORS["double_shear_yield"].compute(*joint)
    assert told == pytest.approx(least_work(joint, even=True), rel=2e-3)


@given(JOINTS, st.integers(0, 6), st.floats(1.01, 3))
def test_more_of_anything_but_the_gap_bears_more(joint: tuple[float, ...], which: int, times: float) -> None:
    more = tuple(value * times if at == which else value for at, value in enumerate(joint))
    for name in ("single_shear_yield", "double_shear_yield"):
        before, after = CALCULATORS[name].compute(*joint), CALCULATORS[name].compute(*more)
        least, most = sorted((before, after), reverse=which == 6)
        assert (before, after) == (least, most)
    if which == 6 and joint[6] > MM:
        assert ways("single_shear_yield", *more)["II"] < ways("single_shear_yield", *joint)["II"]


@given(JOINTS)
def test_two_members_may_change_their_names(joint: tuple[float, ...]) -> None:
    main, main_length, side, side_length, *rest = joint
    turned = (side, side_length, main, main_length, *rest)
    assert ways("single_shear_yield", *turned)["II"] == pytest.approx(ways("single_shear_yield", *joint)["II"])
    compute = CALCULATORS["single_shear_yield"].compute
    assert compute(*turned) == pytest.approx(compute(*joint))


@given(JOINTS, st.floats(0, 90), st.floats(0, 90))
def test_a_value_to_design_with_is_a_share_of_the_yield_load_and_falls_with_the_angle(
    joint: tuple[float, ...], one: float, other: float
) -> None:
    for kind in ("single_shear", "double_shear"):
        flat, steep = (CALCULATORS[f"{kind}_value"].compute(*joint, angle) for angle in sorted((one, other)))
        assert steep <= flat
        share = CALCULATORS[f"{kind}_yield"].compute(*joint) / steep
        assert 2.2 - 1e-9 <= share <= 5 + 1e-9


@given(st.floats(0.3, 0.75), st.floats(6.35, 25.4), st.floats(0, 90))
def test_bearing_strength_between_along_and_across_is_hankinsons(gravity: float, diameter: float, angle: float) -> None:
    """The inverse strengths share as the squares of cosine and sine."""
    bearing = CALCULATORS["dowel_bearing"].compute
    along, across, slant = (bearing(gravity, diameter * MM, at) for at in (0.0, 90.0, angle))
    turned = math.radians(angle)
    assert 1 / slant == pytest.approx(math.cos(turned) ** 2 / along + math.sin(turned) ** 2 / across)
