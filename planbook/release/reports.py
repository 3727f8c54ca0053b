"""What the commands give back, as plain values; `document` turns one into the JSON that --json prints."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from planbook.design import Supposed
from planbook.impact import EditionImpact
from planbook.release.across import HeadingAcross, PartAcross
from planbook.release.advising import Advised
from planbook.release.impact_document import impact_document
from planbook.release.numbering import Due
from planbook.source.findings import Finding, Related
from planbook.statement import Effect

NOTICES = "notices"
"""The folder of an edition's notices to buyers."""


@dataclass(frozen=True, slots=True)
class Checked:
    """A check: nothing was written."""

    set: str
    findings: tuple[Finding, ...]

    def document(self) -> dict[str, Any]:
        """For --json."""
        return {"set": self.set, "findings": [finding_document(finding) for finding in self.findings]}


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


@dataclass(frozen=True, slots=True)
class EditionFile:
    """One edition's PDF: where it was written, its pages, how many of them are sheets, and how long it took.

    `files` are the paths of its files for the shop.
    """

    name: str
    pdf: str
    pages: int
    sheets: int
    seconds: float
    files: tuple[str, ...] = ()

    @property
    def notices(self) -> tuple[str, ...]:
        """Those of the files that are notices to buyers, as text."""
        return tuple(file for file in self.files if f"/{NOTICES}/" in file and file.endswith(".txt"))

    @property
    def updates(self) -> tuple[str, ...]:
        """Those of the files that are for who has an earlier version, to print: supplement and catch-ups."""
        beside = f"{self.pdf.removesuffix('.pdf')}-"
        return tuple(file for file in self.files if file.startswith(beside) and file.endswith(".pdf"))


@dataclass(frozen=True, slots=True)
class Answered:
    """A question that a version is the first to answer, and the page of the answer by edition."""

    id: str
    question: str
    pages: Mapping[str, int]


@dataclass(frozen=True, slots=True)
class Issued:
    """A draft or a release. `version` is "draft" for the first; `editions` is empty when nothing was written."""

    set: str
    version: str
    editions: tuple[EditionFile, ...]
    findings: tuple[Finding, ...]
    answered: tuple[Answered, ...] = ()
    """By a release; a draft answers nobody yet."""
    dropped: tuple[str, ...] = ()
    """Paths of a release's notices to builders of editions that it has no longer."""

    def document(self) -> dict[str, Any]:
        """For --json, and a draft's report.json."""
        return {
            "set": self.set,
            "version": self.version,
            "editions": [
                {
                    "name": edition.name,
                    "pdf": edition.pdf,
                    "pages": edition.pages,
                    "sheets": edition.sheets,
                    "seconds": round(edition.seconds, 3),
                    "files": list(edition.files),
                }
                for edition in self.editions
            ],
            "answered": [
                {"id": each.id, "question": each.question, "pages": dict(each.pages)} for each in self.answered
            ],
            "dropped": list(self.dropped),
            "findings": [finding_document(finding) for finding in self.findings],
        }


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


@dataclass(frozen=True, slots=True)
class Found:
    """One place where a measure is printed. `page` and `sheet` are None where it has none; `part` is its number."""

    id: str
    kind: str
    """"dimension" or "parameter"."""
    part: int | None
    sheet: str | None
    page: int | None
    text: str
    edition: str
    version: str
    advisories: tuple[int, ...] = ()
    """Numbers of those on this version that speak of its part."""

    def document(self) -> dict[str, Any]:
        """For --json."""
        return {
            "id": self.id,
            "kind": self.kind,
            "part": self.part,
            "sheet": self.sheet,
            "page": self.page,
            "text": self.text,
            "edition": self.edition,
            "version": self.version,
            "advisories": list(self.advisories),
        }


@dataclass(frozen=True, slots=True)
class Source:
    """A quantity in the tree of those that a value comes from."""

    name: str
    text: str
    formula: str
    place: str
    """`file:line:column` of the formula."""
    packaged: bool
    """Whether that file comes with planbook, because the workspace has none of that name."""
    inputs: tuple[Source, ...]

    def document(self) -> dict[str, Any]:
        """For --json."""
        return {
            "id": self.name,
            "text": self.text,
            "formula": self.formula,
            "place": self.place,
            "packaged": self.packaged,
            "inputs": [source.document() for source in self.inputs],
        }


@dataclass(frozen=True, slots=True)
class Traced:
    """A quantity in one edition: what it comes from, what hangs on it, where it is printed, what it was before."""

    source: Source
    kind: str
    part: int | None
    edition: str
    dependents: tuple[Found, ...]
    """Every parameter and dimension that hangs on it, directly or not, where it is first printed."""
    printed: tuple[Found, ...]
    history: tuple[tuple[str, str], ...]
    """(version, text) of every release, oldest first; the text is "" where the release did not have it."""

    def document(self) -> dict[str, Any]:
        """For --json: the first place where it is printed stands beside the id, as in `find`."""
        first = self.printed[0] if self.printed else None
        return {
            **self.source.document(),
            "kind": self.kind,
            "part": self.part,
            "sheet": first.sheet if first else None,
            "page": first.page if first else None,
            "edition": self.edition,
            "dependents": [found.document() for found in self.dependents],
            "printed": [{"sheet": found.sheet, "page": found.page, "text": found.text} for found in self.printed],
            "history": [{"version": version, "text": text} for version, text in self.history],
        }


def finding_document(finding: Finding) -> dict[str, Any]:
    """A finding for --json; without a place, file is empty and line and column are 0."""
    place = finding.place
    return {
        "code": finding.code,
        "severity": finding.severity.value,
        "edition": finding.edition,
        "file": place.file if place else "",
        "line": place.line if place else 0,
        "column": place.column if place else 0,
        "message": finding.message,
        "remedy": finding.remedy,
        "related": [_related_document(related) for related in finding.related],
    }


def _related_document(related: Related) -> dict[str, Any]:
    place = related.place
    return {"file": place.file, "line": place.line, "column": place.column, "note": related.note}
