"""The build log: boxes to tick for each part and each step, so that work which stops can be taken up again."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

from markupsafe import Markup

from planbook.statement.hands import Hand, hands_of
from planbook.statement.model import Statement
from planbook.statement.stated import Prose, Stated

_MOST_BOXES: Final = 6
"""Above it boxes to tick would not stand in one line: the builder counts."""
_MEASURE: Final = re.compile(r'<span class="q" data-mark="([^"]*)">(.*?)<span class="second">.*?</span></span>')
"""A measure, up to the same in the other system: room is scarce where the builder writes."""
_AT_MOST: Final = re.compile(r"\b(within|at most|up to|no more than)\s+\Z")
_AT_LEAST: Final = re.compile(r"\b(at least|no less than)\s+\Z")
_OR_LESS, _OR_MORE = re.compile(r"(?:<[^>]*>)*\s+or less\b"), re.compile(r"(?:<[^>]*>)*\s+or more\b")
_SPACE: Final = re.compile(r" (?![^<>]*>)")
"""Outside of tags."""


@dataclass(frozen=True, slots=True)
class PartLine:
    """Pieces of one part that are alike: `hand` is "left" or "mirrored", "" where all are alike."""

    key: str
    number: int
    title: str
    hand: str
    sheet: str
    count: int

    @property
    def boxes(self) -> int:
        """How many boxes stand in each column; 0 when there are too many pieces for that."""
        return self.count if self.count <= _MOST_BOXES else 0


@dataclass(frozen=True, slots=True)
class StepLine:
    """A step; `measures` are the values that its hold names, to be measured and written down.

    Each is a pair: "at most", "at least" or "for", as the hold says it, and the measure.
    """

    number: int
    target: str
    title: str
    hold: bool
    measures: tuple[tuple[str, Markup], ...]


@dataclass(frozen=True, slots=True)
class BuildLog:
    """All parts and steps of an edition, in order."""

    parts: tuple[PartLine, ...]
    steps: tuple[StepLine, ...]


def build_log(stated: Stated) -> BuildLog:
    """Every part with its pieces, every step with its hold."""
    prose = {each.key: each for each in stated.prose if each.slot == "step"}
    steps = (
        StepLine(step.number, prose[step.key].target, step.title, bool(step.hold), _measures(prose[step.key]))
        for step in stated.statement.steps
        if step.key in prose
    )
    return BuildLog(tuple(_part_lines(stated.statement)), tuple(steps))


def _part_lines(statement: Statement) -> Iterable[PartLine]:
    for key, part in sorted(statement.parts.items(), key=lambda each: each[1].number):
        for hand in hands_of(part) or (Hand("", part.as_drawn),):
            yield PartLine(key, part.number, part.title, hand.name, part.sheet, hand.count)


def _measures(prose: Prose) -> tuple[tuple[str, Markup], ...]:
    found: dict[str, tuple[str, Markup]] = {}
    for match in _MEASURE.finditer(prose.hold_html):
        measure = Markup(_SPACE.sub("\N{NO-BREAK SPACE}", match[2].strip()))
        found.setdefault(match[1], (_limit(prose.hold_html[: match.start()], prose.hold_html[match.end() :]), measure))
    return tuple(found.values())


def _limit(before: str, after: str) -> str:
    """What the words round a measure make of it."""
    if _AT_MOST.search(before) or _OR_LESS.match(after):
        return "at most"
    return "at least" if _AT_LEAST.search(before) or _OR_MORE.match(after) else "for"
