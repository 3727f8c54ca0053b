"""A drawing as a recording: immutable primitives in millimetres on paper, y downwards, origin at the sheet's top left.

Recorded once, measured with the fonts' own metrics, replayed to SVG, to a list in a test, later to DXF.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum
from typing import NamedTuple

from planbook.drawing.facing import Facing


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
    BREAK = "break"
    """Narrow with a zigzag: where an interrupted view leaves something out."""
    HATCH = "hatching"
    """Thin: what a cut face is of."""
    DIMENSION = "dimension"
    """Narrow continuous: dimension and extension lines, leaders."""
    HEAVY = "heavy"
    """What a figure points out: a visible edge, one step wider."""
    EDGE = "edge"
    """The outline of a component, in a picture of the assembly."""
    INNER = "inner"
    """An edge inside an outline, in a picture of the assembly."""
    FRAME = "frame"
    """The border of the drawing space (ISO 5457)."""
    GRID = "grid"
    """Narrow lines of the title block."""
    FAINT = "faint"
    """Grey: what is there already."""


PEN_WIDTHS: dict[Pen, float] = {
    Pen.OUTLINE: 0.5,
    Pen.HIDDEN: 0.25,
    Pen.CENTRE: 0.25,
    Pen.BREAK: 0.25,
    Pen.HATCH: 0.18,
    Pen.DIMENSION: 0.25,
    Pen.HEAVY: 0.7,
    Pen.EDGE: 0.35,
    Pen.INNER: 0.18,
    Pen.FRAME: 0.7,
    Pen.GRID: 0.25,
    Pen.FAINT: 0.18,
}
"""Millimetres, from the series of ISO 128-2; wide to narrow is 2 to 1."""

DASHES: dict[Pen, tuple[float, ...]] = {
    Pen.HIDDEN: (2.0, 1.0),
    Pen.CENTRE: (5.0, 0.9, 0.5, 0.9),
}
"""Dash, gap, ... in millimetres. Proportions after ISO 128-2, shortened so that small features still show the kind."""


class Ink(StrEnum):
    """Colours of lines and lettering; they print as greys."""

    BLACK = "#1a1a1a"
    GREY = "#6b6b6b"
    """Captions of fields."""
    LIGHT = "#a3a3a3"


INKS: dict[Pen, str] = dict.fromkeys(Pen, Ink.BLACK.value) | {
    Pen.GRID: "#8a8a8a",
    Pen.FAINT: Ink.LIGHT.value,
    Pen.INNER: "#5c5c5c",
}
SHADES = ("#fdfcfa", "#f3efe7", "#e6dfd2", "#d6cdbc", "#c3b8a4")
"""Of shaded pictures, from light to dark; as greys a printer still keeps them apart."""
FILLS: dict[str, str] = {
    "white": "#ffffff",
    "tint": "#e9e3d6",
    "solid": Ink.BLACK.value,
    "panel": "#f4f2ee",
} | {f"tone {number}": tone for number, tone in enumerate(SHADES)}


@dataclass(frozen=True, slots=True)
class LineTo:
    """A straight line to `end`."""

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
    """A path drawn with a pen; closed when `closed`. `fill` is "" (none) or a key of FILLS.

    `holes` are further closed paths of the same shape, filled by the even-odd rule. `of` is the id of the dimension
    that the stroke belongs to, as for every primitive; "" for what belongs to none. `words` say a sign for who does
    not see it.
    """

    start: Pt
    steps: tuple[LineTo | ArcTo, ...]
    pen: Pen | None
    closed: bool = False
    fill: str = ""
    holes: tuple[Stroke, ...] = ()
    of: str = ""
    words: str = ""


@dataclass(frozen=True, slots=True)
class Circle:
    """A full circle."""

    centre: Pt
    radius: float
    pen: Pen | None
    fill: str = ""
    of: str = ""


class Anchor(StrEnum):
    """Which end of a label stands at its point."""

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
    ink: Ink = Ink.BLACK
    of: str = ""


Primitive = Stroke | Circle | Label


@dataclass(frozen=True, slots=True)
class Shown:
    """A view of a part as it stands on paper: which way it looks, paper over part, and where the view's zero is."""

    face: str
    facing: Facing
    scale: float
    zero: Pt
    holds: frozenset[str] = frozenset()
    """Of an enlarged detail: the dimensions that have moved to it."""


@dataclass(frozen=True, slots=True)
class Drawing:
    """A finished recording of one sheet or figure."""

    width: float
    height: float
    primitives: tuple[Primitive, ...]
    title: str = ""
    """Alternative text."""
    marks: tuple[str, ...] = field(default=())
    views: tuple[Shown, ...] = ()
    """The views of a sheet, so that places of the part can be found on it."""
    unseen: tuple[str, ...] = ()
    """Of a picture of the assembly: the part references without a balloon, because nothing is seen of their parts."""
