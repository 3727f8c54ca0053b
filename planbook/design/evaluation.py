"""Evaluating a plan: edition, market, driver, tolerance end and what-if are all overrides of one function."""

from __future__ import annotations

import math
from collections.abc import Mapping

from planbook.design.design import Design
from planbook.design.entries import GREATEST, LEAST
from planbook.design.faults import Breach, Fault
from planbook.design.naming import nearest
from planbook.design.plan import MarketPlan, Plan
from planbook.design.running import value_or_fault
from planbook.design.values import Overrides
from planbook.measure.quantity import Quantity
from planbook.measure.units import in_words
from planbook.source.findings import Finding, Severity
from planbook.source.names import listed
from planbook.source.sentences import capital

Faults = Mapping[str, Fault]
"""By the name of the entry whose formula has the fault."""


def evaluate(plan: Plan, overrides: Overrides) -> tuple[Design | None, tuple[Finding, ...]]:
    """The design in one market, with some names (parameters, stock or hardware measures) replaced by constants.

    None if the overrides name what is not there. A formula without a value is a finding; what rests on it is absent
    from the design, silently.
    """
    market = plan.markets.get(overrides.market)
    if market is None:
        return None, (_unknown_market(plan, overrides.market),)
    refused = _check_overrides(market, overrides.values)
    if refused:
        return None, refused
    unweighed = market.unweighed(overrides.values)
    numbers = _run(market, overrides.values) if not unweighed else None
    broken, faults = market.broken, dict[str, Fault]()
    if numbers is None:
        numbers, broken, faults = _run_with_care(market, overrides.values, unweighed)
    faults |= _negative_tolerances(market, numbers, broken) | _reversed_ranges(market, numbers, broken)
    findings = tuple(fault.found_in(market.entries[name].formula) for name, fault in faults.items())
    return Design(overrides.market, market, tuple(numbers), broken, overrides.values), findings


def _run(market: MarketPlan, fixed: Mapping[str, Quantity]) -> list[float] | None:
    """All values by slot, as fast as they come; None if some formula has none."""
    numbers, replaced = _start(market, fixed)
    code = [step for step in market.code if step[0] not in replaced] if replaced else market.code
    try:
        for slot, run in code:
            numbers[slot] = run(numbers)
    except Breach:
        return None
    return numbers if all(map(math.isfinite, numbers)) else None


def _run_with_care(
    market: MarketPlan, fixed: Mapping[str, Quantity], unweighed: frozenset[str]
) -> tuple[list[float], frozenset[str], dict[str, Fault]]:
    """All values that there are, the names that have none, and the faults that are no consequence of another. What is
    `unweighed` has no value yet, which is no fault.
    """
    numbers, replaced = _start(market, fixed)
    broken, faults = {*market.broken, *unweighed}, dict[str, Fault]()
    names = {slot: name for name, slot in market.slots.items()}
    for slot, run in market.code:
        name = names[slot]
        if slot in replaced or name in unweighed:
            continue
        if not broken.isdisjoint(market.inputs[name]):
            broken.add(name)
            continue
        value = value_or_fault(run, numbers)
        if isinstance(value, Fault):
            broken.add(name)
            faults[name] = value
        else:
            numbers[slot] = value
    return numbers, frozenset(broken), faults


def _start(market: MarketPlan, fixed: Mapping[str, Quantity]) -> tuple[list[float], set[int]]:
    numbers = [0.0] * len(market.slots)
    for name, quantity in fixed.items():
        numbers[market.slots[name]] = quantity.value
    return numbers, {market.slots[name] for name in fixed}


def _negative_tolerances(market: MarketPlan, numbers: list[float], broken: frozenset[str]) -> dict[str, Fault]:
    remedy = "Write a tolerance without a sign, or both sides as `+0.5 mm/-0.2 mm`."
    return {
        name: Fault("bad-tolerance", 0, f"{capital(market.entries[name].subject)} is less than 0.", remedy)
        for name in market.tolerances
        if name not in broken and numbers[market.slots[name]] < 0
    }


def _reversed_ranges(market: MarketPlan, numbers: list[float], broken: frozenset[str]) -> dict[str, Fault]:
    """Accepted ranges of stock that no thickness can lie in."""
    found: dict[str, Fault] = {}
    for least in (name for name in market.entries if name.endswith(LEAST) and name not in broken):
        greatest = least.removesuffix(LEAST) + GREATEST
        if greatest in broken or numbers[market.slots[least]] <= numbers[market.slots[greatest]]:
            continue
        low, high = (market.entries[name].formula for name in (least, greatest))
        message = f"No thickness is accepted: `{low}` is more than `{high}`."
        found[least] = Fault("range-reversed", 0, message, f"Write the least first: `accepted: [{high}, {low}]`.")
    return found


def _unknown_market(plan: Plan, market: str) -> Finding:
    close = nearest(market, plan.markets) or tuple(plan.markets)
    message = f"There is no market `{market}`."
    return Finding("unknown-market", Severity.STOP, message, f"This set is sold in {', '.join(close)}.")


def _check_overrides(market: MarketPlan, values: Mapping[str, Quantity]) -> tuple[Finding, ...]:
    return tuple(finding for name, each in values.items() if (finding := _check_override(market, name, each)))


def _check_override(market: MarketPlan, name: str, quantity: Quantity) -> Finding | None:
    if name not in market.slots or name not in market.scope.slots:
        close = nearest(name, market.scope.names)
        remedy = f"Did you mean {listed(close, 'or')}?" if close else "Name a parameter."
        return Finding("unknown-override", Severity.STOP, f"There is no `{name}` to replace.", remedy)
    kind = market.scope.kinds.get(name, quantity.dimensionality)
    if kind != quantity.dimensionality or not math.isfinite(quantity.value):
        message = f"`{name}` is {in_words(kind)} and cannot be replaced by {in_words(quantity.dimensionality)}."
        return Finding("wrong-kind", Severity.STOP, message, f"Give it {in_words(kind)}, and a finite one.")
    return None
