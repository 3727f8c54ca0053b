"""The rules of a plan set, judged in one edition."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from planbook.design import Design, Judgement
from planbook.measure import Precision, Quantity, Units, print_quantity
from planbook.measure.dimensionality import LENGTH
from planbook.source.content import Content
from planbook.source.findings import Finding, Severity
from planbook.source.models.rules import RuleModel, Weight
from planbook.source.sentences import capital
from planbook.source.text import Formula, Text
from planbook.statement.model import RuleStated

_MOST_NAMES = 8


def judge_rules(
    content: Content, design: Design, units: Units, because: Mapping[str, str]
) -> tuple[Mapping[str, RuleStated], tuple[Finding, ...]]:
    """Each rule that applies in this market, and a finding for each that fails.

    `because` are the rules' reasons as printed, by rule.
    """
    stated: dict[str, RuleStated] = {}
    found: list[Finding] = []
    for name, rule in content.rules.items():
        require = requirement(rule, design.market)
        judgement, findings = design.judge(require) if require is not None else (None, ())
        found += findings
        if require is None or judgement is None:
            continue
        sides = _sides(judgement, units)
        words = _chain(sides, judgement.relations)
        stated[str(name)] = RuleStated(
            str(name), str(require), because[str(name)], words, judgement.holds, str(rule.weight)
        )
        if not judgement.holds:
            message = f"The rule {name} does not hold: {_shortfall(judgement, sides, units)}."
            severity = Severity.STOP if rule.weight is Weight.STOP else Severity.WARN
            found.append(Finding("rule-broken", severity, message, _remedy(rule, judgement, design), require.place))
    return stated, tuple(found)


def judge_printed(
    content: Content, printed: Design, units: Units, stated: Mapping[str, RuleStated]
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
        for broken in newly_broken(content, printed, units, stated)
    )


@dataclass(frozen=True, slots=True)
class Broken:
    """A rule that holds in the design and not in another one; `short` says what it falls short by."""

    name: str
    require: Formula
    short: str
    remedy: str
    severity: Severity


def newly_broken(content: Content, other: Design, units: Units, stated: Mapping[str, RuleStated]) -> Iterator[Broken]:
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
        yield Broken(str(name), require, short, _remedy(rule, judgement, other), severity)


def requirement(rule: RuleModel, market: str) -> Formula | None:
    """What a rule demands in a market; None where it says nothing of it."""
    return rule.require if rule.by_market is None else rule.by_market.get(Text(market))


def _chain(sides: Iterable[str], relations: Iterable[str]) -> str:
    first, *others = sides
    return " ".join((first, *(f"{relation} {side}" for relation, side in zip(relations, others, strict=True))))


def _sides(judgement: Judgement, units: Units) -> tuple[str, ...]:
    """The sides as printed; when sides that differ would read alike, more finely, and at last exactly."""
    quantities = [side.quantity for side in judgement.sides]
    wanted = len({quantity.value for quantity in quantities})
    for precision in (Precision.WOODWORK, Precision.CALIPER):
        finest = [Precision.CALIPER if side.precision is Precision.CALIPER else precision for side in judgement.sides]
        printed = [print_quantity(quantity, units, each) for quantity, each in zip(quantities, finest, strict=True)]
        if len({each.value for each in printed}) == wanted:
            return tuple(_first(each.text, each.unit) for each in printed)
    return tuple(_exact(quantity) for quantity in quantities)


def _exact(quantity: Quantity) -> str:
    return f"{quantity.value / 1e6:.9g} mm" if quantity.dimensionality == LENGTH else f"{quantity.value:.9g}"


def _first(text: str, unit: str) -> str:
    return f"{text}{unit}" if not unit or unit == "°" else f"{text} {unit}"


def _shortfall(judgement: Judgement, sides: tuple[str, ...], units: Units) -> str:
    """The relation that fails, by how much, and the formulas of its sides."""
    at = judgement.failing or 0
    left, right = judgement.sides[at], judgement.sides[at + 1]
    apart = Quantity(abs(left.number - right.number), left.quantity.dimensionality)
    printed = print_quantity(apart, units, Precision.CALIPER)
    amount = _first(printed.text, printed.unit) if printed.value else _exact(apart)
    relation = judgement.relations[at]
    return f"{sides[at]} {relation} {sides[at + 1]} fails by {amount} ({left.formula} {relation} {right.formula})"


def _remedy(rule: RuleModel, judgement: Judgement, design: Design) -> str:
    given = given_names((each for side in judgement.sides for each in side.inputs), design)
    names = ", ".join(given[:_MOST_NAMES]) + (" or another" if len(given) > _MOST_NAMES else "")
    return f"{capital(str(rule.because))}: change {names or 'the rule'}."


def given_names(names: Iterable[str], design: Design) -> tuple[str, ...]:
    """The given parameters that these names hang on, the author's own first, then the market's."""
    reached: dict[str, None] = {}
    waiting = list(names)
    while waiting:
        name = waiting.pop()
        parameter = design.parameters.get(name)
        if parameter is not None and name not in reached:
            reached[name] = None
            waiting += parameter.value.inputs
    given = [name for name in reached if design.parameters[name].given]
    return tuple(sorted(given, key=lambda name: (name.startswith(("stock.", "hardware.")), name)))
