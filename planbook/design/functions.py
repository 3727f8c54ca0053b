"""The functions of the formula language: what each takes, gives, and computes."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from types import MappingProxyType

from planbook.design.calculating import calculate
from planbook.design.faults import Breach, Fault
from planbook.design.kinds import Checks, Truth, Typed
from planbook.design.syntax import Call
from planbook.measure.degrees import arc_cosine, arc_sine, arc_tangent, cosine, direction, sine, tangent
from planbook.measure.dimensionality import ANGLE, LENGTH, SCALAR, Dimensionality
from planbook.measure.quantity import Quantity
from planbook.measure.rounding import Direction, round_plain, round_to, settled
from planbook.measure.writing import written
from planbook.mechanics import CALCULATORS, Calculator

Build = Callable[[Checks, Call, Sequence[Typed]], Typed]


@dataclass(frozen=True, slots=True)
class Function:
    """`usage` is how it is written. It takes `least` to `most` arguments."""

    usage: str
    least: int
    most: int
    build: Build


def broken(call: Call) -> Typed:
    """A piece whose fault has been reported."""
    return Typed(call, None, lambda _: math.nan)


def _applied(call: Call, kind: Dimensionality, compute: Callable[..., float], pieces: Sequence[Typed]) -> Typed:
    """`compute` on the values of the pieces; where it has no value, that is a fault of the call."""
    runs = [piece.run for piece in pieces]

    def run(values: Sequence[float]) -> float:
        try:
            return compute(*[each(values) for each in runs])
        except (ValueError, ZeroDivisionError, OverflowError):
            raise Breach(_no_value(call, pieces, [each(values) for each in runs])) from None

    if len(runs) != _PAIR:
        return Typed(call, kind, run)
    first, second = runs

    def run_pair(values: Sequence[float]) -> float:
        """The usual number of arguments, without a list."""
        try:
            return compute(first(values), second(values))
        except (ValueError, ZeroDivisionError, OverflowError):
            raise Breach(_no_value(call, pieces, [first(values), second(values)])) from None

    return Typed(call, kind, run_pair)


def _no_value(call: Call, pieces: Sequence[Typed], numbers: Sequence[float]) -> Fault:
    kinds = (each.kind if isinstance(each.kind, Dimensionality) else SCALAR for each in pieces)
    shown = ", ".join(written(Quantity(number, kind)) for number, kind in zip(numbers, kinds, strict=True))
    remedy = _NO_VALUE.get(call.function, "See that what stands in it stays finite.")
    return Fault("no-value", call.span.start, f"`{call.function}({shown})` has no value.", remedy)


def _converting(takes: Dimensionality, gives: Dimensionality, compute: Callable[..., float]) -> Build:
    def build(checks: Checks, call: Call, pieces: Sequence[Typed]) -> Typed:
        fits = [checks.demand(piece, takes, call.function) for piece in pieces]
        return _applied(call, gives, compute, pieces) if all(fits) else broken(call)

    return build


def _keeping(compute: Callable[..., float], gives: Dimensionality | None = None) -> Build:
    """All arguments of one kind; the result has that kind too, unless `gives` says otherwise."""

    def build(checks: Checks, call: Call, pieces: Sequence[Typed]) -> Typed:
        kind = checks.alike(pieces, f"given to {call.function} together")
        return broken(call) if kind is None else _applied(call, gives or kind, compute, pieces)

    return build


def _rounding(towards: Direction) -> Build:
    def build(checks: Checks, call: Call, pieces: Sequence[Typed]) -> Typed:
        kind = checks.alike(pieces, f"given to {call.function} together")
        if kind is None:
            return broken(call)
        rounded = round_to if kind == LENGTH else round_plain

        def compute(value: float, step: float) -> float:
            if step <= 0:
                raise ValueError
            return rounded(value, step, towards)

        return _applied(call, kind, compute, pieces)

    return build


def _square_root(checks: Checks, call: Call, pieces: Sequence[Typed]) -> Typed:
    kind = checks.alike(pieces, "drawn a root of")
    if kind is None:
        return broken(call)
    halves = Dimensionality(kind.length // 2, kind.mass // 2, kind.time // 2, kind.angle // 2)
    if halves**2 != kind:
        quoted = checks.quote(pieces[0].node)
        checks.report("wrong-kind", pieces[0].node, f"`{quoted}` has no square root that is a quantity.", _SQUARE)
        return broken(call)
    return _applied(call, halves, math.sqrt, pieces)


def _where(checks: Checks, call: Call, pieces: Sequence[Typed]) -> Typed:
    """Only the branch that is taken is evaluated."""
    condition, *branches = pieces
    kind = checks.alike(branches, "the two outcomes of where")
    if isinstance(condition.kind, Dimensionality):
        quoted = checks.quote(condition.node)
        checks.report("wrong-kind", condition.node, f"`{quoted}` is no comparison.", "Write a comparison: `a > b`.")
    if kind is None or not isinstance(condition.kind, Truth):
        return broken(call)
    holds, (then, otherwise) = condition.run, (branch.run for branch in branches)

    def run(values: Sequence[float]) -> float:
        return then(values) if holds(values) else otherwise(values)

    return Typed(call, kind, run)


def _clamp(value: float, least: float, greatest: float) -> float:
    if least > greatest:
        raise ValueError
    return min(max(value, least), greatest)


def _floor(value: float) -> float:
    return float(math.floor(settled(value)))


def _ceiling(value: float) -> float:
    return float(math.ceil(settled(value)))


_SQUARE = "Give it an area, a plain number or another square."
_STEP = "The step must be greater than 0."
_NO_VALUE = {
    "sqrt": "See that what stands in it is never negative.",
    "asin": "A sine lies from -1 to 1.",
    "acos": "A cosine lies from -1 to 1.",
    "tan": "A right angle has no tangent.",
    "atan2": "At least one of the two must not be 0.",
    "clamp": "Write it as clamp(value, least, greatest).",
    "round": _STEP,
    "round_up": _STEP,
    "round_down": _STEP,
}


def _calculator(each: Calculator) -> Function:
    return Function(each.usage, len(each.takes), len(each.takes), partial(calculate, each))


_ANY = 100
_PAIR = 2
FUNCTIONS: Mapping[str, Function] = MappingProxyType(
    {
        "min": Function("min(a, b, ...)", _PAIR, _ANY, _keeping(min)),
        "max": Function("max(a, b, ...)", _PAIR, _ANY, _keeping(max)),
        "abs": Function("abs(a)", 1, 1, _keeping(abs)),
        "sqrt": Function("sqrt(a)", 1, 1, _square_root),
        "sin": Function("sin(angle)", 1, 1, _converting(ANGLE, SCALAR, sine)),
        "cos": Function("cos(angle)", 1, 1, _converting(ANGLE, SCALAR, cosine)),
        "tan": Function("tan(angle)", 1, 1, _converting(ANGLE, SCALAR, tangent)),
        "asin": Function("asin(ratio)", 1, 1, _converting(SCALAR, ANGLE, arc_sine)),
        "acos": Function("acos(ratio)", 1, 1, _converting(SCALAR, ANGLE, arc_cosine)),
        "atan": Function("atan(ratio)", 1, 1, _converting(SCALAR, ANGLE, arc_tangent)),
        "atan2": Function("atan2(rise, run)", 2, 2, _keeping(direction, ANGLE)),
        "hypot": Function("hypot(a, b)", 2, 3, _keeping(math.hypot)),
        "floor": Function("floor(ratio)", 1, 1, _converting(SCALAR, SCALAR, _floor)),
        "ceil": Function("ceil(ratio)", 1, 1, _converting(SCALAR, SCALAR, _ceiling)),
        "round": Function("round(a, step)", 2, 2, _rounding(Direction.NEAREST)),
        "round_up": Function("round_up(a, step)", 2, 2, _rounding(Direction.UP)),
        "round_down": Function("round_down(a, step)", 2, 2, _rounding(Direction.DOWN)),
        "clamp": Function("clamp(a, least, greatest)", 3, 3, _keeping(_clamp)),
        "where": Function("where(a > b, then, otherwise)", 3, 3, _where),
    }
    | {name: _calculator(each) for name, each in CALCULATORS.items()}
)


def call_function(checks: Checks, call: Call, pieces: Sequence[Typed]) -> Typed:
    """The compiled call of a known function, with its number of arguments checked."""
    function = FUNCTIONS[call.function]
    if not function.least <= len(pieces) <= function.most:
        needed = str(function.least) if function.most == function.least else f"at least {function.least}"
        given = len(pieces)
        message = f"`{call.function}` takes {needed} argument{'' if function.least == 1 else 's'}, {given} given."
        checks.report("wrong-arguments", call, message, f"Write it as {function.usage}.")
        return broken(call)
    return function.build(checks, call, pieces)
