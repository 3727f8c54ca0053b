"""What the rounding audit finds, in the author's words, with numbers that would do."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from planbook.dimension.audit import (
    Coordinate,
    Fit,
    FitAudit,
    Gap,
    Limits,
    Number,
    PartAudit,
    Proposal,
    Term,
    is_held_too_closely,
    is_rounded_against,
    is_rounded_out,
    is_too_fine,
    propose,
)
from planbook.measure import UNIT_SIGNS, Units, printed_diameter
from planbook.source.findings import Finding, Place, Severity
from planbook.source.models.fits import FitModel
from planbook.source.names import listed
from planbook.source.sentences import capital
from planbook.statement.model import DimensionStated, Statement


def fit_findings(audited: FitAudit, model: FitModel, units: Units) -> Iterator[Finding]:
    """A fit that does not hold stops; one that holds although printing takes from its gap is a warning."""
    fit, gap = audited.fit, audited.gap
    if not audited.holds:
        message = (
            f"The fit {fit.name} does not hold as printed: {_measures(fit)} leave "
            f"{gap_text(gap, units)}, and {_range(fit.least, fit.most, units)} is wanted."
        )
        remedy = f"{capital(str(model.because))}: {_way_out(audited, units)}"
        yield Finding("fit-fails", Severity.STOP, message, remedy, model.opening.place)
    elif is_rounded_against(gap) and not fit.fitted:
        taken = length(gap.designed - gap.printed, units)
        message = f"Printing takes {taken} from the gap of {fit.name}: {_measures(fit)}."
        remedy = "Round in the design: `round_up(..., make.step)` for the opening, `round_down(...)` for what goes in."
        yield Finding("fit-rounded-against", Severity.WARN, message, remedy, model.opening.place)


def number_fault(number: Number, limits: Limits) -> str:
    """The code of what is wrong with a number by itself, "" for nothing.

    One that nobody can work to is told as that, and not again as one whose own tolerance leaves the design out.
    """
    if is_too_fine(number) or is_held_too_closely(number):
        return "number-too-fine"
    return "rounded-out" if not number.reference and is_rounded_out(number, limits) else ""


def number_finding(code: str, numbers: Sequence[DimensionStated], place: Place) -> Finding:
    """One finding for all numbers that come of one rounding."""
    told = [f"`{each.id}` ({each.printed.text}{' ' if each.tolerance else ''}{each.tolerance})" for each in numbers]
    text = " and ".join(filter(None, (", ".join(told[:-1]), told[-1])))
    one = len(told) == 1
    if code == "number-too-fine":
        message = f"{text} {'is' if one else 'are'} finer than woodwork by rule goes: 1/32 in, 0.5 mm or half a degree."
        remedy = "Write `precision: caliper` at its parameter, or round it there."
    else:
        lies = f"{'is' if one else 'are'} printed so that the design itself lies outside {'its' if one else 'their'}"
        message = f"{text} {lies} limits."
        remedy = "Round the parameter to what can be printed, or widen its tolerance."
    return Finding(code, Severity.WARN, message, remedy, place)


def part_finding(part: PartAudit, worst: Coordinate, statement: Statement, place: Place) -> Finding:
    """Chains of rounded numbers that lead further off than the general tolerance."""
    units = Units(statement.edition.units)
    what, chain = listed(worst.features, "and"), listed(worst.chain, "and")
    way = f"{'along' if worst.direction in 'xyz' else 'in'} {worst.direction}"
    return Finding(
        "rounding-drifts",
        Severity.WARN,
        f"On sheet {part.sheet} the printed numbers put {what} off by {length(abs(worst.off), units)} "
        f"{way if worst.share == 1.0 else 'in the rise of an arc'}.",
        f"Round in the design what {chain} come from, so that they can be printed as they are.",
        place,
    )


def length(nanometres: float, units: Units) -> str:
    """A length with its unit, as finely as it takes."""
    text = printed_diameter(abs(nanometres), units, ()).text
    return f"{'-' if nanometres < 0 and text != '0' else ''}{text} {UNIT_SIGNS[units]}"


def gap_text(gap: Gap, units: Units) -> str:
    """`a gap of 0.1 mm to 0.3 mm`: at the worst of the printed limits."""
    return _range(gap.least, gap.most, units)


def _range(least: float, most: float, units: Units) -> str:
    first, last = length(least, units), length(most, units)
    return f"a gap of {first}" if first == last else f"a gap of {first} to {last}"


def _measures(fit: Fit) -> str:
    return " ".join(_measure(term, position) for position, term in enumerate(fit.terms))


def _measure(term: Term, position: int) -> str:
    sign = "less " if term.factor < 0 else "and " if position else ""
    times = "" if abs(term.factor) == 1 else f"{abs(term.factor):g} times "
    return f"{sign}{times}{term.measure.name} {term.measure.text}"


def _way_out(audited: FitAudit, units: Units) -> str:
    proposal = propose(audited.fit, units)
    if proposal is None:
        made = listed(dict.fromkeys(term.measure.label for term in audited.fit.terms if term.measure.made), "or")
        designed = length(audited.gap.designed, units)
        return f"designed, the gap is {designed}: change {made or 'what is bought'}, or the gap that is wanted."
    changed = " and ".join(_written(term, proposal, units) for term in proposal.fit.terms if term.measure.made)
    return f"make {changed}; that leaves {gap_text(proposal.gap, units)}."


def _written(term: Term, proposal: Proposal, units: Units) -> str:
    """As an author writes it: `well.length` 412.5 mm with `tolerance: +0.5 mm/0`."""
    measure = term.measure
    words = f"`{measure.label}` {length(measure.printed, units)}"
    if measure.limits.upper:
        words += f" with `tolerance: +{length(measure.limits.upper, units)}/0`"
    elif measure.limits.lower:
        words += f" with `tolerance: 0/-{length(-measure.limits.lower, units)}`"
    return f"{words} and `precision: caliper`" if proposal.caliper else words
