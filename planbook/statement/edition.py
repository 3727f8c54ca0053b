"""Stating an edition: content worked out, told, judged and pictured, as one value that a document is composed from."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from types import MappingProxyType

from planbook.design import Plan, dependents, plan_design
from planbook.design.entries import NOT_THE_AUTHORS
from planbook.measure import Quantity
from planbook.motion import Travel, check_assembly, check_travels, travels_of
from planbook.source import Door
from planbook.source.content import Content
from planbook.source.findings import Finding, stops
from planbook.source.mentions import names_in
from planbook.source.models.figures import PictureModel
from planbook.source.names import sheet_order
from planbook.source.text import Text
from planbook.source.translating import in_language
from planbook.statement.asking import check_questions
from planbook.statement.assembling import state_assembly, state_fits
from planbook.statement.auditing import audit_statement
from planbook.statement.calculations import CALCULATIONS, state_calculations
from planbook.statement.charting import chart_figures
from planbook.statement.clearances import Clearance, clearances
from planbook.statement.freedom import Freedom
from planbook.statement.imprint import state_choices, state_set
from planbook.statement.judging import judge_rules
from planbook.statement.layouts import state_layouts
from planbook.statement.loads import LOADS, state_loads
from planbook.statement.model import (
    FORM,
    DimensionStated,
    FigureStated,
    ParameterStated,
    PartStated,
    RowStated,
    RuleStated,
    SheetStated,
    Statement,
)
from planbook.statement.one_off import state_one_off
from planbook.statement.picturing import Shown, place_figures, place_rows
from planbook.statement.pinch_points import PINCH_POINTS, check_pinch_points, pinch_points, state_pinch_points
from planbook.statement.printing import state_parameter
from planbook.statement.prose import caution_html
from planbook.statement.proving import prove_sheets
from planbook.statement.renaming import renamed
from planbook.statement.restating import Wording, state_dimension, state_part
from planbook.statement.stacks_told import STACKS, check_stacks, state_stacks
from planbook.statement.staging import stage_figures
from planbook.statement.standing import NEITHER, Standings
from planbook.statement.stated import Stated
from planbook.statement.telling import Told, tell
from planbook.statement.using import unused
from planbook.statement.vocabulary import vocabulary
from planbook.statement.working import Worked, work_out
from planbook.takeoff import TakenOff

Findings = tuple[Finding, ...]
NOTHING: Mapping[str, Quantity] = MappingProxyType({})
"""Nothing is supposed: the design as content has it."""


def state_edition(
    content: Content,
    edition: str,
    door: Door,
    plan: Plan,
    version: str,
    issued: date,
    supposed: Mapping[str, Quantity] = NOTHING,
    pieces: int = 1,
) -> tuple[Stated | None, Findings]:
    """All that an edition states. `version` is "" for a draft. What changed is printed afterwards by
    `print_changes`, because only comparing this statement with the one before tells it. What is `supposed` stands in
    the place of the formulas of content; lists and layouts are for so many `pieces`.

    None where it cannot be stated. A design that does not do is stated all the same, one whose rules, travels, sheets
    or fits do not hold: the findings say so, and stop. A finding that holds in this edition only is for the caller to
    tell from the others.
    """
    content, plan = _in_its_language(content, plan, edition)
    model = content.plan_set.editions[Text(edition)]
    worked, found = work_out(content, model, plan, supposed, pieces)
    if worked is None:
        return None, found
    names = vocabulary(content, (edition, model), worked.design, worked.printed, worked.dimensions)
    told, wording = tell(content, names)
    travels, moving = travels_of(content, plan, worked.design, worked.parts)
    rules, broken = judge_rules(content, worked.design, plan, worked.units, told.because, travels)
    near = tuple(clearances(content, plan, worked.design, travels, rules))
    pinching = pinch_points(content, travels)
    loads, loading = state_loads(content, worked.design, worked.units, told.loads)
    plan_set, general = state_set(content, worked.design, worked.units, told.summary)
    shown, drawing = _picture(content, worked, plan, door, told, travels)
    standings = Standings(content, worked.design, worked.units, told.reasons)
    parameters, dimensions = _state_measures(content, worked, told, plan, standings)
    every = (
        *found,
        *wording,
        *general,
        *drawing,
        *moving,
        *unused(content, told.numbers),
        *standings.findings,
    )
    judged = (
        *broken,
        *check_travels(content, travels),
        *check_pinch_points(pinching, content),
        *loading,
        *check_stacks(worked.stacks, content.key, worked.units),
    )
    findings = tuple(dict.fromkeys((*every, *judged)))
    if stops(every):
        return None, findings
    statement = Statement(
        form=FORM,
        version=version,
        issued=issued.isoformat(),
        plan_set=plan_set,
        edition=state_choices(edition, model, content),
        parameters=parameters,
        parts=shown.parts,
        dimensions=dimensions,
        blocks=told.blocks,
        lists={
            **_state_lists(worked.taken),
            "tools": told.tools,
            "cautions": _caution_rows(content, told),
            **_state_calculations(content, worked, rules),
            **({LOADS: loads} if loads else {}),
            **({PINCH_POINTS: state_pinch_points(pinching, worked.units)} if pinching else {}),
        },
        sheets=_state_sheets(shown.parts, version),
        figures=_state_figures(content, shown, told),
        rules=rules,
        steps=told.steps,
        renamed=renamed(content, worked.dimensions),
        one_off=state_one_off(worked.design, plan, worked.units),
        assembly=state_assembly(worked.components),
        layouts=state_layouts(worked.taken.plans, worked.units),
        pieces=pieces,
    )
    stated = _stated(statement, content, worked, told, shown, travels)
    return _prove(stated, standings, plan, near, findings)


def _prove(
    stated: Stated, standings: Standings, plan: Plan, near: tuple[Clearance, ...], found: Findings
) -> tuple[Stated, Findings]:
    """With its audit. `found` is what was found before."""
    statement, content = stated.statement, stated.content
    asked = check_questions(content, statement)
    audit, audited = audit_statement(statement, content, stated.design, plan, near)
    proof = (*prove_sheets(statement, content), *audited, *Freedom(statement, standings, plan).findings())
    findings = tuple(dict.fromkeys((*found, *asked, *proof)))
    return replace(stated, statement=replace(statement, fits=state_fits(audit, content)), audit=audit), findings


def _stated(
    statement: Statement, content: Content, worked: Worked, told: Told, shown: Shown, travels: Mapping[str, Travel]
) -> Stated:
    cautions = [str(key) for key in content.plan_set.cautions]
    return Stated(
        statement=statement,
        prose=told.prose,
        components=worked.components,
        assemblies=shown.assemblies,
        rows=shown.rows,
        charts=shown.charts,
        stages=shown.stages,
        design=worked.design,
        parts=worked.parts,
        content=content,
        cautions_html={key: caution_html(told.cautions[key]) for key in cautions if key in told.cautions},
        travels=travels,
        taken=worked.taken,
    )


def _state_measures(
    content: Content, worked: Worked, told: Told, plan: Plan, standings: Standings
) -> tuple[dict[str, ParameterStated], dict[str, DimensionStated]]:
    """Parameters and dimensions, each with what it is to a builder."""
    parameters, dimensions = _state_parameters(content, worked, told, plan), _state_dimensions(worked)
    named, drawn = standings.parameters, standings.dimensions(dimensions)
    return (
        {name: replace(each, standing=named.get(name, NEITHER)) for name, each in parameters.items()},
        {name: replace(each, standing=drawn[name]) for name, each in dimensions.items()},
    )


def _state_dimensions(worked: Worked) -> dict[str, DimensionStated]:
    return {name: state_dimension(each) for name, each in worked.dimensions.items()}


def _state_parameters(content: Content, worked: Worked, told: Told, plan: Plan) -> dict[str, ParameterStated]:
    """The author's parameters, and of the market's names those that content uses."""
    used = names_in([content.parts, content.hardware, content.assembly, content.rules, content.fits, content.figures])
    used |= told.paths
    own = (each for name, each in worked.design.parameters.items() if not name.startswith(NOT_THE_AUTHORS))
    used |= {name for each in own for name in each.value.inputs}
    used |= {f"stock.{part.stock}.thickness" for part in content.parts.values()}
    drivers = content.positions.drivers if content.positions is not None else ()
    moving = {name for driver in drivers for name in dependents(plan, str(driver))}
    return {
        name: replace(state_parameter(each, worked.printed[name], worked.units), moving=name in moving)
        for name, each in worked.design.parameters.items()
        if name in used or not name.startswith(NOT_THE_AUTHORS)
    }


def _state_lists(taken: TakenOff) -> dict[str, tuple[RowStated, ...]]:
    return {name: tuple(RowStated(row.id, dict(row.cells)) for row in rows) for name, rows in taken.lists.items()}


def _state_sheets(parts: Mapping[str, PartStated], version: str) -> dict[str, SheetStated]:
    """In the order of their numbers: 12, 12a, 13."""
    every = sorted((each.sheet, key, each.title) for key, each in parts.items())
    sheets = (SheetStated(*each, version) for each in sorted(every, key=lambda each: sheet_order(each[0])))
    return {each.number: each for each in sheets}


def _state_calculations(
    content: Content, worked: Worked, rules: Mapping[str, RuleStated]
) -> dict[str, tuple[RowStated, ...]]:
    """Calculations with their working, then stacks and their layers."""
    stacked, layers = state_stacks(worked.stacks, worked.units)
    rows = (*state_calculations(content, worked.design, worked.units, rules), *stacked)
    return {CALCULATIONS: rows, **({STACKS: layers} if layers else {})}


def _caution_rows(content: Content, told: Told) -> tuple[RowStated, ...]:
    rows = (told.cautions.get(str(key)) for key in content.plan_set.cautions)
    return tuple(RowStated(each.key, {"Caution": each.plain}) for each in rows if each is not None)


def _in_its_language(content: Content, plan: Plan, edition: str) -> tuple[Content, Plan]:
    """Planned anew where it is another than that of the content, for the plan has the names of what is bought."""
    told = in_language(content, str(content.plan_set.editions[Text(edition)].language))
    return (content, plan) if told is content else (told, plan_design(told)[0] or plan)


def _picture(
    content: Content, worked: Worked, plan: Plan, door: Door, told: Told, travels: Mapping[str, Travel]
) -> tuple[Shown, Findings]:
    """Parts as stated, assemblies in their positions, and charts."""
    assemblies, found = place_figures(content, worked.design, plan, worked.parts, worked.components)
    found += check_assembly(content, worked.design, plan, worked.parts, worked.components)
    rows, more = place_rows(content, worked.design, plan, worked.parts)
    found += more
    stages, more = stage_figures(content, worked.design, assemblies)
    found += more
    charts, more = chart_figures(content, worked.design, plan, worked.units, travels)
    found += more
    parts = {
        key: state_part(part, worked.parts, worked.design, worked.units, _wording(key, worked, told))
        for key, part in worked.parts.items()
    }
    return Shown(door, content.folder, parts, assemblies, rows, charts, stages), found


def _wording(part: str, worked: Worked, told: Told) -> Wording:
    called = [each for each in worked.dimensions.values() if each.part == part and each.callout]
    shared = {equal.feature for each in called for equal in each.also}
    return Wording(told.notes[part], told.remarks[part], frozenset(each.feature for each in called) | shared)


def _state_figures(content: Content, pictured: Shown, told: Told) -> dict[str, FigureStated]:
    return {
        str(name): FigureStated(
            name=str(name),
            caption=told.captions[str(name)],
            alt=told.alts[str(name)],
            content=pictured.content_of(str(name), model),
            number=told.numbers.get(str(name), 0),
            shows_version=str(model.shows.version) if isinstance(model, PictureModel) and model.shows else "",
        )
        for name, model in content.figures.items()
    }
