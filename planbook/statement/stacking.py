"""Stacks: what the tolerances and sheets that a measure hangs on add up to, and which sheets the design still takes."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from planbook.design import Design, Plan, Value, evaluate
from planbook.dimension.model import PartDimension
from planbook.measure import CALIPER_TOLERANCE, Quantity, Units
from planbook.measure.dimensionality import LENGTH, SCALAR, Dimensionality
from planbook.mechanics.stacks import Layer, Range, accepted
from planbook.source.content import Content
from planbook.source.findings import Finding, Severity
from planbook.source.models.calculations import StackModel
from planbook.source.text import Formula, Text
from planbook.statement.mending import hung_on

Findings = tuple[Finding, ...]


@dataclass(frozen=True)
class Stack:
    """A stack in one edition, worked out. `within` is what the sum may be where nothing closes the stack."""

    name: str
    model: StackModel
    design: Design
    plan: Plan
    value: Value
    within: Range
    closes: Range | None
    keep: float
    general: Mapping[str, float]
    """By name, how far what a sheet prints without a tolerance may be off, in nanometres."""

    @property
    def kind(self) -> Dimensionality:
        """Of the sum."""
        return self.value.quantity.dimensionality

    @property
    def layers(self) -> tuple[Layer, ...]:
        """Greatest share first."""
        every = (self._layer(name) for name in self._names)
        return tuple(sorted((each for each in every if each is not None and each.rate), key=lambda each: -each.share))

    @property
    def is_measured(self) -> bool:
        """Whether some sheet in it is one at hand, which has no range."""
        return any(is_sheet(name) and self.design.stock[name.split(".")[1]].measured for name in self._names)

    @property
    def _names(self) -> tuple[str, ...]:
        """All that the sum hangs on; the one name that it may be said of is what has to hold."""
        named = self.design.parameters.get(str(self.model.stack))
        return hung_on(self.value.inputs if named is None else named.value.inputs, self.design)

    @property
    def allowed(self) -> Range:
        """What the sum may be before what closes the stack brings it within."""
        return self.within if self.closes is None else self.within.opened(self.closes)

    def sheet(self, layer: Layer) -> Range:
        """The thicknesses for which the design still works, with a share of the tolerance kept for the making."""
        left = self.allowed.kept(self.value.number, self.keep)
        return accepted(lambda thickness: self.at(layer.name, thickness), layer.nominal, left)

    def takes(self, layer: Layer) -> bool:
        """Whether every sheet that is sold does."""
        return self.sheet(layer).holds(Range(layer.nominal - layer.minus, layer.nominal + layer.plus))

    def at(self, name: str, number: float) -> float | None:
        """The sum with one measure replaced."""
        kind = self.design.parameters[name].value.quantity.dimensionality
        there, _ = evaluate(self.plan, self.design.overriding({name: Quantity(number, kind)}))
        solved = None if there is None else there.solve(self.model.stack, self.kind)[0]
        return None if solved is None else solved.number

    def _layer(self, name: str) -> Layer | None:
        parameter = self.design.parameters[name]
        plus, minus = self._limits(name)
        nominal = parameter.value.number
        if plus + minus <= 0:
            return None
        high, low = self.at(name, nominal + plus), self.at(name, nominal - minus)
        return None if high is None or low is None else Layer(name, nominal, plus, minus, (high - low) / (plus + minus))

    def _limits(self, name: str) -> tuple[float, float]:
        """Of a parameter its tolerance, else the general one if a sheet prints it; of a stock's thickness the range
        that the market's table accepts.
        """
        value = self.design.parameters[name].value
        if is_sheet(name):
            least, most = self.design.stock[name.split(".")[1]].accepted or (value.number, value.number)
            return max(most - value.number, 0.0), max(value.number - least, 0.0)
        if value.tolerance is None:
            return (self.general.get(name, 0.0),) * 2
        return value.tolerance.plus, value.tolerance.minus


def narrowed(stacks: Iterable[Stack]) -> Mapping[str, tuple[float, float]]:
    """By stock: the thicknesses that all stacks take, where some do not take all that the market's table accepts."""
    ranges: dict[str, tuple[float, float]] = {}
    for stack in stacks:
        for layer in stack.layers:
            if not is_sheet(layer.name) or stack.takes(layer):
                continue
            key, does = layer.name.split(".")[1], stack.sheet(layer)
            low, high = ranges.get(key, (layer.nominal - layer.minus, layer.nominal + layer.plus))
            ranges[key] = max(low, does.low), min(high, does.high)
    return {key: (low, high) for key, (low, high) in ranges.items() if low < high}


def is_sheet(name: str) -> bool:
    """Whether it is the thickness of a stock."""
    return name.startswith("stock.") and name.endswith(".thickness")


def stacks_of(
    content: Content, design: Design, plan: Plan, dimensions: Iterable[PartDimension], units: Units
) -> tuple[tuple[Stack, ...], Findings]:
    """Those that have a value in this edition, whose sheets print these dimensions."""
    general = _general(content, design, dimensions, units)
    read = [_stack(name, model, design, plan, general) for name, model in content.stacks.items()]
    return tuple(stack for stack, _ in read if stack is not None), tuple(each for _, found in read for each in found)


def _general(
    content: Content, design: Design, dimensions: Iterable[PartDimension], units: Units
) -> Mapping[str, float]:
    """Of each given length that a sheet prints by its bare name, to be made to that number, without a tolerance."""
    length = design.solve(content.plan_set.tolerances.length, LENGTH)[0]
    if length is None:
        return {}
    fine = min(length.number, CALIPER_TOLERANCE[units])
    off: dict[str, float] = {}
    for each in dimensions:
        name = each.value.formula if each.value is not None else ""
        made = each.tolerance is None and not each.method and not each.reference
        if made and name in content.parameters and design.parameters[name].given:
            off[name] = max(off.get(name, 0.0), fine if each.caliper else length.number)
    return {name: by for name, by in off.items() if design.parameters[name].value.quantity.dimensionality == LENGTH}


def _stack(
    name: Text, model: StackModel, design: Design, plan: Plan, general: Mapping[str, float]
) -> tuple[Stack | None, Findings]:
    value, found = design.solve(model.stack)
    if value is None:
        return None, found
    kind = value.quantity.dimensionality
    within, found = _range(model.within, kind, design)
    closes, more = (None, ()) if model.closes_on is None else _range(model.closes_on.by, kind, design)
    keep, last = design.solve(model.keep, SCALAR)
    found += (*more, *last)
    if keep is not None and not 0 <= keep.number < 1:
        message = f"The stack {name} keeps {model.keep} of its tolerance for the making."
        remedy = "Keep a share from 0 % to less than 100 %, such as `keep: 50 %`."
        found += (Finding("stack-keep", Severity.STOP, message, remedy, model.keep.place),)
    if within is None or keep is None or found:
        return None, found
    return Stack(str(name), model, design, plan, value, within, closes, keep.number, general), ()


def _range(pair: tuple[Formula, Formula], kind: Dimensionality, design: Design) -> tuple[Range | None, Findings]:
    (low, one), (high, other) = (design.solve(formula, kind) for formula in pair)
    if low is None or high is None:
        return None, (*one, *other)
    if low.number > high.number:
        message = f"Nothing lies from `{pair[0]}` to `{pair[1]}`."
        remedy = f"Write the lesser one first: `[{pair[1]}, {pair[0]}]`."
        return None, (Finding("range-reversed", Severity.STOP, message, remedy, pair[0].place),)
    return Range(low.number, high.number), ()
