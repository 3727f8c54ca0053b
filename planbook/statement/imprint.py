"""What cover and title blocks state of the plan set and of the edition."""

from __future__ import annotations

from planbook.design import Design
from planbook.measure import Units
from planbook.source.content import Content
from planbook.source.findings import Finding
from planbook.source.models.plan_set import EditionModel
from planbook.statement.general import state_general, state_overall
from planbook.statement.model import EditionStated, SetStated


def state_choices(name: str, model: EditionModel, content: Content) -> EditionStated:
    """The edition's own choices, as words."""
    return EditionStated(
        name=name,
        title=str(model.title),
        units=str(model.units),
        paper=str(model.paper),
        projection=str(model.projection),
        market=str(model.market),
        market_title=str(content.markets[str(model.market)].title),
        language=str(model.language),
        built=model.built,
    )


def state_set(content: Content, design: Design, units: Units, summary: str) -> tuple[SetStated, tuple[Finding, ...]]:
    """The plan set; `summary` as printed. Findings are about its general tolerances."""
    model = content.plan_set
    general, findings = state_general(model.tolerances, design, units)
    overall, more = state_overall(model.overall, design, units)
    return SetStated(
        key=content.key,
        code=str(model.code),
        title=str(model.title),
        subtitle=str(model.subtitle),
        summary=summary,
        workshop=str(model.workshop.name),
        workshop_place=str(model.workshop.place),
        rights=str(model.workshop.rights),
        drawn_by=str(model.drawn_by),
        approved_by=str(model.approved_by),
        general_tolerance=general.lines if general else (),
        caliper_tolerance=general.caliper if general else "",
        overall=overall,
    ), (*findings, *more)
