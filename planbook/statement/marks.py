"""What pages mark as changed since the version before, as values: bars in the margin, numbered marks on sheets."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class SheetMark:
    """A numbered mark of one sheet: `subject` in words, what it `was` ("" for what is new) and `why`, if that is told.

    It points at the dimension with the id `dimension`, or at the note that reads `note`; both are "" where the sheet
    shows no such place. `gone` says that it is printed no longer.
    """

    number: int
    subject: str
    was: str
    why: str = ""
    dimension: str = ""
    note: str = ""
    gone: bool = False

    @property
    def words(self) -> str:
        """What was printed before, with the subject."""
        if not self.was:
            return f"{self.subject}: new"
        return f"{self.subject}: {self.was}{', taken out' if self.gone else ''}"

    @property
    def beside(self) -> str:
        """What was printed before, for where a triangle with the number stands at the place itself."""
        return self.was or "new"


@dataclass(frozen=True, slots=True)
class Removed:
    """Words that the version before had and this one has not: where, and the whole text."""

    where: str
    text: str


@dataclass(frozen=True, slots=True)
class Marks:
    """What is marked. `told` names what stands on pages: "block/<id>", "list/<list>/<row>", "parameter/<name>",
    "dimension/<id>", "figure/<name>", "step.<key>/hold", "calculation.<name>", "sheet/<number>"; of a load, which is
    printed in several lines, "list/loads/<load>/<line>".

    `since` is the version before, "" where nothing is marked; `sheets` are the marks by sheet number.
    """

    since: str = ""
    version: str = ""
    told: frozenset[str] = frozenset()
    sheets: Mapping[str, tuple[SheetMark, ...]] = field(default_factory=dict)
    removed: tuple[Removed, ...] = ()
