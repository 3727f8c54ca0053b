"""A design: every quantity of one edition evaluated, and any further formula solved against it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property

from planbook.design.compiler import Compiled, CompiledRule, failing
from planbook.design.entries import DRILL, GREATEST, LEAST, MINUS, PLUS
from planbook.design.faults import Fault, findings_in, spot
from planbook.design.fineness import fineness
from planbook.design.plan import MarketPlan
from planbook.design.running import value_or_fault
from planbook.design.syntax import Name, parse
from planbook.design.values import Hardware, Judgement, Overrides, Parameter, Stock, Tolerance, Value
from planbook.measure.dimensionality import Dimensionality
from planbook.measure.quantity import Quantity
from planbook.measure.systems import Precision
from planbook.measure.writing import written
from planbook.source.findings import Finding
from planbook.source.text import Formula, Text

Findings = tuple[Finding, ...]
_DIGITS = 9
"""Of a value that stands in the place of a formula."""


@dataclass(frozen=True)
class Design:
    """Immutable. Names whose formula is faulty are absent; a formula that rests on one is passed over silently."""

    market: str
    plan: MarketPlan
    numbers: tuple[float, ...]
    """Values in base units, by slot."""
    broken: frozenset[str]
    fixed: Mapping[str, Quantity] = field(default_factory=dict)
    """What it was evaluated with in the place of formulas."""
    narrowed: Mapping[str, tuple[float, float]] = field(default_factory=dict)
    """By stock: the thicknesses that the design takes, where that is less than its market's table accepts."""

    def overriding(self, values: Mapping[str, Quantity]) -> Overrides:
        """For evaluating it anew with these values as well."""
        return Overrides(self.market, {**self.fixed, **values})

    def accepting(self, ranges: Mapping[str, tuple[float, float]]) -> Design:
        """The same design, taking only these thicknesses of some stock."""
        return replace(self, narrowed=ranges) if ranges else self

    @cached_property
    def parameters(self) -> Mapping[str, Parameter]:
        """Every named quantity: parameters in file order, then stock.* and hardware.* of the market."""
        return _Parameters(self)

    @cached_property
    def stock(self) -> Mapping[str, Stock]:
        """Stock by key, lengths in nanometres."""
        stock = self.plan.model.stock
        return {str(key): self._stock(str(key)) for key in stock if f"stock.{key}.thickness" in self.parameters}

    @cached_property
    def hardware(self) -> Mapping[str, Hardware]:
        """Hardware items by key, with their measures."""
        return {str(key): self._hardware(str(key)) for key in self.plan.model.hardware}

    @cached_property
    def drills(self) -> tuple[float, ...]:
        """Diameters that the market sells, in nanometres, smallest first."""
        numbers = (self._number(name) for name in self.plan.entries if name.startswith(DRILL))
        return tuple(sorted(number for number in numbers if number is not None))

    def solve(self, formula: Text, expect: Dimensionality | None = None) -> tuple[Value | None, Findings]:
        """The value of a formula. Without findings and without a value, it rests on what is reported already."""
        compiled = self.plan.formula(str(formula), expect)
        if not isinstance(compiled, Compiled):
            return None, findings_in(formula, compiled)
        if compiled.kind is None or not self.broken.isdisjoint(compiled.inputs):
            return None, ()
        value = self._value(compiled, compiled.kind, formula)
        return (None, (value.found_in(formula),)) if isinstance(value, Fault) else (value, ())

    def judge(self, require: Formula) -> tuple[Judgement | None, Findings]:
        """Whether a requirement holds, and the values of its sides. None as in `solve`."""
        rule = self.plan.rule(str(require))
        if not isinstance(rule, CompiledRule):
            return None, findings_in(require, rule)
        used = {name for side in rule.sides for name in side.inputs}
        if rule.kind is None or not self.broken.isdisjoint(used):
            return None, ()
        sides = [self._side(rule, rule.kind, position, require) for position in range(len(rule.sides))]
        values = tuple(side for side in sides if isinstance(side, Value))
        if len(values) < len(sides):
            return None, findings_in(require, (side for side in sides if isinstance(side, Fault)))
        numbers = [side.number for side in values]
        return Judgement(values, rule.relations, failing(rule.kind, numbers, rule.relations)), ()

    def parameter(self, name: str) -> Parameter | None:
        """A named quantity, if there is one that is sound."""
        if name not in self.plan.scope.kinds or name in self.broken:
            return None
        entry, used = self.plan.entries[name], self.plan.inputs[name]
        quantity = Quantity(self.numbers[self.plan.slots[name]], self.plan.scope.kinds[name])
        precision, tolerance = self._precision[name], self._tolerance(name)
        formula = str(entry.formula)
        if name in self.fixed:
            formula, used = written(quantity, _DIGITS), ()
        value = Value(quantity, formula, entry.formula.place, used, precision, tolerance)
        return Parameter(name, value, entry.means, not used)

    @cached_property
    def _precision(self) -> Mapping[str, Precision]:
        """As planned; sheets that were measured are printed as measured, and so is what is named for them."""
        measured = {name for name in self.fixed if name.startswith("stock.")}
        for name in self.plan.slots if measured else ():
            tree = parse(str(self.plan.entries[name].formula))
            if name not in self.fixed and isinstance(tree, Name) and tree.name in measured:
                measured.add(name)
        return {**self.plan.precision, **dict.fromkeys(measured, Precision.CALIPER)}

    def _number(self, name: str) -> float | None:
        slot = self.plan.slots.get(name)
        return None if slot is None or name in self.broken else self.numbers[slot]

    def _tolerance(self, name: str) -> Tolerance | None:
        plus, minus = self._number(name + PLUS), self._number(name + MINUS)
        return None if plus is None and minus is None else Tolerance(plus or 0.0, minus or 0.0)

    def _stock(self, key: str) -> Stock:
        name = f"stock.{key}.thickness"
        least, greatest = self._number(name + LEAST), self._number(name + GREATEST)
        sold = None if least is None or greatest is None or name in self.fixed else (least, greatest)
        accepted = self.narrowed.get(key, sold)
        width, thickness = self._number(f"stock.{key}.width"), self.numbers[self.plan.slots[name]]
        return Stock(
            key, self.plan.model.stock[Text(key)], thickness, accepted, width, name in self.fixed, key in self.narrowed
        )

    def _hardware(self, key: str) -> Hardware:
        model = self.plan.model.hardware[Text(key)]
        found = {str(measure): self.parameter(f"hardware.{key}.{measure}") for measure in model.measures}
        return Hardware(key, model, {measure: each.value.quantity for measure, each in found.items() if each})

    def _side(self, rule: CompiledRule, kind: Dimensionality, position: int, require: Text) -> Value | Fault:
        text = Text(rule.texts[position], spot(require, rule.offsets[position]))
        return self._value(rule.sides[position], kind, text)

    def _value(self, compiled: Compiled, kind: Dimensionality, formula: Text) -> Value | Fault:
        """The value of a sound formula. A fault's offset counts in the text that was compiled."""
        number = value_or_fault(compiled.run, self.numbers)
        if isinstance(number, Fault):
            return number
        tree = parse(str(formula))
        precision = Precision.WOODWORK if isinstance(tree, Fault) else fineness(tree, self._precision)
        tolerance = self._tolerance(tree.name) if isinstance(tree, Name) else None
        quantity = Quantity(number, kind)
        return Value(quantity, str(formula), formula.place, compiled.inputs, precision, tolerance)


@dataclass(frozen=True)
class _Parameters(Mapping[str, Parameter]):
    """Parameters made when they are asked for: a sweep of a thousand designs asks for few."""

    design: Design

    def __getitem__(self, name: str) -> Parameter:
        parameter = self.design.parameter(name)
        if parameter is None:
            raise KeyError(name)
        return parameter

    def __iter__(self) -> Iterator[str]:
        return (name for name in self.design.plan.scope.names if self.design.parameter(name))

    def __len__(self) -> int:
        return sum(1 for _ in self)
