"""All dimensions of all parts, for one edition."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from planbook.design import Design
from planbook.dimension.blank import blank_measures, outline_measures
from planbook.dimension.cut_in import shoulder_measures
from planbook.dimension.equal import gather_equal
from planbook.dimension.features import feature_measures
from planbook.dimension.level import without_repeats
from planbook.dimension.measure import Measure
from planbook.dimension.model import PartDimension
from planbook.dimension.settling import settle
from planbook.dimension.slanted import in_the_middle
from planbook.dimension.stating import Edition, state
from planbook.dimension.wishes import added, check_wishes, placed, without_hidden
from planbook.measure.systems import Units
from planbook.shape import method_words
from planbook.shape.model import Part
from planbook.source.content import Content
from planbook.source.findings import Finding
from planbook.source.models.dimension import Added


def dimension_parts(
    content: Content, design: Design, parts: Mapping[str, Part], units: Units
) -> tuple[Mapping[str, PartDimension], tuple[Finding, ...]]:
    """Every measure that states each part, by id: blank, outline, then the features in file order."""
    edition = Edition(units, design.drills)
    dimensions: dict[str, PartDimension] = {}
    findings: list[Finding] = []
    for part in parts.values():
        said = [(feature.name, feature.method) for feature in part.features.values()]
        said += [(str(key), wish.method) for key, wish in part.model.dimensions.items()]
        methods = {name: method_words(method, content.parts) for name, method in said if method is not None}
        measures, wishes = measures_of(part, methods)
        findings += wishes
        stated = [state(part, measure, edition) for measure in measures]
        findings += (finding for _, told in stated for finding in told)
        for dimension in settle(part, [dimension for dimension, _ in stated]):
            dimensions[dimension.id] = dimension
    return dimensions, tuple(findings)


def measures_of(part: Part, methods: Mapping[str, str]) -> tuple[tuple[Measure, ...], tuple[Finding, ...]]:
    """The measures of one part, each once and where its file wishes; `methods` are words by feature or measure."""
    cut = [*shoulder_measures(part)]
    for feature in part.features.values():
        own = feature_measures(part, feature, methods.get(feature.name, ""))
        cut += (measure for measure in own if not in_the_middle(part, measure))
    views = {measure.view for measure in cut}
    measures = (*blank_measures(part, views), *outline_measures(part), *cut)
    every = tuple(replace(each, method=methods.get(each.name, each.method)) for each in measures)
    wanted = (*without_hidden(part, every), *added(part, Added.DIMENSION))
    said = (*gather_equal(part, without_repeats(part, wanted)), *added(part, Added.REFERENCE))
    return tuple(placed(part, said)), tuple(check_wishes(part, every, said))
