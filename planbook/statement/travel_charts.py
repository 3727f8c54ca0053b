"""Charts over a travel: formulas and clearances at the places that were swept, and the limits that rules set them."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from itertools import combinations
from typing import Final

from planbook.measure import MILLIMETRE, Precision, Quantity, Units, print_quantity
from planbook.measure.dimensionality import LENGTH, Dimensionality
from planbook.motion import Travel
from planbook.motion.sweep import REACH
from planbook.source.content import Content
from planbook.source.findings import Finding
from planbook.source.models.figures import TravelChartModel, TravelCurveModel
from planbook.source.models.rules import RuleModel
from planbook.source.text import Text
from planbook.statement.judging import requirement
from planbook.statement.sampling import axis_of, solve_all, unmeasured
from planbook.statement.stated import ChartData, CurveData, LimitData

Findings = tuple[Finding, ...]
Limit = tuple[str, float]
"""Its label and its level, in base units."""
_SAME: Final = 1e-9
_FAR: Final = 6
"""Clearances this many times over the greatest limit need no watching, and would press the others together."""


def chart_travel(
    name: Text, model: TravelChartModel, content: Content, travel: Travel, units: Units
) -> tuple[ChartData | None, Findings]:
    """A chart's data in the edition's units; None when a curve of it has no value, which a finding tells.

    A clearance over what the sweep looks at, 25 mm, or over `_FAR` times the greatest limit is no number.
    """
    curves: list[tuple[float, ...]] = []
    kind = LENGTH if any(curve.clearance for curve in model.curves) else None
    for curve in model.curves:
        values, of_kind, found = _curve(curve, travel, kind)
        if values is None:
            return None, found
        kind = of_kind
        curves.append(values)
    x = axis_of(travel.course.kind, units)
    y = axis_of(kind, units) if kind is not None else None
    if kind is None or x is None or y is None:
        return None, (unmeasured(name),)
    levels, found = solve_all(travel.places[0].design, [limit.value for limit in model.limits], kind)
    if levels is None:
        return None, found
    own = [(str(limit.label), level) for limit, level in zip(model.limits, levels, strict=True)]
    limits = _apart((*own, *_of_rules(model, content, travel, units)))
    far = max((_FAR * level for _, level in limits), default=math.inf)
    return ChartData(
        parameter=travel.course.driver,
        x_label=str(model.x_label),
        x_unit=x.unit,
        y_label=str(model.y_label),
        y_unit=y.unit,
        x=x.measure(place.at for place in travel.places),
        curves=tuple(
            CurveData(str(curve.label), y.measure(ys if curve.clearance is None else _near(ys, far)))
            for curve, ys in zip(model.curves, curves, strict=True)
        ),
        limits=tuple(LimitData(label, *y.measure([level])) for label, level in limits),
    ), ()


def _curve(
    curve: TravelCurveModel, travel: Travel, kind: Dimensionality | None
) -> tuple[tuple[float, ...] | None, Dimensionality | None, Findings]:
    """Its values at all places in base units, and their kind, which is that of the curves before."""
    if curve.value is None:
        return tuple(each * MILLIMETRE for each in _smallest(curve, travel)), kind, ()
    first, found = travel.places[0].design.solve(curve.value, kind)
    if first is None:
        return None, None, found
    kind = first.quantity.dimensionality
    values: list[float] = []
    for place in travel.places:
        value, found = place.design.solve(curve.value, kind)
        if value is None:
            return None, None, found
        values.append(value.number)
    return tuple(values), kind, ()


def _smallest(curve: TravelCurveModel, travel: Travel) -> tuple[float, ...]:
    """Millimetres at each place, of all pairs that are not said to lie in or to bear on one another."""
    pairs = combinations(map(str, curve.clearance or ()), 2)
    gaps = travel.sweep.least_gaps([pair for pair in pairs if frozenset(pair) not in travel.allowed])
    return tuple(math.nan if each >= REACH else each for each in gaps)


def _near(clearances: Iterable[float], far: float) -> tuple[float, ...]:
    return tuple(math.nan if each > far else each for each in clearances)


def _of_rules(model: TravelChartModel, content: Content, travel: Travel, units: Units) -> Iterator[Limit]:
    """What the rules that are judged over the travel ask of its curves."""
    design = travel.places[0].design
    values = {_bare(curve.value) for curve in model.curves if curve.value is not None}
    groups = [frozenset(curve.clearance) for curve in model.curves if curve.clearance is not None]
    for rule in content.rules.values():
        if rule.over != travel.course.name:
            continue
        if rule.clearance is not None and any(set(rule.clearance.between) <= group for group in groups):
            least, _ = design.solve(rule.clearance.least, LENGTH)
            if least is not None:
                yield _label("at least", least.quantity, units), least.number
        elif rule.clearance is None:
            yield from _of_relation(rule, values, travel, units)


def _of_relation(rule: RuleModel, values: set[str], travel: Travel, units: Units) -> Iterator[Limit]:
    """The sides that stay as they are all along, beside one that a curve shows."""
    first, last = travel.places[0].design, travel.places[-1].design
    require = requirement(rule, first.market)
    judged = [design.judge(require)[0] for design in (first, last)] if require is not None else []
    if not judged or judged[0] is None or judged[1] is None:
        return
    before, after = judged[0], judged[1]
    for at, relation in enumerate(before.relations):
        left, right = before.sides[at], before.sides[at + 1]
        for shown, limit, still in ((left, right, after.sides[at + 1]), (right, left, after.sides[at])):
            if _bare(shown.formula) in values and abs(still.number - limit.number) <= _SAME * abs(limit.number):
                most = ("<" in relation) == (shown is left)
                yield _label("at most" if most else "at least", limit.quantity, units), limit.number


def _label(words: str, quantity: Quantity, units: Units) -> str:
    printed = print_quantity(quantity, units, Precision.CALIPER)
    return f"{words} {printed.text}{'' if printed.unit in {'', '°'} else ' '}{printed.unit}"


def _apart(limits: Iterable[Limit]) -> list[Limit]:
    """Each level once, under the name that it was given first."""
    kept: list[Limit] = []
    for label, level in limits:
        if all(abs(level - other) > _SAME * max(abs(level), 1.0) for _, other in kept):
            kept.append((label, level))
    return kept


def _bare(formula: str) -> str:
    return "".join(formula.split())
