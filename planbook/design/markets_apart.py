"""Values that an author gives market by market and that lie too far apart to be the same measure: `20 in`, `510 cm`."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from fractions import Fraction

from planbook.design.design import Design
from planbook.design.evaluation import evaluate
from planbook.design.plan import Plan
from planbook.design.values import Overrides, Parameter
from planbook.measure.dimensionality import LENGTH
from planbook.measure.units import UNITS
from planbook.source.content import Content
from planbook.source.findings import Finding, Related, Severity

APART = 2.1
"""Times. Sizes sold in two markets differ less than this; a slip of the unit or the point differs by more."""
_ALIKE = 1.5
"""Times within which a value with another unit is proposed."""
_UNITS = ("mm", "cm", "m", "in", "ft")
_TYPED = re.compile(rf"(?P<number>[\d./ ]+?)\s*(?P<unit>{'|'.join(_UNITS)})")


def check_markets(content: Content, plan: Plan) -> tuple[Finding, ...]:
    """A warning for each parameter whose given values differ between markets by more than a factor of about 2."""
    designs = {market: evaluate(plan, Overrides(market))[0] for market in plan.markets}
    sound = {market: design for market, design in designs.items() if design}
    return tuple(
        finding
        for name, model in content.parameters.items()
        if model.by_market
        for finding in _compare(str(name), _given(str(name), sound))
    )


def _given(name: str, designs: Mapping[str, Design]) -> dict[str, Parameter]:
    """The parameter in each market where its value is the author's own number, and not nothing."""
    found = {market: design.parameter(name) for market, design in designs.items()}
    return {market: each for market, each in found.items() if each and each.given and each.value.number}


def _compare(name: str, given: Mapping[str, Parameter]) -> Iterator[Finding]:
    if len(given) < 2:
        return
    low, high = (choose(given, key=lambda market: abs(given[market].value.number)) for choose in (min, max))
    small, large = given[low].value, given[high].value
    times = abs(large.number / small.number)
    if times <= APART or large.quantity.dimensionality != small.quantity.dimensionality:
        return
    yield Finding(
        "markets-differ",
        Severity.WARN,
        f"`{name}` is `{small.formula}` in {low} and `{large.formula}` in {high}, {times:.3g} times as much.",
        _remedy(given, (low, high)),
        large.place,
        related=(Related(small.place, f"`{small.formula}` in {low}"),),
    )


def _remedy(given: Mapping[str, Parameter], pair: tuple[str, str]) -> str:
    """The typed number with the unit that brings the two nearest, where one does."""
    low, high = pair
    numbers = {market: abs(given[market].value.number) for market in pair}
    proposals = [
        (times, f"`{text}` for {market}")
        for market, other in ((high, low), (low, high))
        for text, number in _with_other_units(given[market])
        if (times := max(number / numbers[other], numbers[other] / number)) < _ALIKE
    ]
    if proposals:
        return f"Did you mean {min(proposals)[1]}? If both are right, leave them."
    return "Look at the unit and the point of both. If both are right, leave them."


def _with_other_units(parameter: Parameter) -> Iterable[tuple[str, float]]:
    value = parameter.value
    typed = _TYPED.fullmatch(value.formula)
    if value.quantity.dimensionality != LENGTH or typed is None:
        return
    for unit in _UNITS:
        if unit != typed["unit"]:
            number = abs(value.number) * float(
                UNITS[unit].to_base(Fraction(1)) / UNITS[typed["unit"]].to_base(Fraction(1))
            )
            yield f"{typed['number']} {unit}", number
