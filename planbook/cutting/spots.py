"""From a freely filled sheet to its layout: kerf taken off, trim put round, what is left told in rectangles."""

from __future__ import annotations

from planbook.cutting.free_filling import Box, FreeSheet, without
from planbook.cutting.model import Stock
from planbook.cutting.plan import Layout, Placed, Rectangle
from planbook.cutting.problem import Problem


def free_layout_of(problem: Problem, sheet: FreeSheet) -> Layout:
    """Once over."""
    stock, kerf = sheet.bin.stock, problem.kerf
    placed = tuple(
        Placed(
            problem.kinds[each.kind].piece.key,
            _place((each.x, each.y, each.x + each.length, each.y + each.width), stock, kerf),
            each.turned,
        )
        for each in sheet.lying
    )
    return Layout(stock.key, 1, placed, rectangles_left(sheet.free, stock, kerf))


def rectangles_left(free: list[Box], stock: Stock, kerf: int) -> tuple[Rectangle, ...]:
    """What is left of a stock, of the rectangles that are free of pieces and kerfs within its trim."""
    offcuts = (_place(box, stock, kerf) for box in apart(free))
    return tuple(each for each in offcuts if min(each.length, each.width) > 0)


def _place(box: Box, stock: Stock, kerf: int) -> Rectangle:
    """On the stock as bought, without the kerf at its far sides."""
    x, y, far_x, far_y = box
    return Rectangle(x + stock.end_trim, y + stock.edge_trim, far_x - x - kerf, far_y - y - kerf)


def apart(free: list[Box]) -> list[Box]:
    """Rectangles that do not overlap: the largest of the free ones, then the largest of what is left, and so on."""
    found: list[Box] = []
    while free:
        largest = max(free, key=lambda box: ((box[2] - box[0]) * (box[3] - box[1]), -box[0], -box[1]))
        found.append(largest)
        free = without(free, largest)
    return found
