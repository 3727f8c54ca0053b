"""Formulas as trees: nodes with their place in the text, and the parser that makes them."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache
from pathlib import Path
from typing import Any, cast

from lark import Lark, Token, Transformer_NonRecursive, UnexpectedInput, v_args
from lark.exceptions import VisitError
from lark.tree import Meta

from planbook.design.faults import Breach, Fault
from planbook.design.hints import explain_syntax
from planbook.measure.dimensionality import SCALAR, Dimensionality
from planbook.measure.units import UNITS, Unit

MAX_LENGTH = 2000
MAX_DEPTH = 150
"""Levels of a tree: a formula beyond this is no arithmetic that a person reads, and would exhaust the stack."""


@dataclass(frozen=True, slots=True)
class Span:
    """Where a node stands in the formula: offsets of its first character and past its last one."""

    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Number:
    """A literal in base units: `count` of `unit`, as typed until parentheses close it.

    `unit` is None for a bare number.
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
        return Fault("syntax", 0, f"this formula has {len(text)} characters, more than {MAX_LENGTH}", _SPLIT)
    try:
        return cast(Node, _Builder().transform(_parser().parse(text)))
    except UnexpectedInput as error:
        return explain_syntax(text, error)
    except VisitError as error:
        if isinstance(error.orig_exc, Breach):
            return error.orig_exc.fault
        raise


_SPLIT = "split it: give parts of it names of their own"


@lru_cache(maxsize=1)
def _parser() -> Lark:
    grammar = Path(__file__).with_name("formula.lark").read_text(encoding="utf-8")
    signs = "|".join(sorted(UNITS, key=len, reverse=True))
    return Lark(
        grammar.replace("UNIT_SIGNS", signs),
        parser="lalr",
        lexer="basic",
        propagate_positions=True,
    )


@v_args(inline=True, meta=True)
class _Builder(Transformer_NonRecursive[Token, Any]):
    """Makes nodes bottom-up, so that no depth of nesting needs a stack of its own."""

    def quantity(self, meta: Meta, token: Token) -> Number:
        sign = next(sign for sign in sorted(UNITS, key=len, reverse=True) if token.endswith(sign))
        count = _count(token.removesuffix(sign), meta)
        return _number(_span(meta), count, UNITS[sign])

    def plain(self, meta: Meta, token: Token) -> Number:
        return _number(_span(meta), _count(token, meta), None)

    def name(self, meta: Meta, token: Token) -> Node:
        unit = UNITS.get(token)
        return _number(_span(meta), Fraction(1), unit) if unit else Name(_span(meta), str(token))

    def group(self, meta: Meta, inner: Node) -> Node:
        if isinstance(inner, Number) and inner.unit:
            unit = Unit(inner.unit.sign, inner.count * inner.unit.factor, inner.kind)
            return replace(inner, span=_span(meta), count=Fraction(1), unit=unit)
        return replace(inner, span=_span(meta))

    def call(self, meta: Meta, function: Token, *arguments: Node | None) -> Call:
        given = tuple(argument for argument in arguments if argument is not None)
        return Call(_span(meta), str(function), given, _above(meta, *given))

    def negate(self, meta: Meta, operand: Node) -> Negation:
        return Negation(_span(meta), operand, _above(meta, operand))

    def affirm(self, _: Meta, operand: Node) -> Node:
        return operand

    def add(self, meta: Meta, left: Node, right: Node) -> Operation:
        return _operation(meta, "+", left, right)

    def subtract(self, meta: Meta, left: Node, right: Node) -> Operation:
        return _operation(meta, "-", left, right)

    def multiply(self, meta: Meta, left: Node, right: Node) -> Operation:
        return _operation(meta, "*", left, right)

    def divide(self, meta: Meta, left: Node, right: Node) -> Operation:
        return _operation(meta, "/", left, right)

    def raise_to(self, meta: Meta, base: Node, exponent: Node) -> Node:
        """`2 m^3` is two cubic metres, as everybody reads it; `(2 m)^3` is eight."""
        power = whole_number(exponent)
        if isinstance(base, Number) and base.unit and power is not None and abs(power) <= 9:
            unit = Unit(base.unit.sign, base.unit.factor**power, base.kind**power)
            return _number(_span(meta), base.count, unit)
        return _operation(meta, "^", base, exponent)

    def compare(self, meta: Meta, *chain: Any) -> Comparison:
        sides, relations = chain[::2], tuple(str(relation) for relation in chain[1::2])
        return Comparison(_span(meta), sides, relations, _above(meta, *sides))


def whole_number(node: Node) -> int | None:
    """The value of a node that is a bare whole number, perhaps with a minus."""
    if isinstance(node, Negation):
        inner = whole_number(node.operand)
        return None if inner is None else -inner
    if isinstance(node, Number) and node.unit is None and node.count.denominator == 1:
        return int(node.count)
    return None


def _operation(meta: Meta, operator: str, left: Node, right: Node) -> Operation:
    return Operation(_span(meta), operator, left, right, _above(meta, left, right))


def _span(meta: Meta) -> Span:
    return Span(meta.start_pos, meta.end_pos)


def _above(meta: Meta, *nodes: Node) -> int:
    depth = 1 + max((node.depth for node in nodes), default=0)
    if depth > MAX_DEPTH:
        raise Breach(Fault("syntax", meta.start_pos, f"this formula is nested more than {MAX_DEPTH} deep", _SPLIT))
    return depth


def _count(text: str, meta: Meta) -> Fraction:
    *whole, last = text.split()
    if "/" in last:
        top, bottom = (int(part) for part in last.split("/"))
        if bottom == 0 or (whole and top >= bottom):
            fault = Fault(
                "syntax",
                meta.start_pos,
                f"`{text.strip()}` is no mixed fraction",
                "write a whole number and a fraction smaller than one, such as `1 1/2`",
            )
            raise Breach(fault)
        return (int(whole[0]) if whole else 0) + Fraction(top, bottom)
    return Fraction(last)


def _number(span: Span, count: Fraction, unit: Unit | None) -> Number:
    try:
        value = unit.to_base(count) if unit else float(count)
    except OverflowError:
        raise Breach(Fault("not-finite", span.start, "this number is too large", "write a number that fits")) from None
    return Number(span, value, unit.dimensionality if unit else SCALAR, count, unit)
