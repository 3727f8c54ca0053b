"""What is turned about the middle of a part's section: round tenons, rods, pins with steps."""

from __future__ import annotations

from planbook.design.values import Value
from planbook.shape.bench import FINE, Bench
from planbook.shape.board import Board
from planbook.shape.faces import frame_of
from planbook.shape.geometry import Frame, Loop, Point, Vec
from planbook.shape.kinds import RoundTenonShape, TurnedShape
from planbook.shape.loops import circle, rectangle
from planbook.shape.made import Fit, Made
from planbook.shape.model import Cut
from planbook.shape.wording import like, said
from planbook.source.models.part import Edge, FaceName
from planbook.source.models.slanted import RoundTenonModel, TurnedModel
from planbook.source.text import Text

_CLEAR = 1e6
"""Nanometres by which what is turned off reaches over the wood, so that a rod may touch the borders of its blank."""


def make_round_tenon(bench: Bench, board: Board, name: Text, model: RoundTenonModel) -> Made | None:
    """The wood round a pin, cut from the end down to the shoulder."""
    diameter = bench.size(model.round_tenon[0], f"the diameter of `{name}`")
    length = bench.size(model.round_tenon[1], f"the length of `{name}`")
    if diameter is None or length is None or not _thin_enough(bench, board, name, diameter):
        return None
    if length.number >= board.blank.x - FINE:
        bench.stop(
            "tenon-too-large",
            length.place,
            f"The round tenon `{name}` is {said(length)} long, and {board.title} only {said(board.size[0])}.",
            f"Make it less than {like(length, board.blank.x)}.",
        )
        return None
    face = FaceName.LEFT_END if model.end is Edge.LEFT else FaceName.RIGHT_END
    frame = frame_of(face, board.blank)
    cut = Cut(frame, _section(board), length.number, islands=(_round(board, diameter),))
    return Made(face, RoundTenonShape(diameter, length, model.end), (cut,), Fit.SETTLED)


def make_turned(bench: Bench, board: Board, name: Text, model: TurnedModel) -> Made | None:
    """The wood round a length of a part that is turned."""
    diameter = bench.size(model.turned, f"the diameter of `{name}`")
    start = None if model.start is None else bench.length(model.start)
    end = None if model.end is None else bench.length(model.end)
    if diameter is None or (model.start and start is None) or (model.end and end is None):
        return None
    first, last = 0.0 if start is None else start.number, board.blank.x if end is None else end.number
    if not _thin_enough(bench, board, name, diameter) or not _in_order(bench, board, name, start, end):
        return None
    base = frame_of(FaceName.LEFT_END, board.blank)
    frame = Frame(Vec(first, 0.0, 0.0), base.u, base.v, base.normal)
    cut = Cut(frame, _section(board), last - first, islands=(_round(board, diameter),))
    return Made(FaceName.LEFT_END, TurnedShape(diameter, start, end), (cut,), Fit.SETTLED)


def _section(board: Board) -> Loop:
    return rectangle(Point(-_CLEAR, -_CLEAR), Point(board.blank.y + _CLEAR, board.blank.z + _CLEAR))


def _round(board: Board, diameter: Value) -> Loop:
    return circle(Point(board.blank.y / 2, board.blank.z / 2), diameter.number / 2)


def _thin_enough(bench: Bench, board: Board, name: Text, diameter: Value) -> bool:
    axis = 1 if board.blank.y <= board.blank.z else 2
    if diameter.number <= board.blank[axis] + FINE:
        return True
    bench.stop(
        "tenon-too-large",
        diameter.place,
        f"The diameter of `{name}` is {said(diameter)}, and {board.title} has only {said(board.size[axis])}.",
        f"Make it at most {like(diameter, board.blank[axis])}.",
    )
    return False


def _in_order(bench: Bench, board: Board, name: Text, start: Value | None, end: Value | None) -> bool:
    first, last = 0.0 if start is None else start.number, board.blank.x if end is None else end.number
    if -FINE <= first < last - FINE <= board.blank.x:
        return True
    wrong = end or start or board.size[0]
    bench.stop(
        "feature-outside-part",
        wrong.place,
        f"`{name}` is turned from {said(start) if start else '0'} to {said(end) if end else 'the end'}, and "
        f"{board.title} is {said(board.size[0])} long.",
        "Let it start and end within the part, the start first.",
    )
    return False
