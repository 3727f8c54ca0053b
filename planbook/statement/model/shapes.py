"""Parts as resolved shapes: outlines, cuts, features, and the views that are asked for."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field


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
