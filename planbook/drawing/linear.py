"""Linear dimensions in rows outside a view: smallest nearest, extension lines clear of lettering (ISO 129-1).

Every way to place one is laid against what already stands in the view's margins and taken only if no lettering is
touched, so that what comes out is free of overlaps by construction.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from planbook.drawing.ink import Box, Segment
from planbook.drawing.ledger import Entry, Ledger
from planbook.drawing.lines import ARROW, LETTER, OVERSHOOT, arrowhead, letter, line_width, stroke
from planbook.drawing.recording import Anchor, Primitive, Pt
from planbook.drawing.side import LEVEL, UPRIGHT, Margin, Side
from planbook.drawing.wording import Line

FIRST_ROW: Final = 9.0
ROW: Final = 7.5
"""Between dimension lines in millimetres (common practice, no source: about 10 for the first, 7 between)."""
LIFT: Final = 1.4
"""From a dimension line to the baseline over it."""
_ROWS: Final = 16
_TAIL: Final = ARROW + 2.4
"""How far the line of an outside arrow runs on."""
_ROW_COST: Final = 3.0
_WANTED_COST: Final = 1.3
_TRIES: Final = 8
_SIDE_COST: Final = {Side.BELOW: 0.0, Side.LEFT: 0.0, Side.ABOVE: 0.6, Side.RIGHT: 0.6}


@dataclass(frozen=True, slots=True)
class Span:
    """A linear dimension as a view shows it: two places on paper (datum first) and what is written.

    `level`: measured from left to right. `overall`: of the blank, to stand outside all others.
    """

    a: Pt
    b: Pt
    level: bool
    lines: tuple[Line, ...]
    key: str
    overall: bool = False

    @property
    def length(self) -> float:
        """On paper."""
        return abs(self.b.x - self.a.x) if self.level else abs(self.b.y - self.a.y)

    @property
    def sides(self) -> tuple[Side, Side]:
        """Where its dimension line can stand."""
        return LEVEL if self.level else UPRIGHT


def place_spans(spans: Sequence[Span], box: Box, ledger: Ledger) -> tuple[Ledger, tuple[Span, ...]]:
    """Place spans round a view's box, smallest first: the ledger with them, and those that found no free place.

    A span that found none goes to the front of the queue and all are placed anew; the best try counts.
    """
    queue = sorted(spans, key=lambda s: (s.overall, round(s.length, 3), s.key))
    best: tuple[Ledger, tuple[Span, ...]] | None = None
    for _ in range(_TRIES):
        trial = ledger.copy()
        left = _place_queue(queue, box, trial)
        if best is None or len(left) < len(best[1]):
            best = trial, left
        if not left:
            break
        queue = [*left, *(span for span in queue if span not in left)]
    assert best is not None
    return best


def _place_queue(queue: Sequence[Span], box: Box, ledger: Ledger) -> tuple[Span, ...]:
    left: list[Span] = []
    for place, span in enumerate(queue):
        found = _cheapest(span, box, ledger, _ends(queue[place + 1 :], span))
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


def _cheapest(span: Span, box: Box, ledger: Ledger, wanted: Sequence[float]) -> Entry | None:
    best: Entry | None = None
    least = float("inf")
    for row in range(_ROWS):
        if row * _ROW_COST >= least:
            break
        for side in span.sides:
            margin = Margin(side, box)
            base = row * _ROW_COST + _SIDE_COST[side] + 0.04 * _travel(span, margin)
            for entry, extra in _ways(span, margin, FIRST_ROW + ROW * row, ledger):
                price = base + extra + _WANTED_COST * _covered(entry, wanted)
                if price < least and ledger.accepts(entry):
                    cost = price + ledger.crossings(entry)
                    if cost < least:
                        best, least = entry, cost
    return best


def _covered(entry: Entry, wanted: Sequence[float]) -> int:
    level = entry.margin.is_level
    spans = [(box.left, box.right) if level else (box.top, box.bottom) for box in entry.boxes]
    return sum(low - 1.0 < end < high + 1.0 for low, high in spans for end in wanted)


def _travel(span: Span, margin: Margin) -> float:
    """How far extension lines run through the view."""
    return sum(max(0.0, -margin.locate(p)[1]) for p in (span.a, span.b))


def _ways(span: Span, margin: Margin, out: float, ledger: Ledger) -> Iterator[tuple[Entry, float]]:
    """Lettering between the arrows if it fits, shifted or outside; each with its cost."""
    low, high = sorted(margin.locate(p)[0] for p in (span.a, span.b))
    width = max(line_width(line) for line in span.lines)
    inside = high - low >= 2 * ARROW + 1.5
    tail = 0.0 if inside else _TAIL
    if width + 2.4 <= high - low:
        slack = (high - low - width - 2.4) / 2
        for shift, cost in ((0.0, 0.0), (-slack / 2, 0.8), (slack / 2, 0.8), (-slack, 1.2), (slack, 1.2)):
            yield _entry(span, margin, out, (low - tail, high + tail), (low + high) / 2 + shift, inside, ledger), cost
    start = ARROW + 1.0
    yield _entry(span, margin, out, (low - tail, high + start + width), high + start + width / 2, inside, ledger), 2.0
    yield _entry(span, margin, out, (low - start - width, high + tail), low - start - width / 2, inside, ledger), 2.2


def _entry(
    span: Span, margin: Margin, out: float, reach: tuple[float, float], middle: float, inside: bool, ledger: Ledger
) -> Entry:
    low, high = sorted(margin.locate(p)[0] for p in (span.a, span.b))
    ends = margin.place(reach[0], out), margin.place(reach[1], out)
    return Entry(
        margin,
        out,
        reach,
        tuple(ledger.extension(margin, p, out + OVERSHOOT) for p in (span.a, span.b)),
        tuple(_letters(span.lines, margin, middle, out)),
        (stroke(*ends), *_arrows(margin, low, high, out, inside)),
        (Segment(*ends),),
    )


def _arrows(margin: Margin, low: float, high: float, out: float, inside: bool) -> tuple[Primitive, ...]:
    step = ARROW if inside else -ARROW
    return (
        arrowhead(margin.place(low, out), margin.place(low + step, out)),
        arrowhead(margin.place(high, out), margin.place(high - step, out)),
    )


def _letters(lines: Sequence[Line], margin: Margin, middle: float, out: float) -> Iterator[tuple[Primitive, ...]]:
    """The first line over the dimension line, as read; the second under it."""
    angle = 0.0 if margin.is_level else 90.0
    lifts = (LIFT, -LIFT - LETTER)
    for line, lift in zip(lines, lifts, strict=False):
        yield letter(line, margin.place(middle, out + margin.over * lift), Anchor.MIDDLE, angle)
