"""Formulas as trees: nodes with their place in the text, and the parser that makes them."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache
from pathlib import Path
from typing import Any, cast

from lark import Lark, Token, Transformer_NonRecursive, UnexpectedInput, v_args
from lark.exceptions import VisitError

from planbook.design.faults import Breach, Fault
from planbook.design.hints import explain_syntax
from planbook.measure.dimensionality import SCALAR, Dimensionality
from planbook.measure.units import UNITS, Unit

MAX_LENGTH = 2000
MAX_EXPONENT = 9
"""The greatest power of a quantity."""
MAX_DEPTH = 150
"""Levels of a tree: a formula beyond this is no arithmetic that a person reads, and would exhaust the stack."""


@dataclass(frozen=True, slots=True)
class Span:
    """Where a node stands in the formula: offsets of its first character and past its last one."""

    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Number:
    """A literal; `value` is in base units. `count` of `unit` as typed, until parentheses close it.

    Then, as for a number typed without one, there is no unit, and `count` is in base units too.
    """

    span: Span
    value: float
    kind: Dimensionality
    count: Fraction
    unit: Unit | None = None
    depth: int = 0


@dataclass(frozen=True, slots=True)
class Name:
    """A dotted name."""

    span: Span
    name: str
    depth: int = 0


@dataclass(frozen=True, slots=True)
class Negation:
    """Unary minus."""

    span: Span
    operand: Node
    depth: int


@dataclass(frozen=True, slots=True)
class Operation:
    """`operator` is one of + - * / ^."""

    span: Span
    operator: str
    left: Node
    right: Node
    depth: int


@dataclass(frozen=True, slots=True)
class Call:
    """A function of some arguments."""

    span: Span
    function: str
    arguments: tuple[Node, ...]
    depth: int


@dataclass(frozen=True, slots=True)
class Comparison:
    """A chain: sides[0] relations[0] sides[1] relations[1] ..."""

    span: Span
    sides: tuple[Node, ...]
    relations: tuple[str, ...]
    depth: int


Node = Number | Name | Negation | Operation | Call | Comparison


@lru_cache(maxsize=2**16)
def parse(text: str) -> Node | Fault:
    """The tree of a formula, or what is wrong with its form."""
    if len(text) > MAX_LENGTH:
        return Fault("syntax", 0, f"This formula has {len(text)} characters, more than {MAX_LENGTH}.", _SPLIT)
    try:
        return cast(Node, _Builder().transform(_parser().parse(text)))
    except UnexpectedInput as error:
        return explain_syntax(text, error)
    except VisitError as error:
        if isinstance(error.orig_exc, Breach):
            return error.orig_exc.fault
        raise


_SIGNS = sorted(UNITS, key=len, reverse=True)
_SPLIT = "Split it: give parts of it names of their own."


@lru_cache(maxsize=1)
def _parser() -> Lark:
    grammar = Path(__file__).with_name("formula.lark").read_text(encoding="utf-8")
    return Lark(
        grammar.replace("UNIT_SIGNS", "|".join(_SIGNS)),
        parser="lalr",
        lexer="basic",
    )


@v_args(inline=True)
class _Builder(Transformer_NonRecursive[Token, Any]):
    """Makes nodes bottom-up, so that no depth of nesting needs a stack of its own."""

    def quantity(self, token: Token) -> Number:
        sign = next(sign for sign in _SIGNS if token.endswith(sign))
        return _number(_span(token), _count(token, token.removesuffix(sign)), UNITS[sign])

    def plain(self, token: Token) -> Number:
        return _number(_span(token), _count(token, token), None)

    def name(self, token: Token) -> Node:
        unit = UNITS.get(token)
        return _number(_span(token), Fraction(1), unit) if unit else Name(_span(token), str(token))

    def group(self, opening: Token, inner: Node, closing: Token) -> Node:
        span = Span(_span(opening).start, _span(closing).end)
        if isinstance(inner, Number) and inner.unit:
            return replace(inner, span=span, count=inner.count * inner.unit.factor, unit=None)
        return replace(inner, span=span)

    def call(self, function: Token, _: Token, *rest: Any) -> Call:
        *arguments, closing = (each for each in rest if each is not None)
        span = Span(_span(function).start, _span(closing).end)
        return Call(span, str(function), tuple(arguments), _above(span, *arguments))

    def negate(self, minus: Token, operand: Node) -> Negation:
        span = Span(_span(minus).start, operand.span.end)
        return Negation(span, operand, _above(span, operand))

    def affirm(self, operand: Node) -> Node:
        return operand

    def add(self, left: Node, right: Node) -> Operation:
        return _operation("+", left, right)

    def subtract(self, left: Node, _: Token, right: Node) -> Operation:
        return _operation("-", left, right)

    def multiply(self, left: Node, right: Node) -> Operation:
        return _operation("*", left, right)

    def divide(self, left: Node, right: Node) -> Operation:
        _refuse_loose_fraction(left, right)
        return _operation("/", left, right)

    def raise_to(self, base: Node, exponent: Node) -> Node:
        """`2 m^3` is two cubic metres, as everybody reads it; `(2 m)^3` is eight."""
        power = whole_number(exponent)
        if isinstance(base, Number) and base.unit and power is not None and abs(power) <= MAX_EXPONENT:
            unit = Unit(base.unit.sign, base.unit.factor**power, base.kind**power)
            return _number(_across(base, exponent), base.count, unit)
        return _operation("^", base, exponent)

    def compare(self, *chain: Any) -> Comparison:
        sides, relations = chain[::2], tuple(str(relation) for relation in chain[1::2])
        span = _across(sides[0], sides[-1])
        return Comparison(span, sides, relations, _above(span, *sides))


def whole_number(node: Node) -> int | None:
    """The value of a node that is a bare whole number, perhaps with a minus."""
    if isinstance(node, Negation):
        inner = whole_number(node.operand)
        return None if inner is None else -inner
    if isinstance(node, Number) and is_bare(node) and node.count.denominator == 1:
        return int(node.count)
    return None


def _operation(operator: str, left: Node, right: Node) -> Operation:
    span = _across(left, right)
    return Operation(span, operator, left, right, _above(span, left, right))


def _refuse_loose_fraction(left: Node, right: Node) -> None:
    """`1 / 2 in` would be one over two inches, and is hardly ever meant."""
    if not (isinstance(left, Number) and isinstance(right, Number) and is_bare(left) and right.unit):
        return
    top, bottom, sign = left.count, right.count, right.unit.sign
    if right.span.end - right.span.start > len(sign):
        remedy = f"Write `{top}/{bottom} {sign}` for a fraction, `{top} / ({bottom} {sign})` to divide."
        raise Breach(Fault("syntax", left.span.start, "A fraction of a unit is written without spaces.", remedy))


def is_bare(node: Node) -> bool:
    """Whether the author typed a number without a unit, perhaps with a minus."""
    if isinstance(node, Negation):
        return is_bare(node.operand)
    return isinstance(node, Number) and node.unit is None and node.kind == SCALAR


def _span(token: Token) -> Span:
    start = token.start_pos or 0
    return Span(start, start + len(token))


def _across(first: Node, last: Node) -> Span:
    return Span(first.span.start, last.span.end)


def _above(span: Span, *nodes: Node) -> int:
    depth = 1 + max((node.depth for node in nodes), default=0)
    if depth > MAX_DEPTH:
        raise Breach(Fault("syntax", span.start, f"This formula is nested more than {MAX_DEPTH} deep.", _SPLIT))
    return depth


def _count(token: Token, text: str) -> Fraction:
    match = _FRACTION.fullmatch(text.strip())
    if _FAR.search(text):
        message = f"`{text.strip()}` is too large or too small to be a measure."
        raise Breach(Fault("not-finite", _span(token).start, message, "Write it with at most two digits after the e."))
    if not match:
        return Fraction(text.strip())
    whole, top, bottom = (int(part or 0) for part in match.groups())
    if bottom == 0 or (match[1] and top >= bottom):
        remedy = "Write a whole number and a fraction smaller than one, such as `1 1/2`."
        raise Breach(Fault("syntax", _span(token).start, f"`{text.strip()}` is no mixed fraction.", remedy))
    return whole + Fraction(top, bottom)


_FAR = re.compile(r"[eE][+-]?0*[1-9][0-9]{2}")
"""An exponent of three digits or more."""
_FRACTION = re.compile(r"(?:([0-9]+) +)?([0-9]+)/([0-9]+)")


def _number(span: Span, count: Fraction, unit: Unit | None) -> Number:
    try:
        value = unit.to_base(count) if unit else float(count)
    except OverflowError:
        raise Breach(
            Fault("not-finite", span.start, "This number is too large.", "Write a number that fits.")
        ) from None
    return Number(span, value, unit.dimensionality if unit else SCALAR, count, unit)
