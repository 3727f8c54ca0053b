"""Each sheet's pieces put on the smallest size of stock that holds them."""

from __future__ import annotations

from collections.abc import Sequence

from planbook.cutting.problem import Bin
from planbook.cutting.search import RuleT, Search, SheetT


def smaller_stock(search: Search[RuleT, SheetT], sheets: Sequence[SheetT]) -> list[SheetT]:
    """Each sheet's pieces in the smallest size that holds them, so far as it is available."""
    used: dict[str, int] = {}
    for sheet in sheets:
        used[sheet.bin.stock.key] = used.get(sheet.bin.stock.key, 0) + 1
    result: list[SheetT] = []
    for sheet in sheets:
        smaller = [
            each
            for each in sorted(search.problem.bins, key=lambda each: each.stock.area)
            if each.stock.area < sheet.bin.stock.area
            and (each.available is None or used.get(each.stock.key, 0) < each.available)
        ]
        result.append(_smallest(search, sheet, smaller))
        used[sheet.bin.stock.key] -= 1
        used[result[-1].bin.stock.key] = used.get(result[-1].bin.stock.key, 0) + 1
    return result


def _smallest(search: Search[RuleT, SheetT], sheet: SheetT, bins: Sequence[Bin]) -> SheetT:
    kinds = search.problem.kinds
    unit = tuple(sorted(sheet.kinds(), key=lambda index: -kinds[index].area))
    needed = search.problem.area_of(unit)
    for each in bins:
        if each.area < needed:
            continue
        for rule in search.rules:
            filled = search.fill(search.problem, [unit], rule, [each])
            search.looks += filled.looks
            if not filled.left:
                return filled.sheets[0]
    return sheet
