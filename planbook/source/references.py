"""Names that lead from one content file to another: each must lead somewhere."""

from __future__ import annotations

from collections.abc import Iterator

from planbook.source.buying import check_buying
from planbook.source.content import Content
from planbook.source.door import Door
from planbook.source.findings import Finding, Severity
from planbook.source.known import in_every_market, known, known_parts
from planbook.source.models.assembly import PositionsModel
from planbook.source.models.figures import (
    ChartModel,
    ExplodedModel,
    OfAssemblyModel,
    PartFigureModel,
    PictureModel,
    RowModel,
    StepFigureModel,
    TravelChartModel,
)
from planbook.source.origins import check_origins
from planbook.source.pictures import check_picture
from planbook.source.showing import check_showing
from planbook.source.text import Text


def check_references(content: Content, door: Door) -> tuple[Finding, ...]:
    """Everything that the content alone can decide: parts, stock, hardware, figures, cautions, positions, pictures."""
    return (
        *_check_set(content),
        *_check_parts(content),
        *_check_hardware(content),
        *check_buying(content),
        *_check_assembly(content),
        *_check_steps(content),
        *_check_figures(content, door),
    )


def _check_set(content: Content) -> Iterator[Finding]:
    yield from known("figure-unknown", "figure", [content.plan_set.cover], content.figures, "figures.yaml")
    yield from known("caution-unknown", "caution", content.plan_set.cautions, content.cautions, "cautions.yaml")


def _check_parts(content: Content) -> Iterator[Finding]:
    for key, part in content.parts.items():
        yield from check_origins(key, part.features)
        yield from check_showing(key, part)
        yield from in_every_market("stock-unknown", "stock", content, part.stock)
        methods = [each.method for each in (*part.features.values(), *part.dimensions.values())]
        yield from known_parts(content, [method.part for method in methods if method is not None and method.part])
        if part.edging is not None:
            yield from in_every_market("hardware-unknown", "hardware", content, part.edging.item)


def _check_hardware(content: Content) -> Iterator[Finding]:
    for use in content.hardware.values():
        yield from in_every_market("hardware-unknown", "hardware", content, use.item)
        yield from known_parts(content, use.parts)


def _check_assembly(content: Content) -> Iterator[Finding]:
    if content.assembly is not None:
        parts = [component.part for component in content.assembly.components.values()]
        yield from known_parts(content, [part for part in parts if part is not None])
        rods = [component.rod for component in content.assembly.components.values()]
        for rod in rods:
            if rod is not None and rod.item is not None:
                yield from in_every_market("hardware-unknown", "hardware", content, rod.item)
        components = content.assembly.components
        for each in content.assembly.overlaps.values():
            yield from known("component-unknown", "component", each.between, components, "assembly.yaml")
        for mass in content.assembly.masses.values():
            yield from known(
                "component-unknown", "component", (*(mass.of or ()), *mass.without), components, "assembly.yaml"
            )
    if content.positions is not None:
        for name in content.positions.drivers:
            yield from _known_parameter(content, name)
        yield from _check_travels(content, content.positions)
    yield from _check_rules(content)


def _check_travels(content: Content, positions: PositionsModel) -> Iterator[Finding]:
    components = content.assembly.components if content.assembly is not None else {}
    for travel in positions.travels.values():
        for name in travel.holding:
            yield from _known_parameter(content, name)
        for bearing in travel.bearing.values():
            yield from known("component-unknown", "component", bearing.between, components, "assembly.yaml")
    for guard in positions.guarded.values():
        yield from known("component-unknown", "component", guard.between, components, "assembly.yaml")
    for phase in positions.phases.values():
        if phase.after is not None:
            yield from known("phase-unknown", "phase", [phase.after], positions.phases, "positions.yaml")


def _check_rules(content: Content) -> Iterator[Finding]:
    components = content.assembly.components if content.assembly is not None else {}
    travels = content.positions.travels if content.positions is not None else {}
    for rule in content.rules.values():
        if rule.over is not None:
            yield from known("travel-unknown", "travel", [rule.over], travels, "positions.yaml")
        if rule.clearance is not None:
            yield from known("component-unknown", "component", rule.clearance.between, components, "assembly.yaml")


def _check_steps(content: Content) -> Iterator[Finding]:
    for step in content.steps:
        yield from known_parts(content, step.head.parts)
        if step.head.glue_up is not None:
            yield from known_parts(content, step.head.glue_up.order)
        yield from known("caution-unknown", "caution", step.head.cautions, content.cautions, "cautions.yaml")


def _check_figures(content: Content, door: Door) -> Iterator[Finding]:
    for name, figure in content.figures.items():
        match figure:
            case OfAssemblyModel():
                yield from _check_of_assembly(content, name, figure)
            case PartFigureModel():
                yield from known_parts(content, [figure.part])
                if figure.part in content.parts:
                    features = content.parts[figure.part].features
                    yield from known("feature-unknown", "feature", figure.emphasise, features, f"`{figure.part}`")
            case PictureModel():
                yield from check_picture(door, content.folder, figure.picture)
                yield from known_parts(content, figure.shows.parts if figure.shows else ())
            case ChartModel():
                yield from _known_parameter(content, figure.chart)
            case TravelChartModel():
                yield from _check_travel_chart(content, figure)


def _check_travel_chart(content: Content, figure: TravelChartModel) -> Iterator[Finding]:
    travels = content.positions.travels if content.positions is not None else {}
    components = content.assembly.components if content.assembly is not None else {}
    yield from known("travel-unknown", "travel", [figure.travel], travels, "positions.yaml")
    for curve in figure.curves:
        yield from known("component-unknown", "component", curve.clearance or (), components, "assembly.yaml")


def _check_of_assembly(content: Content, name: Text, figure: OfAssemblyModel) -> Iterator[Finding]:
    if content.assembly is None:
        yield Finding(
            "assembly-missing",
            Severity.STOP,
            "The figure shows the assembly, and there is no assembly.yaml.",
            "Write assembly.yaml, or show a part instead: `part: NAME`.",
            name.place,
        )
        return
    moved = [each for apart in figure.apart for each in apart.move] if isinstance(figure, ExplodedModel) else []
    named = (*(figure.show or ()), *figure.emphasise, *moved)
    yield from known("component-unknown", "component", named, content.assembly.components, "assembly.yaml")
    if isinstance(figure, StepFigureModel):
        yield from known("step-unknown", "step", [figure.step], [step.key for step in content.steps], "steps/")
    wanted = figure.positions if isinstance(figure, RowModel) else ()
    if figure.position is not None:
        wanted = (figure.position,)
    if wanted:
        positions = content.positions.positions if content.positions is not None else {}
        yield from known("position-unknown", "position", wanted, positions, "positions.yaml")


def _known_parameter(content: Content, name: Text) -> Iterator[Finding]:
    yield from known("parameter-unknown", "parameter", [name], content.parameters, "parameters.yaml")
