"""What a supposed change gives back: what moves with it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from planbook.design import Supposed
from planbook.release.reports.findings import finding_document
from planbook.source.findings import Finding
from planbook.statement import Effect


@dataclass(frozen=True, slots=True)
class PartMoved:
    """The dimensions of a part that moved, by id."""

    number: int
    title: str
    effects: tuple[Effect, ...]


@dataclass(frozen=True, slots=True)
class EditionWeighed:
    """What moved in one edition: demands and clearances, and printed dimensions by part."""

    name: str
    effects: tuple[Effect, ...]
    parts: tuple[PartMoved, ...]


@dataclass(frozen=True, slots=True)
class Weighed:
    """What a supposed change does; nothing was written. An edition that cannot be stated with it is not among these.

    `replaced` are the supposed names whose own formula does not count, by the formula.
    """

    set: str
    supposed: tuple[Supposed, ...]
    replaced: Mapping[str, str]
    editions: tuple[EditionWeighed, ...]
    findings: tuple[Finding, ...]

    def document(self) -> dict[str, Any]:
        """For --json."""
        return {
            "set": self.set,
            "with": [
                {"name": each.name, "formula": each.formula, "replaces": self.replaced.get(each.name, "")}
                for each in self.supposed
            ],
            "editions": [
                {
                    "name": edition.name,
                    "moved": [_effect_document(effect, None) for effect in edition.effects]
                    + [_effect_document(effect, part.number) for part in edition.parts for effect in part.effects],
                }
                for edition in self.editions
            ],
            "findings": [finding_document(finding) for finding in self.findings],
        }


def _effect_document(effect: Effect, part: int | None) -> dict[str, Any]:
    return {
        "kind": effect.kind.value,
        "id": effect.id,
        "part": part,
        "old": effect.old,
        "new": effect.new,
        "turn": effect.turn.value,
    }
