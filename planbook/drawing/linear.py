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


def place_spans(spans: Sequence[Span], box: Box, ledger: Ledger) -> tuple[Span, ...]:
    """Place spans round a view's box, smallest first. Returns those for which no free place was found."""
    left: list[Span] = []
    for span in sorted(spans, key=lambda s: (s.overall, round(s.length, 3), s.key)):
        found = _cheapest(span, box, ledger)
        if found is None:
            left.append(span)
        else:
            ledger.enter(found)
    return tuple(left)


def _cheapest(span: Span, box: Box, ledger: Ledger) -> Entry | None:
    best: Entry | None = None
    least = float("inf")
    for row in range(_ROWS):
        if row * _ROW_COST >= least:
            break
        for side in span.sides:
            margin = Margin(side, box)
            base = row * _ROW_COST + _SIDE_COST[side] + 0.04 * _travel(span, margin)
            for entry, extra in _ways(span, margin, FIRST_ROW + ROW * row, ledger):
                if base + extra < least and ledger.accepts(entry):
                    cost = base + extra + ledger.crossings(entry)
                    if cost < least:
                        best, least = entry, cost
    return best


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
