"""Printable numbers and one-sided tolerances with which a fit holds."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import product
from typing import Final

from planbook.dimension.audit.fits import Fit, Gap, Term, gap_of, holds
from planbook.dimension.audit.record import Limits
from planbook.measure import INCH, MILLIMETRE, Direction, Units, round_to

_GRAINS: Final = {
    Units.INCH: (INCH / 32, 0.005 * INCH),
    Units.MILLIMETRE: (0.5 * MILLIMETRE, 0.1 * MILLIMETRE),
}
"""What numbers are printed to: woodwork, then caliper work."""
_PLAYS: Final = {
    Units.INCH: (INCH / 32, INCH / 64, 0.01 * INCH, 0.005 * INCH),
    Units.MILLIMETRE: (0.5 * MILLIMETRE, 0.2 * MILLIMETRE, 0.1 * MILLIMETRE),
}
"""How much a builder is given on the one side, the most first."""
_SHIFTS: Final = (0, 1, -1)


@dataclass(frozen=True, slots=True)
class Proposal:
    """The fit with other numbers, its gap, and whether they are caliper work."""

    fit: Fit
    gap: Gap
    caliper: bool


def propose(fit: Fit, units: Units) -> Proposal | None:
    """The coarsest numbers nearest to the design that hold; None if the design itself is far from the wanted gap.

    Openings take the next printable number up and a tolerance that only adds, sliders the next one down and a
    tolerance that only takes away. What is bought stays as it is.
    """
    woodwork, caliper = _GRAINS[units]
    for grain, play, shift in product((woodwork, caliper), _PLAYS[units], _SHIFTS):
        candidate = replace(fit, terms=tuple(_printable(fit, grain, 0.0 if fit.fitted else play, shift * grain)))
        gap = gap_of(candidate)
        if holds(candidate, gap) and _can_be_made(candidate):
            return Proposal(candidate, gap, grain == caliper or play < woodwork)
    return None


def _can_be_made(fit: Fit) -> bool:
    """Whether something is left of every measure at its lower limit: a veneer of 0.4 mm is not printed as 0."""
    made = (term.measure for term in fit.terms if term.measure.made)
    return all(measure.printed + measure.limits.lower > 0 for measure in made)


def _printable(fit: Fit, grain: float, play: float, shift: float) -> Iterator[Term]:
    """The terms rounded; the first that is made is moved so that the gap grows by `shift`."""
    for term in fit.terms:
        if not term.measure.made:
            yield term
            continue
        opens = term.factor > 0
        number = round_to(term.measure.designed, grain, Direction.UP if opens else Direction.DOWN)
        number += shift if opens else -shift
        shift = 0.0
        limits = Limits(play, 0.0) if opens else Limits(0.0, -play)
        yield replace(term, measure=replace(term.measure, printed=number, limits=limits))
