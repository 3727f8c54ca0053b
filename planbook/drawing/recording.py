"""A drawing as a recording: immutable primitives in millimetres on paper, y downwards, origin at the sheet's top left.

Recorded once, measured with the fonts' own metrics, replayed to SVG, to a list in a test, later to DXF.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum
from typing import NamedTuple


class Pt(NamedTuple):
    """Millimetres on paper."""

    x: float
    y: float


class Pen(StrEnum):
    """Line kinds of ISO 128-2; widths are in PEN_WIDTHS."""

    OUTLINE = "outline"
    """Visible edge, wide."""
    HIDDEN = "hidden"
    """Narrow dashed."""
    CENTRE = "centre"
    """Narrow long-dashed dotted."""
    DIMENSION = "dimension"
    """Narrow continuous: dimension and extension lines, leaders."""
    FRAME = "frame"
    GRID = "grid"
    """Narrow lines of the title block."""
    FAINT = "faint"
    """Grey: what is there already."""


PEN_WIDTHS: dict[Pen, float] = {
    Pen.OUTLINE: 0.5,
    Pen.HIDDEN: 0.25,
    Pen.CENTRE: 0.25,
    Pen.DIMENSION: 0.25,
    Pen.FRAME: 0.7,
    Pen.GRID: 0.25,
    Pen.FAINT: 0.25,
}


@dataclass(frozen=True, slots=True)
class LineTo:
    end: Pt


@dataclass(frozen=True, slots=True)
class ArcTo:
    """A circular arc to `end`; `large` and `sweep` as in an SVG path."""

    end: Pt
    radius: float
    large: bool
    sweep: bool


@dataclass(frozen=True, slots=True)
class Stroke:
    """A path drawn with a pen; closed when `closed`. `fill` is "" (none), "white", "tint" or "solid"."""

    start: Pt
    steps: tuple[LineTo | ArcTo, ...]
    pen: Pen | None
    closed: bool = False
    fill: str = ""


@dataclass(frozen=True, slots=True)
class Circle:
    centre: Pt
    radius: float
    pen: Pen | None
    fill: str = ""


class Anchor(StrEnum):
    START = "start"
    MIDDLE = "middle"
    END = "end"


@dataclass(frozen=True, slots=True)
class Label:
    """One line of text. `at` is on the baseline at the anchor; `angle` in degrees, counter-clockwise as read.

    `height` is the height of capitals in millimetres (lettering height h). `mark` names what is printed:
    "dimension:ramp_bar/pivot/x" for a dimension's own text; empty for anything else. Fractions in `text` are typed
    `23 5/8` and drawn as real fractions.
    """

    text: str
    at: Pt
    height: float
    anchor: Anchor = Anchor.START
    angle: float = 0.0
    bold: bool = False
    mark: str = ""


Primitive = Stroke | Circle | Label


@dataclass(frozen=True, slots=True)
class Drawing:
    """A finished recording of one sheet or figure."""

    width: float
    height: float
    primitives: tuple[Primitive, ...]
    title: str = ""
    """Alternative text."""
    marks: tuple[str, ...] = field(default=())
