"""A sum of measures with signs, as a fit names them: `dim.end.blank.thickness - 2 * dim.end.housing.depth`."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from planbook.design.faults import Breach, Fault
from planbook.design.syntax import Name, Negation, Node, Number, Operation, parse
from planbook.measure import settled
from planbook.measure.dimensionality import LENGTH, SCALAR


@dataclass(frozen=True, slots=True)
class Sum:
    """The names with their factors, and what is added to them: nanometres, or a plain number without names."""

    factors: Mapping[str, float] = field(default_factory=dict)
    constant: float = 0.0
    plain: bool = False

    def times(self, factor: float) -> Sum:
        """Every term so many times."""
        return Sum({name: each * factor for name, each in self.factors.items()}, self.constant * factor, self.plain)

    def plus(self, other: Sum) -> Sum:
        """Both together; a name that takes itself away, but for the noise of arithmetic, is no longer there."""
        factors = dict(self.factors)
        for name, factor in other.factors.items():
            factors[name] = factors.get(name, 0.0) + factor
        kept = {name: factor for name, factor in factors.items() if settled(1 + abs(factor)) > 1}
        return Sum(kept, self.constant + other.constant, self.plain)


def read_sum(formula: str) -> Sum | Fault:
    """The terms of a formula that only adds, subtracts, and multiplies by numbers; else what is wrong with it."""
    tree = parse(formula)
    if isinstance(tree, Fault):
        return tree
    try:
        found = _sum(tree)
    except Breach as breach:
        return breach.fault
    return _refused(tree) if found.plain else found


def _sum(node: Node) -> Sum:
    match node:
        case Name(name=name):
            return Sum({name: 1.0})
        case Number(value=value, kind=kind) if kind in (LENGTH, SCALAR):
            return Sum({}, value, kind == SCALAR)
        case Negation(operand=operand):
            return _sum(operand).times(-1.0)
        case Operation(operator=operator, left=left, right=right):
            return _of_two(node, operator, _sum(left), _sum(right))
    raise Breach(_refused(node))


def _of_two(node: Node, operator: str, left: Sum, right: Sum) -> Sum:
    if operator in "+-" and left.plain == right.plain:
        return left.plus(right.times(1.0 if operator == "+" else -1.0))
    if operator == "*" and left.plain:
        return right.times(left.constant)
    if operator == "*" and right.plain:
        return left.times(right.constant)
    if operator == "/" and right.plain and right.constant:
        return left.times(1.0 / right.constant)
    raise Breach(_refused(node))


def _refused(node: Node) -> Fault:
    return Fault(
        "fit-not-a-sum",
        node.span.start,
        "A fit adds and subtracts measures, and multiplies them by plain numbers; nothing else has limits.",
        "Write a sum, such as `dim.seat.slot.width - 2 * 0.5 mm`.",
    )
