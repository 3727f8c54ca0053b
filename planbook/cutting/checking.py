"""A plan held against its job, by means of its own: geometry read off the layouts, and the cuts made again."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from itertools import pairwise

from shapely import Polygon, box

from planbook.cutting.interlock import are_apart, moved
from planbook.cutting.model import Job, Piece, Stock
from planbook.cutting.plan import Layout, Placed, Plan, Rectangle
from planbook.cutting.stances import ways_of
from planbook.cutting.steps import list_steps, replay


def faults_of(job: Job, plan: Plan) -> tuple[str, ...]:
    """Every promise that the plan breaks, in words; none for a sound plan."""
    pieces = {piece.key: piece for piece in job.pieces}
    stocks = {stock.key: stock for stock in job.stocks}
    return (
        *_quantities(job, plan),
        *_stock_used(stocks, plan),
        *_groups(pieces, plan),
        *(fault for layout in plan.layouts for fault in _layout(layout, pieces, stocks[layout.stock], job.kerf)),
    )


def _quantities(job: Job, plan: Plan) -> Iterator[str]:
    there: Counter[str] = Counter()
    for layout in plan.layouts:
        for each in layout.placed:
            there[each.piece] += layout.times
    for left in plan.unplaced:
        there[left.piece] += left.quantity
    for piece in job.pieces:
        if there[piece.key] != max(0, piece.quantity):
            yield f"{piece.key}: {there[piece.key]} instead of {piece.quantity}"


def _stock_used(stocks: Mapping[str, Stock], plan: Plan) -> Iterator[str]:
    used: Counter[str] = Counter()
    for layout in plan.layouts:
        used[layout.stock] += layout.times
    for key, count in used.items():
        available = stocks[key].available
        if available is not None and count > available:
            yield f"{key}: {count} of {available} used"
    if sum(used.values()) < plan.bound.count:
        yield f"{sum(used.values())} sheets are fewer than the bound of {plan.bound.count}"
    if plan.area != sum(stocks[key].area * count for key, count in used.items()) or plan.area < plan.bound.area:
        yield f"an area of {plan.area} against the bound of {plan.bound.area}"


def _groups(pieces: Mapping[str, Piece], plan: Plan) -> Iterator[str]:
    at: dict[str, int] = {}
    for number, layout in enumerate(plan.layouts):
        for each in layout.placed:
            group = pieces[each.piece].group
            if group is not None and (at.setdefault(group, number) != number or layout.times > 1):
                yield f"{each.piece}: group {group} is on two sheets"


def _layout(layout: Layout, pieces: Mapping[str, Piece], stock: Stock, kerf: int) -> Iterator[str]:
    for each in layout.placed:
        yield from _placed(each, pieces[each.piece], stock)
    yield from _too_near(layout, kerf)
    yield from _offcuts(layout)
    if layout.cuts is not None:
        yield from _replayed(layout, stock, kerf)


def _too_near(layout: Layout, kerf: int) -> Iterator[str]:
    """Rectangles nearer than a kerf, unless they have outlines that are not."""
    places = [each.place for each in layout.placed]
    shapes = [_box(each.place) if each.outline is None else Polygon(each.outline, each.holes) for each in layout.placed]
    for one, other in _near(places, kerf):
        outlined = layout.placed[one].outline is not None or layout.placed[other].outline is not None
        if not outlined or not are_apart(shapes[one], shapes[other], kerf * (1 - 1e-9)):
            yield f"{places[one]} is too near {places[other]}"


def _offcuts(layout: Layout) -> Iterator[str]:
    """Offcuts that are not left over."""
    boxes = [_box(each) for each in layout.offcuts]
    shapes = [_box(each.place) if each.outline is None else Polygon(each.outline) for each in layout.placed]
    for at, offcut in enumerate(boxes):
        if not all(are_apart(offcut, other, 0) for other in (*shapes, *boxes[:at])):
            yield f"offcut {layout.offcuts[at]} is not left over"


def _box(place: Rectangle) -> Polygon:
    return box(place.x, place.y, place.x + place.length, place.y + place.width)


def _placed(each: Placed, piece: Piece, stock: Stock) -> Iterator[str]:
    place = each.place
    size = (piece.width, piece.length) if each.turned else (piece.length, piece.width)
    if (place.length, place.width) != size:
        yield f"{each.piece} is cut {place.length} x {place.width}"
    if each.outline is not None and not _is_outline(each, piece):
        yield f"{each.piece} is cut to another outline"
    if each.turned and not piece.turnable:
        yield f"{each.piece} is turned against its grain"
    if not _inside(place, stock):
        yield f"{each.piece} reaches into the trim"


def _is_outline(each: Placed, piece: Piece) -> bool:
    """Whether it is the piece's outline with its holes, moved and turned."""
    if piece.outline is None or each.outline is None:
        return False
    rings = tuple(moved(ring, -each.place.x, -each.place.y) for ring in (each.outline, *each.holes))
    return (each.turned, rings) in ways_of(piece)


def _inside(place: Rectangle, stock: Stock) -> bool:
    return (
        place.x >= stock.end_trim
        and place.y >= stock.edge_trim
        and place.x + place.length <= stock.length - stock.end_trim
        and place.y + place.width <= stock.width - stock.edge_trim
    )


def _near(places: list[Rectangle], gap: int) -> Iterator[tuple[int, int]]:
    """Pairs with less than `gap` between them, by number."""
    ordered = sorted(range(len(places)), key=lambda at: (places[at].x, places[at].y))
    for number, at in enumerate(ordered):
        one = places[at]
        for beside in ordered[number + 1 :]:
            other = places[beside]
            if other.x >= one.x + one.length + gap:
                break
            if other.y < one.y + one.width + gap and one.y < other.y + other.width + gap:
                yield at, beside


def _replayed(layout: Layout, stock: Stock, kerf: int) -> Iterator[str]:
    steps = list_steps(layout, stock)
    try:
        yielded = Counter(replay(steps, stock, kerf))
    except ValueError as error:
        yield str(error)
        return
    told = Counter([*(each.place for each in layout.placed), *layout.offcuts])
    if yielded != told:
        yield f"the cuts of {layout.stock} yield other panels than it tells: {yielded - told}, {told - yielded}"
    if any(step.turn != (one.way is not step.way) for one, step in pairwise(steps)):
        yield "a turn of the panel is not told"
