"""Linear dimensions in rows outside a view: smallest nearest, extension lines clear of lettering (ISO 129-1).

Every way to place one is laid against what already stands in the view's margins and taken only if no lettering is
touched, so that what comes out is free of overlaps by construction.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from planbook.drawing.ink import Box
from planbook.drawing.ledger import Entry, Ledger
from planbook.drawing.side import Margin, Side
from planbook.drawing.ways import FIRST_ROW, ROW, Span, Way, entry_of, ways, with_marks

_ROWS: Final = 16
_ROW_COST: Final = 3.0
_WANTED_COST: Final = 1.3
_TRIES: Final = 8
_SIDE_COST: Final = {Side.BELOW: 0.0, Side.LEFT: 0.0, Side.ABOVE: 0.6, Side.RIGHT: 0.6}


def place_spans(
    spans: Sequence[Span], box: Box, ledger: Ledger, narrow: bool = False
) -> tuple[Ledger, tuple[Span, ...]]:
    """Place spans round a view's box, smallest first: the ledger with them, and those that found no free place.

    `narrow` asks for little width at the left and right. A span that found none goes to the front of the queue and all
    are placed anew; the best try counts.
    """
    queue = sorted(spans, key=lambda s: (not s.is_pinned, s.overall, round(s.length, 3), s.key))
    best: tuple[Ledger, tuple[Span, ...]] | None = None
    for _ in range(_TRIES):
        trial = ledger.copy()
        left = _place_queue(queue, box, trial, narrow)
        if best is None or len(left) < len(best[1]):
            best = trial, left
        if not left:
            break
        queue = [*left, *(span for span in queue if span not in left)]
    assert best is not None
    return best


def _place_queue(queue: Sequence[Span], box: Box, ledger: Ledger, narrow: bool) -> tuple[Span, ...]:
    left: list[Span] = []
    for place, span in enumerate(queue):
        found = _cheapest(span, box, ledger, _ends(queue[place + 1 :], span), narrow)
        if found is None:
            left.append(span)
        else:
            ledger.enter(found)
    return tuple(left)


def _ends(later: Sequence[Span], span: Span) -> list[float]:
    """Where spans still to come will want their extension lines: better not to write there."""
    own = [p.x if span.level else p.y for p in (span.a, span.b)]
    ends = {p.x if s.level else p.y for s in later if s.level == span.level for p in (s.a, s.b)}
    return [end for end in ends if min(abs(end - mine) for mine in own) > 0.05]


def _cheapest(span: Span, box: Box, ledger: Ledger, wanted: Sequence[float], narrow: bool) -> Entry | None:
    best: Entry | None = None
    least, inside = float("inf"), True
    for row in (span.row - 1,) if span.row else range(_ROWS):
        if row * _ROW_COST >= least:
            break
        for side in span.sides:
            margin = Margin(side, box)
            base = row * _ROW_COST + _SIDE_COST[side] + 0.04 * _travel(span, margin)
            for way in ways(span, margin, FIRST_ROW + ROW * row, narrow):
                price = base + way.cost + _WANTED_COST * _covered(way, wanted)
                if price >= least or ledger.is_taken(margin, way.out, way.reach):
                    continue
                entry = entry_of(span, way, ledger)
                if ledger.accepts(entry) and (price := price + ledger.crossings(entry)) < least:
                    best, least, inside = entry, price, way.inside
    return best and with_marks(best, span, inside)


def _covered(way: Way, wanted: Sequence[float]) -> int:
    low, high = way.written
    return sum(low - 1.0 < end < high + 1.0 for end in wanted)


def _travel(span: Span, margin: Margin) -> float:
    """How far extension lines run through the view."""
    return sum(max(0.0, -margin.locate(p)[1]) for p in (span.a, span.b))
