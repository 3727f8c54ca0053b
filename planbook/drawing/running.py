"""Running dimensions: many measures from one datum along one line, lettering at the ends of the extension lines.

ISO 129-1, superimposed running dimensioning: an origin circle at the datum, an arrowhead at each place. Where they lie
too near for lettering the extension lines bend apart first.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Sequence
from typing import Final

from planbook.drawing.ink import Box, Segment
from planbook.drawing.ledger import Entry, Ledger
from planbook.drawing.lines import ARROW, LETTER, arrowhead, belonging, letter, origin, stroke
from planbook.drawing.recording import Anchor, Primitive, Pt
from planbook.drawing.side import Margin
from planbook.drawing.ways import FIRST_ROW, ROW, Span
from planbook.drawing.wording import Line

LEAST: Final = 4
"""From so many measures of one datum they run along one line; fewer stand in parallel rows."""
_LEAST_ASKED: Final = {"running": 2, "parallel": math.inf}
"""The same where content says how they are to stand."""
_PITCH: Final = 4.4
"""Least distance between lines of lettering."""
_ROWS: Final = 8


def running_groups(spans: Sequence[Span], least: int = LEAST) -> tuple[tuple[Span, ...], ...]:
    """Groups of spans, overall and pinned ones left out, that share a datum and lead the same way from it."""
    groups: dict[tuple[bool, float, bool, str], list[Span]] = defaultdict(list)
    for span in spans:
        start, end = (span.a.x, span.b.x) if span.level else (span.a.y, span.b.y)
        if not span.overall and not span.is_pinned and span.length > 0.01:
            groups[span.level, round(start, 2), end > start, span.style].append(span)
    asked = ((group, _LEAST_ASKED.get(style, least)) for (*_, style), group in sorted(groups.items()))
    return tuple(tuple(group) for group, enough in asked if len(group) >= enough)


def place_running(group: Sequence[Span], box: Box, ledger: Ledger) -> bool:
    """Place a group on the side where it costs least; False where no side has room."""
    best: Entry | None = None
    least = float("inf")
    for row in range(_ROWS):
        for place, side in enumerate(group[0].sides):
            margin = Margin(side, box)
            travel = sum(max(0.0, -margin.locate(span.b)[1]) for span in group)
            cost = row * 4.0 + 0.6 * place + 0.04 * travel
            if cost < least:
                entry = _entry(group, margin, FIRST_ROW + ROW * row, ledger)
                if ledger.accepts(entry) and cost + ledger.crossings(entry) < least:
                    best, least = entry, cost + ledger.crossings(entry)
    if best is None:
        return False
    ledger.enter(best)
    return True


def _entry(group: Sequence[Span], margin: Margin, out: float, ledger: Ledger) -> Entry:
    datum = margin.locate(group[0].a)[0]
    spans = sorted(group, key=lambda span: margin.locate(span.b)[0])
    places = [margin.locate(span.b)[0] for span in spans]
    spread = spread_apart(places, _PITCH)
    bend = max(2.0, 0.6 * max(abs(a - b) for a, b in zip(places, spread, strict=True)))
    far = max(places, key=lambda place: abs(place - datum))
    marks: list[Primitive] = [origin(margin.place(datum, out))]
    strokes: list[Segment] = []
    letters: list[tuple[Primitive, ...]] = []
    line = margin.place(datum, out), margin.place(far, out)
    strokes.append(Segment(*line))
    marks.insert(0, stroke(*line))
    for span, place, moved in zip(spans, places, spread, strict=True):
        step = -ARROW if place > datum else ARROW
        elbow = [margin.place(p, out + o) for p, o in ((place, 1.0), (moved, 1.0 + bend), (moved, 2.5 + bend))]
        arrow = arrowhead(margin.place(place, out), margin.place(place + step, out))
        marks += belonging((arrow, stroke(*elbow)), span.key)
        strokes += [Segment(elbow[0], elbow[1]), Segment(elbow[1], elbow[2])]
        letters.append(belonging(_letters(span.lines, margin, moved, out + 3.3 + bend), span.key))
    extensions = (
        ledger.extension(margin, _foot(group, margin), out + 1.2),
        *(ledger.extension(margin, span.b, out + 1.0) for span in spans),
    )
    reach = (min(datum, *places), max(datum, *places))
    return Entry(margin, out, reach, extensions, tuple(letters), tuple(marks), tuple(strokes))


def _foot(group: Sequence[Span], margin: Margin) -> Pt:
    """The datum's place that lies nearest this margin."""
    return max((span.a for span in group), key=lambda p: margin.locate(p)[1])


def _letters(lines: Sequence[Line], margin: Margin, along: float, out: float) -> tuple[Primitive, ...]:
    line = Line(", ".join(part.text for part in lines), lines[0].mark, lines[0].signs, lines[0].before)
    at = margin.place(along, out)
    if margin.is_level:
        anchor = Anchor.START if margin.over > 0 else Anchor.END
        return letter(line, Pt(at.x + LETTER / 2, at.y), anchor, 90.0)
    anchor = Anchor.END if margin.over > 0 else Anchor.START
    return letter(line, Pt(at.x, at.y + LETTER / 2), anchor)


def spread_apart(places: Sequence[float], least: float) -> list[float]:
    """Sorted places moved as little as may be so that neighbours stand at least so far apart.

    Pooling of neighbours: places less k * least must not fall, and the nearest such row is the mean of each pool.
    """
    pools: list[list[float]] = []
    for k, place in enumerate(places):
        pools.append([place - k * least])
        while len(pools) > 1 and _mean(pools[-2]) > _mean(pools[-1]):
            last = pools.pop()
            pools[-1] += last
    flat = [_mean(pool) for pool in pools for _ in pool]
    return [value + k * least for k, value in enumerate(flat)]


def _mean(values: Sequence[float]) -> float:
    return sum(values) / len(values)
