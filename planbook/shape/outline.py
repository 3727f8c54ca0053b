"""A part's outline: named corners joined by straight sides or arcs, some corners rounded, checked before use."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations

import shapely

from planbook.shape.bench import FINE, Bench
from planbook.shape.geometry import Arc, Line, Loop, Point, Segment
from planbook.shape.kinds import Vertex
from planbook.shape.loops import arc_through, area, chords, fillet, setback, turn
from planbook.shape.wording import in_both, like, said
from planbook.source.findings import Place
from planbook.source.models.outline import VertexModel
from planbook.source.text import Text


@dataclass(frozen=True, slots=True)
class Side:
    """A piece of the outline with the words that name it and the place of the corner that it leads to."""

    segment: Segment
    words: str
    place: Place


def shape_outline(bench: Bench, outline: Mapping[Text, VertexModel]) -> tuple[Loop, tuple[Vertex, ...]] | None:
    """The loop and its authored corners, or None when the bench has a finding that says why."""
    solved = [_vertex(bench, name, model) for name, model in outline.items()]
    vertices = tuple(vertex for vertex in solved if vertex is not None)
    if len(vertices) < len(solved):
        return None
    places = tuple(name.place for name in outline)
    sides = _sides(bench, vertices, places)
    if sides is None or not _simple(bench, sides, places[0]) or not _counter_clockwise(bench, sides):
        return None
    loop = _round(bench, vertices, sides)
    return None if loop is None else (loop, vertices)


def _vertex(bench: Bench, name: Text, model: VertexModel) -> Vertex | None:
    at = bench.pair(model.at)
    rounding = None if model.round is None else bench.size(model.round, f"the rounding of `{name}`")
    through = None if model.through is None else bench.pair(model.through)
    if at is None or (model.round and rounding is None) or (model.through and through is None):
        return None
    return Vertex(str(name), at, Point(at[0].number, at[1].number), rounding, through)


def _sides(bench: Bench, vertices: Sequence[Vertex], places: Sequence[Place]) -> tuple[Side, ...] | None:
    """The sides as authored, not yet rounded: side i leads from vertex i to the next one."""
    sides = []
    for i, vertex in enumerate(vertices):
        j = (i + 1) % len(vertices)
        end = vertices[j]
        segment = _side(bench, vertex, end, places[j])
        if segment is not None:
            sides.append(Side(segment, f"the side from `{vertex.name}` to `{end.name}`", places[j]))
    if len(sides) < len(vertices):
        return None
    if len(sides) < 2 or (len(sides) == 2 and all(isinstance(side.segment, Line) for side in sides)):
        bench.stop(
            "outline-too-short",
            places[0],
            f"An outline of {len(vertices)} corners encloses nothing.",
            "Name at least three corners, or two with a side `through` a point.",
        )
        return None
    return tuple(sides)


def _side(bench: Bench, start: Vertex, end: Vertex, place: Place) -> Segment | None:
    words = f"the side from `{start.name}` to `{end.name}`"
    if _near(start.point, end.point):
        bench.stop(
            "outline-side-empty",
            place,
            f"{words} has no length: both corners are at {said(end.at[0])}, {said(end.at[1])}.",
            f"Leave `{end.name}` out, or give it another place.",
        )
        return None
    if end.through is None:
        return Line(start.point, end.point)
    middle = Point(end.through[0].number, end.through[1].number)
    arc = (
        None if _near(middle, start.point) or _near(middle, end.point) else arc_through(start.point, middle, end.point)
    )
    if arc is None:
        bench.stop(
            "outline-arc-straight",
            place,
            f"{words} cannot be an arc: its `through` point {said(end.through[0])}, {said(end.through[1])} lies in one "
            "line with its two ends.",
            "Move the point off the line, or leave `through` out for a straight side.",
        )
    return arc


def _near(a: Point, b: Point) -> bool:
    return abs(a.x - b.x) < FINE and abs(a.y - b.y) < FINE


def _simple(bench: Bench, sides: Sequence[Side], first: Place) -> bool:
    """Whether no two sides meet except where one follows the other; the first pair that does is reported."""
    lines = [shapely.LineString(chords(side.segment)) for side in sides]
    for i, j in combinations(range(len(sides)), 2):
        meeting = shapely.intersection(lines[i], lines[j])
        shared = {sides[i].segment.end, sides[i].segment.start} & {sides[j].segment.end, sides[j].segment.start}
        if meeting.is_empty or all(_touches(part, shared) for part in shapely.get_parts(meeting)):
            continue
        x, y = meeting.representative_point().coords[0]
        bench.stop(
            "outline-crosses-itself",
            sides[i].place if sides[i].place != first else sides[j].place,
            f"The outline crosses itself: {sides[i].words} meets {sides[j].words} at x {in_both(x)}; y {in_both(y)}.",
            "Put the corners in order round the part, counter-clockwise, or move one of these four.",
        )
        return False
    return True


def _touches(meeting: shapely.Geometry, shared: set[Point]) -> bool:
    """Whether two sides meet in no more than the corner that they share."""
    return any(meeting.within(shapely.Point(corner).buffer(10 * FINE)) for corner in shared)


def _counter_clockwise(bench: Bench, sides: Sequence[Side]) -> bool:
    if area(Loop(tuple(side.segment for side in sides))) > 0:
        return True
    bench.stop(
        "outline-clockwise",
        sides[0].place,
        f"The corners run clockwise: {sides[0].words} is followed by {sides[1].words}.",
        "List the corners the other way round: along the front edge first, then up the right end.",
    )
    return False


def _round(bench: Bench, vertices: Sequence[Vertex], sides: Sequence[Side]) -> Loop | None:
    """Replace corners by arcs; None when a rounding does not fit."""
    count = len(vertices)
    corners = [_corner(bench, vertices, sides, i) for i in range(count)]
    if None in corners:
        return None
    segments: list[Segment] = []
    names: list[str] = []
    pieces: list[Side] = []
    fillets = [corner if isinstance(corner, Arc) else None for corner in corners]
    if not _roundings_fit(bench, vertices, sides, fillets):
        return None
    for i, vertex in enumerate(vertices):
        arc, following = fillets[i], fillets[(i + 1) % count]
        if arc is not None:
            segments.append(arc)
            names.append(vertex.name)
            pieces.append(Side(arc, f"the rounding of `{vertex.name}`", sides[i - 1].place))
        side = _trimmed(sides[i].segment, arc, following)
        if side is not None:
            segments.append(side)
            names.append("" if arc is not None else vertex.name)
            pieces.append(Side(side, sides[i].words, sides[i].place))
    if any(fillets) and not _simple(bench, pieces, sides[-1].place):
        return None
    return Loop(tuple(segments), tuple(names))


def _corner(bench: Bench, vertices: Sequence[Vertex], sides: Sequence[Side], i: int) -> Arc | bool | None:
    """The arc of a rounded corner, True for a corner that stays, None for one that cannot be rounded."""
    vertex, incoming, outgoing = vertices[i], sides[i - 1], sides[i]
    if vertex.round is None:
        return True
    before, after = vertices[i - 1].point, vertices[(i + 1) % len(vertices)].point
    if isinstance(incoming.segment, Arc) or isinstance(outgoing.segment, Arc):
        problem = f"`{vertex.name}` cannot be rounded: an arc ends there."
    elif abs(turn(before, vertex.point, after)) < 1e-6:
        problem = f"`{vertex.name}` cannot be rounded: its two sides run straight on."
    else:
        return fillet(before, vertex.point, after, vertex.round.number)
    bench.stop("outline-round-impossible", vertex.round.place, problem, "Leave `round` out at this corner.")
    return None


def _roundings_fit(
    bench: Bench, vertices: Sequence[Vertex], sides: Sequence[Side], fillets: Sequence[Arc | None]
) -> bool:
    """Whether each side is long enough for the roundings at its two ends."""
    fits = True
    for i, side in enumerate(sides):
        j = (i + 1) % len(sides)
        used = [_used(vertices, k) for k in (i, j) if fillets[k] is not None]
        length = shapely.LineString(chords(side.segment)).length
        if sum(used) <= length + FINE:
            continue
        k = i if fillets[j] is None or (fillets[i] is not None and _used(vertices, i) >= _used(vertices, j)) else j
        radius = vertices[k].round
        assert radius is not None
        most = radius.number * length / sum(used)
        bench.stop(
            "outline-round-too-large",
            radius.place,
            f"The rounding of `{vertices[k].name}`, {said(radius)}, does not fit: {side.words} is {in_both(length)} "
            f"long and its roundings take {in_both(sum(used))}.",
            f"Make it at most {like(radius, most)}.",
        )
        fits = False
    return fits


def _used(vertices: Sequence[Vertex], i: int) -> float:
    """How much of each of its two sides the rounding of vertex i takes."""
    vertex = vertices[i]
    radius = 0.0 if vertex.round is None else vertex.round.number
    return setback(vertices[i - 1].point, vertex.point, vertices[(i + 1) % len(vertices)].point, radius)


def _trimmed(side: Segment, arc: Arc | None, following: Arc | None) -> Segment | None:
    """What is left of a side between the roundings at its ends; None when nothing is."""
    if isinstance(side, Arc):
        return side
    start = side.start if arc is None else arc.end
    end = side.end if following is None else following.start
    return None if _near(start, end) else Line(start, end)
