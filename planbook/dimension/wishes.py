"""What a part's file wishes of single dimensions: hidden, added, moved to a view, given a side and a row."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import replace

from planbook.design import Value, nearest
from planbook.design.sameness import same_name
from planbook.dimension.measure import FINE, Measure, Sight, linear, on_view, with_axis
from planbook.dimension.model import DimensionKind
from planbook.dimension.positions import can_be_placed, place_of, start_of
from planbook.measure import Precision, Quantity
from planbook.measure.dimensionality import LENGTH
from planbook.shape import AXIS_NAMES, FACES
from planbook.shape.geometry import Vec
from planbook.shape.model import Part
from planbook.source.findings import Finding, Severity
from planbook.source.models.dimension import Added, Beside, DimensionModel
from planbook.source.models.part import FaceName
from planbook.source.names import listed
from planbook.source.text import Text

_LEVEL = (Beside.ABOVE, Beside.BELOW)
_UPRIGHT = (Beside.LEFT, Beside.RIGHT)
_UP = {FaceName.FRONT_EDGE: 2, FaceName.REAR_EDGE: 2}
"""The part's axis that runs up a view; y in all others."""


def without_hidden(part: Part, measures: Iterable[Measure]) -> tuple[Measure, ...]:
    """The measures but those that are to be left out."""
    hidden = {str(key) for key, wish in part.model.dimensions.items() if wish.hide}
    return tuple(measure for measure in measures if measure.name not in hidden)


def added(part: Part, purpose: Added) -> Iterator[Measure]:
    """The measures that the tool does not take by itself, between two places."""
    for key, wish in part.model.dimensions.items():
        if wish.add is purpose:
            measure = _between(part, key, wish)
            if measure is not None:
                yield replace(measure, reference=purpose is Added.REFERENCE)


def placed(part: Part, measures: Iterable[Measure]) -> Iterator[Measure]:
    """The measures, each where it is wished to stand; a wish that cannot be had is let be."""
    wishes = {str(key): wish for key, wish in part.model.dimensions.items()}
    for measure in measures:
        wish = wishes.get(measure.name)
        if wish is None or not _can_stand(measure, wish):
            yield measure
            continue
        moved = measure if wish.view is None else _moved(part, measure, wish.view)
        yield replace(moved, side=str(wish.side or ""), row=wish.row or 0)


def check_wishes(part: Part, every: Sequence[Measure], said: Sequence[Measure]) -> Iterator[Finding]:
    """Wishes that cannot be had. `every` are all measures, `said` those that are printed."""
    printed = {measure.name: measure for measure in said}
    counted = {other.id.partition("/")[2]: measure.name for measure in said for other in measure.also}
    for key, wish in part.model.dimensions.items():
        name = str(key)
        if wish.add is not None:
            if name not in printed or any(measure.name == name for measure in every):
                yield _not_to_add(part, key, every)
                continue
        elif name not in ({measure.name for measure in every} if wish.hide else {*printed, *counted}):
            if _is_shaped(part, name):
                yield _unknown(part, key, [measure.name for measure in (every if wish.hide else said)])
            continue
        if name in printed and not _can_stand(printed[name], wish):
            yield _not_to_place(key, printed[name], wish)
        elif name in counted and _is_placed(wish):
            message = f"`{key}` has no line of its own: `{counted[name]}` counts it."
            yield _impossible(key, message, f"Say it of `{counted[name]}`.")


def _between(part: Part, key: Text, wish: DimensionModel) -> Measure | None:
    """From the second place of the key to its first along an axis; None if one of them has no place along it."""
    feature, characteristic, *second = str(key).split("/")
    if characteristic not in AXIS_NAMES or not second:
        return None
    axis = AXIS_NAMES.index(characteristic)
    ends = [_place(part, name, axis) for name in (feature, second[0])]
    if ends[0] is None or ends[1] is None:
        return None
    (place, value), (from_place, from_value) = ends[0], ends[1]
    if second[0] == "blank":
        from_place = with_axis(place, axis, from_place[axis])
    view = _view(part, (feature, second[0]), axis) if wish.view is None else wish.view
    if axis not in (FACES[view].u, FACES[view].v) or abs(place[axis] - from_place[axis]) < FINE:
        return None
    distance = _distance(value, from_value, key)
    measure = linear(part, Sight(view, axis), (from_place, place), (feature, characteristic), distance)
    stations = (from_value.formula, value.formula)
    return replace(measure, second=second[0], position=True, stations=stations)


def _place(part: Part, name: str, axis: int) -> tuple[Vec, Value] | None:
    """Where a feature, a corner of the outline, or the far border of the blank is along an axis."""
    if name == "blank":
        return part.blank, part.size[axis]
    vertex = next((each for each in part.vertices if f"outline.{each.name}" == name), None)
    if vertex is not None:
        return (Vec(vertex.at[0].number, vertex.at[1].number, 0.0), vertex.at[axis]) if axis < 2 else None
    feature = part.features.get(name)
    if feature is None or not can_be_placed(feature, axis):
        return None
    return place_of(feature), start_of(feature, axis)


def _view(part: Part, names: Iterable[str], axis: int) -> FaceName:
    """The face of the first of these features that shows the axis."""
    faces = (part.features[name].face for name in names if name in part.features)
    return next((face for face in faces if axis in (FACES[face].u, FACES[face].v)), FaceName.FACE)


def _distance(value: Value, start: Value, key: Text) -> Value:
    """The way from one place to another, as the formulas of both say it."""
    near, far = sorted((start, value), key=lambda each: each.number)
    written = f"{far.formula} - ({near.formula})"
    inputs = tuple(dict.fromkeys((*far.inputs, *near.inputs)))
    fine = Precision.CALIPER in (near.precision, far.precision)
    return Value(
        Quantity(far.number - near.number, LENGTH),
        same_name(written) or written,
        key.place,
        inputs,
        Precision.CALIPER if fine else Precision.WOODWORK,
    )


def _can_stand(measure: Measure, wish: DimensionModel) -> bool:
    """Whether a measure can be shown so: along an axis, in a view that shows it, on a side that its line runs along."""
    if not _is_placed(wish):
        return True
    if measure.kind is not DimensionKind.LINEAR:
        return False
    view, axis = wish.view or measure.view, AXIS_NAMES.index(measure.axis)
    shown = axis in (FACES[view].u, FACES[view].v)
    return shown and (wish.side is None or wish.side in _sides(view, axis))


def _is_placed(wish: DimensionModel) -> bool:
    return wish.view is not None or wish.side is not None or wish.row is not None


def _sides(view: FaceName, axis: int) -> tuple[Beside, ...]:
    return _UPRIGHT if axis == _UP.get(view, 1) else _LEVEL


def _moved(part: Part, measure: Measure, view: FaceName) -> Measure:
    return replace(measure, view=view, points=tuple(on_view(part, view, point) for point in measure.points))


def _is_shaped(part: Part, name: str) -> bool:
    """Whether its feature is there; one that is not has a fault that is reported elsewhere."""
    feature = name.partition("/")[0]
    return feature in part.features or feature not in map(str, part.model.features)


def _unknown(part: Part, key: Text, known: Collection[str]) -> Finding:
    close = nearest(str(key).replace("/", "."), [name.replace("/", ".") for name in known])
    near = [name for name in known if name.replace("/", ".") in close] or list(known)[:3]
    message = f"The sheet of `{part.key}` has no dimension `{key}`."
    return Finding("dimension-unknown", Severity.STOP, message, f"Did you mean {listed(near, 'or')}?", key.place)


def _not_to_add(part: Part, key: Text, every: Sequence[Measure]) -> Finding:
    message = f"`{key}` cannot be added: it does not lead from one place of `{part.key}` to another along an axis."
    places = [name for name in part.features if any(_place(part, name, axis) for axis in range(3))]
    remedy = (
        f"Write `FEATURE/x/FEATURE`, with `y` or `z` as they lie; places are {listed(places[:8], 'and')}, "
        "`outline.CORNER`, and last `blank`, the far border."
    )
    if any(measure.name == str(key) for measure in every):
        message, remedy = f"`{key}` is there without being added.", "Delete `add`."
    return _impossible(key, message, remedy)


def _not_to_place(key: Text, measure: Measure, wish: DimensionModel) -> Finding:
    if measure.kind is not DimensionKind.LINEAR:
        message = f"`{key}` has no dimension line, so it has no view, side or row of its own."
        return _impossible(key, message, "Take them out; a leader finds room by itself.")
    axis = AXIS_NAMES.index(measure.axis)
    view = wish.view or measure.view
    if axis not in (FACES[view].u, FACES[view].v):
        views = [str(each) for each in FaceName if axis in (FACES[each].u, FACES[each].v)]
        return _impossible(key, f"`{key}` does not show in the view `{view}`.", f"It shows in {listed(views, 'and')}.")
    message = f"`{key}` cannot stand at the side `{wish.side}` of the view `{view}`."
    return _impossible(key, message, f"Its line stands {listed(map(str, _sides(view, axis)), 'or')}.")


def _impossible(key: Text, message: str, remedy: str) -> Finding:
    return Finding("dimension-not-possible", Severity.STOP, message, remedy, key.place)
