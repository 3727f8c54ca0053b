"""What changed, told for all editions at once: by part and heading, each line with what every edition says of it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from planbook.impact import Impact, PartImpact, gravest, say_part, say_step
from planbook.release.since import Sinces
from planbook.statement import tell_changes
from planbook.statement.wording import Wording

BUYING, STEPS = "Hardware and stock", "Steps that you may have done"


@dataclass(frozen=True, slots=True)
class PartAcross:
    """What a new version means for a part, by edition."""

    number: int
    key: str
    title: str
    impacts: Mapping[str, PartImpact]

    @property
    def impact(self) -> Impact:
        """The gravest of all editions."""
        return gravest(each.impact for each in self.impacts.values())

    @property
    def as_before(self) -> bool:
        """Whether nothing of it changed in any edition."""
        return self.impact is Impact.UNCHANGED

    @property
    def meanings(self) -> Mapping[str, str]:
        """What to do, by edition; where the class is not that of the others, with its name."""
        alike = len({each.impact for each in self.impacts.values()}) == 1
        return {edition: _meaning(each, alike=alike) for edition, each in self.impacts.items()}


def _meaning(impact: PartImpact, *, alike: bool) -> str:
    return ": ".join(filter(None, ("" if alike else impact.impact.value, say_part(impact))))


@dataclass(frozen=True, slots=True)
class HeadingAcross:
    """What stands under one heading: for each line, the words of every edition that tells it."""

    title: str
    lines: tuple[Mapping[str, Wording], ...]


def parts_across(sinces: Sinces) -> tuple[PartAcross, ...]:
    """Every part of any edition, by number."""
    parts: dict[tuple[int, str], dict[str, PartImpact]] = {}
    for edition, since in sinces.items():
        for each in since.impact.parts:
            parts.setdefault((each.number, each.key), {})[edition] = each
    return tuple(
        PartAcross(number, key, next(iter(said.values())).title, said) for (number, key), said in sorted(parts.items())
    )


def others_across(sinces: Sinces) -> Mapping[str, Mapping[str, tuple[str, ...]]]:
    """What to buy, and which steps to look at again: by title, then by line the editions that say it."""
    found: dict[str, dict[str, list[str]]] = {BUYING: {}, STEPS: {}}
    for edition, since in sinces.items():
        numbers = {each.key: each.number for each in since.impact.parts}
        lines = [(BUYING, item.words) for item in since.impact.items]
        lines += [(STEPS, say_step(step, numbers)) for step in since.impact.steps]
        for title, line in lines:
            found[title].setdefault(line, []).append(edition)
    return {title: {line: tuple(editions) for line, editions in lines.items()} for title, lines in found.items()}


def headings_across(sinces: Sinces) -> tuple[HeadingAcross, ...]:
    """Headings and lines in the order of the first edition that has them."""
    headings: dict[str, dict[str, dict[str, Wording]]] = {}
    for edition, since in sinces.items():
        for heading in tell_changes(since.comparison):
            lines = headings.setdefault(heading.title, {})
            for line in heading.lines:
                lines.setdefault(line.id, {})[edition] = line.what
    return tuple(HeadingAcross(title, tuple(lines.values())) for title, lines in headings.items())
