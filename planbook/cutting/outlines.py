"""Nesting true outlines: alike ones in interlocking pairs where that saves stock, and a bound by their true areas."""

from __future__ import annotations

from bisect import bisect_left
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace

from shapely import box

from planbook.cutting.bounds import bound_of, least_area
from planbook.cutting.interlock import Outline, Pair, interlocked, moved, quarter_round
from planbook.cutting.model import Job, Piece
from planbook.cutting.plan import Bound, Layout, Placed, Plan, Rectangle
from planbook.cutting.problem import pose
from planbook.cutting.stances import covered_area, shape_of, ways_of

_PAIR = "pair of "


def in_pairs(job: Job) -> tuple[Job, Mapping[str, Pair]]:
    """The job in pairs, with single pieces for the rest; the pairs by the keys that they have in it."""
    pieces: list[Piece] = []
    pairs: dict[str, Pair] = {}
    for piece in job.pieces:
        pair = interlocked(piece, job.kerf) if piece.quantity > 1 else None
        if pair is None or not _is_room(job, pair, piece.turnable):
            pieces.append(piece)
            continue
        key = _PAIR + piece.key
        pairs[key] = pair
        pieces.append(
            replace(
                piece,
                key=key,
                length=pair.length,
                width=pair.width,
                quantity=piece.quantity // 2,
                outline=None,
                holes=(),
            )
        )
        if piece.quantity % 2:
            pieces.append(replace(piece, quantity=1))
    return replace(job, pieces=tuple(pieces)), pairs


def _is_room(job: Job, pair: Pair, turnable: bool) -> bool:
    sizes = [(pair.length, pair.width), *([(pair.width, pair.length)] if turnable else [])]
    return any(
        length <= stock.clear_length and width <= stock.clear_width for stock in job.stocks for length, width in sizes
    )


def outlined(job: Job, plan: Plan, pairs: Mapping[str, Pair]) -> Plan:
    """A plan of rectangles told with the outlines in them, and with a bound that holds for outlines."""
    pieces = {piece.key: piece for piece in job.pieces}
    layouts = tuple(
        replace(layout, placed=tuple(each for placed in layout.placed for each in _placed(placed, pieces, pairs)))
        for layout in plan.layouts
    )
    unplaced = tuple(
        replace(each, piece=each.piece.removeprefix(_PAIR), quantity=2 * each.quantity) if each.piece in pairs else each
        for each in plan.unplaced
    )
    return replace(plan, layouts=layouts, unplaced=unplaced, bound=shape_bound(job, placed_counts(layouts)))


def _placed(placed: Placed, pieces: Mapping[str, Piece], pairs: Mapping[str, Pair]) -> Iterator[Placed]:
    if placed.piece in pairs:
        pair, piece = pairs[placed.piece], pieces[placed.piece.removeprefix(_PAIR)]
        for outline, (_, way) in zip(pair.outlines, ways_of(piece), strict=False):
            (x, y), (from_x, from_y) = outline[0], way[0][0]
            yield _told(placed, piece.key, [moved(ring, x - from_x, y - from_y) for ring in way], pair.width)
        return
    piece = pieces[placed.piece]
    rings = [] if piece.outline is None else [piece.outline, *piece.holes]
    yield _told(placed, piece.key, rings, piece.width) if rings else placed


def _told(placed: Placed, key: str, rings: Sequence[Outline], width: int) -> Placed:
    """One outline with its holes in its place on the stock, and its own rectangle."""
    x, y = placed.place.x, placed.place.y
    lying, *holes = (moved(quarter_round(ring, width) if placed.turned else ring, x, y) for ring in rings)
    low_x, low_y = (min(point[axis] for point in lying) for axis in (0, 1))
    high_x, high_y = (max(point[axis] for point in lying) for axis in (0, 1))
    place = Rectangle(low_x, low_y, high_x - low_x, high_y - low_y)
    return Placed(key, place, placed.turned, lying, tuple(holes))


def shape_bound(job: Job, counts: Mapping[str, int]) -> Bound:
    """For any plan of so many of these true outlines: by their areas, or of rectangles that lie within them, of those
    that may not lie in a hole of another.
    """
    some = (replace(piece, quantity=counts.get(piece.key, 0)) for piece in job.pieces)
    pieces = tuple(piece for piece in some if piece.quantity > 0)
    if not pieces:
        return Bound(0, 0, "area")
    rooms = [_size_of(hole) for piece in pieces for hole in piece.holes]
    beside = tuple(_within(piece) for piece in pieces if not _may_lie_in(piece, rooms, max(0, job.kerf)))
    within = bound_of(pose(replace(job, pieces=beside))[0])
    bins, kerf = pose(job)[0].bins, max(0, job.kerf)
    area = sum(piece.quantity * covered_area(piece, kerf) for piece in pieces)
    count = -(-area // max(each.area for each in bins))
    least = least_area(bins, max(count, within.count), area)
    return Bound(max(count, within.count), max(least, within.area), "area" if count >= within.count else within.by)


def placed_counts(layouts: Iterable[Layout]) -> Counter[str]:
    """How many of each piece these layouts give."""
    counts: Counter[str] = Counter()
    for layout in layouts:
        for each in layout.placed:
            counts[each.piece] += layout.times
    return counts


def _size_of(hole: Outline) -> tuple[int, int]:
    """Of the rectangle round it."""
    length, width = (max(point[axis] for point in hole) - min(point[axis] for point in hole) for axis in (0, 1))
    return length, width


def _may_lie_in(piece: Piece, rooms: Sequence[tuple[int, int]], kerf: int) -> bool:
    """Whether the rectangle round one of these holes is large enough for it, however both are turned."""
    least, most = sorted((piece.length + 2 * kerf, piece.width + 2 * kerf))
    return any(least <= min(room) and most <= max(room) for room in rooms)


def _within(piece: Piece) -> Piece:
    """A rectangle of a piece's own proportions within its outline, about the middle of it; holes count as wood."""
    shape = shape_of(replace(piece, holes=()))
    if shape.area == piece.area:
        return replace(piece, outline=None, holes=())

    def sticks_out(part: int) -> bool:
        length, width = piece.length * part // _PARTS, piece.width * part // _PARTS
        west, south = (piece.length - length) // 2, (piece.width - width) // 2
        return not shape.covers(box(west, south, west + length, south + width))

    part = bisect_left(range(1, _PARTS), True, key=sticks_out)
    return replace(
        piece,
        length=max(1, piece.length * part // _PARTS),
        width=max(1, piece.width * part // _PARTS),
        outline=None,
        holes=(),
    )


_PARTS = 100
"""Steps of size in which that rectangle is looked for."""
