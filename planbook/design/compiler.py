"""From a formula to a function of plain floats: typed once, then only arithmetic."""

from __future__ import annotations

import math
import operator
from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from planbook.design.asked import asked_of_two
from planbook.design.faults import Breach, Fault
from planbook.design.functions import FUNCTIONS, broken, call_function
from planbook.design.kinds import TRUTH, Checks, Run, Typed
from planbook.design.naming import nearest
from planbook.design.running import NOT_FINITE
from planbook.design.syntax import (
    MAX_EXPONENT,
    Call,
    Comparison,
    Name,
    Negation,
    Node,
    Number,
    Operation,
    parse,
    whole_number,
)
from planbook.measure.dimensionality import LENGTH, SCALAR, Dimensionality
from planbook.measure.rounding import settled, snap
from planbook.mechanics import CALCULATORS
from planbook.source.names import listed

_UNKNOWN_FUNCTION: Final = (
    f"The functions of arithmetic are {', '.join(name for name in FUNCTIONS if name not in CALCULATORS)}; the others "
    "stand in docs/mechanics.md. What two components leave between them is asked by a rule: "
    "`clearance: {between: [..., ...], least: ...}` with `over:` a travel."
)


@dataclass(frozen=True)
class Scope:
    """The names that a formula may use: slot of each, and kind of each that is sound."""

    slots: Mapping[str, int]
    kinds: Mapping[str, Dimensionality]
    names: Collection[str]
    """Those that are proposed for an unknown one."""
    travels: tuple[str, ...] = ()
    """Along which a rule may ask something."""


@dataclass(frozen=True, slots=True)
class Compiled:
    """A formula ready to run. `kind` is None if it rests on something faulty that was reported elsewhere."""

    kind: Dimensionality | None
    run: Run
    inputs: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class CompiledRule:
    """A comparison ready to run, its sides apart. `kind` as in `Compiled`."""

    kind: Dimensionality | None
    sides: tuple[Compiled, ...]
    texts: tuple[str, ...]
    relations: tuple[str, ...]
    offsets: tuple[int, ...]


Faults = tuple[Fault, ...]


def compile_formula(
    text: str, scope: Scope, expect: Dimensionality | None = None, where: str = "this"
) -> Compiled | Faults:
    """A value's formula; `expect` is the kind that `where` needs, if it must be a certain one."""
    tree = parse(text)
    if isinstance(tree, Fault):
        return (tree,)
    checks = Checks(text)
    typed = _Compiler(checks, scope).compile(tree)
    if expect is not None:
        checks.demand(typed, expect, where)
    else:
        checks.alike([typed], "a value")
    if checks.faults:
        return tuple(checks.faults)
    return _compiled(typed)


def compile_rule(text: str, scope: Scope) -> CompiledRule | Faults:
    """A requirement: it must compare."""
    tree = parse(text)
    if isinstance(tree, Fault):
        return (tree,)
    if not isinstance(tree, Comparison):
        return (Fault("wrong-kind", 0, f"`{text}` compares nothing.", "Write a comparison: `knee.clear >= 600 mm`."),)
    asked = asked_of_two(text, tree, scope.slots, scope.travels)
    if asked is not None:
        return (asked,)
    checks = Checks(text)
    compiler = _Compiler(checks, scope)
    sides = [compiler.compile(side) for side in tree.sides]
    kind = checks.alike(sides, "compared")
    if checks.faults:
        return tuple(checks.faults)
    texts = tuple(checks.quote(side) for side in tree.sides)
    offsets = tuple(side.span.start for side in tree.sides)
    return CompiledRule(kind, tuple(_compiled(side) for side in sides), texts, tree.relations, offsets)


def failing(kind: Dimensionality, numbers: Sequence[float], relations: Sequence[str]) -> int | None:
    """The place of the first relation that does not hold, None if all do.

    Values are compared without the noise of arithmetic: lengths in steps of 1/1024 nm, others to 12 digits.
    """
    clean = [snap(number) if kind == LENGTH else settled(number) for number in numbers]
    pairs = enumerate(zip(clean, relations, clean[1:], strict=False))
    return next((at for at, (left, relation, right) in pairs if not _RELATIONS[relation](left, right)), None)


def names_in(tree: Node) -> tuple[str, ...]:
    """The names that a formula mentions, each once, in its order."""
    return tuple(dict.fromkeys(node.name for node in mentions(tree)))


def mentions(tree: Node) -> list[Name]:
    """Every mention of a name, from left to right."""
    found: list[Name] = []
    waiting: list[Node] = [tree]
    while waiting:
        match waiting.pop():
            case Name() as name:
                found.append(name)
            case Negation(operand=operand):
                waiting.append(operand)
            case Operation(left=left, right=right):
                waiting += [right, left]
            case Call(arguments=nodes) | Comparison(sides=nodes):
                waiting += reversed(nodes)
            case Number():
                pass
    return found


def _compiled(typed: Typed) -> Compiled:
    kind = typed.kind if isinstance(typed.kind, Dimensionality) else None
    return Compiled(kind, typed.run, names_in(typed.node))


_RELATIONS: Mapping[str, Callable[[float, float], bool]] = {
    "<": operator.lt,
    "<=": operator.le,
    "==": operator.eq,
    ">=": operator.ge,
    ">": operator.gt,
}


@dataclass(frozen=True, slots=True)
class _Compiler:
    checks: Checks
    scope: Scope

    def compile(self, node: Node) -> Typed:
        """A piece with its kind and its function; faults go to the checks."""
        match node:
            case Number() | Name():
                return self._atom(node)
            case Negation():
                return self._negation(node)
            case Operation():
                return self._operation(node)
            case Call():
                return self._call(node)
            case Comparison():
                return self._comparison(node)

    def _atom(self, node: Number | Name) -> Typed:
        if isinstance(node, Number):
            value = node.value
            return Typed(node, node.kind, lambda _: value)
        slot = self.scope.slots.get(node.name)
        if slot is None:
            self._report_unknown(node)
            return Typed(node, None, _nothing)
        return Typed(node, self.scope.kinds.get(node.name), operator.itemgetter(slot))

    def _negation(self, node: Negation) -> Typed:
        inner = self.compile(node.operand)
        kind, run = self.checks.alike([inner], "negated"), inner.run
        return Typed(node, kind, lambda values: -run(values))

    def _operation(self, node: Operation) -> Typed:
        if node.operator == "^":
            return self._power(node)
        pieces = self.compile(node.left), self.compile(node.right)
        return self._sum(node, pieces) if node.operator in "+-" else self._product(node, pieces)

    def _sum(self, node: Operation, pieces: tuple[Typed, Typed]) -> Typed:
        plus = node.operator == "+"
        kind = self.checks.alike(pieces, "added" if plus else "subtracted")
        left, right = (piece.run for piece in pieces)
        if plus:
            return Typed(node, kind, lambda values: left(values) + right(values))
        return Typed(node, kind, lambda values: left(values) - right(values))

    def _product(self, node: Operation, pieces: tuple[Typed, Typed]) -> Typed:
        times = node.operator == "*"
        first, second = (self.checks.alike([piece], "multiplied" if times else "divided") for piece in pieces)
        left, right = (piece.run for piece in pieces)
        kind = None if first is None or second is None else first * second if times else first / second
        if times:
            return Typed(node, kind, lambda values: left(values) * right(values))
        return Typed(node, kind, _division(left, right, self._division_fault(node)))

    def _division_fault(self, node: Operation) -> Fault:
        quoted = self.checks.quote(node.right)
        remedy = f"See that `{quoted}` is never 0, or choose with where(...)."
        return Fault("division-by-zero", node.right.span.start, f"This divides by `{quoted}`, which is 0.", remedy)

    def _power(self, node: Operation) -> Typed:
        base, exponent = self.compile(node.left), self.compile(node.right)
        kind = self.checks.alike([base], "raised")
        fits = self.checks.demand(exponent, SCALAR, "an exponent")
        if kind is None or not fits:
            return Typed(node, None, _nothing)
        if kind != SCALAR:
            power = whole_number(node.right)
            if power is None or abs(power) > MAX_EXPONENT:
                message = f"`{self.checks.quote(node.left)}` is a quantity, so its exponent must be a whole number."
                self.checks.report("wrong-kind", node.right, message, "Write ^2 or ^3; for a root use sqrt(...).")
                return Typed(node, None, _nothing)
            kind = kind**power
        return Typed(node, kind, _raising(base.run, exponent.run, node.span.start, self.checks.quote(node)))

    def _call(self, node: Call) -> Typed:
        pieces = [self.compile(argument) for argument in node.arguments]
        if node.function in FUNCTIONS:
            return call_function(self.checks, node, pieces)
        close = nearest(node.function, FUNCTIONS)
        remedy = f"Did you mean {listed(close, 'or')}?" if close else _UNKNOWN_FUNCTION
        self.checks.report("unknown-function", node, f"There is no function `{node.function}`.", remedy)
        return broken(node)

    def _comparison(self, node: Comparison) -> Typed:
        pieces = [self.compile(side) for side in node.sides]
        kind = self.checks.alike(pieces, "compared")
        if kind is None:
            return Typed(node, None, _nothing)
        return Typed(node, TRUTH, _comparing(kind, [piece.run for piece in pieces], node))

    def _report_unknown(self, node: Name) -> None:
        close = nearest(node.name, self.scope.names)
        if node.name in FUNCTIONS:
            remedy = f"A function needs its arguments: {FUNCTIONS[node.name].usage}."
        elif close:
            remedy = f"Did you mean {listed(close, 'or')}?"
        else:
            remedy = f"Define `{node.name}` in parameters.yaml."
        self.checks.report("unknown-name", node, f"There is no `{node.name}`.", remedy)


def _nothing(_: Sequence[float]) -> float:
    return math.nan


def _division(left: Run, right: Run, fault: Fault) -> Run:
    def run(values: Sequence[float]) -> float:
        try:
            return left(values) / right(values)
        except ZeroDivisionError:
            raise Breach(fault) from None

    return run


def _comparing(kind: Dimensionality, sides: Sequence[Run], node: Comparison) -> Run:
    def run(values: Sequence[float]) -> float:
        numbers = [side(values) for side in sides]
        if not all(map(math.isfinite, numbers)):
            raise Breach(Fault("not-finite", node.span.start, "A number too large is compared.", NOT_FINITE.remedy))
        return failing(kind, numbers, node.relations) is None

    return run


def _raising(base: Run, exponent: Run, at: int, quoted: str) -> Run:
    def run(values: Sequence[float]) -> float:
        try:
            return math.pow(base(values), exponent(values))
        except (ValueError, OverflowError):
            remedy = "See that a root is not taken of a negative number, and that the power stays finite."
            raise Breach(Fault("no-value", at, f"`{quoted}` has no value.", remedy)) from None

    return run
