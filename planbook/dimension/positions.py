"""Where features are: from the datum borders, or from the feature that the author measured them from."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from planbook.design.values import Tolerance, Value
from planbook.dimension.measure import Measure, Sight, from_datum, linear
from planbook.shape import AXIS_NAMES, FACES, bounds
from planbook.shape.geometry import Arc, Vec
from planbook.shape.kinds import (
    ArcRampShape,
    ArcSlotShape,
    GrooveShape,
    HoleShape,
    RecessShape,
    RingSectorShape,
    SlotShape,
)
from planbook.shape.model import Feature, Origin, Part


def positions(
    part: Part,
    feature: Feature,
    target: Vec,
    at: tuple[Value, Value],
    key: str = "at",
    start: tuple[Value, Value] | None = None,
) -> Iterator[Measure]:
    """Along the face's two axes; `at` is from the datum, `key` its content key.

    An end that shares a formula with its start is left out.
    """
    axes = FACES[feature.face]
    for i, axis in enumerate((axes.u, axes.v)):
        if start is not None and "".join(start[i].formula.split()) == "".join(at[i].formula.split()):
            continue
        characteristic = axes.names[i] if start is None else f"end_{axes.names[i]}"
        name, sight = (feature.name, characteristic), Sight(feature.face, axis)
        origin = feature.origins[key][i] if key in feature.origins else None
        if origin is None:
            yield from_datum(part, sight, target, name, at[i])
        elif origin.feature in part.features:
            yield _from_feature(part, sight, target, name, at[i], origin)


def _from_feature(part: Part, sight: Sight, target: Vec, name: tuple[str, str], at: Value, origin: Origin) -> Measure:
    """From the first of the other feature; the author's own formula is its provenance, whichever way it leads."""
    other = part.features[origin.feature]
    measure = linear(part, sight, (place_of(other), target), name, _as_distance(origin.value))
    stations = (start_of(other, sight.axis).formula, at.formula)
    return replace(measure, second=other.name, position=True, stations=stations)


def _as_distance(value: Value) -> Value:
    """A place on the datum's side of the other feature is written as a negative measure and printed without sign."""
    if value.number >= 0:
        return value
    tolerance = value.tolerance and Tolerance(value.tolerance.minus, value.tolerance.plus)
    return replace(value, quantity=replace(value.quantity, value=-value.number), tolerance=tolerance)


def start_of(feature: Feature, axis: int) -> Value:
    """Where the place of a feature is along an axis of its face, from the datum: see `place_of`."""
    shape, axes = feature.shape, FACES[feature.face]
    if isinstance(shape, GrooveShape):
        runs = shape.along == AXIS_NAMES[axis]
        assert shape.start is not None or not runs
        return shape.start if runs and shape.start is not None else shape.at
    assert isinstance(shape, HoleShape | SlotShape | RecessShape | ArcSlotShape | RingSectorShape | ArcRampShape)
    pair = shape.start if isinstance(shape, SlotShape) else shape.at
    return pair[(axes.u, axes.v).index(axis)]


def can_be_placed(feature: Feature, axis: int) -> bool:
    """Whether `start_of` and `place_of` say where it is along an axis of the part."""
    axes, shape = FACES[feature.face], feature.shape
    if axis not in (axes.u, axes.v):
        return False
    if isinstance(shape, GrooveShape):
        return shape.along != AXIS_NAMES[axis] or shape.start is not None
    return isinstance(shape, HoleShape | SlotShape | RecessShape | ArcSlotShape | RingSectorShape | ArcRampShape)


def place_of(feature: Feature, repeat: int = 0) -> Vec:
    """What is measured to and from: the centre of a hole, of a slot's start, the corner nearest the datum of others.

    Of what turns about a centre it is that centre. `repeat` counts along a row.
    """
    each = len(feature.first)
    cut = feature.cuts[repeat * each]
    turning = cut.loop.segments[0]
    if feature.ring is not None:
        return cut.frame.place(feature.ring.centre)
    if isinstance(feature.shape, ArcSlotShape | RingSectorShape | ArcRampShape) and isinstance(turning, Arc):
        return cut.frame.place(turning.centre)
    if isinstance(feature.shape, HoleShape | SlotShape):
        arcs = [segment for segment in cut.loop.segments if isinstance(segment, Arc)]
        return cut.frame.place(arcs[-1].centre, cut.lift)
    return cut.frame.place(bounds(cut.loop)[0])
