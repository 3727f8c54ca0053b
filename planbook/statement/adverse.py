"""Clearances that hold as drawn, put to both ends of each tolerance and to the numbers as they are printed."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property

from planbook.design import Design, Plan
from planbook.measure import MILLIMETRE, Quantity, Units
from planbook.measure.dimensionality import LENGTH
from planbook.motion import Nearest, Pair, Travel, pair_of
from planbook.source.content import Content
from planbook.source.findings import Finding, Severity
from planbook.source.models.rules import RuleModel, Weight
from planbook.source.sentences import capital
from planbook.statement.judging import driver_text, gap_text
from planbook.statement.mending import hung_on, measures_of
from planbook.statement.model import RuleStated

_TOLD = 3
_LEAST_LOSS = 0.005
"""Millimetres under which a tolerance takes nothing of a clearance."""


@dataclass(frozen=True, slots=True)
class Loss:
    """What a tolerance at its adverse end takes of a clearance, in millimetres, and the value that it has there."""

    name: str
    end: Quantity
    taken: float


@dataclass(frozen=True)
class Clearance:
    """A rule on the clearance of two components where it is least in its travel."""

    name: str
    rule: RuleModel
    travel: Travel
    nearest: Nearest
    pair: Pair
    least: float
    """Millimetres."""

    @cached_property
    def losses(self) -> tuple[Loss, ...]:
        """Of each tolerance that their shapes and places hang on, the greatest first."""
        ends = {name: self._ends(name) for name in self._toleranced()}
        found = (self._loss(name, each) for name, each in ends.items())
        return tuple(sorted((loss for loss in found if loss.taken > _LEAST_LOSS), key=lambda loss: -loss.taken))

    def gap_with(self, values: Mapping[str, Quantity]) -> tuple[float, int] | None:
        """The least there and at the two places beside it, and where; None where it has no value."""
        moved = {name: value for name, value in values.items() if name not in self._moving}
        last = len(self.travel.places) - 1
        around = sorted({max(self.nearest.place - 1, 0), self.nearest.place, min(self.nearest.place + 1, last)})
        gaps = [(self.pair.gap(self.travel.places[place], moved), place) for place in around]
        return min(((gap, place) for gap, place in gaps if gap is not None), default=None)

    @property
    def _design(self) -> Design:
        return self.travel.places[self.nearest.place].design

    @property
    def _moving(self) -> frozenset[str]:
        return frozenset((self.travel.course.driver, *self.travel.course.held))

    def _toleranced(self) -> Iterator[str]:
        for name in hung_on(measures_of(self.pair.content, self._design), self._design):
            if self._design.parameters[name].value.tolerance is not None and name not in self._moving:
                yield name

    def _ends(self, name: str) -> tuple[Quantity, Quantity]:
        value = self._design.parameters[name].value
        assert value.tolerance is not None
        numbers = value.number + value.tolerance.plus, value.number - value.tolerance.minus
        return Quantity(numbers[0], value.quantity.dimensionality), Quantity(numbers[1], value.quantity.dimensionality)

    def _loss(self, name: str, ends: tuple[Quantity, Quantity]) -> Loss:
        place = self.travel.places[self.nearest.place]
        gaps = [(self.nearest.gap - gap, end) for end in ends if (gap := self.pair.gap(place, {name: end})) is not None]
        taken, end = max(gaps, key=lambda each: each[0], default=(0.0, ends[0]))
        return Loss(name, end, taken)


def clearances(
    content: Content, plan: Plan, design: Design, travels: Mapping[str, Travel], stated: Mapping[str, RuleStated]
) -> Iterator[Clearance]:
    """The rules on clearances that hold as drawn, where the two come within reach."""
    for name, rule in content.rules.items():
        travel = travels.get(str(rule.over))
        if rule.clearance is None or travel is None or str(name) not in stated or not stated[str(name)].holds:
            continue
        one, other = map(str, rule.clearance.between)
        nearest, least = travel.sweep.nearest_of(one, other), design.solve(rule.clearance.least, LENGTH)[0]
        if nearest is not None and least is not None:
            pair = pair_of(content, plan, one, other)
            yield Clearance(str(name), rule, travel, nearest, pair, least.number / MILLIMETRE)


def check_adverse(found: tuple[Clearance, ...], units: Units) -> tuple[Finding, ...]:
    """A finding for each that does not hold with every tolerance at its adverse end at once."""
    return tuple(finding for clearance in found for finding in _adverse(clearance, units))


def _adverse(clearance: Clearance, units: Units) -> Iterator[Finding]:
    losses = clearance.losses
    worst = clearance.gap_with({loss.name: loss.end for loss in losses}) if losses else None
    if worst is None or worst[0] >= clearance.least - 1e-6:
        return
    told = ", ".join(f"`{loss.name}` takes {gap_text(loss.taken, units)}" for loss in losses[:_TOLD])
    more = f", and {len(losses) - _TOLD} others less" if len(losses) > _TOLD else ""
    message = (
        f"The rule {clearance.name} holds as drawn, and not with every tolerance at its adverse end: "
        f"{_short(clearance, worst, units)}; {told}{more}."
    )
    remedy = f"{capital(str(clearance.rule.because))}: make room, or hold `{losses[0].name}` closer."
    yield _finding("clearance-at-limits", clearance, message, remedy)


def check_clearances_printed(
    found: tuple[Clearance, ...], printed: Mapping[str, Quantity], units: Units
) -> tuple[Finding, ...]:
    """A finding for each that does not hold with the numbers that the sheets print."""
    return tuple(
        _finding(
            "rule-broken-as-printed",
            clearance,
            f"The rule {clearance.name} holds in the design, and not with the printed numbers: "
            f"{_short(clearance, worst, units)}.",
            f"{capital(str(clearance.rule.because))}: make room, or round in the design what the two are made from.",
        )
        for clearance in found
        if (worst := clearance.gap_with(printed)) is not None and worst[0] < clearance.least - 1e-6
    )


def _short(clearance: Clearance, worst: tuple[float, int], units: Units) -> str:
    gap, place = worst
    near = f"{gap_text(-gap, units)} into one another" if gap < 0 else f"as near as {gap_text(gap, units)}"
    at = driver_text(clearance.travel, clearance.travel.places[place].at, units)
    return f"{clearance.nearest.one} and {clearance.nearest.other} come {near} at {at}, {_wanted(clearance, units)}"


def _wanted(clearance: Clearance, units: Units) -> str:
    return f"and {gap_text(clearance.least, units)} is wanted"


def _finding(code: str, clearance: Clearance, message: str, remedy: str) -> Finding:
    severity = Severity.STOP if clearance.rule.weight is Weight.STOP else Severity.WARN
    assert clearance.rule.clearance is not None
    return Finding(code, severity, message, remedy, clearance.rule.clearance.least.place)
