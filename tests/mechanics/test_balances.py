"""Calculators by a second way, continued: moments that cancel, work, integrals and derivatives taken in small steps."""

from __future__ import annotations

import math
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from planbook.measure.units import UNITS
from planbook.mechanics import CALCULATORS, OutOfRange

SIZES = st.floats(5, 500)
FORCES = st.floats(1, 1000)
ANGLES = st.floats(-80, 80)
STEP = 1e-4
"""Degrees."""


def work_out(name: str, *numbers: float) -> float:
    return CALCULATORS[name].compute(*numbers)


def slope_of(name: str, *numbers: float) -> float:
    """How much the result changes for a radian of the last input."""
    *others, last = numbers
    ahead, behind = (work_out(name, *others, last + way * STEP) for way in (1, -1))
    return (ahead - behind) / math.radians(2 * STEP)


def test_every_calculator_is_put_to_a_check() -> None:
    """Against a published value, or by a second way: its name stands in one of these files."""
    here = Path(__file__).parent
    checks = [*here.glob("test_*.py"), here.parent / "reference/mechanics.yaml"]
    told = "\n".join(file.read_text(encoding="utf-8") for file in checks if file.name != "test_handbook.py")
    assert [name for name in CALCULATORS if f'"{name}"' not in told and f"calculator: {name}\n" not in told] == []


@given(load=FORCES, rise=st.floats(1, 60), radius=SIZES, turned=st.floats(20, 180), friction=st.floats(1e-6, 0.3))
def test_a_ring_of_ramps_does_the_work_of_lifting_over_its_efficiency(
    load: float, rise: float, radius: float, turned: float, friction: float
) -> None:
    slope = work_out("arc_ramp_slope", rise, radius, turned)
    try:
        torque = work_out("arc_ramp_torque", load, slope, friction, radius)
    except OutOfRange:
        assert slope + work_out("friction_angle", friction) >= 90
        return
    efficiency = math.tan(math.radians(slope)) / math.tan(math.radians(slope + work_out("friction_angle", friction)))
    assert torque * math.radians(turned) * efficiency == pytest.approx(load * rise, rel=1e-6)


@given(rise=st.floats(1, 60), ramp=st.floats(20, 180), share=st.floats(0, 1.5), radius=SIZES)
def test_a_ramp_along_an_arc_lifts_by_its_slope_and_no_further(
    rise: float, ramp: float, share: float, radius: float
) -> None:
    way = work_out("arc_length", radius, ramp * min(share, 1))
    climbed = way * math.tan(math.radians(work_out("arc_ramp_slope", rise, radius, ramp)))
    assert work_out("arc_ramp_lift", rise, ramp, ramp * share) == pytest.approx(climbed)


@given(guide=SIZES, reach=SIZES, friction=st.floats(0.02, 0.6), load=FORCES)
def test_at_the_steepest_slope_rubbing_in_the_guide_takes_all_of_the_lift(
    guide: float, reach: float, friction: float, load: float
) -> None:
    """The ramp lifts with W and pushes aside with W tan(slope), at `reach` past one end of the guide."""
    aside = load * math.tan(math.radians(work_out("steepest_for_guide", guide, reach, friction)))
    far = aside * reach / guide
    near = aside + far
    assert friction * (near + far) == pytest.approx(load)


@given(effort_arm=SIZES, load_arm=SIZES, load=FORCES)
def test_a_lever_multiplies_by_its_ratio(effort_arm: float, load_arm: float, load: float) -> None:
    ratio = work_out("lever_ratio", effort_arm, load_arm)
    assert work_out("lever_effort", load, effort_arm, load_arm) * ratio == pytest.approx(load)


@given(arm=SIZES, angle=ANGLES)
def test_a_pin_in_a_cross_slot_pushes_by_its_pressure_angle(arm: float, angle: float) -> None:
    """Of the way that the pin goes, the slide goes the cosine of the angle between the two."""
    share = slope_of("slot_travel", arm, 0.0, angle) / arm
    assert share == pytest.approx(math.cos(math.radians(work_out("slot_pressure_angle", angle))), abs=1e-6)


@given(tongue=st.floats(3, 12), play=st.floats(0, 1))
def test_edges_step_by_all_of_the_play_where_tongues_lie_on_opposite_sides(tongue: float, play: float) -> None:
    lifted, lowered = play / 2, -play / 2
    assert work_out("tongue_step", tongue, tongue + play) == pytest.approx(lifted - lowered, abs=1e-12)
    with pytest.raises(OutOfRange):
        work_out("tongue_step", tongue, tongue - 0.1)


@given(arm=SIZES, start=ANGLES, end=ANGLES)
def test_a_point_of_a_lever_stays_on_its_circle(arm: float, start: float, end: float) -> None:
    """Rise and shift lead from one place on the circle to the other."""
    up, back = (work_out(name, arm, start, end) for name in ("lever_lift", "lever_shift"))
    x, z = arm * math.cos(math.radians(start)) - back, arm * math.sin(math.radians(start)) + up
    assert math.hypot(x, z) == pytest.approx(arm)
    assert math.degrees(math.atan2(z, x)) == pytest.approx(end, abs=1e-6)


@given(offset=SIZES, angle=ANGLES)
def test_a_plate_on_a_lever_is_on_its_line(offset: float, angle: float) -> None:
    height = work_out("lever_under_plate", offset, angle)
    assert math.degrees(math.atan2(height, offset)) == pytest.approx(angle, abs=1e-9)


@given(weight=FORCES, depth=SIZES, angle=st.floats(0, 89))
def test_a_lid_takes_as_much_torque_as_its_height_grows(weight: float, depth: float, angle: float) -> None:
    """The derivative of weight by height of its middle."""
    ahead, behind = (weight * depth / 2 * math.sin(math.radians(angle + way * STEP)) for way in (1, -1))
    growth = (ahead - behind) / math.radians(2 * STEP)
    assert work_out("lid_torque", weight, depth, angle) == pytest.approx(growth, rel=1e-5, abs=1e-5 * weight * depth)


@given(load=FORCES, load_arm=SIZES, weight_arm=SIZES)
def test_a_counterweight_leaves_no_moment(load: float, load_arm: float, weight_arm: float) -> None:
    weight = work_out("counterweight", load, load_arm, weight_arm)
    assert weight * weight_arm - load * load_arm == pytest.approx(0, abs=1e-9 * load * load_arm)


@given(lead=SIZES, turned=st.floats(10, 350))
def test_a_spiral_leans_as_it_climbs(lead: float, turned: float) -> None:
    """Its pressure angle is the climb for a way along the circle."""
    radius = work_out("spiral_travel", lead, turned)
    climb = slope_of("spiral_travel", lead, turned) / radius
    assert math.tan(math.radians(work_out("spiral_pressure_angle", lead, radius))) == pytest.approx(climb, rel=1e-6)


@given(ground=SIZES, crank=SIZES, coupler=SIZES, rocker=SIZES, turned=st.floats(1, 359))
def test_coupler_and_rocker_meet_at_the_angle_of_transmission(
    ground: float, crank: float, coupler: float, rocker: float, turned: float
) -> None:
    """Taken from the places of the pins."""
    try:
        angle = math.radians(work_out("four_bar_angle", ground, crank, coupler, rocker, turned))
    except OutOfRange:
        return
    first = crank * np.array([math.cos(math.radians(turned)), math.sin(math.radians(turned))])
    along = rocker * np.array([math.cos(angle), math.sin(angle)])
    across = np.array([ground, 0]) + along - first
    between = abs(float(along @ across)) / (rocker * float(np.linalg.norm(across)))
    transmission = work_out("four_bar_transmission", ground, crank, coupler, rocker, turned)
    assert math.cos(math.radians(transmission)) == pytest.approx(between, abs=1e-6)


@given(rate=st.floats(0.1, 50), pressed=SIZES)
def test_a_spring_gives_back_half_of_rate_by_way_squared(rate: float, pressed: float) -> None:
    ways = np.linspace(0, pressed, 1001)
    work = np.trapezoid([work_out("spring_force", rate, way) for way in ways], ways)
    assert work == pytest.approx(rate * pressed**2 / 2)


@given(spring=FORCES, slope=st.floats(1, 50), friction=st.floats(0.01, 0.4))
def test_a_detent_lets_go_where_forces_on_its_roller_balance(spring: float, slope: float, friction: float) -> None:
    """Push, spring, normal force and rubbing add to nothing, along and across the notch's side."""
    push, a = work_out("detent_release", spring, slope, friction), math.radians(slope)
    normal = push * math.sin(a) + spring * math.cos(a)
    assert push * math.cos(a) - spring * math.sin(a) == pytest.approx(friction * normal)


@given(clearance=st.floats(0.01, 2), guide=SIZES, reach=SIZES)
def test_a_point_sways_as_far_as_the_shaft_leans(clearance: float, guide: float, reach: float) -> None:
    lean = work_out("bush_tilt", clearance, guide)
    assert work_out("bush_sway", clearance, guide, reach) == pytest.approx(reach * math.tan(math.radians(lean)))
    # Leaning so far, the shaft just touches the bush at both of its ends.
    assert guide * math.tan(math.radians(lean)) == pytest.approx(clearance)


@given(force=FORCES, span=SIZES, width=SIZES, thickness=st.floats(5, 60))
def test_stresses_over_the_section_add_to_the_moment(force: float, span: float, width: float, thickness: float) -> None:
    moment = work_out("cantilever_moment_end", force, span)
    edge = work_out("bending_stress", moment, work_out("rectangle_section", width, thickness))
    places = np.linspace(-thickness / 2, thickness / 2, 2001)
    stresses = edge * places / (thickness / 2)
    assert np.trapezoid(stresses * places * width, places) == pytest.approx(moment, rel=1e-5)
    # The same moment by how much the free end sags: f = M L^2 / (3 E I).
    inertia = work_out("rectangle_inertia", width, thickness)
    assert work_out("cantilever_sag_end", force, span, 11.0, inertia) == pytest.approx(
        moment * span**2 / (3 * 11 * inertia)
    )


def test_unseasoned_wood_sags_twice_as_far_after_years() -> None:
    """National Design Specification for Wood Construction, 3.5.2."""
    assert work_out("creep", 1.5, 2.0) == 3.0


@given(force=FORCES, radius=st.floats(4, 40), width=st.floats(3, 30), floor=st.floats(300, 2000))
def test_a_roller_presses_as_hertz_says(force: float, radius: float, width: float, floor: float) -> None:
    """Greatest pressure 2 P / (pi a b) over a contact of half width a = sqrt(4 P r / (pi b E*)), as NAFEMS's benchmark
    of a cylinder on a block has it (quoted in JuliaFEM's example). A rigid roller: 1 / E* = (1 - 0.3^2) / E of the
    floor.
    """
    rigid = floor / (1 - 0.3**2)
    half = math.sqrt(4 * force * radius / (math.pi * width * rigid))
    wanted = 2 * force / (math.pi * half * width)
    assert work_out("roller_pressure", force, radius, width, 2 * floor) == pytest.approx(wanted, rel=1e-3)


@given(force=FORCES, width=st.floats(3, 20), length=SIZES)
def test_a_pin_presses_on_its_shadow(force: float, width: float, length: float) -> None:
    assert work_out("bearing_pressure", force, width, length) * width * length == pytest.approx(force)


@given(first=FORCES, at=st.floats(-500, 500), second=FORCES, other=st.floats(-500, 500))
def test_two_masses_leave_no_moment_about_their_centre(first: float, at: float, second: float, other: float) -> None:
    centre = work_out("centre_of_two", first, at, second, other)
    assert first * (at - centre) + second * (other - centre) == pytest.approx(0, abs=1e-6)


@given(weight=FORCES, inside=SIZES, outside=SIZES, height=SIZES)
def test_a_piece_tips_where_moments_about_its_edge_are_equal(
    weight: float, inside: float, outside: float, height: float
) -> None:
    assert work_out("tip_load", weight, inside, outside) * outside == pytest.approx(weight * inside)
    assert work_out("tip_pull", weight, inside, height) * height == pytest.approx(weight * inside)
    # On a floor of that slope the centre of gravity stands just over the edge.
    lean = math.atan(work_out("tip_angle_share", inside, height))
    assert inside * math.cos(lean) - height * math.sin(lean) == pytest.approx(0, abs=1e-9 * (inside + height))


def test_screws_hold_as_the_handbook_says_in_inches() -> None:
    """Wood Handbook: p = 15,700 G^2 D L for wood screws (read) and 8,100 G^1.5 D^0.75 L for lag screws (read),
    in pounds and inches, the same formulas in the units of its older editions.
    """
    inch, pound = float(UNITS["in"].factor), float(UNITS["lbf"].factor)
    for gravity, diameter, depth in ((0.5, 0.164, 1.0), (0.63, 0.25, 1.5), (0.42, 0.19, 0.75)):
        wood = work_out("screw_withdrawal", gravity, diameter * inch, depth * inch) / pound
        assert wood == pytest.approx(15_700 * gravity**2 * diameter * depth, rel=1e-3)
        lag = work_out("lag_withdrawal", gravity, diameter * inch, depth * inch) / pound
        assert lag == pytest.approx(8_100 * gravity**1.5 * diameter**0.75 * depth, rel=1e-3)
