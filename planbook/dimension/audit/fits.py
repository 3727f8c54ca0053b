"""The gap between what mates, from the printed numbers at their worst limits."""

from __future__ import annotations

import math
from dataclasses import dataclass

from planbook.dimension.audit.record import Limits
from planbook.measure import snap


@dataclass(frozen=True, slots=True)
class Measure:
    """One measure of a fit, in nanometres. `text` is how it is printed; `made` tells what is made from what is bought.

    `name` is what the fit calls it. `label` is what the author changes: the parameter, or the dimension itself when its
    formula is more than a name.
    """

    name: str
    label: str
    text: str
    designed: float
    printed: float
    limits: Limits
    made: bool = True


@dataclass(frozen=True, slots=True)
class Term:
    """A measure and how often it counts: above zero it makes room, below zero it takes room."""

    measure: Measure
    factor: float


@dataclass(frozen=True, slots=True)
class Fit:
    """What mates. `extra` is added to the terms; the gap must lie from `least` to `most`.

    `fitted`: one is made to the other in hand, so that only the numbers count and not their tolerances.
    """

    name: str
    terms: tuple[Term, ...]
    extra: float
    least: float
    most: float
    fitted: bool = False


@dataclass(frozen=True, slots=True)
class Gap:
    """What is left between two mates: as designed, as printed, and at the worst of the printed limits."""

    designed: float
    printed: float
    least: float
    most: float


def gap_of(fit: Fit) -> Gap:
    """The least gap is the opening's lower limit less the slider's upper one, the greatest the other way round."""
    designed = fit.extra + math.fsum(term.factor * term.measure.designed for term in fit.terms)
    printed = fit.extra + math.fsum(term.factor * term.measure.printed for term in fit.terms)
    if fit.fitted:
        return Gap(designed, printed, printed, printed)
    least = printed + math.fsum(min(_ends(term)) for term in fit.terms)
    most = printed + math.fsum(max(_ends(term)) for term in fit.terms)
    return Gap(designed, printed, least, most)


def holds(fit: Fit, gap: Gap) -> bool:
    """Whether every gap that the printed limits allow is one that the fit allows."""
    return snap(fit.least) <= snap(gap.least) and snap(gap.most) <= snap(fit.most)


def is_rounded_against(gap: Gap) -> bool:
    """Whether printing takes from the gap. Openings are rounded up and sliders down, or the two as a pair."""
    return snap(gap.printed) < snap(gap.designed)


def _ends(term: Term) -> tuple[float, float]:
    limits = term.measure.limits
    return term.factor * limits.upper, term.factor * limits.lower
