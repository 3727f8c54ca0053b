"""Figures: assemblies in their positions, and a hash of what each figure shows."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, fields, is_dataclass

from planbook.design import Design, Plan
from planbook.motion import place_in
from planbook.shape.model import Component, Part
from planbook.source import Door, Refused
from planbook.source.content import Content
from planbook.source.findings import Finding
from planbook.source.models.figures import (
    AnyFigure,
    ChartModel,
    ElevationModel,
    ExplodedModel,
    IsometricModel,
    OfAssemblyModel,
    PartFigureModel,
    PictureModel,
    RowModel,
    StepFigureModel,
    TravelChartModel,
)
from planbook.statement.model import FeatureStated, PartStated
from planbook.statement.staging import Stage
from planbook.statement.stated import ChartData, Row

Components = tuple[Component, ...]


def place_figures(
    content: Content, design: Design, plan: Plan, parts: Mapping[str, Part], standing: Components
) -> tuple[Mapping[str, Components], tuple[Finding, ...]]:
    """The components of each picture of the assembly in its position; `standing` is it with the driver as given."""
    wanted = {
        name: model
        for name, model in content.figures.items()
        if isinstance(model, OfAssemblyModel) and not isinstance(model, RowModel)
    }
    positions = {str(model.position): model.position for model in wanted.values() if model.position is not None}
    placed: dict[str, Components] = {}
    found: list[Finding] = []
    for key, position in positions.items():
        components, findings = place_in(position, content, design, plan, parts)
        placed[key] = components
        found += findings
    return {
        str(name): placed[str(model.position)] if model.position is not None else standing
        for name, model in wanted.items()
    }, tuple(found)


def place_rows(
    content: Content, design: Design, plan: Plan, parts: Mapping[str, Part]
) -> tuple[Mapping[str, Row], tuple[Finding, ...]]:
    """The components of each row of pictures, by figure, in each of its positions."""
    rows: dict[str, Row] = {}
    found: list[Finding] = []
    for name, model in content.figures.items():
        if isinstance(model, RowModel):
            placed = [place_in(position, content, design, plan, parts) for position in model.positions]
            found += (finding for _, findings in placed for finding in findings)
            rows[str(name)] = tuple(
                (str(position), components) for position, (components, _) in zip(model.positions, placed, strict=True)
            )
    return rows, tuple(found)


@dataclass(frozen=True, slots=True)
class Shown:
    """What figures are drawn from. `assemblies`, `rows`, `charts` and `stages` by figure."""

    door: Door
    folder: str
    parts: Mapping[str, PartStated]
    assemblies: Mapping[str, Components]
    rows: Mapping[str, Row]
    charts: Mapping[str, ChartData]
    stages: Mapping[str, Stage]

    def content_of(self, name: str, model: AnyFigure) -> str:
        """SHA-256 of what a figure shows. Empty when it cannot be shown, which is reported where it is read."""
        match model:
            case ElevationModel() | IsometricModel():
                return fingerprint(
                    (model.seen_from, model.label, _names(model.emphasise), self._components(name, model))
                )
            case RowModel():
                return fingerprint((model.seen_from, _names(model.emphasise), self._row(name, model)))
            case ExplodedModel() | StepFigureModel():
                return fingerprint((str(model.seen_from), self._staged(name)))
            case PartFigureModel():
                return self._part(model)
            case PictureModel():
                return self._picture(model)
            case ChartModel() | TravelChartModel():
                return fingerprint(self.charts[name]) if name in self.charts else ""

    def _part(self, model: PartFigureModel) -> str:
        part = self.parts.get(str(model.part))
        if part is None:
            return ""
        heavy = {name: each for name, each in part.features.items() if name in model.emphasise}
        return fingerprint((str(model.view), _cuts(heavy), _solid(part)))

    def _picture(self, model: PictureModel) -> str:
        try:
            return hashlib.sha256(self.door.read_bytes(f"{self.folder}/{model.picture}")).hexdigest()
        except Refused:
            return ""

    def _components(self, name: str, model: OfAssemblyModel) -> object:
        return self._those_shown(self.assemblies[name], model)

    def _row(self, name: str, model: RowModel) -> object:
        return [(position, self._those_shown(components, model)) for position, components in self.rows[name]]

    def _those_shown(self, components: Components, model: OfAssemblyModel) -> object:
        shown = [each for each in components if model.show is None or each.name in model.show]
        return [_component(each, self.parts, model.label) for each in sorted(shown, key=lambda each: each.name)]

    def _staged(self, name: str) -> object:
        """What stands on a stage, with the ways that it is moved."""
        stage = self.stages[name]
        shown = sorted((each for each in self.assemblies[name] if each.name in stage.show), key=lambda each: each.name)
        components = [_component(each, self.parts, each.name in stage.labelled) for each in shown]
        return sorted(stage.emphasise), stage.moves, components


def _names(names: Iterable[str]) -> list[str]:
    return sorted(map(str, names))


def fingerprint(value: object) -> str:
    """SHA-256 of a value. Numbers count to nine digits, so that it does not hang on a machine's last bit."""
    text = json.dumps(_plain(value), ensure_ascii=False, sort_keys=True, separators=(",", ":"))
    return hashlib.sha256(text.encode()).hexdigest()


def _component(component: Component, parts: Mapping[str, PartStated], label: bool) -> object:
    solid = _solid(parts.get(component.part.key)) if component.part is not None else None
    number = component.part.number if component.part is not None and label else None
    rod = (component.rod_radius, component.rod_length, *((component.rod_bore,) if component.rod_bore else ()))
    return component.name, component.placement, solid, number, *rod


def _solid(part: PartStated | None) -> object:
    return None if part is None else (part.size, part.outline, _cuts(part.features))


def _cuts(features: Mapping[str, FeatureStated]) -> list[str]:
    """What features take away, whatever they are called."""
    return sorted(fingerprint(each.cuts) for each in features.values())


def _plain(value: object) -> object:
    if isinstance(value, float):
        return f"{value + 0.0:.9g}"
    if is_dataclass(value) and not isinstance(value, type):
        return {field.name: _plain(getattr(value, field.name)) for field in fields(value)}
    if isinstance(value, Mapping):
        return {str(name): _plain(inner) for name, inner in value.items()}
    return [_plain(inner) for inner in value] if isinstance(value, list | tuple) else value
