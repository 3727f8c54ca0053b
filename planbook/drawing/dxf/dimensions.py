"""DIMENSION entities: where they measure, what is measured there, our own words, and the picture as it was recorded.

A DIMENSION names a block that shows it. That block holds the recorded lines, arrows and lettering, so that a reader
shows what the sheet shows; one that draws the dimension anew finds the places, a style with the view's scale, and the
text. Extension lines are shared by several dimensions and stay lines of the page.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from ezdxf.entities import Dimension, DimStyleOverride

from planbook.drawing.angles import corners_of, is_angle
from planbook.drawing.dxf.file import LETTERING
from planbook.drawing.dxf.paper import Paper, Place
from planbook.drawing.ink import label_box
from planbook.drawing.lines import ARROW, GAP, LETTER, OVERSHOOT
from planbook.drawing.recording import ArcTo, Label, Primitive, Pt, Shown, Stroke
from planbook.drawing.solid import XYZ
from planbook.drawing.tracing import Setting
from planbook.statement.model import DimensionStated

MM: Final = 1e-6
_OWN_BLOCK: Final = 32
"""Flag of a DIMENSION whose block is used by it alone."""
_OWN_PLACE: Final = 128
"""Flag of a DIMENSION whose text does not stand at its usual place."""
_UPRIGHT: Final = 90.0


@dataclass(frozen=True, slots=True)
class Measured:
    """A dimension of the statement, the view that shows it, and what was recorded of it."""

    dimension: DimensionStated
    shown: Shown
    recorded: Sequence[Primitive]

    def spots(self) -> tuple[Pt, Pt]:
        """Its two places on paper."""
        facing, setting = self.shown.facing, Setting(self.shown.scale, *self.shown.zero)
        first, second = (setting(facing.flat(XYZ(*(c * MM for c in p)))) for p in self.dimension.points[:2])
        return first, second

    @property
    def upright(self) -> bool:
        """Whether a linear dimension is measured up the page."""
        axis = XYZ(*(float(self.dimension.axis == name) for name in "xyz"))
        facing = self.shown.facing
        return abs(axis.dot(facing.up)) > abs(axis.dot(facing.right))

    @property
    def is_interrupted(self) -> bool:
        """Whether it leads across a stretch that the view leaves out."""
        first, second = (point[0] * MM for point in self.dimension.points[:2])
        low, high = min(first, second), max(first, second)
        along = self.dimension.kind == "linear" and self.dimension.axis == "x"
        return along and any(low <= gap.low and gap.high <= high for gap in self.shown.facing.gaps)

    @property
    def label(self) -> Label:
        """Its own text."""
        return next(p for p in self.recorded if isinstance(p, Label) and p.mark)


def can_measure(dimension: DimensionStated) -> bool:
    """Whether a DIMENSION entity can say it: between two places, across a circle, from a centre, or at a corner."""
    if is_angle(dimension):
        return True
    return dimension.kind in ("linear", "diameter", "radius") and len(dimension.points) > 1


def add_dimension(measured: Measured, paper: Paper) -> None:
    """Write one dimension."""
    file, label = paper.file, measured.label
    block = file.document.blocks.new_anonymous_block(type_char="D")
    for primitive in measured.recorded:
        paper.add(primitive, block)
    box = label_box(label)
    attributes = {
        "layer": paper.dimension_layer(),
        "geometry": block.name,
        "dimstyle": _style(measured.shown.scale, paper),
        "text": _escaped(label.text),
        "text_midpoint": paper.place(Pt((box.left + box.right) / 2, (box.top + box.bottom) / 2)),
        "actual_measurement": _measure(measured.dimension, paper),
        **_places(measured, paper),
    }
    entity = Dimension.new(dxfattribs=attributes, doc=file.document)
    file.space.add_entity(entity)
    if measured.is_interrupted:
        _stretch(entity)


def _stretch(entity: Dimension) -> None:
    """Give it a factor of its own, by which its places on paper, an interruption apart, give its true length."""
    override = DimStyleOverride(entity)
    override["dimlfac"] = entity.dxf.actual_measurement / float(entity.get_measurement())
    override.commit()


def _measure(dimension: DimensionStated, paper: Paper) -> float:
    """In the file's unit; an angle in radians."""
    return math.radians(dimension.nominal) if is_angle(dimension) else paper.length(dimension.nominal * MM)


def _places(measured: Measured, paper: Paper) -> dict[str, float | Place]:
    """The places that a kind of DIMENSION measures between, under the names that DXF gives them."""
    kind = _OWN_BLOCK | _OWN_PLACE
    if is_angle(measured.dimension):
        return {"dimtype": Dimension.ANGULAR_3P | kind, **_corner_places(measured, paper)}
    first, second = measured.spots()
    if measured.dimension.kind == "linear":
        line = _line_start(measured.recorded)
        on_line = Pt(line.x, second.y) if measured.upright else Pt(second.x, line.y)
        return {
            "dimtype": Dimension.LINEAR | kind,
            "angle": _UPRIGHT if measured.upright else 0.0,
            "defpoint": paper.place(on_line),
            "defpoint2": paper.place(first),
            "defpoint3": paper.place(second),
        }
    if measured.dimension.kind == "radius":
        return {"dimtype": Dimension.RADIUS | kind, "defpoint": paper.place(first), "defpoint4": paper.place(second)}
    # The arrow's tip is on the circle; the diameter that a reader would draw runs through it.
    radius, tip = math.dist(first, second), _tip(first, measured.recorded)
    ux, uy = tip.x - first.x, tip.y - first.y
    share = radius / max(math.hypot(ux, uy), 1e-9)
    near, far = (Pt(first.x + ux * share * way, first.y + uy * share * way) for way in (1, -1))
    return {"dimtype": Dimension.DIAMETER | kind, "defpoint": paper.place(far), "defpoint4": paper.place(near)}


def _corner_places(measured: Measured, paper: Paper) -> dict[str, Place]:
    """A place on the arc, a place on each leg, the second counter-clockwise from the first, and the corner."""
    setting = Setting(measured.shown.scale, *measured.shown.zero)
    strokes = (each for each in measured.recorded if isinstance(each, Stroke))
    start, radius = next(
        (each.start, step.radius) for each in strokes for step in each.steps if isinstance(step, ArcTo)
    )
    corners = corners_of(measured.dimension, measured.shown.facing, setting)
    corner = min(corners, key=lambda each: abs(math.dist(each.at, start) - radius))
    legs = [corner.place(corner.reach, share) for share in ((0.0, 1.0) if corner.sweep > 0 else (1.0, 0.0))]
    places = (corner.place(radius, 0.5), *legs, corner.at)
    return {f"defpoint{n}" if n > 1 else "defpoint": paper.place(place) for n, place in enumerate(places, start=1)}


def _line_start(recorded: Sequence[Primitive]) -> Pt:
    """A place on a linear dimension's own line: its first stroke begins there."""
    return next(primitive.start for primitive in recorded if isinstance(primitive, Stroke))


def _tip(centre: Pt, recorded: Sequence[Primitive]) -> Pt:
    """Where a leader begins; to the right of the centre where it begins in the centre itself."""
    start = _line_start(recorded)
    return start if math.dist(start, centre) > 1e-6 else Pt(centre.x + 1.0, centre.y)


def _style(scale: float, paper: Paper) -> str:
    """The dimension style of a scale, named as ISO 5455 writes it (paper to part): `scale 1 to 2` is half size.

    What is measured on paper is multiplied to give the part's own measure.
    """
    factor = 1 / scale
    name = (f"scale 1 to {factor:g}" if scale < 1 else f"scale {scale:g} to 1").replace(".", "_")
    styles = paper.file.document.dimstyles
    if name not in styles:
        style = styles.new(name)
        style.dxf.dimlfac = factor
        style.dxf.dimtxsty = LETTERING
        for setting, length in (("dimtxt", LETTER), ("dimasz", ARROW), ("dimexe", OVERSHOOT), ("dimexo", GAP)):
            style.dxf.set(setting, paper.length(length))
        style.dxf.dimse1 = style.dxf.dimse2 = 1
    return name


def _escaped(text: str) -> str:
    """Text as a DIMENSION takes it, where a backslash and braces mean something else."""
    return "".join(f"\\{letter}" if letter in "\\{}" else letter for letter in text)
