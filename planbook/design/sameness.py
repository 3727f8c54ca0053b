"""Whether two formulas say the same whatever the values of their names are.

A formula is multiplied out to a sum of terms: `a + b / 2` and `b * 50 % + a` have the same. What cannot be multiplied
out (a function, division by a sum) stands for itself.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from fractions import Fraction
from functools import lru_cache
from hashlib import sha256

from planbook.design.faults import Fault
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

Monomial = tuple[tuple[str, int], ...]
"""Names with their powers, sorted."""
Terms = Mapping[Monomial, Fraction]
"""The factor of each product of names; no factor is 0."""
MAX_TERMS = 64
"""A product of sums that would come out longer is not multiplied out."""
LONGEST_NAME = 200


@lru_cache(maxsize=2**14)
def plain_form(formula: str) -> str:
    """One text for all formulas that say the same; for what is no formula, the text itself."""
    tree = parse(formula)
    return formula if isinstance(tree, Fault) else _text(_terms(tree))


def same_name(formula: str) -> str:
    """The name that the formula comes to, `a.b` for `c + a.b - c`; "" if it comes to anything else."""
    tree = parse(formula)
    terms = {} if isinstance(tree, Fault) else _terms(tree)
    alone = [names for names, factor in terms.items() if factor == 1]
    if len(terms) != 1 or not alone or len(alone[0]) != 1:
        return ""
    ((name, power),) = alone[0]
    return name if power == 1 and isinstance(parse(name), Name) else ""


def _terms(node: Node) -> Terms:
    match node:
        case Number(count=count, unit=unit):
            return _sum([({(): count * (unit.factor if unit else 1)}, 1)])
        case Negation(operand=operand):
            return _sum([(_terms(operand), -1)])
        case Operation(operator="+" | "-" as sign, left=left, right=right):
            return _sum([(_terms(left), 1), (_terms(right), 1 if sign == "+" else -1)])
        case Operation(operator=operator, left=left, right=right):
            return _combined(operator, _terms(left), right)
        case _:
            return _as_name(_whole(node))


def _whole(node: Name | Call | Comparison) -> str:
    """What stands for itself, with what it holds in its plain form."""
    match node:
        case Name(name=name):
            return name
        case Call(function=function, arguments=nodes):
            return f"{function}({', '.join(_text(_terms(each)) for each in nodes)})"
        case Comparison(sides=nodes, relations=relations):
            return f"{relations} {[_text(_terms(each)) for each in nodes]}"


def _combined(operator: str, left: Terms, right: Node) -> Terms:
    """A product, quotient or power; one that is not multiplied out is a name of its own."""
    other = _terms(right)
    if operator == "*" and len(left) * len(other) <= MAX_TERMS:
        return _product(left, other)
    if operator == "/" and len(other) == 1:
        ((names, factor),) = other.items()
        return _product(left, {tuple((name, -power) for name, power in names): 1 / factor})
    power = whole_number(right)
    if operator == "^" and power is not None and 0 < power <= MAX_EXPONENT and len(left) ** power <= MAX_TERMS:
        result: Terms = {(): Fraction(1)}
        for _ in range(power):
            result = _product(result, left)
        return result
    return _as_name(f"({_text(left)}) {operator} ({_text(other)})")


def _as_name(text: str) -> Terms:
    """A long text is named by its hash: else products of products would grow without end."""
    name = text if len(text) <= LONGEST_NAME else sha256(text.encode()).hexdigest()
    return {((name, 1),): Fraction(1)}


def _sum(parts: list[tuple[Terms, int]]) -> Terms:
    found: dict[Monomial, Fraction] = defaultdict(Fraction)
    for terms, sign in parts:
        for names, factor in terms.items():
            found[names] += sign * factor
    return {names: factor for names, factor in found.items() if factor}


def _product(left: Terms, right: Terms) -> Terms:
    return _sum([({_times(a, b): x * y}, 1) for a, x in left.items() for b, y in right.items()])


def _times(left: Monomial, right: Monomial) -> Monomial:
    powers: dict[str, int] = defaultdict(int)
    for name, power in (*left, *right):
        powers[name] += power
    return tuple(sorted((name, power) for name, power in powers.items() if power))


def _text(terms: Terms) -> str:
    return " + ".join(_words(terms)) or "0"


def _words(terms: Terms) -> Iterator[str]:
    for names, factor in sorted(terms.items()):
        yield " ".join([str(factor), *(f"{name}^{power}" for name, power in names)])
