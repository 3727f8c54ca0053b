"""Hole tables: many holes of one face stated in a table, each recognised by a letter for its kind and a number.

The dimensions are those of the statement, ids and all; only where they stand on the sheet is decided here. A hole joins
if all that states it can be read in a row: both places counted from the datum corner, and a callout of its own or one
that another hole says for it.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import count, product
from typing import Final

from planbook.drawing.wording import Line, dimension_line
from planbook.source.names import LETTERS
from planbook.statement.model import DimensionStated, FeatureStated, PartStated

MANY: Final = 9
"""From so many holes in one view a table is easier to work from than leaders (common practice, no source)."""
CROWDED: Final = 4
"""On a sheet without room for everything, from so many."""
_AXES: Final = {"face": "xy", "back": "xy", "left_end": "yz", "right_end": "yz", "front_edge": "xz", "rear_edge": "xz"}
_SIZES: Final = (
    "diameter", "depth", "counterbore_diameter", "counterbore_depth", "countersink_diameter", "countersink_angle",
)  # fmt: skip
_SAME: Final = 1024.0
"""Nanometres within which two places are level."""

Place = tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class HoleRow:
    """One hole: its tag, centre and a place on its rim (nanometres), and what its two places and its callout say."""

    tag: str
    centre: Place
    rim: Place
    places: tuple[Line, Line]
    sizes: tuple[Line, ...]
    ids: tuple[str, ...]
    """The dimensions that stand in this row and nowhere else."""


@dataclass(frozen=True, slots=True)
class HoleTable:
    """The holes of one view; `axes` are those that the two places are counted along."""

    view: str
    axes: str
    rows: tuple[HoleRow, ...]

    @property
    def ids(self) -> frozenset[str]:
        """All dimensions that stand in the table."""
        return frozenset(name for row in self.rows for name in row.ids)


def hole_tables(part: PartStated, dimensions: Sequence[DimensionStated], least: int = MANY) -> tuple[HoleTable, ...]:
    """A table for every view in which at least so many holes can be stated in one."""
    told = _Told(dimensions)
    by_view: dict[str, list[FeatureStated]] = defaultdict(list)
    for feature in part.features.values():
        if told.is_plain(feature):
            by_view[feature.face].append(feature)
    return tuple(_table(view, holes, told) for view, holes in by_view.items() if len(holes) >= least)


class _Told:
    """The dimensions of a part, looked up by what they say."""

    def __init__(self, dimensions: Sequence[DimensionStated]) -> None:
        self.own: defaultdict[str, list[DimensionStated]] = defaultdict(list)
        self.stations: dict[tuple[str, int], DimensionStated] = {}
        self.said_for: dict[tuple[str, str], DimensionStated] = {}
        for each in dimensions:
            self.own[each.feature].append(each)
            self.said_for |= {(other.feature, each.characteristic): each for other in each.also}
            if _from_datum(each) and not each.reference:
                self.stations.setdefault(_station(each.axis, each.points[1]), each)

    def is_plain(self, feature: FeatureStated) -> bool:
        """Whether a row of a table can say everything of it."""
        if feature.kind != "hole" or feature.count != 1 or feature.around is not None or feature.note:
            return False
        own = self.own[feature.name]
        if not all(_is_plain(each, feature.face) for each in own):
            return False
        places = all(self.place(feature, axis) is not None for axis in _AXES[feature.face])
        return places and bool(self.sizes(feature))

    def place(self, feature: FeatureStated, axis: str) -> DimensionStated | None:
        """Its own place along an axis, or the one that it is drawn level with."""
        own = (each for each in self.own[feature.name] if each.characteristic == axis)
        return next(own, None) or self.stations.get(_station(axis, centre_of(feature)))

    def sizes(self, feature: FeatureStated) -> tuple[DimensionStated, ...]:
        """What its callout says, its own or the one of an equal hole."""
        by_name = {each.characteristic: each for each in self.own[feature.name]}
        found = (by_name.get(name) or self.said_for.get((feature.name, name)) for name in _SIZES)
        return tuple(each for each in found if each is not None)


def _is_plain(each: DimensionStated, face: str) -> bool:
    simple = each.view == face and not each.method and each.id.count("/") == 2
    return simple and (each.characteristic in _SIZES or (each.characteristic in _AXES[face] and _from_datum(each)))


def _from_datum(each: DimensionStated) -> bool:
    if each.kind != "linear" or len(each.points) < 2 or each.count > 1:
        return False
    return abs(each.points[0]["xyz".index(each.axis)]) < _SAME


def _station(axis: str, place: Sequence[float]) -> tuple[str, int]:
    return axis, round(place["xyz".index(axis)] / _SAME)


def centre_of(feature: FeatureStated) -> Place:
    """The centre of a hole in the plane of its first cut."""
    return _in_space(feature, _arc_centre(feature))


def _arc_centre(feature: FeatureStated) -> tuple[float, float]:
    first = feature.cuts[0].loop[0]
    return first.centre or first.start


def _rim(feature: FeatureStated) -> Place:
    return _in_space(feature, feature.cuts[0].loop[0].start)


def _in_space(feature: FeatureStated, at: tuple[float, float]) -> Place:
    frame = feature.cuts[0].frame
    x, y, z = (o + at[0] * u + at[1] * v for o, u, v in zip(frame.origin, frame.u, frame.v, strict=True))
    return x, y, z


def _table(view: str, holes: Sequence[FeatureStated], told: _Told) -> HoleTable:
    """Holes of one kind together, in the order of their places."""
    named, axes = {hole.name for hole in holes}, _AXES[view]
    kinds = {hole.name: tuple((d.characteristic, d.printed.text, d.suffix) for d in told.sizes(hole)) for hole in holes}
    letters = dict(zip(dict.fromkeys(kinds.values()), _names(), strict=False))
    numbers = Counter[str]()
    rows = []
    for hole in sorted(holes, key=lambda each: (list(letters).index(kinds[each.name]), centre_of(each))):
        letter = letters[kinds[hole.name]]
        numbers[letter] += 1
        rows.append(_row(f"{letter}{numbers[letter]}", hole, axes, told, named))
    return HoleTable(view, axes, tuple(rows))


def _names() -> Iterable[str]:
    return ("".join(each) for length in count(1) for each in product(LETTERS, repeat=length))


def _row(tag: str, hole: FeatureStated, axes: str, told: _Told, named: set[str]) -> HoleRow:
    placing = [told.place(hole, axis) for axis in axes]
    first, second = (_cell(each, hole) for each in placing if each is not None)
    sizes = tuple(_cell(each, hole, named) for each in told.sizes(hole))
    own = tuple(each.id for each in told.own[hole.name])
    return HoleRow(tag, centre_of(hole), _rim(hole), (first, second), sizes, own)


def _cell(each: DimensionStated, hole: FeatureStated, named: set[str] | None = None) -> Line:
    """Its own measure, counted only if it speaks for holes out of the table; another's repeated in brackets."""
    if each.feature != hole.name:
        return replace(dimension_line(replace(each, reference=True), with_count=False), mark="")
    return dimension_line(each, with_count=any(other.feature not in (named or ()) for other in each.also))


def without_tabled(dimensions: Iterable[DimensionStated], tables: Sequence[HoleTable]) -> tuple[DimensionStated, ...]:
    """The dimensions that stand in no table."""
    tabled: Mapping[str, None] = dict.fromkeys(name for table in tables for name in table.ids)
    return tuple(each for each in dimensions if each.id not in tabled)
