"""The words of a dimension on a sheet: count, signs, number with its reference in brackets, tolerance, method."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Final

from planbook.drawing.signs import Sign, signs_of
from planbook.statement.model import DimensionStated
from planbook.statement.naming import with_prefix

_OF_EDGES: Final = ("radius", "chamfer")
"""What notes say of a whole edge."""


@dataclass(frozen=True, slots=True)
class Line:
    """One line of lettering of a dimension, with the signs before and after it."""

    text: str
    mark: str = ""
    signs: tuple[Sign, ...] = ()
    before: tuple[Sign, ...] = ()


def dimension_text(dimension: DimensionStated, with_count: bool = True) -> str:
    """`4x Ø5/16 [8] ±1/64 through`; a reference dimension in ( )."""
    printed = dimension.printed
    bare = f"{printed.text} [{printed.other}]" if printed.other else printed.text
    body = with_prefix(dimension.prefix, bare)
    if dimension.tolerance:
        body += f" {dimension.tolerance}"
    if dimension.suffix:
        body += f" {dimension.suffix}"
    if dimension.reference:
        body = f"({body})"
    return f"{dimension.count}x {body}" if with_count and dimension.count > 1 else body


def dimension_line(dimension: DimensionStated, with_count: bool = True) -> Line:
    """Its text with its mark and its signs."""
    before, rest = _with_signs(dimension)
    return Line(dimension_text(rest, with_count), _mark(dimension), signs_of(dimension), before)


def _with_signs(dimension: DimensionStated) -> tuple[tuple[Sign, ...], DimensionStated]:
    """Signs in the place of the words `counterbore`, `countersink` and `deep`; the words stay in the statement.

    A depth behind a word of its own, `pocket 5 deep`, is said in words.
    """
    word, _, prefix = dimension.prefix.partition(" ")
    if word in (Sign.COUNTERBORE, Sign.COUNTERSINK):
        return (Sign(word),), replace(dimension, prefix=prefix)
    word, _, suffix = dimension.suffix.partition(" ")
    if word == Sign.DEPTH and not dimension.prefix:
        return (Sign.DEPTH,), replace(dimension, suffix=suffix)
    return (), dimension


def linear_lines(dimension: DimensionStated) -> tuple[Line, ...]:
    """The line over a dimension line, and the method under it where there is one."""
    first = dimension_line(dimension)
    return (first, Line(dimension.method)) if dimension.method else (first,)


def callout_lines(dimensions: tuple[DimensionStated, ...], note: str = "") -> tuple[Line, ...]:
    """A stack at one leader: the first line carries the count for all, methods and the note follow, each once."""
    first = dimensions[0]
    lines = [line for d in dimensions for line in _parted(d, with_count=d is first or d.count != first.count)]
    words = dict.fromkeys([*(d.method for d in dimensions), note])
    return (*lines, *(Line(word) for word in words if word))


def _parted(dimension: DimensionStated, with_count: bool) -> tuple[Line, ...]:
    """Its line; of an edge that is worked, which edge it is stands under it."""
    what, _, where = dimension.suffix.partition(", ")
    if dimension.kind != "note" or dimension.characteristic not in _OF_EDGES or not where:
        return (dimension_line(dimension, with_count),)
    return dimension_line(replace(dimension, suffix=what), with_count), Line(where)


def _mark(dimension: DimensionStated) -> str:
    return f"dimension:{dimension.id}"
