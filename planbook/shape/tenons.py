"""Tenons: the end of a part cut down to a smaller section."""

from __future__ import annotations

from planbook.design.values import Value
from planbook.shape.bench import FINE, Bench, derived
from planbook.shape.board import Board
from planbook.shape.faces import SIZE_NAMES, frame_of
from planbook.shape.geometry import Point
from planbook.shape.kinds import TenonShape
from planbook.shape.loops import rectangle
from planbook.shape.made import Fit, Made
from planbook.shape.model import Cut
from planbook.shape.wording import like, said
from planbook.source.models.part import Edge, FaceName
from planbook.source.models.recesses import TenonModel
from planbook.source.text import Text


def make_tenon(bench: Bench, board: Board, name: Text, model: TenonModel) -> Made | None:
    """The wood round a tenon, cut from the end face down to the shoulder."""
    sizes = [
        bench.size(formula, f"the {what} of `{name}`") for formula, what in zip(model.tenon, SIZE_NAMES, strict=True)
    ]
    at = None if model.at is None else bench.pair(model.at)
    length, width, thickness = sizes
    if length is None or width is None or thickness is None or (model.at and at is None):
        return None
    if not _possible(bench, board, name, (length, width, thickness)):
        return None
    place = at or (_centred(board, width, 1), _centred(board, thickness, 2))
    shape = TenonShape(length, width, thickness, model.end, place, (at is None, at is None))
    low = Point(place[0].number, place[1].number)
    island = rectangle(low, Point(low.x + width.number, low.y + thickness.number))
    section = rectangle(Point(0.0, 0.0), Point(board.blank.y, board.blank.z))
    if not _within(bench, board, name, shape):
        return None
    face = FaceName.LEFT_END if model.end is Edge.LEFT else FaceName.RIGHT_END
    cut = Cut(frame_of(face, board.blank), section, length.number, islands=(island,))
    return Made(face, shape, (cut,), Fit.ACROSS)


def _centred(board: Board, size: Value, axis: int) -> Value:
    whole = board.size[axis]
    return derived((whole.number - size.number) / 2, f"({whole.formula} - ({size.formula})) / 2", (size, whole))


def _possible(bench: Bench, board: Board, name: Text, sizes: tuple[Value, Value, Value]) -> bool:
    """Whether it is shorter than the part and smaller than its section."""
    if sizes[0].number >= board.blank.x - FINE:
        _too_large(bench, board, name, sizes, 0)
        return False
    for axis in (1, 2):
        if sizes[axis].number > board.blank[axis] + FINE:
            _too_large(bench, board, name, sizes, axis)
            return False
    if all(sizes[axis].number > board.blank[axis] - FINE for axis in (1, 2)):
        bench.stop(
            "tenon-too-large",
            sizes[1].place,
            f"The tenon `{name}` is as large as the section of {board.title}, {said(board.size[1])} by "
            f"{said(board.size[2])}: nothing is cut, and it has no shoulder.",
            "Make its width or its thickness less.",
        )
        return False
    return True


def _too_large(bench: Bench, board: Board, name: Text, sizes: tuple[Value, Value, Value], axis: int) -> None:
    size, whole = sizes[axis], board.size[axis]
    bench.stop(
        "tenon-too-large",
        size.place,
        f"The {SIZE_NAMES[axis]} of the tenon `{name}` is {said(size)}, and that of {board.title} only {said(whole)}.",
        f"Make it {'less than' if axis == 0 else 'at most'} {like(size, whole.number)}.",
    )


def _within(bench: Bench, board: Board, name: Text, shape: TenonShape) -> bool:
    """Whether the tenon's section lies in the part's section."""
    for axis, (at, size) in enumerate(zip(shape.at, (shape.width, shape.thickness), strict=True), start=1):
        most = board.blank[axis] - size.number
        if -FINE <= at.number <= most + FINE:
            continue
        bench.stop(
            "feature-outside-part",
            at.place,
            f"The tenon `{name}` starts at {said(at)} and is {said(size)} in {SIZE_NAMES[axis]}, so it leaves the "
            f"section of {board.title}, {said(board.size[axis])}.",
            f"Let it start between 0 and {like(at, most)}, or leave `at` out for a centred tenon.",
        )
        return False
    return True
