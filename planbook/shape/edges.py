"""Chamfers and edges rounded over: what is taken off a whole edge of the face or the back."""

from __future__ import annotations

from planbook.design.values import Value
from planbook.shape.bench import FINE, Bench
from planbook.shape.board import Board
from planbook.shape.channels import on_flat
from planbook.shape.faces import frame_of
from planbook.shape.geometry import Arc, Line, Loop, Point
from planbook.shape.kinds import EdgeShape
from planbook.shape.loops import area
from planbook.shape.made import Fit, Made
from planbook.shape.model import Cut
from planbook.shape.wording import like, said
from planbook.source.models.part import Edge, FaceName
from planbook.source.models.slopes import ChamferModel, RoundOverModel
from planbook.source.text import Formula, Text


def make_chamfer(bench: Bench, board: Board, name: Text, model: ChamferModel) -> Made | None:
    """A flat at 45 degrees."""
    return _along_edge(bench, board, name, model, model.chamfer)


def make_round_over(bench: Bench, board: Board, name: Text, model: RoundOverModel) -> Made | None:
    """A quarter round."""
    return _along_edge(bench, board, name, model, model.round_over)


def _along_edge(
    bench: Bench, board: Board, name: Text, model: ChamferModel | RoundOverModel, formula: Formula
) -> Made | None:
    size = bench.size(formula, f"`{name}`")
    if size is None or not on_flat(bench, name, model):
        return None
    across = 0 if model.edge in (Edge.LEFT, Edge.RIGHT) else 1
    if not _has_room(bench, board, name, size, across) or not _is_whole(bench, board, name, model.edge):
        return None
    round_ = isinstance(model, RoundOverModel)
    # Seen along the edge: across the part and through its thickness.
    side = board.blank[across] if model.edge in (Edge.RIGHT, Edge.REAR) else 0.0
    level = board.blank.z if model.on is FaceName.FACE else 0.0
    end = FaceName.LEFT_END if across == 1 else FaceName.FRONT_EDGE
    ways = (1.0 if side == 0 else -1.0, 1.0 if level == 0 else -1.0)
    loop = _section(Point(side, level), ways, size.number, round_=round_)
    cut = Cut(frame_of(end, board.blank), loop, board.blank[1 - across])
    return Made(model.on, EdgeShape(size, model.edge, round_), (cut,), Fit.SETTLED)


def _section(corner: Point, ways: tuple[float, float], size: float, *, round_: bool) -> Loop:
    """What is taken off a corner, `ways` into the wood along the two axes; counter-clockwise."""
    first = Point(corner.x + ways[0] * size, corner.y)
    second = Point(corner.x, corner.y + ways[1] * size)
    if ways[0] * ways[1] < 0:
        first, second = second, first
    centre = Point(corner.x + ways[0] * size, corner.y + ways[1] * size)
    far = Arc(first, second, centre, ccw=False) if round_ else Line(first, second)
    loop = Loop((Line(corner, first), far, Line(second, corner)))
    assert area(loop) > 0
    return loop


def _has_room(bench: Bench, board: Board, name: Text, size: Value, across: int) -> bool:
    least = min(board.size[across], board.size[2], key=lambda value: value.number)
    if size.number < least.number - FINE:
        return True
    bench.stop(
        "edge-without-room",
        size.place,
        f"`{name}` takes {said(size)} off an edge of {board.title}, which is only {said(least)} there.",
        f"Make it less than {like(size, least.number)}.",
    )
    return False


def _is_whole(bench: Bench, board: Board, name: Text, edge: Edge) -> bool:
    """Whether the outline has this edge of the blank from corner to corner."""
    across = 0 if edge in (Edge.LEFT, Edge.RIGHT) else 1
    border = board.blank[across] if edge in (Edge.RIGHT, Edge.REAR) else 0.0
    along = [
        abs(side.end[1 - across] - side.start[1 - across])
        for side in board.outline.segments
        if isinstance(side, Line) and max(abs(end[across] - border) for end in (side.start, side.end)) < FINE
    ]
    if sum(along) > board.blank[1 - across] - FINE:
        return True
    bench.stop(
        "edge-not-whole",
        name.place,
        f"`{name}` runs along the whole {edge.value} edge, and the outline of {board.title} leaves it on the way.",
        "Choose an edge that the outline has from corner to corner, or say it in a note.",
    )
    return False
