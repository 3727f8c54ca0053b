"""Sheets and boards on which pieces lie in one row only, for no two fit beside one another: lengths from lengths."""

from __future__ import annotations

from collections.abc import Sequence

from planbook.cutting.bounds import envelope
from planbook.cutting.filling import Sheet
from planbook.cutting.lengths import Rows, cut_rows
from planbook.cutting.problem import Problem
from planbook.cutting.search import Filled


def row_of(problem: Problem, axes: str) -> str | None:
    """The one of these axes along which all pieces lie in a row, if they do and any of them may go with any."""
    if any(len(unit) > 1 for unit in problem.units) or problem.bins[0].available is not None:
        return None
    if any(len(kind.ways) > 1 for kind in problem.kinds):
        return None
    whole = envelope(problem.bins)
    if whole != (problem.bins[0].length, problem.bins[0].width):
        return None
    for along in axes:
        across = 1 if along == "x" else 0
        if 2 * min(kind.ways[0][across] for kind in problem.kinds) > whole[across]:
            return along
    return None


def fill_rows(problem: Problem, along: str, effort: int) -> tuple[Filled[Sheet], int]:
    """The fewest of the largest bins, and the proved least number of any."""
    axis = 0 if along == "x" else 1
    whole = (problem.bins[0].length, problem.bins[0].width)[axis]
    alike: dict[int, list[int]] = {}
    for index, kind in enumerate(problem.kinds):
        alike.setdefault(kind.ways[0][axis], []).extend([index] * kind.quantity)
    sizes = sorted(alike, reverse=True)
    rows = cut_rows(whole, sizes, [len(alike[size]) for size in sizes], effort)
    return Filled(_sheets(problem, along, sizes, alike, rows), [], rows.work), rows.bound


def _sheets(problem: Problem, along: str, sizes: Sequence[int], alike: dict[int, list[int]], rows: Rows) -> list[Sheet]:
    """The patterns with pieces dealt out to them, the longest first."""
    waiting = {size: iter(kinds) for size, kinds in alike.items()}
    sheets: list[Sheet] = []
    for pattern, times in rows.patterns:
        for _ in range(times):
            sheet = Sheet(problem.bins[0])
            for size, count in zip(sizes, pattern, strict=True):
                for _ in range(count):
                    _append(problem, sheet, next(waiting[size]), along)
            sheets.append(sheet)
    return sheets


def _append(problem: Problem, sheet: Sheet, kind: int, along: str) -> None:
    """At the end of the row, which is the last free panel."""
    length, width, turned = problem.kinds[kind].ways[0]
    node = sheet.free.pop(0)
    sheet.free = [*node.hold(kind, length, width, turned, across_first=along == "x"), *sheet.free]
