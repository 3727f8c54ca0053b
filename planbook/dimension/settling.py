"""What happens to follow from other dimensions of its sheet, by the numbers of one edition, is marked as a reference.

Which dimensions a part has never depends on numbers, so nothing is taken out here: a measure that the formulas keep
apart and the numbers of this edition bring together is printed in brackets, `(500)`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from planbook.dimension.completeness import Implied, SheetRecord, check_sheet
from planbook.dimension.completeness.record import Alike, Made, Plane, Removed, Segment, Shape, Told
from planbook.dimension.model import DimensionKind, PartDimension
from planbook.shape.geometry import Arc, Frame, Loop
from planbook.shape.model import Cut, Part


def settle(part: Part, dimensions: Sequence[PartDimension]) -> tuple[PartDimension, ...]:
    """The same dimensions, with those that follow from others marked; what has a tolerance is marked last of all."""
    shape = _shape(part)
    ordered = sorted(dimensions, key=_rank)
    marked: set[str] = set()
    while True:
        told = tuple(_told(each, each.id in marked) for each in ordered)
        found = {fault.dimension for fault in check_sheet(SheetRecord(shape, told)) if isinstance(fault, Implied)}
        if not found:
            break
        marked |= found
    return tuple(replace(each, reference=True) if each.id in marked else each for each in dimensions)


def _rank(each: PartDimension) -> tuple[bool, bool, bool, bool, str]:
    """Where a size and the radius of its round end say the same, a builder works to the size."""
    rounding = each.kind is DimensionKind.RADIUS and each.characteristic == "radius"
    return each.tolerance is None, each.feature != "blank", not each.caliper, rounding, each.id


def _told(each: PartDimension, marked: bool) -> Told:
    also = tuple(Alike(other.feature, tuple(other.points)) for other in each.also)
    return Told(
        each.id, each.feature, each.characteristic, str(each.kind), each.axis, tuple(each.points), each.nominal,
        each.count, each.suffix, each.reference or marked, also,
    )  # fmt: skip


def _shape(part: Part) -> Shape:
    made = {
        feature.name: Made(
            feature.name,
            tuple(map(_removed, feature.cuts)),
            feature.count,
            feature.kind,
            feature.ring.centre if feature.ring else None,
        )
        for feature in part.features.values()
    }
    x, y, z = part.blank
    return Shape(part.key, part.title, (x, y, z), _segments(part.outline), made)


def _removed(cut: Cut) -> Removed:
    bottom = None if cut.bottom is None else _segments(cut.bottom)
    return Removed(
        _plane(cut.frame),
        _segments(cut.loop),
        cut.depth,
        tuple(_segments(loop) for loop in cut.islands),
        bottom,
        cut.lift,
        cut.climbs,
    )


def _plane(frame: Frame) -> Plane:
    return Plane(frame.origin, frame.u, frame.v, frame.normal)


def _segments(loop: Loop) -> tuple[Segment, ...]:
    return tuple(
        Segment(each.start, each.end, each.centre, each.ccw) if isinstance(each, Arc) else Segment(each.start, each.end)
        for each in loop.segments
    )
