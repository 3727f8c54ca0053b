"""What to do to a piece, and where its wood goes or is lacking, in the builder's words."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Final

from planbook.dimension.completeness.record import Made, Shape
from planbook.impact.measuring import shared_dimensions
from planbook.impact.model import Spot, Triple, Work
from planbook.impact.sheets import Sheet
from planbook.impact.wood import Piece
from planbook.measure import UNIT_SIGNS, Precision, Quantity, Units, print_quantity
from planbook.measure.dimensionality import LENGTH
from planbook.statement.model import DimensionStated, PartStated
from planbook.statement.naming import dimension_words, feature_words, words

_NM: Final = 1e6
_BLANK = {"length": "trim the length", "width": "trim the width", "thickness": "plane the thickness"}
_LARGER = {"diameter": "enlarge", "depth": "deepen", "width": "widen", "length": "lengthen", "radius": "enlarge"}
_KINDS = {"round_over": "round-over", "end_cut": "end cut", "arc_slot": "arc slot", "ring_sector": "ring sector"}


def changed(old: Sheet, new: Sheet) -> tuple[Work, ...]:
    """The numbers that are others, feature by feature."""
    told: dict[str, list[str]] = {}
    for name in shared_dimensions(old, new):
        before, after = old.dimensions[name], new.dimensions[name]
        if before.printed.value != after.printed.value:
            told.setdefault(after.feature, []).append(f"{dimension_words(name)}: {_read(before)} → {_read(after)}")
    return tuple(Work(feature, "; ".join(said)) for feature, said in told.items())


def works(old: Sheet, new: Sheet, shift: Triple) -> tuple[Work, ...]:
    """What to do, feature by feature: by the numbers that are others and that the old piece does not meet."""
    told: dict[str, list[str]] = {}
    spoken: set[str] = set()
    for name in shared_dimensions(old, new):
        before, after = old.dimensions[name], new.dimensions[name]
        if before.printed.value != after.printed.value and not (_is_place(after) and any(shift)):
            told.setdefault(after.feature, []).append(_change(before, after, new, shift))
            spoken |= {other.feature for other in after.also}
    for name, feature in new.part.features.items():
        earlier = old.part.features.get(name)
        if earlier is None or (
            name not in told and name not in spoken and not any(shift) and earlier.cuts != feature.cuts
        ):
            told.setdefault(name, []).append(f"cut {called(new.part, name)} as on sheet {new.part.sheet}")
    if len(old.part.outline) != len(new.part.outline) or (not told and old.part.outline != new.part.outline):
        told["outline"] = [f"cut the outline as on sheet {new.part.sheet}"]
    return tuple(Work(feature, "; ".join(said)) for feature, said in told.items())


def _change(before: DimensionStated, after: DimensionStated, new: Sheet, shift: Triple) -> str:
    went = f"{_read(before)} → {_read(after)}"
    if after.feature == "blank":
        end = ", at the datum end" if after.axis and shift["xyz".index(after.axis)] else ""
        return f"{_BLANK.get(after.characteristic, words(after.characteristic))}: {went}{end}"
    verb = _LARGER.get(after.characteristic, "")
    if verb and after.printed.value > before.printed.value:
        return f"{verb} {called(new.part, after.feature)}: {went}"
    return f"{dimension_words(after.id)}: {went}"


def say_moved(shift: Triple, units: Units) -> str:
    """How far the numbers of all that was cut are others, of a part that was moved as a whole."""
    ways = [
        f"{_length(abs(way), units)} {UNIT_SIGNS[units]} {'more' if way > 0 else 'less'} along {axis}"
        for axis, way in zip("xyz", shift, strict=True)
        if way
    ]
    return (
        f"what is cut keeps its place in the wood: measured from the new end it is {' and '.join(ways)}" if ways else ""
    )


def units_of(sheet: Sheet) -> Units:
    """Those of its printed numbers."""
    return Units.INCH if any(each.printed.unit == "in" for each in sheet.dimensions.values()) else Units.MILLIMETRE


def _is_place(dimension: DimensionStated) -> bool:
    return dimension.characteristic in ("x", "y", "z", "end_x", "end_y")


def called(part: PartStated, name: str) -> str:
    """`hole pivot`; a feature that is called what it is only once: `well opening`."""
    feature = part.features.get(name)
    kind = _KINDS.get(feature.kind, words(feature.kind)) if feature else ""
    said = feature_words(name)
    return said if not kind or kind in said else f"{kind} {said}"


def _read(dimension: DimensionStated) -> str:
    unit = dimension.printed.unit
    return f"{dimension.prefix}{dimension.printed.text}{unit if unit == '°' else f' {unit}' if unit else ''}"


def spots(pieces: Iterable[Piece], sheet: Sheet, verb: str) -> tuple[Spot, ...]:
    """Pieces with the feature of the sheet's part that they belong to."""
    return tuple(_spot(each, sheet, verb) for each in pieces)


def _spot(piece: Piece, sheet: Sheet, verb: str) -> Spot:
    feature = _owner(piece, sheet.printed)
    units = units_of(sheet)
    whose = "the blank's edge" if feature == "blank" else called(sheet.part, feature)
    ranges = ", ".join(
        f"{axis} {_length(low, units)} to {_length(high, units)}"
        for axis, low, high in zip("xyz", piece.low, piece.high, strict=True)
    )
    words_ = f"wood {verb} {whose}, {ranges} {UNIT_SIGNS[units]}"
    return Spot(feature, piece.volume, piece.low, piece.high, piece.thickness, words_)


def _length(millimetres: float, units: Units) -> str:
    return print_quantity(Quantity(millimetres * _NM, LENGTH), units, Precision.WOODWORK).text


def _owner(piece: Piece, shape: Shape) -> str:
    """The feature whose cuts reach round a piece; of several the smallest; else the blank."""
    middle = [(low + high) / 2 * _NM for low, high in zip(piece.low, piece.high, strict=True)]
    found = [
        (sum(high - low for low, high in box), name)
        for name, feature in shape.features.items()
        for box in _boxes(feature)
        if all(low - _NM / 2 <= at <= high + _NM / 2 for at, (low, high) in zip(middle, box, strict=True))
    ]
    return min(found)[1] if found else "blank"


def _boxes(feature: Made) -> Iterator[list[tuple[float, float]]]:
    """The boxes of what it cuts, in nanometres."""
    for cut in feature.cuts:
        points = [
            cut.frame.place(point, depth)
            for side in cut.loop
            for point in _reached(side.start, side.end, side.centre)
            for depth in (0.0, cut.depth)
        ]
        yield [(min(values), max(values)) for values in zip(*points, strict=True)]


def _reached(
    start: tuple[float, float], end: tuple[float, float], centre: tuple[float, float] | None
) -> tuple[tuple[float, float], ...]:
    """The ends of a side; of an arc the square about its whole circle, which is never too small."""
    if centre is None:
        return start, end
    radius = ((start[0] - centre[0]) ** 2 + (start[1] - centre[1]) ** 2) ** 0.5
    return (centre[0] - radius, centre[1] - radius), (centre[0] + radius, centre[1] + radius)
