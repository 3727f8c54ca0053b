"""All dimensions of all parts, for one edition."""

from __future__ import annotations

from collections.abc import Mapping

from planbook.design import Design
from planbook.dimension.blank import blank_measures, outline_measures
from planbook.dimension.cut_in import shoulder_measures
from planbook.dimension.features import feature_measures
from planbook.dimension.measure import Measure
from planbook.dimension.model import PartDimension
from planbook.dimension.stating import Edition, state
from planbook.measure.systems import Units
from planbook.shape.model import Feature, Part
from planbook.source.content import Content
from planbook.source.findings import Finding
from planbook.source.models.part import Method

_WORDS = {
    Method.TO_NUMBER: "",
    Method.OVERSIZE_THEN_TRIM: "cut oversize, then trim",
    Method.MARKED_FROM: "marked from part",
    Method.DRILLED_WITH: "drilled with part",
}


def dimension_parts(
    content: Content, design: Design, parts: Mapping[str, Part], units: Units
) -> tuple[Mapping[str, PartDimension], tuple[Finding, ...]]:
    """Every measure that states each part, by id: blank, outline, then the features in file order."""
    edition = Edition(units, design.drills)
    dimensions: dict[str, PartDimension] = {}
    findings: list[Finding] = []
    for part in parts.values():
        methods = {feature.name: _method(content, feature) for feature in part.features.values()}
        for measure in measures_of(part, methods):
            dimension, told = state(part, measure, edition)
            dimensions[dimension.id] = dimension
            findings += told
    return dimensions, tuple(findings)


def measures_of(part: Part, methods: Mapping[str, str]) -> tuple[Measure, ...]:
    """The measures of one part; `methods` are words by feature name."""
    cut = [*shoulder_measures(part)]
    for feature in part.features.values():
        cut += feature_measures(part, feature, methods[feature.name])
    views = {measure.view for measure in cut}
    return (*blank_measures(part, views), *outline_measures(part), *cut)


def _method(content: Content, feature: Feature) -> str:
    """The method in words. A part that does not exist is found when the content is read."""
    method = feature.method
    if method is None:
        return ""
    other = content.parts.get(method.part) if method.part is not None else None
    return " ".join(filter(None, (_WORDS[method.how], str(other.number) if other else "")))
