"""The rules of a plan set, judged in one edition."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from planbook.design import Design, Judgement, Plan
from planbook.measure import (
    INCH,
    MILLIMETRE,
    Precision,
    Printed,
    Quantity,
    Units,
    print_calculated,
    print_quantity,
    settled,
)
from planbook.measure.dimensionality import LENGTH
from planbook.measure.writing import written
from planbook.motion import Pair, Travel, pair_of
from planbook.motion.sweep import REACH
from planbook.source.content import Content
from planbook.source.findings import Finding, Severity
from planbook.source.findings import Place as SourcePlace
from planbook.source.models.rules import ClearanceModel, RuleModel, Weight
from planbook.source.text import Formula, Text
from planbook.statement.mending import Failure, measures_of, plain_remedy, remedy, slack_of, slacks
from planbook.statement.model import RuleStated

_MOST_OFF = 0.005
"""Of a side, by which its text may differ from it."""
_EXACT_DIGITS = 9
_JUST = 1.0
"""Nanometres under which a clearance is not too small."""


def judge_rules(
    content: Content,
    design: Design,
    plan: Plan,
    units: Units,
    because: Mapping[str, str],
    travels: Mapping[str, Travel],
) -> tuple[Mapping[str, RuleStated], tuple[Finding, ...]]:
    """Each rule that applies in this market, and a finding for each that fails.

    `because` are the rules' reasons as printed. A rule `over` a travel is judged where it comes nearest to failing.
    """
    stated: dict[str, RuleStated] = {}
    found: list[Finding] = []
    for name, rule in content.rules.items():
        ruling, findings = _ruling(rule, content, design, plan, units, travels)
        found += findings
        if ruling is None:
            continue
        stated[str(name)] = RuleStated(
            str(name), ruling.require, because[str(name)], ruling.words, ruling.holds, str(rule.weight)
        )
        if not ruling.holds:
            message = f"The rule {name} does not hold: {ruling.short}."
            severity = Severity.STOP if rule.weight is Weight.STOP else Severity.WARN
            found.append(Finding("rule-broken", severity, message, ruling.remedy, ruling.place))
    return stated, tuple(found)


@dataclass(frozen=True, slots=True)
class _Ruling:
    """A rule as judged: what it asks, its sides as printed, and where it fails by how much, and how to mend it."""

    require: str
    words: str
    holds: bool
    short: str
    remedy: str
    place: SourcePlace


def _ruling(
    rule: RuleModel, content: Content, design: Design, plan: Plan, units: Units, travels: Mapping[str, Travel]
) -> tuple[_Ruling | None, tuple[Finding, ...]]:
    travel = travels.get(str(rule.over)) if rule.over is not None else None
    if rule.over is not None and travel is None:
        return None, ()
    if rule.clearance is not None and travel is not None:
        return _judge_clearance(rule, rule.clearance, travel, content, design, plan, units)
    require = requirement(rule, design.market)
    if require is None:
        return None, ()
    if travel is None:
        judgement, findings = design.judge(require)
        return (None if judgement is None else _of_formula(rule, require, judgement, design, plan, units)), findings
    judged = [(place, *place.design.judge(require)) for place in travel.places]
    worst = min(
        ((judgement, place) for place, judgement, _ in judged if judgement is not None),
        key=lambda each: least_slack(each[0]),
        default=None,
    )
    if worst is None:
        return None, judged[0][2]
    judgement, place = worst
    return _of_formula(rule, require, judgement, place.design, plan, units, travel), ()


def _of_formula(
    rule: RuleModel,
    require: Formula,
    judgement: Judgement,
    design: Design,
    plan: Plan,
    units: Units,
    travel: Travel | None = None,
) -> _Ruling:
    """`design` is that of the place in the travel."""
    sides = _sides(judgement, units)
    where = "" if travel is None else f" at {driver_text(travel, design.fixed[travel.course.driver].value, units)}"
    short = "" if judgement.holds else _shortfall(judgement, sides, units) + where
    words = _chain(sides, judgement.relations) + where
    failure = Failure(design, plan, slack_of(lambda there: there.judge(require)[0]), units)
    held = () if travel is None else (travel.course.driver, *travel.course.held)
    mended = "" if judgement.holds else remedy(str(rule.because), _used(judgement), failure, held)
    return _Ruling(str(require), words, judgement.holds, short, mended, require.place)


def _used(judgement: Judgement) -> tuple[str, ...]:
    return tuple(name for side in judgement.sides for name in side.inputs)


def least_slack(judgement: Judgement) -> float:
    """By how much the tightest relation holds, as part of the greater side; below zero by how much one fails."""
    return min(slack / (size or 1.0) for slack, size in slacks(judgement))


def _judge_clearance(
    rule: RuleModel,
    clearance: ClearanceModel,
    travel: Travel,
    content: Content,
    design: Design,
    plan: Plan,
    units: Units,
) -> tuple[_Ruling | None, tuple[Finding, ...]]:
    least, findings = design.solve(clearance.least, LENGTH)
    if least is None:
        return None, findings
    one, other = map(str, clearance.between)
    nearest = travel.sweep.nearest_of(one, other)
    gap = REACH if nearest is None else nearest.gap
    words = gap_text(gap, units)
    wanted = gap_text(least.number / MILLIMETRE, units)
    where = "" if nearest is None else f" at {driver_text(travel, travel.places[nearest.place].at, units)}"
    near = f"over {words}" if nearest is None else words
    holds = gap * MILLIMETRE >= least.number - _JUST
    apart = gap_text(least.number / MILLIMETRE - gap, units)
    short = f"{one} and {other} come as near as {near}{where}, {apart} nearer than {wanted}"
    mended = ""
    if not holds and nearest is not None:
        mended = _mended_clearance(rule, clearance, travel, nearest.place, pair_of(content, plan, one, other), units)
    require = f"{one} and {other} at least {clearance.least} apart"
    return _Ruling(require, f"{near} >= {wanted}{where}", holds, short, mended, clearance.least.place), ()


def _mended_clearance(
    rule: RuleModel, clearance: ClearanceModel, travel: Travel, place: int, pair: Pair, units: Units
) -> str:
    """At its least place, the two components shaped and placed anew for each value that is tried."""
    design = travel.places[place].design

    def slack(there: Design) -> float | None:
        gap, least = pair.gap_in(there), there.solve(clearance.least, LENGTH)[0]
        return None if gap is None or least is None else gap * MILLIMETRE - least.number + _JUST

    failure = Failure(design, pair.plan, slack, units)
    held = (travel.course.driver, *travel.course.held)
    return remedy(str(rule.because), measures_of(pair.content, design), failure, held)


def driver_text(travel: Travel, at: float, units: Units) -> str:
    """`lift 40 mm`: where in the travel."""
    printed = print_quantity(Quantity(at, travel.course.kind), units, Precision.CALIPER)
    return f"{travel.course.driver} {_first(printed.text, printed.unit)}"


def gap_text(millimetres: float, units: Units) -> str:
    """A gap as finely as a caliper takes it."""
    printed = print_quantity(Quantity(millimetres * MILLIMETRE, LENGTH), units, Precision.CALIPER)
    return _first(printed.text, printed.unit)


def judge_printed(
    content: Content, design: Design, printed: Design, units: Units, stated: Mapping[str, RuleStated]
) -> tuple[Finding, ...]:
    """A finding for each rule that holds in the design and not in `printed`, the design with the printed numbers."""
    return tuple(
        Finding(
            "rule-broken-as-printed",
            broken.severity,
            f"The rule {broken.name} holds in the design, and not with the printed numbers: {broken.short}.",
            broken.remedy,
            broken.require.place,
        )
        for broken in newly_broken(content, design, printed, units, stated)
    )


@dataclass(frozen=True, slots=True)
class Broken:
    """A rule that holds in the design and not in another one; `short` says what it falls short by."""

    name: str
    require: Formula
    short: str
    remedy: str
    severity: Severity


def newly_broken(
    content: Content, design: Design, other: Design, units: Units, stated: Mapping[str, RuleStated]
) -> Iterator[Broken]:
    """The rules, `stated` as they are in the design, that no longer hold in `other`."""
    for name, rule in content.rules.items():
        require = requirement(rule, other.market)
        if require is None or str(name) not in stated or not stated[str(name)].holds:
            continue
        judgement, _ = other.judge(require)
        if judgement is None or judgement.holds:
            continue
        short = _shortfall(judgement, _sides(judgement, units), units)
        severity = Severity.STOP if rule.weight is Weight.STOP else Severity.WARN
        remedy = plain_remedy(str(rule.because), _used(judgement), design)
        yield Broken(str(name), require, short, remedy, severity)


def requirement(rule: RuleModel, market: str) -> Formula | None:
    """What a rule demands in a market; None where it says nothing of it."""
    return rule.require if rule.by_market is None else rule.by_market.get(Text(market))


def _chain(sides: Iterable[str], relations: Iterable[str]) -> str:
    first, *others = sides
    return " ".join((first, *(f"{relation} {side}" for relation, side in zip(relations, others, strict=True))))


def _sides(judgement: Judgement, units: Units) -> tuple[str, ...]:
    """The sides as printed; more finely where sides that differ would read alike, or one much unlike it is; at last
    exactly.
    """
    quantities = [side.quantity for side in judgement.sides]
    wanted = len({quantity.value for quantity in quantities})
    for printed in _readings(judgement, units):
        near = all(
            abs(each.value - side.value) <= _MOST_OFF * abs(side.value)
            for each, side in zip(printed, quantities, strict=True)
        )
        if near and len({each.value for each in printed}) == wanted:
            return tuple(_first(each.text, each.unit) for each in printed)
    return tuple(_exact(quantity, units) for quantity in quantities)


def _readings(judgement: Judgement, units: Units) -> Iterator[list[Printed]]:
    """Of all sides, from the coarsest to the finest."""
    for precision in (Precision.WOODWORK, Precision.CALIPER):
        yield [
            print_quantity(
                side.quantity, units, Precision.CALIPER if side.precision is Precision.CALIPER else precision
            )
            for side in judgement.sides
        ]
    yield [print_calculated(side.quantity, units) for side in judgement.sides]


def _exact(quantity: Quantity, units: Units) -> str:
    if quantity.dimensionality == LENGTH and units is Units.INCH:
        return f"{settled(quantity.value / INCH):.{_EXACT_DIGITS}g} in"
    return written(quantity, _EXACT_DIGITS)


def _first(text: str, unit: str) -> str:
    return f"{text}{unit}" if not unit or unit == "°" else f"{text} {unit}"


def _shortfall(judgement: Judgement, sides: tuple[str, ...], units: Units) -> str:
    """The relation that fails, by how much, and the formulas of its sides."""
    at = judgement.failing or 0
    left, right = judgement.sides[at], judgement.sides[at + 1]
    apart = Quantity(abs(left.number - right.number), left.quantity.dimensionality)
    printed = print_calculated(apart, units)
    amount = _first(printed.text, printed.unit)
    relation = judgement.relations[at]
    return f"{sides[at]} {relation} {sides[at + 1]} fails by {amount} ({left.formula} {relation} {right.formula})"
