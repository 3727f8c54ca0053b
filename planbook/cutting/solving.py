"""How each manner of cutting is searched: which means, in which order, with which share of the effort."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from itertools import product
from random import Random

from planbook.cutting.beam import TASTES
from planbook.cutting.bounds import raised
from planbook.cutting.choosing import packed, sawn_exactly
from planbook.cutting.filling import Fit, Parting, Rule, Sheet, fill
from planbook.cutting.free_filling import FreeFit, FreeRule, FreeSheet, fill_freely
from planbook.cutting.offcuts import crowd
from planbook.cutting.plan import Bound
from planbook.cutting.problem import Problem
from planbook.cutting.rows import fill_rows, row_of
from planbook.cutting.ruin import make_room
from planbook.cutting.search import Filled, RuleT, Search, SheetT
from planbook.cutting.sections import longest_first
from planbook.cutting.sequence import Sequences
from planbook.cutting.sheet_patterns import relaxed
from planbook.cutting.shrinking import smaller_stock

_FITS = (Fit.AREA, Fit.SHORT, Fit.LONG)
_PARTINGS = (Parting.LARGE, Parting.SHORTER, Parting.EVEN, Parting.CROSSCUT, Parting.RIP)
_SAW = tuple(Rule(*each) for each in product(_FITS, _PARTINGS, (False, True)))
_BOARD = tuple(Rule(fit, Parting.CROSSCUT) for fit in _FITS)
_ROUTER = tuple(FreeRule(*each) for each in product(FreeFit, (False, True)))
_BEAMS = (25, 50, 100, 200)

_BEAM_KINDS = 60
"""With more kinds, too many pieces are tried at every step of a beam."""

Solved = tuple[Filled[SheetT], Bound]


def saw_sheets(problem: Problem, bound: Bound, effort: int) -> Solved[Sheet]:
    """In a row if nothing fits beside anything; else orders, patterns where they can be worked out, and ruin."""
    search = Search(problem, fill, _SAW, bound, effort)
    _in_rows(search, "xy")
    _run_first(search)
    if not search.spent and _free_to_part(problem):
        _by_patterns(search, effort // 2)
    make_room(search, _share(search), across_only=False)
    search.run(effort)
    return _sawn(search, "xy")


def saw_boards(problem: Problem, bound: Bound, effort: int) -> Solved[Sheet]:
    """In a row if nothing fits beside anything; else orders and ruin, each panel crosscut before it is ripped."""
    search = Search(problem, fill, _BOARD, bound, effort)
    _in_rows(search, "x")
    _run_first(search)
    search.run(effort // 4)
    make_room(search, _share(search), across_only=True)
    search.run(effort)
    return _sawn(search, "x")


def rout_sheets(problem: Problem, bound: Bound, effort: int) -> Solved[FreeSheet]:
    """Orders and rules, then beams of growing width."""
    search = Search(problem, fill_freely, _ROUTER, bound, effort)
    _run_first(search)
    if _free_to_part(problem) and len(problem.kinds) <= _BEAM_KINDS:
        _by_beams(search)
    search.run(effort)
    return _finished(search, "xy")


def fits_alone(problem: Problem, unit: tuple[int, ...]) -> bool:
    """Whether these pieces are found to fit together on one sheet of any size."""
    bins = [replace(each, available=None) for each in problem.bins]
    return any(not fill(problem, [unit], rule, bins).left for rule in _SAW)


def _share(search: Search[Rule, Sheet]) -> int:
    """All of the effort where a sheet fewer may be possible; where only the offcut is in question, a share more."""
    proved = len(search.best.sheets) == search.bound.count
    return search.looks + search.effort // 8 if proved else search.effort


def _free_to_part(problem: Problem) -> bool:
    return problem.bins[0].available is None and all(len(unit) == 1 for unit in problem.units)


def _run_first(search: Search[RuleT, SheetT]) -> None:
    """Orders for a share of the effort. Sheets are opened in the largest size: where what was found goes on smaller
    ones that the bound proves, there is only the offcut left to better.
    """
    search.run(search.effort // 8)
    if search.score[:2] == (0, search.bound.count) and search.score[2] > search.bound.area:
        smaller = Filled(smaller_stock(search, search.best.sheets), [], 0)
        if smaller.area == search.bound.area:
            search.offer(smaller)


def _in_rows(search: Search[Rule, Sheet], axes: str) -> None:
    along = row_of(search.problem, axes)
    if along is not None:
        filled, least = fill_rows(search.problem, along, search.effort)
        search.offer(filled)
        search.bound = raised(search.problem, search.bound, least)


def _by_patterns(search: Search[Rule, Sheet], effort: int) -> None:
    """The linear programme's bound, and plans of its best patterns, sheet by sheet."""
    found, looks = relaxed(search.problem, effort // 2)
    search.looks += looks
    if found is None:
        return
    search.bound = raised(search.problem, search.bound, found.bound)
    sequences = Sequences(search, [1.0 + price for price in found.prices])
    random = Random(1)
    while not search.spent and search.looks < effort:
        sequences.plan(sawn_exactly, random.random())


def _by_beams(search: Search[FreeRule, FreeSheet]) -> None:
    problem = search.problem
    spare = problem.bins[0].area - problem.area_of(kind for (kind,) in problem.units)
    sequences = Sequences(search)
    random = Random(1)
    for beam, taste in product(_BEAMS, TASTES):
        if search.spent or len(search.best.sheets) == search.bound.count:
            return
        most = spare if search.bound.count == 1 else None
        sequences.plan(partial(packed, beam=beam, taste=taste, spare=most), random.random())


def _finished(search: Search[RuleT, SheetT], sides: str) -> Solved[SheetT]:
    """The best plan, on the smallest stock that will do, and with the largest offcut."""
    sheets = crowd(search, smaller_stock(search, search.best.sheets), sides)
    return Filled(sheets, search.best.left, search.looks), search.bound


def _sawn(search: Search[Rule, Sheet], sides: str) -> Solved[Sheet]:
    """The same, with the sections that the first cuts part in order of size, and what is free of them together."""
    filled, bound = _finished(search, sides)
    return Filled([longest_first(sheet) for sheet in filled.sheets], filled.left, filled.looks), bound
