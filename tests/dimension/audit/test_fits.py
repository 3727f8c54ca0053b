"""Gaps at the worst of the printed limits, and what is proposed when a fit does not hold."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from planbook.dimension.audit import Fit, Limits, Measure, Sum, Term, gap_of, holds, is_rounded_against, propose
from planbook.dimension.audit.sums import read_sum
from planbook.measure import INCH, MILLIMETRE, Units, round_to

MM = MILLIMETRE
EXACT = Limits(0.0, 0.0)


def measure(label: str, designed: float, printed: float, upper: float = 0.0, lower: float = 0.0) -> Measure:
    """In millimetres."""
    return Measure(f"dim.{label}", label, f"{printed:g}", designed * MM, printed * MM, Limits(upper * MM, lower * MM))


def platform_in_well(printed: tuple[float, float], limits: tuple[Limits, Limits] = (EXACT, EXACT)) -> Fit:
    """An opening designed 412.4 mm with a platform of 410.6 mm and a gap of 1.5 to 3.0 mm."""
    well = replace(measure("well.length", 412.4, printed[0]), limits=limits[0])
    platform = replace(measure("platform.length", 410.6, printed[1]), limits=limits[1])
    return Fit("platform.in_well", (Term(well, 1.0), Term(platform, -1.0)), 0.0, 1.5 * MM, 3.0 * MM)


def test_412_and_411_leave_one_millimetre_and_do_not_hold() -> None:
    fit = platform_in_well((412, 411))
    gap = gap_of(fit)
    assert gap.designed == pytest.approx(1.8 * MM)
    assert (gap.least, gap.most) == (1.0 * MM, 1.0 * MM)
    assert not holds(fit, gap)
    assert is_rounded_against(gap)


def test_the_general_tolerance_on_both_is_too_much() -> None:
    general = Limits(0.5 * MM, -0.5 * MM)
    fit = platform_in_well((412.5, 410.5), (general, general))
    gap = gap_of(fit)
    assert (gap.least, gap.most) == (1.0 * MM, 3.0 * MM)
    assert not holds(fit, gap)


def test_it_is_proposed_to_round_opening_up_and_platform_down_with_one_sided_tolerances() -> None:
    proposal = propose(platform_in_well((412, 411)), Units.MILLIMETRE)
    assert proposal is not None
    well, platform = (term.measure for term in proposal.fit.terms)
    assert (well.printed, well.limits) == (412.5 * MM, Limits(0.5 * MM, 0.0))
    assert (platform.printed, platform.limits) == (410.5 * MM, Limits(0.0, -0.5 * MM))
    assert (proposal.gap.least, proposal.gap.most) == (2.0 * MM, 3.0 * MM)
    assert not proposal.caliper


def test_a_narrow_fit_is_proposed_as_caliper_work() -> None:
    pin, bush = measure("pin", 11.98, 12.0, 0.1, -0.1), measure("bush", 12.22, 12.0, 0.1, -0.1)
    fit = Fit("pin.in_bush", (Term(bush, 1.0), Term(pin, -1.0)), 0.0, 0.3 * MM, 0.6 * MM)
    proposal = propose(fit, Units.MILLIMETRE)
    assert proposal is not None
    assert proposal.caliper
    assert holds(proposal.fit, proposal.gap)


def test_less_play_than_a_woodwork_number_is_caliper_work_even_at_woodwork_numbers() -> None:
    fit = replace(platform_in_well((412, 411)), least=2.0 * MM, most=2.4 * MM)
    proposal = propose(fit, Units.MILLIMETRE)
    assert proposal is not None
    assert [term.measure.printed for term in proposal.fit.terms] == [412.5 * MM, 410.5 * MM]
    assert proposal.gap.most == pytest.approx(2.4 * MM)
    assert proposal.caliper


@pytest.mark.parametrize("units", Units)
def test_what_is_thin_is_not_proposed_as_nothing(units: Units) -> None:
    groove, veneer = measure("groove", 0.8, 1.0), measure("veneer", 0.4, 0.5)
    proposal = propose(Fit("veneer", (Term(groove, 1.0), Term(veneer, -1.0)), 0.0, 0.0, 2.0 * MM), units)
    assert proposal is not None
    assert all(term.measure.printed + term.measure.limits.lower > 0 for term in proposal.fit.terms)


def test_nothing_is_proposed_where_the_design_itself_is_far_off() -> None:
    assert propose(replace(platform_in_well((412, 411)), least=6.0 * MM, most=9.0 * MM), Units.MILLIMETRE) is None


def test_what_is_bought_stays_as_it_is() -> None:
    roller = replace(measure("hardware.roller.width", 12.3, 12.3, 0.05, -0.05), made=False)
    slot = measure("slot", 13.1, 13.0, 0.5, -0.5)
    fit = Fit("roller", (Term(slot, 1.0), Term(roller, -1.0)), 0.0, 0.5 * MM, 1.5 * MM)
    proposal = propose(fit, Units.MILLIMETRE)
    assert proposal is not None
    assert proposal.fit.terms[1].measure == roller
    assert proposal.fit.terms[0].measure.limits.lower == 0.0


def test_of_a_stack_every_measure_adds_its_limits() -> None:
    box, slat = measure("box", 100, 100, 0.5, -0.5), measure("slat", 32.6, 32.5, 0.2, -0.1)
    gap = gap_of(Fit("slats", (Term(box, 1.0), Term(slat, -3.0)), -1.0 * MM, 0.0, 4.0 * MM))
    assert gap.least == pytest.approx((99.5 - 3 * 32.7 - 1) * MM)
    assert gap.most == pytest.approx((100.5 - 3 * 32.4 - 1) * MM)


def test_one_made_to_the_other_has_no_tolerances() -> None:
    general = Limits(0.5 * MM, -0.5 * MM)
    gap = gap_of(replace(platform_in_well((412.5, 410.5), (general, general)), fitted=True))
    assert (gap.least, gap.most) == (2.0 * MM, 2.0 * MM)


LENGTHS = st.floats(50, 900)
UNITS = st.sampled_from(list(Units))
GRAIN = {Units.INCH: INCH / 64, Units.MILLIMETRE: 0.1 * MM}


@given(LENGTHS, st.floats(0.1, 6), st.floats(0.1, 3), UNITS)
def test_whatever_is_proposed_holds_and_can_be_printed(slider: float, gap: float, width: float, units: Units) -> None:
    terms = (Term(measure("a", slider + gap, 0), 1.0), Term(measure("b", slider, 0), -1.0))
    fit = Fit("fit", terms, 0.0, gap * MM, (gap + width) * MM)
    proposal = propose(fit, units)
    assume(proposal is not None)
    assert proposal is not None
    opening, inner = (term.measure for term in proposal.fit.terms)
    least = opening.printed + opening.limits.lower - inner.printed - inner.limits.upper
    most = opening.printed + opening.limits.upper - inner.printed - inner.limits.lower
    assert fit.least - 1 <= least <= most <= fit.most + 1
    for each in (opening, inner):
        steps = [GRAIN[units], 0.005 * INCH, 0.1 * MM]
        assert min(abs(each.printed - round_to(each.printed, step)) for step in steps) < 1


@given(LENGTHS, st.floats(1.5, 6), UNITS)
def test_a_fit_two_steps_wide_always_has_a_proposal(slider: float, gap: float, units: Units) -> None:
    """Rounding up and down adds less than a step each, and each play at most another one: a window of four holds."""
    terms = (Term(measure("a", slider + gap, 0), 1.0), Term(measure("b", slider, 0), -1.0))
    step = INCH / 32 if units is Units.INCH else 0.5 * MM
    assert propose(Fit("fit", terms, 0.0, gap * MM, gap * MM + 4 * step), units) is not None


def test_sums_are_read_with_signs_and_factors() -> None:
    found = read_sum("dim.end.blank.thickness - 2 * (dim.end.housing.depth - 1 mm) / 4 - dim.end.blank.thickness")
    assert isinstance(found, Sum)
    assert found.factors == {"dim.end.housing.depth": -0.5}
    assert found.constant == pytest.approx(0.5 * MM)


def test_a_name_that_takes_itself_away_is_no_longer_there() -> None:
    """0.1 + 0.2 - 0.3 is 5.6e-17 in binary."""
    found = read_sum("0.1 * dim.a.b + 0.2 * dim.a.b - 0.3 * dim.a.b + dim.c.d / 3")
    assert isinstance(found, Sum)
    assert found.factors == {"dim.c.d": pytest.approx(1 / 3)}


@pytest.mark.parametrize("formula", ["dim.a.b * dim.c.d", "max(dim.a.b, dim.c.d)", "dim.a.b + 2", "7", "dim.a.b / 0"])
def test_what_is_no_sum_is_refused(formula: str) -> None:
    assert not isinstance(read_sum(formula), Sum)
