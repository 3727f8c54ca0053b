"""The statement: all that one edition tells the builder. Resolved shapes, printed texts, prose, lists; no pages.

This is the file form, form 1. It is frozen with each release and read for ever: add fields with defaults, never change
the meaning of one. Lengths are nanometres, angles degrees. Mappings are keyed by stable ids.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

FORM = 1


@dataclass(frozen=True, slots=True)
class EditionStated:
    """The edition's own choices (source.models.plan_set.EditionModel), as words."""

    name: str
    title: str
    units: str
    paper: str
    projection: str
    market: str
    market_title: str
    language: str
    built: bool


@dataclass(frozen=True, slots=True)
class SetStated:
    """The plan set as its title block and cover state it."""

    key: str
    code: str
    title: str
    subtitle: str
    summary: str
    workshop: str
    workshop_place: str
    rights: str
    drawn_by: str
    approved_by: str
    general_tolerance: tuple[str, ...]
    """Lines of the general tolerance note, printed on every sheet."""
    caliper_tolerance: str = ""
    """What holds for caliper work without a tolerance of its own: "±0.1 mm". "" where an older release said nothing."""
    overall: str = ""
    """Length, depth and height where the author gives them: "1500 × 600 × 760 mm"."""


@dataclass(frozen=True, slots=True)
class PrintedStated:
    """See measure.printed.Printed."""

    text: str
    other: str
    value: float
    unit: str
    other_unit: str


@dataclass(frozen=True, slots=True)
class StandingStated:
    """What a measure is to a builder: "critical" to the fit, "free" to be changed, or "" for neither.

    `least` and `most` are what a free one may be changed to, both or none.
    """

    kind: str = ""
    because: str = ""
    least: PrintedStated | None = None
    most: PrintedStated | None = None


@dataclass(frozen=True, slots=True)
class ParameterStated:
    """A named quantity with its printed text and where it comes from."""

    name: str
    value: float
    """Base units."""
    dimensionality: tuple[int, int, int, int]
    printed: PrintedStated
    tolerance: str
    """Printed in the edition's unit, "" if none."""
    means: str
    formula: str
    inputs: tuple[str, ...]
    given: bool
    moving: bool = False
    """Whether it hangs on the assembly's driver, so that its value is that of one position only."""
    standing: StandingStated | None = None
    """None where an older release recorded none."""


@dataclass(frozen=True, slots=True)
class SegmentStated:
    """A line, or an arc when `centre` is set. `vertex` is the authored name of its start."""

    start: tuple[float, float]
    end: tuple[float, float]
    centre: tuple[float, float] | None = None
    ccw: bool = True
    vertex: str = ""


@dataclass(frozen=True, slots=True)
class FrameStated:
    """See shape.geometry.Frame."""

    origin: tuple[float, float, float]
    u: tuple[float, float, float]
    v: tuple[float, float, float]
    normal: tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class CutStated:
    """See shape.model.Cut."""

    frame: FrameStated
    loop: tuple[SegmentStated, ...]
    depth: float
    islands: tuple[tuple[SegmentStated, ...], ...] = ()
    bottom: tuple[SegmentStated, ...] | None = None
    lift: float = 0.0
    climbs: tuple[float, float] | None = None


@dataclass(frozen=True, slots=True)
class FeatureStated:
    """A named feature of a part. `note` is printed in its callout; `method` is in words."""

    name: str
    kind: str
    face: str
    cuts: tuple[CutStated, ...]
    count: int = 1
    note: str = ""
    method: str = ""
    around: tuple[float, float] | None = None
    """The centre of a pattern in the plane of its cuts, where `count` are spaced round one."""


@dataclass(frozen=True, slots=True)
class SectionStated:
    """A section that the author asks for: the view from which it is seen, and its plane's place square to that."""

    view: str
    at: float


@dataclass(frozen=True, slots=True)
class DetailStated:
    """An enlarged detail that the author asks for: a circle in a view, or in the section that has this letter.

    `scale` is paper to part ("2:1"); "" where it is left to the sheet.
    """

    view: str
    centre: tuple[float, float, float]
    radius: float
    scale: str = ""


@dataclass(frozen=True, slots=True)
class PartStated:
    """A part as shaped. `notes` are printed on its sheet, with all values filled in."""

    key: str
    number: int
    title: str
    kind: str
    sheet: str
    stock: str
    stock_title: str
    material: str
    as_drawn: int
    mirrored: int
    size: tuple[float, float, float]
    outline: tuple[SegmentStated, ...]
    features: Mapping[str, FeatureStated]
    notes: tuple[str, ...] = ()
    stock_note: str = ""
    """Accepted range of the actual thickness, in words of the edition; "" when the stock states none."""
    template: bool = False
    """Whether it is also printed at full size (docs/shop-files.md)."""
    substance: str = ""
    """What a cut face shows: "wood", "plywood", "metal", "plastic", "other"; "" where an older release said nothing."""
    marks: tuple[str, ...] = ()
    """What the pieces as drawn and the mirrored ones are called ("left", "right"); empty where they have no names."""
    dimensioning: Mapping[str, str] = field(default_factory=dict)
    """"parallel" or "running" by view and axis ("face/x"), where that is not left to the sheet."""
    sections: Mapping[str, SectionStated] = field(default_factory=dict)
    """Those that the author asks for, by letter."""
    details: Mapping[str, DetailStated] = field(default_factory=dict)
    """Those that the author asks for, by letter."""


@dataclass(frozen=True, slots=True)
class EqualStated:
    """See dimension.model.Equal."""

    id: str
    feature: str
    points: tuple[tuple[float, float, float], ...]


@dataclass(frozen=True, slots=True)
class DimensionStated:
    """See dimension.model.PartDimension; the same fields as stated to the builder."""

    id: str
    part: str
    feature: str
    characteristic: str
    kind: str
    view: str
    axis: str
    points: tuple[tuple[float, float, float], ...]
    nominal: float
    printed: PrintedStated
    tolerance: str = ""
    upper: float | None = None
    lower: float | None = None
    count: int = 1
    callout: str = ""
    prefix: str = ""
    suffix: str = ""
    caliper: bool = False
    reference: bool = False
    method: str = ""
    formula: str = ""
    inputs: tuple[str, ...] = ()
    also: tuple[EqualStated, ...] = ()
    """Equal measures of other features that are not printed themselves: `count` speaks for them too."""
    side: str = ""
    row: int = 0
    """Where the author has its dimension line stand; "" and 0 where that is left to the sheet."""
    standing: StandingStated | None = None
    """None where an older release recorded none."""


@dataclass(frozen=True, slots=True)
class BlockStated:
    """A block of prose: paragraph, list item, heading, caution, table row, caption. `page` is the page or step key."""

    id: str
    page: str
    kind: str
    text: str


@dataclass(frozen=True, slots=True)
class RowStated:
    """A row of a list; `cells` are printed texts by column name, in column order."""

    id: str
    cells: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class SheetStated:
    """A drawing sheet."""

    number: str
    part: str
    title: str
    changed_in: str
    """The version in which the sheet last changed."""


@dataclass(frozen=True, slots=True)
class FigureStated:
    """A picture, chart or drawing that a page shows."""

    name: str
    caption: str
    alt: str
    content: str
    """SHA-256 of what is drawn, so that a changed picture shows as a change."""
    number: int = 0
    """In the order of reading; 0 when no page shows it (a cover's picture)."""
    shows_version: str = ""
    """The version that a photograph shows as built; "" where its author does not say, or it is no photograph."""


@dataclass(frozen=True, slots=True)
class RuleStated:
    """A requirement as checked in this edition."""

    name: str
    require: str
    because: str
    stated: str
    """The two sides as printed values: `23 21/32 in >= 23 1/2 in`."""
    holds: bool
    weight: str


@dataclass(frozen=True, slots=True)
class StepStated:
    """A build step. `parts` and `cautions` are keys; `hold` is what must be checked before going on.

    `glue_order` are the keys of parts as they are glued, while the glue stays open for `open_time` ("5 to 10 min").
    """

    key: str
    number: int
    title: str
    parts: tuple[str, ...]
    hold: str
    tools: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    dry_fit: str = ""
    glue_order: tuple[str, ...] = ()
    open_time: str = ""


@dataclass(frozen=True, slots=True)
class OneOffStated:
    """A measure of one builder in the place of the plan's own: what it is, as printed, and as it was.

    `derived`: the plan works it out by a formula, which does not count here.
    """

    name: str
    what: str
    text: str
    was: str
    derived: bool = False


Box = tuple[float, float, float, float]
"""x along the stock, y across, length, width; nanometres from the corner of the stock as bought."""


@dataclass(frozen=True, slots=True)
class PieceStated:
    """A piece where it is cut, its rough size as printed. `turned`: its length lies across the stock."""

    part: str
    number: str
    text: str
    box: Box
    turned: bool = False


@dataclass(frozen=True, slots=True)
class OffcutStated:
    """What is left and worth keeping."""

    box: Box
    text: str


@dataclass(frozen=True, slots=True)
class CutLineStated:
    """A cut, in the order of making: "rip" or "crosscut", what the fence is set to, from where to where it runs.

    `gives` names the near and the far side: a part's number, "offcut", or "" for what is cut on. A `trim` takes an
    edge off.
    """

    way: str
    at: str
    line: Box
    """Start x, start y, end x, end y."""
    trim: bool = False
    gives: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class LayoutStated:
    """A sheet, board or rod that is cut so, `times` over; `count` is how many of this stock are needed in all."""

    id: str
    stock: str
    title: str
    kind: str
    machine: str
    """"saw" or "router"."""
    times: int
    size: tuple[float, float]
    text: str
    count: int
    bound: str
    pieces: tuple[PieceStated, ...]
    offcuts: tuple[OffcutStated, ...] = ()
    cuts: tuple[CutLineStated, ...] = ()
    grain: bool = True
    """Whether there is grain to heed; it runs along the length."""
    kerf: str = ""
    """What each cut takes away, in both units."""


@dataclass(frozen=True, slots=True)
class ComponentStated:
    """A part, or a bought rod, in its place in the assembly (shape.model.Component). `part` is "" for a rod."""

    name: str
    part: str
    origin: tuple[float, float, float]
    x: tuple[float, float, float]
    y: tuple[float, float, float]
    z: tuple[float, float, float]
    mirrored: bool = False
    rod: tuple[float, float, float] = (0.0, 0.0, 0.0)
    """Radius, length, and radius of the bore; zeros for a part."""


@dataclass(frozen=True, slots=True)
class FitStated:
    """What goes into what: the dimensions that make the gap, and between which limits (nanometres) it must lie."""

    name: str
    dimensions: tuple[str, ...]
    least: float
    most: float
    because: str
    fitted: bool = False
    """Whether a step has the builder make one to the other."""


@dataclass(frozen=True, slots=True)
class Statement:
    """All that one edition tells the builder."""

    form: int
    version: str
    """Version text, or "" for a draft."""
    issued: str
    """ISO 8601 date."""
    plan_set: SetStated
    edition: EditionStated
    parameters: Mapping[str, ParameterStated]
    parts: Mapping[str, PartStated]
    dimensions: Mapping[str, DimensionStated]
    blocks: tuple[BlockStated, ...]
    lists: Mapping[str, tuple[RowStated, ...]]
    """By list name: tools, materials, hardware, parts, cautions, shopping, cutting, cost, weight."""
    sheets: Mapping[str, SheetStated]
    figures: Mapping[str, FigureStated]
    rules: Mapping[str, RuleStated]
    steps: tuple[StepStated, ...]
    changes: tuple[RowStated, ...] = ()
    """The change log as printed: one row a change, and the revision table's rows before it."""
    retired: tuple[str, ...] = ()
    """Dimension ids that earlier versions used and that may never be used again."""
    renamed: Mapping[str, str] = field(default_factory=dict)
    """Old id to new id, from `was:`."""
    retired_sheets: tuple[str, ...] = ()
    """Numbers of sheets that earlier versions had and that may never be used again."""
    one_off: tuple[OneOffStated, ...] = ()
    """What is changed for one builder. Such a statement is never released."""
    assembly: tuple[ComponentStated, ...] | None = None
    """The parts in their places, in the given position. None where an older release recorded none."""
    fits: Mapping[str, FitStated] | None = None
    """None where an older release recorded none."""
    layouts: tuple[LayoutStated, ...] = ()
    """How the stock is cut; none where an older release told nothing of it."""
    pieces: int = 1
    """For how many of the piece the lists and layouts are; a release is for one."""

    @property
    def issue(self) -> str:
        """The version as title blocks have it: a number, "draft", or "one-off" for one builder's own set."""
        return "one-off" if self.one_off or self.pieces > 1 else self.version or "draft"
