"""What a comparison of two statements gives: changes, and a verdict on each part."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from planbook.statement.model import Statement


class Touch(StrEnum):
    """What a change touches, the weightiest first."""

    SHAPE = "shape"
    """What is cut: a blank, an outline, a feature, the stock, how many."""
    NUMBER = "number"
    """A number that the builder reads."""
    TEXT = "text"
    """Words or a drawing, without a number in them."""
    TABLE = "table"
    """What tables say of a dimension, and its sheet does not."""
    RECORD = "record"
    """Only what planbook keeps for itself: a formula, a value finer than it prints, a dimension line's ends."""


class Kind(StrEnum):
    """What sort of thing changed."""

    PARAMETER = "parameter"
    PART = "part"
    FEATURE = "feature"
    DIMENSION = "dimension"
    PROSE = "prose"
    LIST = "list"
    SHEET = "sheet"
    FIGURE = "figure"
    RULE = "rule"
    FIT = "fit"
    COMPONENT = "component"
    STEP = "step"
    EDITION = "edition"
    SET = "set"


class Verdict(StrEnum):
    """What a new version means for one part. `impact` in the commands' JSON."""

    UNCHANGED = "unchanged"
    REPRINT = "reprint"
    """Only words on its sheet changed."""
    CHANGED = "changed"
    """Its shape, stock, quantity or a number on its sheet changed."""
    NEW = "new"
    WITHDRAWN = "withdrawn"


@dataclass(frozen=True, slots=True)
class Change:
    """One thing that reads otherwise. `old` is empty for what is new, `new` for what is gone.

    `id` is the stable id of the thing, in the words of the newer statement; `part` the key of the part that it
    concerns, or "". A thing that changed in two ways has two changes; `side` says in which, in a word ("caption").
    """

    kind: Kind
    id: str
    part: str
    old: str
    new: str
    touch: Touch = Touch.TEXT
    side: str = ""

    @property
    def grave(self) -> bool:
        """Whether a builder may have to rework or recut something for it: a shape or a printed number."""
        return self.touch in (Touch.SHAPE, Touch.NUMBER)

    def reads(self, text: str) -> str:
        """`old` or `new` by itself, with the side that it speaks of: `caption The two grooves`."""
        return f"{self.side} {text}" if self.side and text else text


@dataclass(frozen=True, slots=True)
class PartVerdict:
    """The verdict on a part of either statement."""

    number: int
    key: str
    verdict: Verdict


@dataclass(frozen=True, slots=True)
class Comparison:
    """All differences between two statements, as they were given. `parts` has every part of both, by number."""

    old: Statement
    new: Statement
    changes: tuple[Change, ...]
    parts: tuple[PartVerdict, ...]

    @property
    def told(self) -> tuple[Change, ...]:
        """The changes that a builder can see."""
        return tuple(change for change in self.changes if change.touch is not Touch.RECORD)

    @property
    def major(self) -> bool:
        """Whether a builder may have to rework or recut something: a shape or a printed number changed."""
        return any(change.grave for change in self.changes)
