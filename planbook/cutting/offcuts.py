"""What is left in one large rectangle: the pieces of a sheet crowded to one side of it."""

from __future__ import annotations

from dataclasses import replace
from itertools import islice

from planbook.cutting.problem import Bin, Problem
from planbook.cutting.search import RuleT, Search, SheetT, orders

_HALVINGS = 7
_ORDERS = 4


def crowd(search: Search[RuleT, SheetT], sheets: list[SheetT], sides: str) -> list[SheetT]:
    """The sheet with the largest offcut filled anew to leave a larger one, if it can be, at its far end x or edge y."""
    if not sheets:
        return sheets
    at = max(range(len(sheets)), key=lambda number: (sheets[number].largest_left(), -number))
    best = sheets[at]
    problem = _only(search.problem, best.kinds())
    for across in sides:
        found = _crowded(search, problem, best.bin, across)
        if found is not None and found.largest_left() > best.largest_left():
            best = found
    return [*sheets[:at], best, *sheets[at + 1 :]]


def _only(problem: Problem, kinds: list[int]) -> Problem:
    """These pieces, each by itself; the numbers of the kinds stay as they are."""
    return replace(problem, units=tuple((kind,) for kind in sorted(kinds)))


def _crowded(search: Search[RuleT, SheetT], problem: Problem, whole: Bin, across: str) -> SheetT | None:
    """In the shortest part of the sheet, or the narrowest, that is found to hold them all."""
    full = whole.length if across == "x" else whole.width
    enough, short = full, -(-problem.area_of(kind for (kind,) in problem.units) * full // whole.area) - 1
    found: SheetT | None = None
    for _ in range(_HALVINGS):
        size = (enough + short) // 2
        tried = _held(search, problem, _part(whole, across, size))
        if tried is None:
            short = size
        else:
            found, enough = tried, _reach(tried, across)
    if found is None:
        return None
    exact = _held(search, problem, _part(whole, across, _reach(found, across)))
    return (exact or found).widened(whole)


def _part(whole: Bin, across: str, size: int) -> Bin:
    return replace(whole, length=size) if across == "x" else replace(whole, width=size)


def _reach(sheet: SheetT, across: str) -> int:
    return sheet.reach()["xy".index(across)]


def _held(search: Search[RuleT, SheetT], problem: Problem, part: Bin) -> SheetT | None:
    for order in islice(orders(problem), _ORDERS):
        for rule in search.rules:
            filled = search.fill(problem, order, rule, [replace(part, available=1)])
            search.looks += filled.looks
            if not filled.left:
                return filled.sheets[0]
    return None
