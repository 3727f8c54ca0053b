"""What stands in the margins round one view, and the one rule by which anything more may join it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from typing import Final

from planbook.drawing.ink import CLEAR, Box, Segment
from planbook.drawing.lines import GAP, lettering_box, stroke
from planbook.drawing.recording import Primitive, Pt
from planbook.drawing.side import Margin, Side

_WALLS: Final = 8
"""So many edges one after the other are followed; more in one line no part has."""

Letters = tuple[Primitive, ...]
"""One line of lettering with its sign."""


@dataclass(frozen=True, slots=True)
class Extension:
    """A line from a feature out to past a dimension line, at one place along a margin."""

    margin: Margin
    along: float
    start: float
    end: float

    @property
    def segment(self) -> Segment:
        """As a stroke."""
        return Segment(self.margin.place(self.along, self.start), self.margin.place(self.along, self.end))


@dataclass(frozen=True, slots=True)
class Entry:
    """Something to be drawn: a dimension line's extent in its row, extension lines, lettering, other marks."""

    margin: Margin
    out: float
    reach: tuple[float, float]
    extensions: tuple[Extension, ...]
    letters: tuple[Letters, ...]
    marks: tuple[Primitive, ...]
    strokes: tuple[Segment, ...]

    @property
    def boxes(self) -> tuple[Box, ...]:
        """Boxes round its lettering."""
        return tuple(lettering_box(line) for line in self.letters)


@dataclass
class Ledger:
    """The margins of one view. `walls` are straight edges of the view that extension lines must not draw again."""

    walls: Sequence[Segment] = ()
    boxes: list[Box] = field(default_factory=list)
    strokes: list[Segment] = field(default_factory=list)
    lines: list[Segment] = field(default_factory=list)
    rows: dict[tuple[Side, float], list[tuple[float, float]]] = field(default_factory=dict)
    extensions: dict[tuple[Side, float], Extension] = field(default_factory=dict)
    primitives: list[Primitive] = field(default_factory=list)
    feet: dict[tuple[Side, Pt], tuple[float, float]] = field(default_factory=dict)
    """Where extension lines begin, once worked out."""

    def copy(self, kept: Sequence[Segment] = ()) -> Ledger:
        """The same margins, to try something on, with lines that are kept for others."""
        return Ledger(
            self.walls,
            list(self.boxes),
            [*self.strokes, *kept],
            list(self.lines),
            {key: list(taken) for key, taken in self.rows.items()},
            dict(self.extensions),
            list(self.primitives),
            self.feet,
        )

    def is_taken(self, margin: Margin, out: float, reach: tuple[float, float]) -> bool:
        """Whether a dimension line would run into another in its row."""
        low, high = reach
        return any(low < b - 0.05 and a < high - 0.05 for a, b in self.rows.get((margin.side, round(out, 3)), ()))

    def accepts(self, entry: Entry) -> bool:
        """Whether no lettering would be touched and no dimension line would run into another."""
        if self.is_taken(entry.margin, entry.out, entry.reach):
            return False
        strokes = [*entry.strokes, *(extension.segment for extension in entry.extensions)]
        boxes = [box.grown(CLEAR) for box in entry.boxes]
        return (
            not any(box.meets(other) for box in boxes for other in self.boxes)
            and not _touch(boxes, strokes)
            and not _touch([box.grown(CLEAR) for box in self.boxes], strokes)
            and not _touch(boxes, self.strokes)
        )

    def crossings(self, entry: Entry) -> int:
        """How many dimension lines its extension lines would cross, and how many of theirs its own line."""
        own = [extension.segment for extension in entry.extensions]
        others = [extension.segment for extension in self.extensions.values()]
        return sum(a.crosses(b) for a in [*own, *entry.strokes] for b in self.lines) + sum(
            a.crosses(b) for a in entry.strokes for b in others
        )

    def enter(self, entry: Entry) -> None:
        """Draw it."""
        side = entry.margin.side
        self.rows.setdefault((side, round(entry.out, 3)), []).append(entry.reach)
        for extension in entry.extensions:
            self._extend(extension)
        self.boxes += entry.boxes
        self.strokes += [*entry.strokes, *(extension.segment for extension in entry.extensions)]
        self.lines += entry.strokes
        self.primitives += [*entry.marks, *(part for line in entry.letters for part in line)]

    def _extend(self, new: Extension) -> None:
        """Extension lines at one place are one line."""
        key = new.margin.side, round(new.along, 2)
        old = self.extensions.get(key)
        if old:
            new = Extension(new.margin, old.along, min(old.start, new.start), max(old.end, new.end))
        self.extensions[key] = new

    def extension(self, margin: Margin, p: Pt, end: float) -> Extension:
        """The line from a feature's place outwards; it starts where the edges that it would cover have ended."""
        key = margin.side, p
        if key not in self.feet:
            self.feet[key] = self._foot(margin, p)
        along, start = self.feet[key]
        return Extension(margin, along, min(start + GAP, end - GAP), end)

    def _foot(self, margin: Margin, p: Pt) -> tuple[float, float]:
        along, start = margin.locate(p)
        for _ in range(_WALLS):
            reach = max(self._wall_ends(margin, along, start), default=start)
            if reach <= start + 1e-6:
                break
            start = reach
        return along, start

    def _wall_ends(self, margin: Margin, along: float, out: float) -> Iterable[float]:
        for wall in self.walls:
            (a0, o0), (a1, o1) = margin.locate(wall.a), margin.locate(wall.b)
            if abs(a0 - along) < 0.1 and abs(a1 - along) < 0.1 and min(o0, o1) <= out + 0.1:
                yield max(o0, o1)

    def drawn(self) -> tuple[Primitive, ...]:
        """Everything in the margins as primitives: extension lines first, so that lettering lies on top."""
        lines = [stroke(*extension.segment) for _, extension in sorted(self.extensions.items())]
        return (*lines, *self.primitives)


def _touch(boxes: Sequence[Box], strokes: Sequence[Segment]) -> bool:
    return any(segment.meets(box) for box in boxes for segment in strokes)
