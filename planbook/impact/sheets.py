"""A sheet as one statement has it: the part, its printed numbers and limits, and the shapes that numbers describe."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from functools import cached_property

from planbook.dimension.audit import Coordinate, Number, rebuild
from planbook.dimension.audit.record import Lettering
from planbook.dimension.completeness.record import Alike, Made, Plane, Removed, Segment, Shape, SheetRecord, Told
from planbook.dimension.told import told_shape
from planbook.impact.limits import Band, General, band_of, general_of
from planbook.statement.model import (
    CutStated,
    DimensionStated,
    FrameStated,
    PartStated,
    SegmentStated,
    Statement,
)


@dataclass(frozen=True)
class Sheet:
    """What one sheet tells of its part. `dimensions` are those that count: not the ones for reference."""

    part: PartStated
    dimensions: Mapping[str, DimensionStated]
    general: General
    references: Iterable[DimensionStated] = ()
    edged: bool = False
    """Whether an edge of it gets a strip."""

    @cached_property
    def numbers(self) -> Mapping[str, Number]:
        """The printed numbers by dimension."""
        return {name: _number(each) for name, each in self.dimensions.items()}

    @cached_property
    def bands(self) -> Mapping[str, Band]:
        """The printed limits by dimension."""
        return {
            name: band_of(each, self.numbers[name], self.part, self.general) for name, each in self.dimensions.items()
        }

    @cached_property
    def record(self) -> SheetRecord:
        """As completeness and audit read it."""
        return SheetRecord(shape_of(self.part), tuple(map(_told, (*self.dimensions.values(), *self.references))))

    @cached_property
    def _coordinates(self) -> tuple[Coordinate, ...]:
        return rebuild(self.record, self.numbers)

    @cached_property
    def printed(self) -> Shape:
        """The shape that its printed numbers describe."""
        return self.shape({})

    def shape(self, values: Mapping[str, float]) -> Shape:
        """The shape that its printed numbers describe, and in the place of some other `values` by dimension."""
        off = {name: values.get(name, each.printed.value) - each.nominal for name, each in self.dimensions.items()}
        return told_shape(self.record.part, self._coordinates, off) if any(off.values()) else self.record.part


class Sheets:
    """The sheets of a statement, by part."""

    def __init__(self, statement: Statement) -> None:
        self.parts: Mapping[str, PartStated] = statement.parts
        self._general: General = general_of(statement.plan_set)
        self._dimensions: dict[str, dict[str, DimensionStated]] = {}
        self._references: dict[str, list[DimensionStated]] = {}
        self._edged = frozenset(row.id for row in statement.lists.get("cutting", ()) if row.cells.get("Edges"))
        for name, each in statement.dimensions.items():
            if each.reference:
                self._references.setdefault(each.part, []).append(each)
            else:
                self._dimensions.setdefault(each.part, {})[name] = each

    def of(self, key: str) -> Sheet:
        """That of a part. Raises KeyError for one that the statement has not."""
        dimensions, references = self._dimensions.get(key, {}), self._references.get(key, ())
        return Sheet(self.parts[key], dimensions, self._general, references, key in self._edged)


def _number(each: DimensionStated) -> Number:
    printed = Lettering(each.printed.text, each.printed.value, each.printed.unit)
    return Number(
        each.id, each.kind, each.characteristic, each.nominal, printed, each.upper, each.lower, each.caliper,
        each.reference,
    )  # fmt: skip


def _told(each: DimensionStated) -> Told:
    return Told(
        id=each.id,
        feature=each.feature,
        characteristic=each.characteristic,
        kind=each.kind,
        axis=each.axis,
        points=each.points,
        nominal=each.nominal,
        count=each.count,
        suffix=each.suffix,
        reference=each.reference,
        also=tuple(Alike(other.feature, other.points) for other in each.also),
    )


def shape_of(part: PartStated) -> Shape:
    """A part as it was drawn."""
    features = {
        name: Made(each.name, tuple(_removed(cut) for cut in each.cuts), each.count, each.kind, each.around)
        for name, each in part.features.items()
    }
    return Shape(part.key, part.title, part.size, _loop(part.outline), features)


def _removed(cut: CutStated) -> Removed:
    frame = Plane(cut.frame.origin, cut.frame.u, cut.frame.v, cut.frame.normal)
    islands = tuple(_loop(island) for island in cut.islands)
    bottom = None if cut.bottom is None else _loop(cut.bottom)
    return Removed(frame, _loop(cut.loop), cut.depth, islands, bottom, cut.lift, cut.climbs)


def _loop(loop: tuple[SegmentStated, ...]) -> tuple[Segment, ...]:
    return tuple(Segment(each.start, each.end, each.centre, each.ccw) for each in loop)


def told_part(sheet: Sheet) -> PartStated:
    """The part with the shape that its printed numbers describe."""
    shape = sheet.printed
    features = {
        name: replace(
            each, cuts=tuple(_cut(cut) for cut in shape.features[name].cuts), around=shape.features[name].around
        )
        for name, each in sheet.part.features.items()
    }
    return replace(sheet.part, size=shape.size, outline=_stated(shape.outline), features=features)


def _cut(cut: Removed) -> CutStated:
    frame = FrameStated(cut.frame.origin, cut.frame.u, cut.frame.v, cut.frame.normal)
    islands = tuple(_stated(island) for island in cut.islands)
    bottom = None if cut.bottom is None else _stated(cut.bottom)
    return CutStated(frame, _stated(cut.loop), cut.depth, islands, bottom, cut.lift, cut.climbs)


def _stated(loop: tuple[Segment, ...]) -> tuple[SegmentStated, ...]:
    return tuple(SegmentStated(each.start, each.end, each.centre, each.ccw) for each in loop)
