"""Calculators by a second way: work, numerical integration, closed loops, derivatives."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from planbook.measure.units import UNITS
from planbook.mechanics import CALCULATORS, OutOfRange

MM = float(UNITS["mm"].factor)
N = float(UNITS["N"].factor)


def work_out(name: str, *numbers: float) -> float:
    return CALCULATORS[name].compute(*numbers)


SIZES = st.floats(5, 500)
SLOPES = st.floats(1, 60)
FRICTIONS = st.floats(0.01, 0.6)


@given(load=st.floats(1, 1000), slope=SLOPES, friction=FRICTIONS)
def test_a_push_on_a_ramp_balances_the_forces(load: float, slope: float, friction: float) -> None:
    """Along and across the slope: push, weight, normal force and rubbing add to nothing."""
    assume(slope + math.degrees(math.atan(friction)) < 85)
    push = work_out("ramp_push", load, slope, friction)
    a = math.radians(slope)
    normal = load * math.cos(a) + push * math.sin(a)
    assert push * math.cos(a) == pytest.approx(load * math.sin(a) + friction * normal)


@given(slope=SLOPES, friction=FRICTIONS)
def test_a_ramp_holds_by_itself_exactly_up_to_the_angle_of_friction(slope: float, friction: float) -> None:
    hold = work_out("ramp_hold", 100.0, slope, friction)
    assert (hold <= 0) == (slope <= work_out("friction_angle", friction))


def test_a_ramp_that_jams_is_refused() -> None:
    with pytest.raises(OutOfRange, match="jams"):
        work_out("ramp_push", 100.0, 80.0, 0.3)


@given(rise=st.floats(5, 60), radius=st.floats(30, 400), turned=st.floats(10, 170))
def test_a_ramp_along_an_arc_is_a_straight_one_unrolled(rise: float, radius: float, turned: float) -> None:
    arc = work_out("arc_length", radius, turned)
    assert work_out("arc_ramp_slope", rise, radius, turned) == pytest.approx(work_out("ramp_slope", rise, arc))
    points = np.linspace(0, math.radians(turned), 2001)
    path = np.stack([radius * np.cos(points), radius * np.sin(points)], axis=1)
    assert np.linalg.norm(np.diff(path, axis=0), axis=1).sum() == pytest.approx(arc, rel=1e-6)


def test_half_the_radius_and_twice_the_lift_is_more_than_four_times_as_steep() -> None:
    """Common practice, no source: such a ramp is too steep to climb."""
    easy = math.tan(math.radians(work_out("arc_ramp_slope", 25 * MM, 100 * MM, 114.6)))
    steep = math.tan(math.radians(work_out("arc_ramp_slope", 50 * MM, 48 * MM, 114.6)))
    assert steep > 4 * easy


@given(crank=SIZES, more=st.floats(1.05, 8), turned=st.floats(0, 180))
def test_a_crank_closes_and_its_speed_is_the_slope_of_its_travel(crank: float, more: float, turned: float) -> None:
    rod = crank * more
    travel = work_out("crank_travel", crank, rod, turned)
    pin = np.array([-crank * math.cos(math.radians(turned)), -crank * math.sin(math.radians(turned))])
    slide = np.array([-(crank + rod) + travel, 0.0])
    assert np.linalg.norm(pin - slide) == pytest.approx(rod, rel=1e-9)
    step = 1e-4
    ahead, behind = (work_out("crank_travel", crank, rod, turned + way * step) for way in (1, -1))
    measured = (ahead - behind) / math.radians(2 * step)
    assert work_out("crank_speed", crank, rod, turned) == pytest.approx(measured, rel=1e-4, abs=1e-4 * crank)
    angle = math.radians(work_out("crank_pressure_angle", crank, rod, turned))
    assert rod * math.sin(angle) == pytest.approx(-pin[1], abs=1e-6)


@given(ground=SIZES, crank=SIZES, coupler=SIZES, rocker=SIZES, turned=st.floats(1, 359))
def test_a_four_bar_linkage_closes(ground: float, crank: float, coupler: float, rocker: float, turned: float) -> None:
    try:
        angle = work_out("four_bar_angle", ground, crank, coupler, rocker, turned)
    except OutOfRange:
        diagonal = math.dist(
            (crank * math.cos(math.radians(turned)), crank * math.sin(math.radians(turned))), (ground, 0)
        )
        assert diagonal > coupler + rocker - 1e-9 or diagonal < abs(coupler - rocker) + 1e-9
        return
    first = np.array([math.cos(math.radians(turned)), math.sin(math.radians(turned))]) * crank
    second = np.array([ground, 0]) + np.array([math.cos(math.radians(angle)), math.sin(math.radians(angle))]) * rocker
    assert abs(np.linalg.norm(first - second) - coupler) < 1e-9 * (ground + crank + coupler + rocker) + 1e-6


@given(arm=SIZES, stages=st.integers(1, 6), angle=st.floats(5, 85), load=st.floats(1, 500))
def test_a_scissor_does_as_much_work_as_is_put_in(arm: float, stages: int, angle: float, load: float) -> None:
    step = 1e-5
    high, low = (work_out("scissor_height", arm, stages, angle + way * step) for way in (1, -1))
    drawn = arm * (math.cos(math.radians(angle - step)) - math.cos(math.radians(angle + step)))
    push = work_out("scissor_push", load, stages, angle)
    assert push * drawn == pytest.approx(load * (high - low), rel=1e-4)


@given(load=st.floats(1, 500), effort_arm=SIZES, load_arm=SIZES, angle=st.floats(-40, 40))
def test_a_lever_does_as_much_work_as_is_put_in(load: float, effort_arm: float, load_arm: float, angle: float) -> None:
    effort = work_out("lever_effort", load, effort_arm, load_arm)
    hand = work_out("lever_lift", effort_arm, angle, angle + 0.01)
    lift = work_out("lever_lift", load_arm, angle, angle + 0.01)
    assert effort * hand == pytest.approx(load * lift)
    assert work_out("lever_reaction", load, effort_arm, load_arm) == pytest.approx(load + effort)


def _sag(moments: np.ndarray, step: float, stiffness: float, *, free: bool) -> float:
    """Greatest sag by integrating the curvature twice; both ends on one level, or the first end held."""
    slope = np.concatenate([[0.0], np.cumsum((moments[1:] + moments[:-1]) / 2 * step / stiffness)])
    line = np.concatenate([[0.0], np.cumsum((slope[1:] + slope[:-1]) / 2 * step)])
    if free:
        line = line - np.linspace(0, line[-1], len(line))
    return float(np.abs(line).max())


@given(span=st.floats(100, 2000), force=st.floats(1, 500), modulus=st.floats(1000, 14000), inertia=st.floats(1e3, 1e6))
def test_beams_sag_as_their_curvature_says(span: float, force: float, modulus: float, inertia: float) -> None:
    x = np.linspace(0, span, 4001)
    step, stiffness = x[1], modulus * inertia
    line = force / span
    middle = force / 2 * np.minimum(x, span - x)
    even = line / 2 * x * (span - x)
    far = span - x
    for name, load, moments, free in (
        ("beam_sag_middle", force, middle, True),
        ("beam_sag_even", line, even, True),
        ("beam_sag_even_fixed", line, even - line * span**2 / 12, False),
        ("cantilever_sag_end", force, -force * far, False),
        ("cantilever_sag_even", line, -line * far**2 / 2, False),
    ):
        assert work_out(name, load, span, modulus, inertia) == pytest.approx(
            _sag(moments, step, stiffness, free=free), rel=1e-4
        )
    assert work_out("beam_moment_middle", force, span) == pytest.approx(middle.max())
    assert work_out("beam_moment_even", line, span) == pytest.approx(even.max())


@given(
    load=st.floats(0.01, 2), modulus=st.floats(1000, 14000), inertia=st.floats(1e3, 1e6), parts=st.integers(100, 900)
)
def test_the_longest_span_sags_by_its_share(load: float, modulus: float, inertia: float, parts: int) -> None:
    span = work_out("span_for_sag_even", load, modulus, inertia, 1 / parts)
    assert work_out("beam_sag_even", load, span, modulus, inertia) == pytest.approx(span / parts)


@given(travel=st.floats(0.1, 50), count=st.integers(2, 12))
def test_segments_part_as_far_as_their_edges_do(travel: float, count: int) -> None:
    half = math.pi / count
    edge = np.array([math.cos(0.0), math.sin(0.0)])
    across = np.array([-edge[1], edge[0]])
    moved = [travel * np.array([math.cos(way * half), math.sin(way * half)]) for way in (1, -1)]
    gap = float((moved[0] - moved[1]) @ across)
    assert work_out("segment_gap", travel, count) == pytest.approx(gap)
    assert work_out("segment_travel", gap, count) == pytest.approx(travel)


@given(radius=st.floats(2, 50), slope=SLOPES)
def test_a_roller_in_the_foot_of_a_ramp_touches_both(radius: float, slope: float) -> None:
    flat = work_out("roller_foot", radius, slope)
    a = math.radians(slope)
    from_ramp = flat * math.sin(a) + radius * math.cos(a)
    assert from_ramp == pytest.approx(radius)
    assert work_out("steepest_for_roller", radius, flat) == pytest.approx(slope)


@given(guide=st.floats(5, 200), friction=FRICTIONS)
def test_a_push_at_the_edge_of_binding_is_all_rubbed_away(guide: float, friction: float) -> None:
    offset = work_out("guide_binds", guide, friction)
    assert 2 * friction * offset / guide == pytest.approx(1)


@given(humidity=st.floats(0.05, 0.95), celsius=st.floats(20, 60))
def test_wood_is_wetter_in_wetter_air_and_drier_in_warmer(humidity: float, celsius: float) -> None:
    content = work_out("moisture_at", humidity, celsius)
    assert work_out("moisture_at", min(0.98, humidity + 0.02), celsius) > content
    assert work_out("moisture_at", humidity, celsius + 5) < content


def test_a_pin_is_a_beam() -> None:
    inertia = math.pi * 12**4 / 64
    assert work_out("pin_sag", 50, 80, 12, 205000) == pytest.approx(
        work_out("cantilever_sag_end", 50, 80, 205000, inertia)
    )
    assert work_out("pin_stress", 50, 80, 12) == pytest.approx(50 * 80 / (inertia / 6))


@given(offset=SIZES, turned=st.floats(-75, 75))
def test_a_slotted_arm_stays_on_its_pin_and_its_speed_is_the_slope_of_its_travel(offset: float, turned: float) -> None:
    pin = np.array([work_out("arm_travel", offset, 0.0, turned), offset])
    arm = np.array([math.sin(math.radians(turned)), math.cos(math.radians(turned))])
    assert abs(pin[0] * arm[1] - pin[1] * arm[0]) < 1e-9 * np.linalg.norm(pin)
    step = 1e-4
    measured = work_out("arm_travel", offset, turned - step, turned + step) / math.radians(2 * step)
    assert work_out("arm_speed", offset, turned) == pytest.approx(measured, rel=1e-5)
    push = np.array([arm[1], -arm[0]])
    assert work_out("arm_pressure_angle", turned) == pytest.approx(math.degrees(math.acos(push[0])), abs=1e-5)


@given(arm=SIZES, turned=st.floats(-89, 89))
def test_a_cross_slots_speed_is_the_slope_of_its_travel(arm: float, turned: float) -> None:
    step = 1e-4
    measured = work_out("slot_travel", arm, turned - step, turned + step) / math.radians(2 * step)
    assert work_out("slot_speed", arm, turned) == pytest.approx(measured, rel=1e-4, abs=1e-6 * arm)


def navier(
    long: float, short: float, poisson: float, force: float, load: float, rigidity: float
) -> tuple[float, float]:
    """Sag in the middle, and moment over the short side there, by Navier's double series of sines."""
    waves = np.arange(1, 1201, 2.0)
    over, along = np.meshgrid(waves, waves, indexing="ij")
    sign = np.cos((over - 1) * math.pi / 2) * np.cos((along - 1) * math.pi / 2)
    pressure = 16 * load / (math.pi**2 * over * along) + 4 * force / (short * long) * sign
    x, y = (over * math.pi / short) ** 2, (along * math.pi / long) ** 2
    sag = sign * pressure / (rigidity * (x + y) ** 2)
    return float(sag.sum()), float((rigidity * sag * (x + poisson * y)).sum())


@pytest.mark.parametrize("poisson", [0.0, 0.2, 0.3, 0.45])
@pytest.mark.parametrize("ratio", [1.0, 1.35, 2.5, 6.0])
def test_a_panel_sags_as_by_a_double_series(poisson: float, ratio: float) -> None:
    short, thickness, modulus = 400 * MM, 9 * MM, 4000 * N / MM**2
    long = short * ratio
    rigidity = modulus * thickness**3 / (12 * (1 - poisson**2))
    even, force = 0.002 * N / MM**2, 150 * N
    sag, moment = navier(long, short, poisson, 0, even, rigidity)
    assert work_out("plate_sag_even", even, short, long, thickness, modulus, poisson) == pytest.approx(sag, rel=1e-6)
    stress = work_out("plate_stress_even", even, short, long, thickness, poisson)
    assert stress == pytest.approx(6 * moment / thickness**2, rel=1e-4)
    sag, _ = navier(long, short, poisson, force, 0, rigidity)
    assert work_out("plate_sag_middle", force, short, long, thickness, modulus, poisson) == pytest.approx(sag, rel=1e-4)


def test_a_panel_whose_sides_are_exchanged_is_refused() -> None:
    with pytest.raises(OutOfRange, match="longer than its long side"):
        work_out("plate_sag_middle", 100.0, 3.0, 2.0, 1.0, 1e9, 0.3)


def test_a_long_panel_is_a_strip() -> None:
    """Held only by its long sides it bends as a beam of its width, stiffened by 1 / (1 - ν²)."""
    short, thickness, modulus, load = 400 * MM, 9 * MM, 4000 * N / MM**2, 0.002 * N / MM**2
    width = 100 * MM
    inertia = work_out("rectangle_inertia", width, thickness)
    beam = work_out("beam_sag_even", load * width, short, modulus, inertia)
    panel = work_out("plate_sag_even", load, short, 10 * short, thickness, modulus, 0.3)
    assert panel == pytest.approx(beam * (1 - 0.3**2), rel=1e-4)


@given(force=st.floats(10, 2000), modulus=st.floats(1e3, 2e4), width=SIZES, thick=st.floats(6, 50))
def test_at_the_longest_span_a_board_sags_and_bends_by_just_what_is_allowed(
    force: float, modulus: float, width: float, thick: float
) -> None:
    """In newtons and millimetres; the spans put back into the formulas that they are drawn from."""
    inertia, section = work_out("rectangle_inertia", width, thick), work_out("rectangle_section", width, thick)
    span = work_out("span_for_sag_middle", force, modulus, inertia, 1 / 360)
    assert work_out("beam_sag_middle", force, span, modulus, inertia) == pytest.approx(span / 360)
    span = work_out("span_for_stress_middle", force, 12.0, section)
    assert work_out("bending_stress", work_out("beam_moment_middle", force, span), section) == pytest.approx(12)
    span = work_out("span_for_stress_even", force / 500, 12.0, section)
    assert work_out("bending_stress", work_out("beam_moment_even", force / 500, span), section) == pytest.approx(12)


@given(load=st.floats(1, 500), effort=SIZES, arm=SIZES)
def test_forces_on_a_lever_with_both_on_one_side_add_to_nothing(load: float, effort: float, arm: float) -> None:
    hand = work_out("lever_effort", load, effort, arm)
    assert work_out("lever_reaction_one_side", load, effort, arm) == pytest.approx(abs(load - hand), abs=1e-9)


@given(away=SIZES, below=st.floats(-50, 200), arm=SIZES, angle=st.floats(-80, 170))
def test_a_levers_tip_lies_on_the_plate_that_it_turns(away: float, below: float, arm: float, angle: float) -> None:
    tip = complex(away, -below) + arm * np.exp(1j * math.radians(angle))
    assume(tip.real > 1e-3)
    plate = math.radians(work_out("lever_turns_plate", away, below, arm, angle))
    assert abs((tip * np.exp(-1j * plate)).imag) < 1e-9


def test_a_lever_behind_the_hinge_turns_no_plate() -> None:
    with pytest.raises(OutOfRange, match="behind its hinge"):
        work_out("lever_turns_plate", 50.0, 0.0, 100.0, 180.0)


@given(radius=st.floats(3, 30), share=st.floats(0.05, 0.95))
def test_what_a_spring_loaded_roller_gives_back_is_the_work_that_drove_it_out(radius: float, share: float) -> None:
    """With hardly any friction: the spring's force over the notch's depth is the force along the way, summed up."""
    width = 2 * radius * share
    depth, first = work_out("notch_depth", radius, width), work_out("notch_slope", radius, width)
    slopes = np.linspace(first, 1e-6, 4001)
    way = radius * (math.sin(math.radians(first)) - np.sin(np.radians(slopes)))
    forces = np.array([work_out("detent_release", 1.0, float(slope), 1e-9) for slope in slopes])
    assert np.trapezoid(forces, way) == pytest.approx(depth, rel=1e-4)
    assert way[-1] == pytest.approx(width / 2, rel=1e-5)


def test_a_roller_does_not_leave_a_notch_as_wide_as_itself() -> None:
    with pytest.raises(OutOfRange, match="as wide as the roller"):
        work_out("notch_depth", 10.0, 20.0)


def test_a_flat_as_long_as_the_radius_lets_a_roller_stand_before_a_wall() -> None:
    assert work_out("steepest_for_roller", 16.0, 100.0) == 90.0
