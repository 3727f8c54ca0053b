"""What a drawing shows in one line is not said twice: a place that other dimensions of the sheet fix already.

Two places are one when the author's formulas say so in every edition, never because two numbers happen to be equal:
which dimensions a part has does not depend on values.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Sequence
from dataclasses import dataclass, field, replace

from planbook.design.sameness import plain_form
from planbook.dimension.measure import Measure, precision_of
from planbook.measure.systems import Precision
from planbook.shape.model import Part
from planbook.source.models.part import FaceName

Station = tuple[str, str]
"""An axis or a centre, and the plain form of the formula of a place along or about it."""


def without_repeats(part: Part, measures: Sequence[Measure]) -> tuple[Measure, ...]:
    """The measures without positions and pitches that others fix.

    A repeat is left out where its feature lies in the same face as something that ends at the same place, for there
    the drawing shows the two in one line. In another face it stays, for reference.
    """
    stations, rows = _Stations(), defaultdict[tuple[str, ...], set[FaceName]](set)
    told: dict[str, Measure] = {}
    origins = {measure.second for measure in measures}
    for measure in sorted(measures, key=lambda each: (_rank(part, each, origins), each.name)):
        seen_in, face = _repeated_in(measure, stations, rows), _face(part, measure)
        if seen_in and not measure.method:
            if face in seen_in:
                continue
            told[measure.name] = replace(measure, reference=True)
        else:
            told[measure.name] = measure
        _note(measure, face, stations, rows)
    return tuple(told[measure.name] for measure in measures if measure.name in told)


_SPACES = ("pitch", "step_angle")
"""What tells the spaces of a row, and of a pattern round a centre."""


@dataclass(slots=True)
class _Stations:
    """Places that dimensions fix to one another, and the faces of what ends at each."""

    faces: defaultdict[Station, set[FaceName]] = field(default_factory=lambda: defaultdict(set))
    _leads: dict[Station, Station] = field(default_factory=dict)

    def first(self, station: Station) -> Station:
        """One place that stands for all that are fixed to this one."""
        while station in self._leads:
            station = self._leads[station]
        return station

    def join(self, ends: tuple[Station, Station], face: FaceName) -> None:
        """Note that a dimension of a feature in a face lies between the two."""
        first, last = (self.first(end) for end in ends)
        if first != last:
            self._leads[first] = last
        for end in ends:
            self.faces[end].add(face)


def _rank(part: Part, measure: Measure, origins: Collection[str]) -> tuple[bool, ...]:
    """What is told before what: sizes, then what the author measured from a feature, fine work, features that others
    are measured from, any features, the corners of the outline; of each a place before an end."""
    return (
        measure.position,
        not measure.second,
        precision_of(part, measure) is not Precision.CALIPER,
        measure.feature not in origins,
        measure.feature not in part.features,
        measure.characteristic not in ("x", "y", "z"),
    )


def _ends(measure: Measure) -> tuple[Station, Station] | None:
    if measure.stations is None:
        return None
    start, end = (plain_form(formula) for formula in measure.stations)
    along = measure.axis or measure.about
    return (along, start), (along, end)


def _row(measure: Measure) -> tuple[str, ...] | None:
    """What rows that stand side by side have in common: axis or centre, first place, pitch and count."""
    ends = _ends(measure)
    if measure.characteristic not in _SPACES or ends is None:
        return None
    return (*ends[0], ends[1][1], str(measure.count))


def _repeated_in(
    measure: Measure, stations: _Stations, rows: defaultdict[tuple[str, ...], set[FaceName]]
) -> set[FaceName]:
    """The faces of what says the same already; empty for a size, or for something new."""
    row, ends = _row(measure), _ends(measure)
    if row is not None:
        return rows[row]
    if not measure.position or ends is None or stations.first(ends[0]) != stations.first(ends[1]):
        return set()
    return stations.faces[ends[1]]


def _note(
    measure: Measure, face: FaceName, stations: _Stations, rows: defaultdict[tuple[str, ...], set[FaceName]]
) -> None:
    row, ends = _row(measure), _ends(measure)
    if row is not None:
        rows[row].add(face)
    if ends is not None:
        stations.join(ends, face)


def _face(part: Part, measure: Measure) -> FaceName:
    feature = part.features.get(measure.feature)
    return feature.face if feature is not None else FaceName.FACE
