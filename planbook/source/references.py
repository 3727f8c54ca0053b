"""Names that lead from one content file to another: each must lead somewhere."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from planbook.source.content import Content
from planbook.source.door import Door
from planbook.source.findings import Finding, Severity
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
from planbook.source.names import choice_remedy
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
        *_check_assembly(content),
        *_check_steps(content),
        *_check_figures(content, door),
    )


def _check_set(content: Content) -> Iterator[Finding]:
    yield from _known("figure-unknown", "figure", [content.plan_set.cover], content.figures, "figures.yaml")
    yield from _known("caution-unknown", "caution", content.plan_set.cautions, content.cautions, "cautions.yaml")


def _check_parts(content: Content) -> Iterator[Finding]:
    for key, part in content.parts.items():
        yield from check_origins(key, part.features)
        yield from check_showing(key, part)
        yield from _in_every_market("stock-unknown", "stock", content, part.stock)
        methods = [each.method for each in (*part.features.values(), *part.dimensions.values())]
        yield from _known_parts(content, [method.part for method in methods if method is not None and method.part])


def _check_hardware(content: Content) -> Iterator[Finding]:
    for use in content.hardware.values():
        yield from _in_every_market("hardware-unknown", "hardware", content, use.item)
        yield from _known_parts(content, use.parts)


def _check_assembly(content: Content) -> Iterator[Finding]:
    if content.assembly is not None:
        parts = [component.part for component in content.assembly.components.values()]
        yield from _known_parts(content, [part for part in parts if part is not None])
        components = content.assembly.components
        for each in content.assembly.overlaps.values():
            yield from _known("component-unknown", "component", each.between, components, "assembly.yaml")
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
            yield from _known("component-unknown", "component", bearing.between, components, "assembly.yaml")
    for guard in positions.guarded.values():
        yield from _known("component-unknown", "component", guard.between, components, "assembly.yaml")
    for phase in positions.phases.values():
        if phase.after is not None:
            yield from _known("phase-unknown", "phase", [phase.after], positions.phases, "positions.yaml")


def _check_rules(content: Content) -> Iterator[Finding]:
    components = content.assembly.components if content.assembly is not None else {}
    travels = content.positions.travels if content.positions is not None else {}
    for rule in content.rules.values():
        if rule.over is not None:
            yield from _known("travel-unknown", "travel", [rule.over], travels, "positions.yaml")
        if rule.clearance is not None:
            yield from _known("component-unknown", "component", rule.clearance.between, components, "assembly.yaml")


def _check_steps(content: Content) -> Iterator[Finding]:
    for step in content.steps:
        yield from _known_parts(content, step.head.parts)
        if step.head.glue_up is not None:
            yield from _known_parts(content, step.head.glue_up.order)
        yield from _known("caution-unknown", "caution", step.head.cautions, content.cautions, "cautions.yaml")


def _check_figures(content: Content, door: Door) -> Iterator[Finding]:
    for name, figure in content.figures.items():
        match figure:
            case OfAssemblyModel():
                yield from _check_of_assembly(content, name, figure)
            case PartFigureModel():
                yield from _known_parts(content, [figure.part])
                if figure.part in content.parts:
                    features = content.parts[figure.part].features
                    yield from _known("feature-unknown", "feature", figure.emphasise, features, f"`{figure.part}`")
            case PictureModel():
                yield from check_picture(door, content.folder, figure.picture)
                yield from _known_parts(content, figure.shows.parts if figure.shows else ())
            case ChartModel():
                yield from _known_parameter(content, figure.chart)
            case TravelChartModel():
                yield from _check_travel_chart(content, figure)


def _check_travel_chart(content: Content, figure: TravelChartModel) -> Iterator[Finding]:
    travels = content.positions.travels if content.positions is not None else {}
    components = content.assembly.components if content.assembly is not None else {}
    yield from _known("travel-unknown", "travel", [figure.travel], travels, "positions.yaml")
    for curve in figure.curves:
        yield from _known("component-unknown", "component", curve.clearance or (), components, "assembly.yaml")


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
    yield from _known("component-unknown", "component", named, content.assembly.components, "assembly.yaml")
    if isinstance(figure, StepFigureModel):
        yield from _known("step-unknown", "step", [figure.step], [step.key for step in content.steps], "steps/")
    wanted = figure.positions if isinstance(figure, RowModel) else ()
    if figure.position is not None:
        wanted = (figure.position,)
    if wanted:
        positions = content.positions.positions if content.positions is not None else {}
        yield from _known("position-unknown", "position", wanted, positions, "positions.yaml")


def _in_every_market(code: str, kind: str, content: Content, name: Text) -> Iterator[Finding]:
    """`kind` is the table: stock or hardware. One finding when no market has the name, else one per edition."""
    tables: dict[str, Iterable[str]] = {key: getattr(market, kind) for key, market in content.markets.items()}
    without = [key for key, table in tables.items() if name not in table]
    if len(without) == len(tables):
        everywhere = {each for table in tables.values() for each in table}
        remedy = choice_remedy(name, everywhere, "the market tables")
        yield _unknown(code, f"There is no {kind} `{name}` in the market tables.", remedy, name)
        return
    for edition, model in content.plan_set.editions.items():
        if model.market in without:
            remedy = f"Add it to the market's table, or to {content.folder}/markets/{model.market}.yaml."
            yield _unknown(code, f"The market `{model.market}` has no {kind} `{name}`.", remedy, name, edition)


def _known_parts(content: Content, names: Iterable[Text]) -> Iterator[Finding]:
    yield from _known("part-unknown", "part", names, content.parts, "parts/")


def _known_parameter(content: Content, name: Text) -> Iterator[Finding]:
    yield from _known("parameter-unknown", "parameter", [name], content.parameters, "parameters.yaml")


def _known(code: str, what: str, names: Iterable[Text], known: Iterable[str], where: str) -> Iterator[Finding]:
    choices = list(known)
    for name in names:
        if name not in choices:
            yield _unknown(code, f"There is no {what} `{name}`.", choice_remedy(name, choices, where), name)


def _unknown(code: str, message: str, remedy: str, name: Text, edition: str = "") -> Finding:
    return Finding(code, Severity.STOP, message, remedy, name.place, str(edition))
