"""What if: a formula that stands in for the one that content gives a name, as typed on the command line."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from planbook.design.evaluation import evaluate
from planbook.design.naming import nearest
from planbook.design.plan import Plan
from planbook.design.values import Overrides
from planbook.measure.quantity import Quantity
from planbook.source.findings import Finding, Severity
from planbook.source.names import listed
from planbook.source.text import Text

Findings = tuple[Finding, ...]


@dataclass(frozen=True, slots=True)
class Supposed:
    """`ramp.run = 7 in`: a parameter, or a measure of stock or hardware, and the formula that it has instead."""

    name: str
    formula: str

    def __str__(self) -> str:
        return f"{self.name} = {self.formula}"


def read_supposed(text: str) -> Supposed | None:
    """None for a text that is not a name, a sign of equality and a formula."""
    name, equals, formula = (piece.strip() for piece in text.partition("="))
    return Supposed(name, formula) if name and equals and formula and formula[0] != "=" else None


def check_supposed(plan: Plan, supposed: Sequence[Supposed]) -> Findings:
    """Names that no market has, names said twice, and formulas that are faulty in some market."""
    seen: set[str] = set()
    found: dict[Finding, None] = {}
    for each in supposed:
        if each.name not in plan.names:
            found[_unknown(plan, each)] = None
        elif each.name in seen:
            found[_twice(each)] = None
        seen.add(each.name)
    if not found:
        found = {finding: None for market in plan.markets for finding in suppose(plan, market, supposed)[1]}
    return tuple(found)


def suppose(plan: Plan, market: str, supposed: Iterable[Supposed]) -> tuple[Mapping[str, Quantity], Findings]:
    """The values in one market. The formulas are worked out in the design as it stands; a name that this market has
    not is passed over.
    """
    design, _ = evaluate(plan, Overrides(market))
    values: dict[str, Quantity] = {}
    found: list[Finding] = []
    for each in supposed:
        kind = plan.markets[market].scope.kinds.get(each.name)
        if design is None or kind is None:
            continue
        value, findings = design.solve(Text(each.formula), kind)
        found += _quoted(each, findings)
        if value is not None:
            values[each.name] = value.quantity
    return values, tuple(found)


def _quoted(supposed: Supposed, findings: Findings) -> Iterator[Finding]:
    """A formula of the command line stands in no file."""
    for finding in findings:
        yield replace(finding, message=f"In `{supposed}`: {finding.message}", place=None)


def _unknown(plan: Plan, supposed: Supposed) -> Finding:
    close = nearest(supposed.name, plan.names)
    remedy = (
        f"Did you mean {listed(close, 'or')}?" if close else "Give the name of a parameter, or of a stock's measure."
    )
    message = f"In `{supposed}`: there is no `{supposed.name}`."
    return Finding("unknown-name", Severity.STOP, message, remedy)


def _twice(supposed: Supposed) -> Finding:
    message = f"`{supposed.name}` is supposed to have two values; `{supposed}` is the second."
    return Finding("supposed-twice", Severity.STOP, message, "Say one of them.")
