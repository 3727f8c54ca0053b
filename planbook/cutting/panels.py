"""From a filled sheet to the panels of the real one: kerf taken off, trim put round."""

from __future__ import annotations

from planbook.cutting.filling import Node, Sheet
from planbook.cutting.plan import Cut, Layout, Panel, Placed, Rectangle, Way
from planbook.cutting.problem import Problem


def layout_of(problem: Problem, sheet: Sheet) -> Layout:
    """Once over, with all its cuts."""
    stock = sheet.bin.stock
    panel = _Teller(problem, stock.end_trim, stock.edge_trim).panel(sheet.root)
    assert panel is not None, "a bin has room for a piece"
    return Layout(stock.key, 1, *pieces_of(panel), cuts=panel)


def pieces_of(panel: Panel) -> tuple[tuple[Placed, ...], tuple[Rectangle, ...]]:
    """What the cuts yield: pieces in order of cutting, and offcuts, the largest first."""
    placed: list[Placed] = []
    offcuts: list[Rectangle] = []
    waiting = [panel]
    while waiting:
        each = waiting.pop()
        if isinstance(each.use, Cut):
            waiting += [each.use.near] if each.use.far is None else [each.use.far, each.use.near]
        elif each.use is None:
            offcuts.append(each.place)
        else:
            placed.append(each.use)
    return tuple(placed), tuple(sorted(offcuts, key=lambda place: (-place.area, place.x, place.y)))


class _Teller:
    def __init__(self, problem: Problem, ends: int, edges: int) -> None:
        self.problem, self.ends, self.edges = problem, ends, edges

    def panel(self, node: Node | None) -> Panel | None:
        """None where the blade leaves nothing of it."""
        if node is None or node.length <= self.problem.kerf or node.width <= self.problem.kerf:
            return None
        kerf = self.problem.kerf
        place = Rectangle(node.x + self.ends, node.y + self.edges, node.length - kerf, node.width - kerf)
        if node.across:
            near = self.panel(node.near)
            assert near is not None, "a near part holds a piece or is no narrower than one"
            way = Way.CROSSCUT if node.across == "x" else Way.RIP
            at = near.place.length if node.across == "x" else near.place.width
            return Panel(place, Cut(way, at, near, self.panel(node.far)))
        if node.kind < 0:
            return Panel(place, None)
        return Panel(place, Placed(self.problem.kinds[node.kind].piece.key, place, node.turned))
