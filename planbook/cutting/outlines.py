"""Nesting true outlines: alike ones in interlocking pairs where that saves stock, and a bound by their true areas."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from math import floor

from shapely import Polygon, box

from planbook.cutting.bounds import least_area
from planbook.cutting.interlock import Outline, Pair, interlocked, moved, quarter_round
from planbook.cutting.model import Job, Piece
from planbook.cutting.plan import Bound, Layout, Placed, Plan, Rectangle
from planbook.cutting.problem import pose

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
            replace(piece, key=key, length=pair.length, width=pair.width, quantity=piece.quantity // 2, outline=None)
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
    return replace(plan, layouts=layouts, unplaced=unplaced, bound=_bound(job, layouts))


def _placed(placed: Placed, pieces: Mapping[str, Piece], pairs: Mapping[str, Pair]) -> Iterator[Placed]:
    if placed.piece in pairs:
        pair, key = pairs[placed.piece], placed.piece.removeprefix(_PAIR)
        for outline in pair.outlines:
            yield _told(placed, key, outline, pair.width)
        return
    piece = pieces[placed.piece]
    yield placed if piece.outline is None else _told(placed, piece.key, piece.outline, piece.width)


def _told(placed: Placed, key: str, outline: Outline, width: int) -> Placed:
    """One outline in its place on the stock, and its own rectangle."""
    lying = moved(quarter_round(outline, width) if placed.turned else outline, placed.place.x, placed.place.y)
    low_x, low_y = (min(point[axis] for point in lying) for axis in (0, 1))
    high_x, high_y = (max(point[axis] for point in lying) for axis in (0, 1))
    return Placed(key, Rectangle(low_x, low_y, high_x - low_x, high_y - low_y), placed.turned, lying)


def _bound(job: Job, layouts: tuple[Layout, ...]) -> Bound:
    """By area: each piece with half a cutter's width round it, on sheets with as much round them."""
    problem, _, _ = pose(job)
    if not layouts:
        return Bound(0, 0, "area")
    total = 0.0
    for layout in layouts:
        for each in layout.placed:
            place = each.place
            shape = box(place.x, place.y, place.x + place.length, place.y + place.width)
            shape = shape if each.outline is None else Polygon(each.outline)
            total += layout.times * shape.buffer(problem.kerf / 2).area
    # Less what floating point may have added.
    area = floor(total * (1 - 1e-9))
    count = -(-area // max(each.area for each in problem.bins))
    return Bound(count, least_area(problem.bins, count, area), "area")
