"""All dimensions of all parts, for one edition."""

from __future__ import annotations

from collections.abc import Mapping
from difflib import get_close_matches

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
from planbook.source.findings import Finding, Severity
from planbook.source.models.part import Method, MethodModel

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
        methods = {}
        for feature in part.features.values():
            methods[feature.name], found = _method(content, part, feature)
            findings += found
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


def _method(content: Content, part: Part, feature: Feature) -> tuple[str, tuple[Finding, ...]]:
    """The method in words; empty with a finding when it names no part, or one that is not there."""
    method = feature.method
    if method is None or method.how is Method.TO_NUMBER:
        return "", ()
    words = _WORDS[method.how]
    if method.how is Method.OVERSIZE_THEN_TRIM:
        return words, ()
    if method.part is not None and method.part in content.parts:
        return f"{words} {content.parts[method.part].number}", ()
    return "", (_no_part(content, part, feature, method),)


def _no_part(content: Content, part: Part, feature: Feature, method: MethodModel) -> Finding:
    if method.part is None:
        return Finding(
            "method-without-part",
            Severity.STOP,
            f"`{feature.name}` is {method.how.value.replace('_', ' ')} another part, but does not say which",
            "Add `part:` to its method.",
            next(name.place for name in part.model.features if name == feature.name),
        )
    near = get_close_matches(method.part, list(content.parts))
    remedy = f"Did you mean {' or '.join(f'`{each}`' for each in near)}?" if near else "Name a file of parts/."
    message = f"there is no part `{method.part}`, with which `{feature.name}` is made"
    return Finding("unknown-part", Severity.STOP, message, remedy, method.part.place)
