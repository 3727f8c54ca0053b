"""What looking a measure up gives back: where it is printed, what it comes from, what it was before."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any


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
