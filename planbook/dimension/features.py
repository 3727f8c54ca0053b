"""The measures of a feature of any kind, with those of its row and the words of its method."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from typing import Any

from planbook.dimension.around import arc_ramp_measures, arc_slot_measures, circle_measures, ring_sector_measures
from planbook.dimension.bored import slot_measures
from planbook.dimension.cut_in import (
    groove_measures,
    rabbet_measures,
    recess_measures,
    tenon_measures,
)
from planbook.dimension.edged import edge_measures
from planbook.dimension.measure import FINE, FINEST_ANGLE, Measure, Sight, across, linear
from planbook.dimension.model import DimensionKind
from planbook.dimension.positions import place_of, start_of
from planbook.dimension.slanted import bored_measures, end_cut_measures, round_tenon_measures, turned_measures
from planbook.dimension.sloped import pocket_measures, ramp_measures, taper_measures
from planbook.shape import FACES
from planbook.shape.kinds import (
    ArcRampShape,
    ArcSlotShape,
    EdgeShape,
    EndCutShape,
    FeatureShape,
    GrooveShape,
    HoleShape,
    PocketShape,
    RabbetShape,
    RampShape,
    RecessShape,
    RingSectorShape,
    RoundTenonShape,
    SlotShape,
    TaperShape,
    TenonShape,
    TurnedShape,
)
from planbook.shape.model import Feature, Part, Row
from planbook.source.models.part import FaceName


def feature_measures(part: Part, feature: Feature, method: str) -> tuple[Measure, ...]:
    """Everything that states one feature. The method stands once, at the callout or the first size."""
    every = (*_MEASURES[type(feature.shape)](part, feature, feature.shape), *circle_measures(part, feature))
    measures = [measure for measure in every if not _empty(measure)]
    if feature.row is not None:
        view = next((each.view for each in measures if each.axis == feature.row.along), feature.face)
        measures.append(_pitch(part, feature, feature.row, view))
    if method:
        measures = _with_method(measures, method)
    return tuple(replace(measure, precision=feature.precision) for measure in measures)


_MEASURES: dict[type[FeatureShape], Callable[[Part, Feature, Any], Iterator[Measure]]] = {
    HoleShape: bored_measures,
    SlotShape: slot_measures,
    GrooveShape: groove_measures,
    RabbetShape: rabbet_measures,
    RecessShape: recess_measures,
    TenonShape: tenon_measures,
    RoundTenonShape: round_tenon_measures,
    TurnedShape: turned_measures,
    EndCutShape: end_cut_measures,
    ArcSlotShape: arc_slot_measures,
    RingSectorShape: ring_sector_measures,
    ArcRampShape: arc_ramp_measures,
    PocketShape: pocket_measures,
    TaperShape: taper_measures,
    RampShape: ramp_measures,
    EdgeShape: edge_measures,
}


def _empty(measure: Measure) -> bool:
    """A position on the datum border, or an angle along the axis, needs no dimension."""
    least = {DimensionKind.LINEAR: FINE, DimensionKind.ANGLE: FINEST_ANGLE}.get(measure.kind, 0.0)
    return measure.nominal < least


def _pitch(part: Part, feature: Feature, row: Row, view: FaceName) -> Measure:
    """From the first of a row to the second, for all its spaces."""
    axes = FACES[feature.face]
    axis = (axes.u, axes.v)[axes.names.index(row.along)]
    ends = (place_of(feature), place_of(feature, 1))
    measure = linear(part, Sight(view, axis), ends, (feature.name, "pitch"), row.pitch)
    return replace(across(measure, start_of(feature, axis), row.pitch), count=row.count - 1)


def _with_method(measures: list[Measure], method: str) -> list[Measure]:
    """Marked at the leader where there is one, else at the first size of the feature."""
    head = next((i for i, each in enumerate(measures) if each.callout), None)
    if head is None:
        positions = ("x", "y", "z")
        head = next((i for i, each in enumerate(measures) if each.characteristic not in positions), 0)
    return [replace(each, method=method) if i == head else each for i, each in enumerate(measures)]
