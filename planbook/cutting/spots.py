"""From a freely filled sheet to its layout: kerf taken off, trim put round, what is left told in rectangles."""

from __future__ import annotations

from planbook.cutting.free_filling import Box, FreeSheet, without
from planbook.cutting.plan import Layout, Placed, Rectangle
from planbook.cutting.problem import Problem


def free_layout_of(problem: Problem, sheet: FreeSheet) -> Layout:
    """Once over."""
    kerf, ends, edges = problem.kerf, sheet.bin.stock.end_trim, sheet.bin.stock.edge_trim

    def place(x: int, y: int, length: int, width: int) -> Rectangle:
        return Rectangle(x + ends, y + edges, length - kerf, width - kerf)

    placed = tuple(
        Placed(problem.kinds[each.kind].piece.key, place(each.x, each.y, each.length, each.width), each.turned)
        for each in sheet.lying
    )
    offcuts = (place(x, y, far_x - x, far_y - y) for x, y, far_x, far_y in apart(sheet.free))
    return Layout(sheet.bin.stock.key, 1, placed, tuple(each for each in offcuts if min(each.length, each.width) > 0))


def apart(free: list[Box]) -> list[Box]:
    """Rectangles that do not overlap: the largest of the free ones, then the largest of what is left, and so on."""
    found: list[Box] = []
    while free:
        largest = max(free, key=lambda box: ((box[2] - box[0]) * (box[3] - box[1]), -box[0], -box[1]))
        found.append(largest)
        free = without(free, largest)
    return found
