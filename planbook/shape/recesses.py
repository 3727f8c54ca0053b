"""Mortises, openings and notches: rectangles with perhaps rounded corners; pockets of any outline."""

from __future__ import annotations

from planbook.design.values import Value
from planbook.shape.bench import FINE, Bench, derived
from planbook.shape.board import Board
from planbook.shape.channels import on_flat
from planbook.shape.faces import frame_of
from planbook.shape.geometry import Point
from planbook.shape.kinds import PocketShape, RecessShape
from planbook.shape.loops import rectangle
from planbook.shape.made import Fit, Made, blind_depth, depth_or_through
from planbook.shape.model import Cut
from planbook.shape.outline import shape_outline
from planbook.shape.wording import like, said
from planbook.source.models.outline import PocketModel
from planbook.source.models.part import Corner, Edge
from planbook.source.models.recesses import MortiseModel, NotchModel, OpeningModel
from planbook.source.text import Formula, Text

_OPEN: dict[Corner, tuple[Edge, Edge]] = {
    Corner.FRONT_LEFT: (Edge.LEFT, Edge.FRONT),
    Corner.FRONT_RIGHT: (Edge.RIGHT, Edge.FRONT),
    Corner.REAR_LEFT: (Edge.LEFT, Edge.REAR),
    Corner.REAR_RIGHT: (Edge.RIGHT, Edge.REAR),
}


def make_mortise(bench: Bench, board: Board, name: Text, model: MortiseModel) -> Made | None:
    """A rectangular hole, blind or through."""
    size = bench.sizes(model.mortise, f"`{name}`")
    at = bench.pair(model.at)
    depth = None if model.depth is None else bench.size(model.depth, f"the depth of `{name}`")
    rounding = _rounding(bench, name, model.round)
    missing = (model.depth and depth is None) or (model.round and rounding is None)
    if size is None or at is None or missing:
        return None
    return _recess(bench, board, name, model, RecessShape(size, at, depth, rounding))


def make_opening(bench: Bench, board: Board, name: Text, model: OpeningModel) -> Made | None:
    """A cut-out through the part."""
    size = bench.sizes(model.opening, f"`{name}`")
    at = bench.pair(model.at)
    rounding = _rounding(bench, name, model.round)
    if size is None or at is None or (model.round and rounding is None):
        return None
    return _recess(bench, board, name, model, RecessShape(size, at, None, rounding))


def make_notch(bench: Bench, board: Board, name: Text, model: NotchModel) -> Made | None:
    """A cut-out through the part at a corner or on an edge of its face."""
    size = bench.sizes(model.notch, f"`{name}`")
    rounding = _rounding(bench, name, model.round)
    start = None if model.start is None else bench.length(model.start)
    missing = (model.round and rounding is None) or (model.start and start is None)
    if not on_flat(bench, name, model) or size is None or missing:
        return None
    borders = _OPEN[model.corner] if model.corner else (model.edge,) if model.edge else ()
    at = _notch_at(board, size, borders, start)
    return _recess(bench, board, name, model, RecessShape(size, at, None, rounding, borders))


def _rounding(bench: Bench, name: Text, formula: Formula | None) -> Value | None:
    return None if formula is None else bench.size(formula, f"the rounding of `{name}`")


def _notch_at(
    board: Board, size: tuple[Value, Value], borders: tuple[Edge, ...], start: Value | None
) -> tuple[Value, Value]:
    """The corner nearest the datum; on a far border it is the part's own measure less the notch."""
    found = []
    for axis, (near, far) in enumerate(((Edge.LEFT, Edge.RIGHT), (Edge.FRONT, Edge.REAR))):
        whole, part = board.size[axis], size[axis]
        if far in borders:
            found.append(derived(whole.number - part.number, f"{whole.formula} - ({part.formula})", (part, whole)))
        elif near in borders:
            found.append(derived(0.0, "0 mm", (part,)))
        else:
            assert start is not None
            found.append(start)
    return found[0], found[1]


def _recess(
    bench: Bench, board: Board, name: Text, model: MortiseModel | OpeningModel | NotchModel, shape: RecessShape
) -> Made | None:
    radius = 0.0 if shape.round is None else shape.round.number
    if not _rounding_fits(bench, name, shape):
        return None
    depth = depth_or_through(bench, board, model.on, shape.depth, f"`{name}`")
    if depth is None:
        return None
    low = Point(shape.at[0].number, shape.at[1].number)
    high = Point(low.x + shape.size[0].number, low.y + shape.size[1].number)
    loop = rectangle(low, high, [radius if inner else 0.0 for inner in inner_corners(shape.open)])
    cut = Cut(frame_of(model.on, board.blank), loop, depth)
    return Made(model.on, shape, (cut,), Fit.ACROSS if shape.open else Fit.INSIDE, shape.at)


def inner_corners(borders: tuple[Edge, ...]) -> tuple[bool, bool, bool, bool]:
    """Which corners (low-low, high-low, high-high, low-high) lie in the wood, not on a border it opens on."""
    left, right, front, rear = (edge in borders for edge in (Edge.LEFT, Edge.RIGHT, Edge.FRONT, Edge.REAR))
    return not (left or front), not (right or front), not (right or rear), not (left or rear)


def _rounding_fits(bench: Bench, name: Text, shape: RecessShape) -> bool:
    """Whether two roundings fit on each side that has two, one on each that has one."""
    if shape.round is None:
        return True
    corners = inner_corners(shape.open)
    along_x = max(corners[0] + corners[1], corners[3] + corners[2])
    along_y = max(corners[0] + corners[3], corners[1] + corners[2])
    most = min(shape.size[0].number / along_x, shape.size[1].number / along_y)
    if shape.round.number <= most + FINE:
        return True
    bench.stop(
        "rounding-too-large",
        shape.round.place,
        f"The corners of `{name}` cannot be rounded by {said(shape.round)}: it is {said(shape.size[0])} by "
        f"{said(shape.size[1])}.",
        f"Make `round` at most {like(shape.round, most)}.",
    )
    return False


def make_pocket(bench: Bench, board: Board, name: Text, model: PocketModel) -> Made | None:
    """A blind recess of any outline."""
    depth = bench.size(model.depth, f"the depth of `{name}`")
    shaped = shape_outline(bench, model.pocket)
    if depth is None or shaped is None:
        return None
    down = blind_depth(bench, board, model.on, depth, f"the pocket `{name}`")
    if down is None:
        return None
    loop, vertices = shaped
    cut = Cut(frame_of(model.on, board.blank), loop, down)
    return Made(model.on, PocketShape(vertices, depth), (cut,), Fit.INSIDE, vertices[0].at)
