"""What a draft and a release give back: the files that were written."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from planbook.release.reports.findings import finding_document
from planbook.source.findings import Finding

NOTICES = "notices"
"""The folder of an edition's notices to buyers."""


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
