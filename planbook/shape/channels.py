"""Grooves and rabbets: channels along an axis of a face."""

from __future__ import annotations

from planbook.shape.bench import FINE, Bench
from planbook.shape.board import Board
from planbook.shape.faces import FACES, FLAT, extent, frame_of
from planbook.shape.geometry import Point
from planbook.shape.kinds import GrooveShape, RabbetShape
from planbook.shape.loops import rectangle
from planbook.shape.made import Fit, Made, blind_depth
from planbook.shape.model import Cut
from planbook.shape.wording import like, said
from planbook.source.models.part import Edge, FeatureModel
from planbook.source.models.recesses import GrooveModel, RabbetModel
from planbook.source.models.slopes import RampModel
from planbook.source.text import Text


def make_groove(bench: Bench, board: Board, name: Text, model: GrooveModel) -> Made | None:
    """A groove from border to border, or stopped by `start` and `end`."""
    shape = _solve_groove(bench, name, model)
    if shape is None or not runs_in_face(bench, name, model, "groove"):
        return None
    depth = blind_depth(bench, board, model.on, shape.depth, f"the groove `{name}`")
    if depth is None:
        return None
    run = FACES[model.on].names.index(shape.along)
    ends = (
        0.0 if shape.start is None else shape.start.number,
        extent(model.on, board.blank)[run] if shape.end is None else shape.end.number,
    )
    if ends[1] <= ends[0] + FINE:
        last = shape.end or board.size[FACES[model.on].u if run == 0 else FACES[model.on].v]
        first = shape.start
        bench.stop(
            "groove-without-length",
            (first or last).place,
            f"The groove `{name}` ends at {said(last)}, not after its start at {said(first) if first else '0'}.",
            f"Let `start` be less than {like(last, ends[1])}, or leave the stop out.",
        )
        return None
    sides = (shape.at.number, shape.at.number + shape.width.number)
    low, high = (Point(ends[i], sides[i]) if run == 0 else Point(sides[i], ends[i]) for i in (0, 1))
    cut = Cut(frame_of(model.on, board.blank), rectangle(low, high), depth)
    return Made(model.on, shape, (cut,), Fit.ACROSS, (shape.start or shape.at, shape.at)[:: 1 if run == 0 else -1])


def _solve_groove(bench: Bench, name: Text, model: GrooveModel) -> GrooveShape | None:
    width = bench.size(model.groove, f"the width of `{name}`")
    at = bench.length(model.at)
    depth = bench.size(model.depth, f"the depth of `{name}`")
    start = None if model.start is None else bench.length(model.start)
    end = None if model.end is None else bench.length(model.end)
    missing = (model.start and start is None) or (model.end and end is None)
    if width is None or at is None or depth is None or missing:
        return None
    return GrooveShape(width, model.along.value, at, depth, start, end)


def runs_in_face(bench: Bench, name: Text, model: GrooveModel | RampModel, kind: str) -> bool:
    """Whether the axis that something runs along lies in its face."""
    names = FACES[model.on].names
    if model.along.value in names:
        return True
    bench.stop(
        "axis-not-on-face",
        name.place,
        f"The {kind} `{name}` runs along {model.along.value}, which does not lie in the {words(model.on)}.",
        f"Write `along: {next(letter for letter in names if letter in 'xy')}`, or cut it on another face.",
    )
    return False


def words(face: object) -> str:
    """`front_edge` as a builder says it: `front edge`."""
    return str(face).replace("_", " ")


def make_rabbet(bench: Bench, board: Board, name: Text, model: RabbetModel) -> Made | None:
    """A rabbet along a whole border of the face or the back."""
    width = bench.size(model.rabbet, f"the width of `{name}`")
    depth = bench.size(model.depth, f"the depth of `{name}`")
    if width is None or depth is None or not on_flat(bench, name, model):
        return None
    across = 0 if model.edge in (Edge.LEFT, Edge.RIGHT) else 1
    size = board.blank[across]
    if width.number >= size - FINE:
        bench.stop(
            "feature-outside-part",
            width.place,
            f"The rabbet `{name}` is {said(width)} wide, and {board.title} only {said(board.size[across])}.",
            f"Make it narrower than {like(width, size)}.",
        )
        return None
    down = blind_depth(bench, board, model.on, depth, f"the rabbet `{name}`")
    if down is None:
        return None
    near = model.edge in (Edge.LEFT, Edge.FRONT)
    sides = (0.0, width.number) if near else (size - width.number, size)
    length, breadth = board.blank.x, board.blank.y
    low, high = (
        (Point(sides[0], 0.0), Point(sides[1], breadth))
        if across == 0
        else (Point(0.0, sides[0]), Point(length, sides[1]))
    )
    cut = Cut(frame_of(model.on, board.blank), rectangle(low, high), down)
    return Made(model.on, RabbetShape(width, model.edge, depth), (cut,), Fit.ACROSS)


def on_flat(bench: Bench, name: Text, model: FeatureModel) -> bool:
    """Whether the feature is on the face or the back, which alone have the borders that it names."""
    if model.on in FLAT:
        return True
    bench.stop(
        "face-not-possible",
        name.place,
        f"`{name}` is on the {words(model.on)}; it is cut from the face or the back.",
        "Write `on: face` or `on: back`, or write a groove or a mortise.",
    )
    return False
