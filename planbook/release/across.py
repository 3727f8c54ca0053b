"""What changed, told for all editions at once: by part and heading, each line with what every edition says of it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from planbook.statement import Comparison, Verdict, tell_changes
from planbook.statement.wording import Wording

MEANINGS: Mapping[Verdict, str] = {
    Verdict.UNCHANGED: "as before",
    Verdict.REPRINT: "print its sheet anew; the part itself is as before",
    Verdict.CHANGED: "changed; check what you have cut against the new sheet",
    Verdict.NEW: "new",
    Verdict.WITHDRAWN: "no longer made",
}


@dataclass(frozen=True, slots=True)
class PartAcross:
    """What a new version means for a part, by edition."""

    number: int
    title: str
    meanings: Mapping[str, str]

    @property
    def as_before(self) -> bool:
        """Whether nothing of it changed in any edition."""
        return set(self.meanings.values()) == {MEANINGS[Verdict.UNCHANGED]}


@dataclass(frozen=True, slots=True)
class HeadingAcross:
    """What stands under one heading: for each line, the words of every edition that tells it."""

    title: str
    lines: tuple[Mapping[str, Wording], ...]


def parts_across(comparisons: Mapping[str, Comparison]) -> tuple[PartAcross, ...]:
    """Every part of any edition, by number."""
    meanings: dict[tuple[int, str], dict[str, str]] = {}
    for edition, each in comparisons.items():
        for verdict in each.parts:
            part = each.new.parts.get(verdict.key) or each.old.parts.get(verdict.key)
            title = part.title if part else verdict.key.replace("_", " ")
            meanings.setdefault((verdict.number, title), {})[edition] = MEANINGS[verdict.verdict]
    return tuple(PartAcross(number, title, said) for (number, title), said in sorted(meanings.items()))


def headings_across(comparisons: Mapping[str, Comparison]) -> tuple[HeadingAcross, ...]:
    """Headings and lines in the order of the first edition that has them."""
    headings: dict[str, dict[str, dict[str, Wording]]] = {}
    for edition, each in comparisons.items():
        for heading in tell_changes(each):
            lines = headings.setdefault(heading.title, {})
            for line in heading.lines:
                lines.setdefault(line.id, {})[edition] = line.what
    return tuple(HeadingAcross(title, tuple(lines.values())) for title, lines in headings.items())
