"""What a new version means for what was made to an older one: plain values, texts in the edition's unit."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

Triple = tuple[float, float, float]


class Impact(StrEnum):
    """What becomes of the pieces of a part that were made to the old version, the least first."""

    UNCHANGED = "unchanged"
    REPRINT = "reprint only"
    CHECK = "check the fit"
    REWORK = "rework"
    RECUT = "recut"
    NEW = "new"
    WITHDRAWN = "withdrawn"


class Stage(StrEnum):
    """How far a builder got."""

    UNCUT = "uncut"
    CUT = "cut"
    GLUED = "glued"
    FINISHED = "finished"


@dataclass(frozen=True, slots=True)
class Turn:
    """A rotation by quarters: along each new axis lies this old one, pointing the same way (1) or the other (-1)."""

    axes: tuple[int, int, int]
    signs: tuple[int, int, int]

    def vector(self, old: Triple, *, signed: bool = True) -> Triple:
        """A direction of the old piece in the new axes; without signs its measures."""
        x, y, z = ((sign if signed else 1) * old[axis] for axis, sign in zip(self.axes, self.signs, strict=True))
        return x, y, z


@dataclass(frozen=True, slots=True)
class Range:
    """Measures from one to another, as printed, and what becomes of a piece that measures so."""

    low: str
    high: str
    impact: Impact
    side: str = ""
    """"under" or "over" what is kept; "" for what is kept itself."""


@dataclass(frozen=True, slots=True)
class Measure:
    """A dimension whose limits are others now: which of the pieces that the old limits allowed are kept."""

    dimension: str
    words: str
    """What is measured: "length", "pivot, diameter"."""
    unit: str
    keep: Range
    outside: tuple[Range, ...]

    def __str__(self) -> str:
        others = (
            f"{each.side} {self.keep.low if each.side == 'under' else self.keep.high} {self.unit}: {each.impact}"
            for each in self.outside
        )
        return f"measure {self.words}: {', '.join((f'{self.keep.low} to {self.keep.high} {self.unit}: keep', *others))}"


@dataclass(frozen=True, slots=True)
class Work:
    """One thing to do to a piece, in the builder's words: "enlarge hole pivot: 8 mm → 10 mm".

    `feature` is "blank" for the blank, "outline" for the outline.
    """

    feature: str
    words: str


@dataclass(frozen=True, slots=True)
class Spot:
    """A piece of wood that goes or is lacking: its box in the part's own axes, in millimetres."""

    feature: str
    volume: float
    """Cubic millimetres."""
    low: Triple
    high: Triple
    thickness: float
    """In the mean."""
    words: str = ""
    """Of wood that is lacking: why, as it is seen at the bench."""


@dataclass(frozen=True, slots=True)
class Reach:
    """The room in front of what is to be cut, with the part glued in its place; millimetres."""

    feature: str
    """Its name; "blank" for the blank, "outline" for the outline."""
    words: str
    """What it is called: "hole pivot"."""
    free: float
    needs: float
    tool: str
    was: tuple[str, ...] = ()
    """Names that the feature had in earlier versions."""

    @property
    def is_enough(self) -> bool:
        """Whether the tool gets there."""
        return self.free >= self.needs


@dataclass(frozen=True, slots=True)
class PartImpact:
    """What a version means for one part.

    `turn` is how the old piece is turned and `moved` how far it is then shifted to lie in the new one (millimetres),
    where that is its best registration. `more` are pieces to be made as drawn and mirrored; `left` those no longer
    needed. `mates` are keys of parts that it meets and that are not as they were.
    """

    number: int
    key: str
    title: str
    impact: Impact
    because: str = ""
    dimensions: tuple[str, ...] = ()
    """Ids of those that a piece made to the old numbers may not meet."""
    works: tuple[Work, ...] = ()
    measures: tuple[Measure, ...] = ()
    goes: tuple[Spot, ...] = ()
    lacks: tuple[Spot, ...] = ()
    turn: Turn | None = None
    moved: Triple = (0.0, 0.0, 0.0)
    moved_words: str = ""
    more: tuple[int, int] = (0, 0)
    left: tuple[int, int] = (0, 0)
    remeasured: bool = False
    """Whether a length or an angle in the notes of its sheet is another."""
    mates: tuple[str, ...] = ()
    reach: tuple[Reach, ...] | None = ()
    """Where the part can be glued: the room for each thing to cut; None where the assembly was not recorded."""
    glued: bool = False
    """Whether a step glues it."""
    was: tuple[str, ...] = ()
    """Keys that it had in earlier versions."""

    @property
    def asks(self) -> bool:
        """Whether a builder may have to work, buy or cut for it."""
        mild = self.impact in (Impact.UNCHANGED, Impact.REPRINT, Impact.CHECK)
        told = bool(self.dimensions) and self.impact is Impact.CHECK
        return not mild or told or any(self.more) or self.remeasured

    @property
    def out_of_reach(self) -> tuple[Reach, ...]:
        """What can no longer be cut once the part is glued."""
        return tuple(each for each in self.reach or () if not each.is_enough)

    @property
    def is_stuck(self) -> bool:
        """Whether a step glues it, and it asks for what a glued one does not allow: making it anew, leaving it out."""
        anew = any(each.impact is Impact.RECUT for measure in self.measures for each in measure.outside)
        return self.glued and (anew or self.impact in (Impact.RECUT, Impact.WITHDRAWN))


@dataclass(frozen=True, slots=True)
class ItemImpact:
    """Something bought: by how many more or fewer, or what it is exchanged for. `old` or `new` is "" without one."""

    list: str
    id: str
    words: str
    more: int = 0
    asks: bool = True


@dataclass(frozen=True, slots=True)
class StepImpact:
    """A step that somebody may have done: what it touches that is no longer as it was."""

    key: str
    number: int
    title: str
    parts: tuple[str, ...] = ()
    """Keys of its parts that ask for work, or for a check."""
    reworded: bool = False
    renumbered: bool = False
    """Whether it is reworded in nothing but lengths and angles."""
    remeasured: bool = False
    """Whether a length or an angle in its words is another, and no dimension tells of it."""
    cautions: tuple[str, ...] = ()
    """Titles of cautions that are called for and were not."""
    gone: bool = False


@dataclass(frozen=True, slots=True)
class EditionImpact:
    """What a version means for the builders of an older one, in one edition."""

    old: str
    new: str
    parts: tuple[PartImpact, ...]
    items: tuple[ItemImpact, ...] = ()
    steps: tuple[StepImpact, ...] = ()

    @property
    def asks(self) -> bool:
        """Whether a builder may have to work, buy or cut: then the first number goes up."""
        return (
            any(each.asks for each in self.parts)
            or any(each.asks for each in self.items)
            or any(each.remeasured for each in self.steps)
        )

    def of(self, key: str) -> PartImpact | None:
        """The impact on a part by its key."""
        return next((each for each in self.parts if each.key == key), None)
