"""The names that prose may use, and what each stands for in one edition."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from enum import StrEnum
from functools import cached_property

from planbook.design import nearest
from planbook.measure.dimensionality import Dimensionality
from planbook.measure.printed import Printed

TABLES = {
    "dimensions": "table of dimensions",
    "parts": "parts list",
    "materials": "materials list",
    "hardware": "hardware list",
    "tools": "list of tools",
    "free": "list of what you may change",
    "critical": "list of critical measures",
    "pinch_points": "list of pinch points",
    "loads": "load statement",
}
"""The tables that a page can hold, and what a reference calls them."""
PINCH_PLACES = "pinch_places"
BRIEF = (PINCH_PLACES,)
"""Tables that stand only where a page asks for them; another one says the same at length."""


class Sort(StrEnum):
    """How a name is printed."""

    QUANTITY = "quantity"
    WORDS = "words"
    LINK = "link"
    """A reference to a part, sheet, page or step."""
    SEE = "see"
    """A reference to a figure, without words until figures are numbered."""
    FIGURE = "figure"
    TABLE = "table"
    CAUTION = "caution"


ALONE = frozenset({Sort.FIGURE, Sort.TABLE, Sort.CAUTION})
"""What takes a paragraph of its own."""


@dataclass(frozen=True, slots=True)
class Named:
    """What a name stands for.

    `key` is a QUANTITY's mark ("parameter:ramp.rise"), a LINK's or SEE's target ("sheet.11", "figure.lift"), else the
    figure, table or caution. `plain` is its printed words, of a caution its signal word, title and text.
    """

    path: str
    sort: Sort
    key: str = ""
    plain: str = ""
    paged: bool = False
    """Whether ", page N" follows a LINK."""
    printed: Printed | None = None
    dimensionality: Dimensionality | None = None
    html: str = ""
    """What stands inside a CAUTION's frame."""


@dataclass(frozen=True)
class Names:
    """All names by dotted path, and the edition's own words, which conditions may ask for."""

    named: Mapping[str, Named]
    edition: Mapping[str, str] = field(default_factory=dict)
    """edition.name, edition.title, edition.units, edition.paper, edition.market."""
    absent: frozenset[str] = frozenset()
    """Names, or beginnings of names, that have no value for a reason that is reported elsewhere."""
    idle: frozenset[str] = frozenset()
    """Names of the market's tables whose stock or hardware the plan set has no use for: not proposed for a measure."""

    @cached_property
    def groups(self) -> Mapping[str, tuple[str, ...]]:
        """Each proper beginning of a path, with what may follow it."""
        groups: dict[str, dict[str, None]] = {}
        for path in (*self.named, *self.edition):
            words = path.split(".")
            for count in range(1, len(words)):
                groups.setdefault(".".join(words[:count]), {})[words[count]] = None
        return {path: tuple(follow) for path, follow in groups.items()}

    def find(self, path: str) -> Named | None:
        """What a path stands for, None when nothing does."""
        if path in self.absent or any(path.startswith(f"{head}.") for head in self.absent):
            return Named(path, Sort.WORDS)
        if path in self.edition:
            return Named(path, Sort.WORDS, plain=self.edition[path])
        return self.named.get(path)

    def numbered(self, figures: Mapping[str, int]) -> Names:
        """The same names, with references to figures saying their numbers."""
        seen = {
            path: replace(named, plain=f"figure {figures[named.key.partition('.')[2]]}")
            for path, named in self.named.items()
            if named.sort is Sort.SEE and named.key.partition(".")[2] in figures
        }
        return replace(self, named={**self.named, **seen})

    def with_named(self, *named: Named) -> Names:
        """The same names and these."""
        return replace(self, named={**self.named, **{each.path: each for each in named}})

    def nearest(self, path: str) -> tuple[str, ...]:
        """The real names most like a wrong one; those of the group it starts with come first."""
        head = path.partition(".")[0]
        inside = tuple(name for name in self.named if name.startswith(f"{head}."))
        return nearest(path, inside) or nearest(path, (*self.named, *self.edition))
