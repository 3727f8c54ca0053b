"""What a comparison gives back."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from planbook.impact import EditionImpact
from planbook.release.across import HeadingAcross, PartAcross
from planbook.release.advising import Advised
from planbook.release.impact_document import impact_document
from planbook.release.numbering import Due


@dataclass(frozen=True, slots=True)
class ChangeLine:
    """One difference by its stable id; `old` is empty for what was added, `new` for what was taken away."""

    kind: str
    id: str
    old: str
    new: str


@dataclass(frozen=True, slots=True)
class EditionCompared:
    """What changed in one edition, and what it means; None for one that only one side has."""

    name: str
    impact: EditionImpact | None
    changes: tuple[ChangeLine, ...]


@dataclass(frozen=True, slots=True)
class Compared:
    """A comparison. `new` is "draft" for the content as it stands, of which `due` says the next number.

    `parts`, `headings` and `others` tell people what `editions` tells programs.
    """

    set: str
    old: str
    new: str
    editions: tuple[EditionCompared, ...]
    title: str
    parts: tuple[PartAcross, ...]
    headings: tuple[HeadingAcross, ...]
    due: Due | None = None
    advised: Advised | None = None
    """The advisories on the old version."""
    others: Mapping[str, Mapping[str, tuple[str, ...]]] = field(default_factory=dict)
    """What to buy and which steps to look at again: by title, then by line the editions that say it."""

    def document(self) -> dict[str, Any]:
        """For --json."""
        return {
            "set": self.set,
            "old": self.old,
            "new": self.new,
            "editions": [
                {
                    "name": edition.name,
                    **impact_document(edition.impact),
                    "changes": [
                        {"kind": line.kind, "id": line.id, "old": line.old, "new": line.new} for line in edition.changes
                    ],
                }
                for edition in self.editions
            ],
            "advisories": self.advised.document()["advisories"] if self.advised else [],
        }
