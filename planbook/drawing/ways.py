"""The ways to write one linear dimension in one row: lettering between the arrows, shifted, outside, or on a shelf."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final

from planbook.drawing.ink import Segment
from planbook.drawing.ledger import Entry, Ledger
from planbook.drawing.lines import ARROW, LETTER, OVERSHOOT, arrowhead, belonging, letter, line_width, stroke
from planbook.drawing.recording import Anchor, Primitive, Pt
from planbook.drawing.side import LEVEL, UPRIGHT, Margin, Side
from planbook.drawing.wording import Line

FIRST_ROW: Final = 8.0
ROW: Final = 7.0
"""Between dimension lines in millimetres (common practice, no source)."""
LIFT: Final = 1.6
"""From a dimension line to the baseline over it: a descender under the baseline still stands clear of the line."""
_TAIL: Final = ARROW + 2.4
"""How far the line of an outside arrow runs on."""
_SHELF_GAP: Final = 1.2
_WIDE_COST: Final = 6.0
_FURTHER: Final = (0.0, 6.0, 12.0, 18.0, 24.0)
"""How much further out lettering beside its arrows may stand, past extension lines that would cross it."""
_FURTHER_COST: Final = 0.1


@dataclass(frozen=True, slots=True)
class Span:
    """A linear dimension as a view shows it: two places on paper (datum first) and what is written.

    `level`: measured from left to right. `overall`: of the blank, to stand outside all others. `side` and `row` (1
    nearest to the view) are where its author has it stand; `style` is "running" or "parallel" if its author says so.
    """

    a: Pt
    b: Pt
    level: bool
    lines: tuple[Line, ...]
    key: str
    overall: bool = False
    side: Side | None = None
    row: int = 0
    style: str = ""

    @property
    def is_pinned(self) -> bool:
        """Whether its author says where it stands."""
        return self.side is not None or self.row > 0

    @property
    def length(self) -> float:
        """On paper."""
        return abs(self.b.x - self.a.x) if self.level else abs(self.b.y - self.a.y)

    @property
    def sides(self) -> tuple[Side, ...]:
        """Where its dimension line can stand."""
        if self.side is not None:
            return (self.side,)
        return LEVEL if self.level else UPRIGHT


@dataclass(frozen=True, slots=True)
class Way:
    """Where the dimension line runs (`reach`, along its margin) and where the lettering stands.

    `written` is the room along the margin that the lettering takes. With `shelf` the lettering stands level on a shelf
    at that end of the line (True: the far end), which only an upright dimension line has.
    """

    margin: Margin
    out: float
    reach: tuple[float, float]
    written: tuple[float, float]
    inside: bool
    cost: float
    shelf: bool | None = None


def ways(span: Span, margin: Margin, out: float, narrow: bool) -> Iterator[Way]:
    """All ways in a row, with what they cost beside the row itself; `narrow` makes the wide ones dear."""
    low, high = sorted(margin.locate(p)[0] for p in (span.a, span.b))
    width = max(line_width(line) for line in span.lines)
    inside = high - low >= 2 * ARROW + 1.5
    tail = 0.0 if inside else _TAIL
    if width + 2.4 <= high - low:
        slack = (high - low - width - 2.4) / 2
        for shift, cost in ((0.0, 0.0), (-slack / 2, 0.8), (slack / 2, 0.8), (-slack, 1.2), (slack, 1.2)):
            start = (low + high - width) / 2 + shift
            yield Way(margin, out, (low - tail, high + tail), (start, start + width), inside, cost)
        return
    if not margin.is_level:
        dear = _WIDE_COST if narrow else 0.0
        room = LIFT + LETTER + 0.4
        yield Way(
            margin, out, (low - tail, high + _TAIL), (high + _TAIL - room, high + _TAIL), inside, 1.2 + dear, True
        )
        yield Way(margin, out, (low - _TAIL, high + tail), (low - _TAIL - room, low - _TAIL), inside, 1.3 + dear, False)
    for further in _FURTHER:
        start = ARROW + 1.0 + further
        after, before = high + start + width, low - start - width
        yield Way(margin, out, (low - tail, after), (high + start, after), inside, 2.0 + _FURTHER_COST * further)
        yield Way(margin, out, (before, high + tail), (before, low - start), inside, 2.2 + _FURTHER_COST * further)


def entry_of(span: Span, way: Way, ledger: Ledger) -> Entry:
    """What a way takes up, still without arrowheads: first of all a dimension's own line."""
    margin, out = way.margin, way.out
    strokes = [Segment(margin.place(way.reach[0], out), margin.place(way.reach[1], out))]
    if way.shelf is None:
        letters = tuple(_along(span.lines, margin, sum(way.written) / 2, out))
    else:
        end = way.reach[1] if way.shelf else way.reach[0]
        width = max(line_width(line) for line in span.lines)
        strokes.append(Segment(margin.place(end, out), margin.place(end, out + _SHELF_GAP + width)))
        letters = tuple(_on_shelf(span.lines, margin, end, out + _SHELF_GAP))
    extensions = tuple(ledger.extension(margin, p, out + OVERSHOOT) for p in (span.a, span.b))
    return Entry(margin, out, way.reach, extensions, letters, (), tuple(strokes))


def with_marks(entry: Entry, span: Span, inside: bool) -> Entry:
    """The same with all that is drawn; of many ways that are tried one comes to this."""
    line, *shelf = (stroke(*segment) for segment in entry.strokes)
    low, high = sorted(entry.margin.locate(p)[0] for p in (span.a, span.b))
    marks = (line, *_arrows(entry.margin, low, high, entry.out, inside), *shelf)
    letters = tuple(belonging(line, span.key) for line in entry.letters)
    return replace(entry, letters=letters, marks=belonging(marks, span.key))


def _arrows(margin: Margin, low: float, high: float, out: float, inside: bool) -> tuple[Primitive, ...]:
    step = ARROW if inside else -ARROW
    return (
        arrowhead(margin.place(low, out), margin.place(low + step, out)),
        arrowhead(margin.place(high, out), margin.place(high - step, out)),
    )


def _along(lines: Sequence[Line], margin: Margin, middle: float, out: float) -> Iterator[tuple[Primitive, ...]]:
    """The first line over the dimension line, as read; the second under it."""
    angle = 0.0 if margin.is_level else 90.0
    for line, lift in zip(lines, (LIFT, -LIFT - LETTER), strict=False):
        yield letter(line, margin.place(middle, out + margin.over * lift), Anchor.MIDDLE, angle)


def _on_shelf(lines: Sequence[Line], margin: Margin, end: float, out: float) -> Iterator[tuple[Primitive, ...]]:
    """The first line over the shelf, the second under it."""
    anchor = Anchor.END if margin.side is Side.LEFT else Anchor.START
    for line, drop in zip(lines, (-LIFT, LIFT + LETTER), strict=False):
        at = margin.place(end, out)
        yield letter(line, Pt(at.x, at.y + drop), anchor)
