"""What to do to a piece, in the builder's words."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from collections.abc import Set as AbstractSet
from math import isfinite, prod
from typing import Final

from planbook.impact.following import further, is_trimmed, moved_corners
from planbook.impact.measuring import shared_dimensions
from planbook.impact.model import Spot, Triple, Work
from planbook.impact.sheets import Sheet
from planbook.measure import UNIT_SIGNS, Precision, Quantity, Units, print_quantity
from planbook.measure.dimensionality import LENGTH
from planbook.shape.walls import BORDERS
from planbook.statement.model import DimensionStated, PartStated
from planbook.statement.naming import dimension_words, feature_words, with_prefix, words

_NM: Final = 1e6
_CORNERS: Final = 4
_THICKNESS: Final = 2
_BOTH: Final = 0.1
"""Millimetres: a blank that is shorter by so much more than it was moved is trimmed at both ends."""
_FULL: Final = 0.8
"""A piece that fills so much of its box is as deep everywhere as the box."""
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


def works(old: Sheet, new: Sheet, shift: Triple, goes: Iterable[Spot]) -> tuple[Work, ...]:
    """What to do, feature by feature: by the numbers that are others and that the old piece does not meet."""
    told: dict[str, list[str]] = {}
    spoken: set[str] = set()
    jobs = _jobs(old, new, shift, {spot.feature for spot in goes})
    for name in shared_dimensions(old, new):
        before, after = old.dimensions[name], new.dimensions[name]
        if before.printed.value == after.printed.value or (_is_place(after) and any(shift)):
            continue
        if after.feature in jobs or after.feature not in new.part.features:
            told.setdefault(after.feature, []).append(_change(before, after, old, new, shift))
            spoken |= {other.feature for other in after.also}
    for name, feature in new.part.features.items():
        earlier = old.part.features.get(name)
        if earlier is None:
            told.setdefault(name, []).append(f"cut {called(new.part, name)} as on sheet {new.part.sheet}")
        elif name in jobs - told.keys() - spoken and (any(shift) or earlier.cuts != feature.cuts):
            told[name] = [_cut_anew(name, old, new, shift)]
    return tuple(Work(feature, "; ".join(said)) for feature, said in _outlined(told, old, new, shift, tuple(goes)))


def _jobs(old: Sheet, new: Sheet, shift: Triple, taking: AbstractSet[str]) -> AbstractSet[str]:
    """Features of both that are to be cut: of a trimmed part not those that come by themselves with the trim."""
    shared = new.part.features.keys() & old.part.features.keys()
    if not any(shift) and not is_trimmed(old.printed, new.printed):
        return shared
    return {name for name in shared if name in taking or any(further(name, old.printed, new.printed, shift))}


def _cut_anew(name: str, old: Sheet, new: Sheet, shift: Triple) -> str:
    """A feature whose numbers are as they were: how much deeper, where that is all."""
    normals = {cut.frame.normal for cut in new.part.features[name].cuts}
    ways = [(axis, way) for axis, way in enumerate(further(name, old.printed, new.printed, shift)) if way]
    if any(shift) and len(ways) == 1 and isfinite(ways[0][1]) and all(normal[ways[0][0]] for normal in normals):
        units = units_of(new)
        deeper = f"{_length(ways[0][1], units)} {UNIT_SIGNS[units]}"
        return f"deepen {called(new.part, name)} by {deeper}, to its depth on sheet {new.part.sheet}"
    return f"cut {called(new.part, name)} as on sheet {new.part.sheet}"


def _outlined(
    told: Mapping[str, list[str]], old: Sheet, new: Sheet, shift: Triple, goes: Sequence[Spot]
) -> Iterator[tuple[str, list[str]]]:
    """The same with the outline where its corners are others; numbers of a few of them would say less than that."""
    corners = {name for name in told if name.startswith("outline.")}
    moved = moved_corners(old.printed, new.printed, shift)
    others = len(old.part.outline) != len(new.part.outline)
    if not moved and not others and (told or old.part.outline == new.part.outline):
        yield from told.items()
        return
    yield from ((name, said) for name, said in told.items() if name not in corners or len(corners) >= moved)
    where = "" if any(shift) or is_trimmed(old.printed, new.printed) else _places(goes, new)
    yield "outline", [f"cut the outline as on sheet {new.part.sheet}{where}"]


def _places(goes: Sequence[Spot], sheet: Sheet) -> str:
    """`: at 4 places, 2 mm deep`; "" for a single one."""
    cut = [each for each in goes if each.feature in ("blank", "outline")]
    units = units_of(sheet)
    depths = {
        _length(min(_extent(each)[:2]), units) if each.volume > _FULL * prod(_extent(each)) else "" for each in cut
    }
    depth = depths.pop() if len(depths) == 1 else ""
    deep = f", {depth} {UNIT_SIGNS[units]} deep" if depth else ""
    return f": at {len(cut)} places{deep}" if len(cut) > 1 else ""


def _extent(spot: Spot) -> Triple:
    x, y, z = (high - low for low, high in zip(spot.low, spot.high, strict=True))
    return (x, y, z)


def _change(before: DimensionStated, after: DimensionStated, old: Sheet, new: Sheet, shift: Triple) -> str:
    went = f"{_read(before)} → {_read(after)}"
    if after.feature == "blank":
        where = _trimmed_border("xyz".index(after.axis), old, new, shift) if after.axis else ""
        return f"{_BLANK.get(after.characteristic, words(after.characteristic))}: {went}{where and f', at the {where}'}"
    verb = _LARGER.get(after.characteristic, "")
    if verb and after.printed.value > before.printed.value:
        return f"{verb} {called(new.part, after.feature)}: {went}{_alike(before, after, new)}"
    return f"{dimension_words(after.id)}: {went}{_alike(before, after, new)}"


def _alike(before: DimensionStated, after: DimensionStated, sheet: Sheet) -> str:
    """`, and right tongue alike`: features for which the number spoke and speaks."""
    spoke = {each.feature for each in before.also}
    others = dict.fromkeys(each.feature for each in after.also if each.feature in spoke)
    named = [feature_words(name) for name in others if name in sheet.part.features and name != after.feature]
    return f", and {', '.join(named)} alike" if named else ""


def _trimmed_border(axis: int, old: Sheet, new: Sheet, shift: Triple) -> str:
    """Where a blank is trimmed along an axis: "front edge"; "" where it is all one, or not known."""
    near, far = BORDERS[axis]
    shorter = (old.printed.size[axis] - new.printed.size[axis]) / _NM
    if shift[axis] < 0:
        return near if shorter + shift[axis] < _BOTH else f"{near} and the {far}"
    is_plain = not new.part.features and len(new.part.outline) == _CORNERS
    return "" if is_plain or axis == _THICKNESS or shorter <= 0 else far


def say_moved(old: Sheet, new: Sheet, shift: Triple) -> str:
    """Where all else that was cut lies now, of a part that was moved as a whole."""
    units = units_of(new)
    ways = []
    for axis, way in enumerate(shift):
        near = BORDERS[axis][0]
        border = f"trimmed {near}" if _trimmed_border(axis, old, new, shift).startswith(near) else near
        far = (
            f"{_length(abs(way), units)} {UNIT_SIGNS[units]} {'farther from' if way > 0 else 'nearer to'} the {border}"
        )
        ways += [far] if way else []
    return f"leave all else that is cut as it is: it lies {' and '.join(ways)}" if ways else ""


def units_of(sheet: Sheet) -> Units:
    """Those of its printed numbers."""
    return Units.INCH if any(each.printed.unit == "in" for each in sheet.dimensions.values()) else Units.MILLIMETRE


def _is_place(dimension: DimensionStated) -> bool:
    return dimension.characteristic in ("x", "y", "z", "end_x", "end_y")


def called(part: PartStated, name: str, kind_first: bool = True) -> str:
    """`hole pivot`, or `pivot hole`; a feature that is called what it is only once: `well opening`."""
    feature = part.features.get(name)
    kind = _KINDS.get(feature.kind, words(feature.kind)) if feature else ""
    said = feature_words(name)
    if not kind or kind in said:
        return said
    return f"{kind} {said}" if kind_first else f"{said} {kind}"


def _read(dimension: DimensionStated) -> str:
    unit = dimension.printed.unit
    number = f"{dimension.printed.text}{unit if unit == '°' else f' {unit}' if unit else ''}"
    return with_prefix(dimension.prefix, number)


def _length(millimetres: float, units: Units) -> str:
    return print_quantity(Quantity(millimetres * _NM, LENGTH), units, Precision.WOODWORK).text
