"""Sizes of features that are alike are said once and counted: `2x .480` at one of two housings, `2x 20°` at a slot.

In a view, of the features of one kind, only the largest group that has a size by the same formula is gathered; holes
that lean alike and mirror one another about the middle of the part are of one group, and edges of one face that are
worked alike are told together. All others say theirs themselves, so that what has no
dimension of its own belongs to the one that is counted.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from planbook.design.sameness import plain_form
from planbook.dimension.edged import edge_words
from planbook.dimension.measure import Measure, precision_of
from planbook.dimension.model import DimensionKind, Equal
from planbook.shape.kinds import ArcRampShape, ArcSlotShape, EdgeShape, RingSectorShape
from planbook.shape.model import Feature, Part

Group = tuple[Measure, ...]
"""What is gathered together: one linear size, or all that stands in one callout, the line with the count first."""
_LINES = (DimensionKind.DIAMETER, DimensionKind.RADIUS, DimensionKind.NOTE)
_ENDS = ("start_angle", "end_angle")


def gather_equal(part: Part, measures: Sequence[Measure]) -> tuple[Measure, ...]:
    """The measures with equal sizes gathered at the one whose feature's name comes first."""
    alike: dict[tuple[str, ...], list[Group]] = defaultdict(list)
    for group in sorted(_groups(part, measures), key=lambda each: each[0].feature):
        alike[_sort(part, group)].append(group)
    changed: dict[str, Measure | None] = {}
    for groups in alike.values():
        first, *others = max((_largest(part, groups, mirrored=each) for each in (False, True)), key=len)
        changed |= _gathered(part, first, others)
    found = (changed.get(measure.name, measure) for measure in measures)
    return tuple(measure for measure in found if measure is not None)


def _largest(part: Part, groups: Sequence[Group], *, mirrored: bool) -> list[Group]:
    """The most that say the same; with `mirrored` also of features that mirror one another."""
    by_size: dict[object, list[Group]] = defaultdict(list)
    for group in groups:
        by_size[tuple(_said(part, each, mirrored=mirrored) for each in group)].append(group)
    return max(by_size.values(), key=len)


def _groups(part: Part, measures: Sequence[Measure]) -> Iterator[Group]:
    callouts: dict[str, list[Measure]] = defaultdict(list)
    for measure in measures:
        if measure.callout:
            callouts[measure.callout].append(measure)
        elif _is_size(part, measure):
            yield (measure,)
    yield from (tuple(sorted(each, key=lambda line: _LINES.index(line.kind))) for each in callouts.values())


def _is_size(part: Part, measure: Measure) -> bool:
    feature = part.features.get(measure.feature)
    own = feature is not None and (not measure.position or _is_end(feature, measure))
    return own and measure.characteristic != "pitch" and not measure.reference


def _is_end(feature: Feature, measure: Measure) -> bool:
    """Whether it is an angle at an end of a band, from its own centre: as much a part of its shape as its radius.

    In a row or round a centre it belongs to the first band alone, and is not counted.
    """
    alone = feature.count == 1 and isinstance(feature.shape, ArcSlotShape | RingSectorShape | ArcRampShape)
    return alone and measure.characteristic in _ENDS


def _sort(part: Part, group: Group) -> tuple[str, ...]:
    """What features must have in common to be taken for one another: kind, view and, of a linear size, which it is."""
    first = group[0]
    own = f"{part.key}/{first.feature}"
    which = first.callout.removeprefix(own) if first.callout else first.characteristic
    return part.features[first.feature].kind, str(first.view), which


def _said(part: Part, measure: Measure, *, mirrored: bool) -> tuple[object, ...]:
    """All that the sheet says of a size, but for the count that is told at the first line."""
    if mirrored and measure.mirrored is not None:
        return (measure.characteristic, measure.prefix, measure.mirrored.key, precision_of(part, measure))
    formula = plain_form(measure.value.formula) if measure.value else ""
    shape, face = part.features[measure.feature].shape, part.features[measure.feature].face
    suffix = str(face) if isinstance(shape, EdgeShape) else measure.suffix
    words = (measure.characteristic, measure.prefix, suffix, measure.method)
    note = part.features[measure.feature].note if measure.callout else ""
    return (*words, note, formula, precision_of(part, measure))


def _gathered(part: Part, first: Group, others: Sequence[Group]) -> Mapping[str, Measure | None]:
    """The first group's measures, counted for all; the others' are not said any more."""
    found: dict[str, Measure | None] = {each.name: None for group in others for each in group}
    for line, measure in enumerate(first):
        same = [group[line] for group in others]
        also = tuple(Equal(f"{part.key}/{each.name}", each.feature, each.points) for each in same)
        count = measure.count + sum(each.count for each in same) if line == 0 else measure.count
        found[measure.name] = replace(measure, count=count, also=also, suffix=_common_suffix(part, measure, same))
    return found


def _common_suffix(part: Part, measure: Measure, others: Sequence[Measure]) -> str:
    """The words behind the number that hold for all of a group."""
    feature = part.features[measure.feature]
    shapes = [part.features[each.feature].shape for each in (measure, *others)]
    edges = [shape.edge for shape in shapes if isinstance(shape, EdgeShape)]
    if edges:
        return edge_words(measure.characteristic == "radius", feature.face, edges)
    one_way = all(each.suffix == measure.suffix for each in others)
    return measure.suffix if one_way or measure.mirrored is None else measure.mirrored.words
