"""Rules on clearances that hold as drawn: where the two come nearest, and if they pass with the printed numbers."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property

from planbook.design import Design, Plan
from planbook.measure import MILLIMETRE, Quantity, Units
from planbook.measure.dimensionality import LENGTH
from planbook.motion import Nearest, Pair, Travel, pair_of
from planbook.motion.travel import Place
from planbook.source.content import Content
from planbook.source.findings import Finding, Severity
from planbook.source.models.rules import ClearanceModel, RuleModel, Weight
from planbook.source.sentences import capital
from planbook.statement.judging import driver_text, gap_text
from planbook.statement.mending import hung_on, measures_of
from planbook.statement.model import RuleStated


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

    @property
    def model(self) -> ClearanceModel:
        """What the rule demands."""
        assert self.rule.clearance is not None
        return self.rule.clearance

    @property
    def place(self) -> Place:
        """Where the two come nearest."""
        return self.travel.places[self.nearest.place]

    @cached_property
    def hangs_on(self) -> tuple[str, ...]:
        """All that the shapes and places of the two hang on, but for what moves them."""
        moving = (self.travel.course.driver, *self.travel.course.held)
        names = hung_on(measures_of(self.pair.content, self.place.design), self.place.design)
        return tuple(name for name in names if name not in moving)

    def gap_with(self, values: Mapping[str, Quantity]) -> tuple[float, int] | None:
        """The least there and at the two places beside it, and where; None where it has no value."""
        last = len(self.travel.places) - 1
        around = sorted({max(self.nearest.place - 1, 0), self.nearest.place, min(self.nearest.place + 1, last)})
        gaps = [(self.pair.gap(self.travel.places[place], values), place) for place in around]
        return min(((gap, place) for gap, place in gaps if gap is not None), default=None)

    def short(self, worst: tuple[float, int], units: Units) -> str:
        """How near the two come, where, and what is wanted."""
        gap, place = worst
        near = f"{gap_text(-gap, units)} into one another" if gap < 0 else f"as near as {gap_text(gap, units)}"
        at = driver_text(self.travel, self.travel.places[place].at, units)
        wanted = f"and {gap_text(self.least, units)} is wanted"
        return f"{self.nearest.one} and {self.nearest.other} come {near} at {at}, {wanted}"

    def fails_at(self, gap: float) -> bool:
        """Whether so many millimetres are too few."""
        return gap < self.least - 1e-6

    def finding(self, code: str, message: str, remedy: str) -> Finding:
        """One about this rule, as grave as that is."""
        severity = Severity.STOP if self.rule.weight is Weight.STOP else Severity.WARN
        because = capital(str(self.rule.because))
        return Finding(code, severity, message, f"{because}: {remedy}", self.model.least.place)


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


def check_printed(found: tuple[Clearance, ...], printed: Mapping[str, Quantity], units: Units) -> tuple[Finding, ...]:
    """A finding for each that does not hold with the numbers that the sheets print."""
    return tuple(
        clearance.finding(
            "rule-broken-as-printed",
            f"The rule {clearance.name} holds in the design, and not with the printed numbers: "
            f"{clearance.short(worst, units)}.",
            "make room, or round in the design what the two are made from.",
        )
        for clearance in found
        if (worst := clearance.gap_with(_of(clearance, printed))) is not None and clearance.fails_at(worst[0])
    )


def _of(clearance: Clearance, values: Mapping[str, Quantity]) -> Mapping[str, Quantity]:
    wanted = set(clearance.hangs_on)
    return {name: value for name, value in values.items() if name in wanted}
