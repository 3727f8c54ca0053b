"""Tapers and ramps: wedges cut from a side, and floors that slope between two stations."""

from __future__ import annotations

from planbook.design.values import Value
from planbook.shape.bench import FINE, Bench, both
from planbook.shape.board import Board
from planbook.shape.channels import runs_in_face
from planbook.shape.faces import FACES, SIZE_NAMES, UNITS, frame_of
from planbook.shape.geometry import Frame, Line, Loop, Point, Vec
from planbook.shape.kinds import RampShape, TaperShape
from planbook.shape.loops import area
from planbook.shape.made import Fit, Made
from planbook.shape.model import Cut
from planbook.shape.wording import in_both, like, said
from planbook.source.models.part import FaceName
from planbook.source.models.slopes import RampModel, Side, TaperModel
from planbook.source.text import Text


def make_taper(bench: Bench, board: Board, name: Text, model: TaperModel) -> Made | None:
    """A wedge along x off one of the long sides."""
    sizes = bench.sizes(model.taper, f"`{name}`")
    start = None if model.start is None else bench.length(model.start)
    end = None if model.end is None else bench.length(model.end)
    if sizes is None or (model.start and start is None) or (model.end and end is None):
        return None
    shape = TaperShape(sizes, model.side, start, end)
    ends = (0.0 if start is None else start.number, board.blank.x if end is None else end.number)
    axis = 1 if model.side in (Side.FRONT, Side.REAR) else 2
    if not _runs(bench, board, name, ends, (start, end), 0) or not _leaves(bench, board, name, sizes, axis):
        return None
    far, whole = model.side in (Side.REAR, Side.FACE), board.blank[axis]
    levels = tuple(size.number if far else whole - size.number for size in sizes)
    face = FaceName.FACE if axis == 1 else FaceName.FRONT_EDGE
    behind = board.blank.z if axis == 1 else board.blank.y
    cut = Cut(frame_of(face, board.blank), _wedge(ends, levels, whole if far else 0.0), behind)
    return Made(face, shape, (cut,), Fit.ACROSS, sizes)


def make_ramp(bench: Bench, board: Board, name: Text, model: RampModel) -> Made | None:
    """A floor that slopes along an axis of its face."""
    shape = _solve_ramp(bench, name, model)
    if shape is None or not runs_in_face(bench, name, model, "ramp"):
        return None
    axes = FACES[model.on]
    run, over = (axes.u, axes.v) if axes.names[0] == shape.along else (axes.v, axes.u)
    ends = (shape.start.number, shape.end.number)
    near, width = (0.0, board.blank[over]) if shape.across is None else (v.number for v in shape.across)
    fits = _runs(bench, board, name, ends, (shape.start, shape.end), run) and sinks(
        bench, board, name, shape.depths, axes.normal
    )
    if not fits or not _lies_across(bench, board, name, shape, over):
        return None
    surface = board.blank[axes.normal] if axes.far else 0.0
    levels = tuple(surface - value.number if axes.far else value.number for value in shape.depths)
    origin = Vec(*(near if axis == over else 0.0 for axis in range(3)))
    out = UNITS[over]
    frame = Frame(origin, UNITS[run], UNITS[axes.normal], Vec(-out.x, -out.y, -out.z))
    return Made(model.on, shape, (Cut(frame, _wedge(ends, levels, surface), width),), Fit.SETTLED)


def _solve_ramp(bench: Bench, name: Text, model: RampModel) -> RampShape | None:
    depths = both(bench.length(model.ramp[0]), bench.length(model.ramp[1]))
    start, end = bench.length(model.start), bench.length(model.end)
    across = None
    if model.at is not None and model.width is not None:
        across = both(bench.length(model.at), bench.size(model.width, f"the width of `{name}`"))
    if depths is None or start is None or end is None or (model.at and across is None):
        return None
    return RampShape(depths, model.along.value, start, end, across)


def _wedge(ends: tuple[float, float], levels: tuple[float, ...], surface: float) -> Loop:
    """The space between a surface and a line from one level to another; a triangle where a level is the surface."""
    points = [Point(ends[0], levels[0]), Point(ends[1], levels[1])]
    points += [
        Point(x, surface) for x, level in zip(ends[::-1], levels[::-1], strict=True) if abs(level - surface) > FINE
    ]
    loop = Loop(tuple(Line(a, b) for a, b in zip(points, [*points[1:], points[0]], strict=True)))
    return loop if area(loop) > 0 else Loop(tuple(Line(each.end, each.start) for each in reversed(loop.segments)))


def _runs(
    bench: Bench,
    board: Board,
    name: Text,
    ends: tuple[float, float],
    values: tuple[Value | None, Value | None],
    axis: int,
) -> bool:
    """Whether it ends after its start, both on the part."""
    whole = board.size[axis]
    if ends[0] > -FINE and ends[0] + FINE < ends[1] < whole.number + FINE:
        return True
    culprit = next((value for value in values if value is not None), whole)
    bench.stop(
        "slope-without-length",
        culprit.place,
        f"`{name}` runs from {in_both(ends[0])} to {in_both(ends[1])}, and the {SIZE_NAMES[axis]} of {board.title} is "
        f"{said(whole)}.",
        f"Let it start at 0 or more and end after that, at {like(culprit, whole.number)} at most.",
    )
    return False


def _leaves(bench: Bench, board: Board, name: Text, sizes: tuple[Value, Value], axis: int) -> bool:
    """Whether a taper's sizes are those of the part or less, and not both the whole."""
    whole = board.size[axis]
    large = max(sizes, key=lambda value: value.number)
    if large.number < whole.number + FINE and min(value.number for value in sizes) < whole.number - FINE:
        return True
    bench.stop(
        "taper-too-large",
        large.place,
        f"The taper `{name}` leaves {said(sizes[0])} and {said(sizes[1])}, and the {SIZE_NAMES[axis]} of {board.title} "
        f"is {said(whole)}.",
        f"Let one of the two be less than {like(large, whole.number)}, and none be more.",
    )
    return False


def sinks(bench: Bench, board: Board, name: Text, depths: tuple[Value, Value], axis: int) -> bool:
    """Whether a ramp's depths along an axis leave wood, and slope at all."""
    whole = board.size[axis]
    shallow, deep = sorted(depths, key=lambda value: value.number)
    if shallow.number < -FINE or deep.number > whole.number - FINE:
        wrong = shallow if shallow.number < -FINE else deep
        bench.stop(
            "feature-too-deep",
            wrong.place,
            f"`{name}` is {said(wrong)} deep, and the {SIZE_NAMES[axis]} of {board.title} is {said(whole)}.",
            f"Make it at least 0 and less than {like(wrong, whole.number)} deep.",
        )
        return False
    if deep.number - shallow.number > FINE:
        return True
    bench.stop(
        "ramp-level",
        deep.place,
        f"The floor of `{name}` does not slope: it is {said(deep)} deep at both ends.",
        "Give two depths, or write a groove or a pocket.",
    )
    return False


def _lies_across(bench: Bench, board: Board, name: Text, shape: RampShape, axis: int) -> bool:
    if shape.across is None:
        return True
    (at, width), whole = shape.across, board.size[axis]
    if at.number > -FINE and at.number + width.number < whole.number + FINE:
        return True
    bench.stop(
        "feature-outside-part",
        at.place,
        f"`{name}` is {said(width)} wide from {said(at)}; the {SIZE_NAMES[axis]} of {board.title} is {said(whole)}.",
        f"Start it between 0 and {like(at, whole.number - width.number)}, or make it narrower.",
    )
    return False
