"""Stating an edition: content worked out, told, moved, pictured, gathered and proved, as one value to compose from."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from types import MappingProxyType

from planbook.design import Plan, plan_design
from planbook.measure import Quantity
from planbook.motion import Travel, check_assembly
from planbook.source import Door
from planbook.source.content import Content
from planbook.source.findings import Finding, stops
from planbook.source.text import Text
from planbook.source.translating import in_language
from planbook.statement.asking import check_questions
from planbook.statement.assembling import state_fits
from planbook.statement.auditing import audit_statement
from planbook.statement.charting import chart_figures
from planbook.statement.clearances import Clearance
from planbook.statement.freedom import Freedom
from planbook.statement.gathering import Gathered
from planbook.statement.imprint import state_set
from planbook.statement.loads import state_loads
from planbook.statement.measures import state_measures
from planbook.statement.moving import move
from planbook.statement.picturing import Shown, place_figures, place_rows
from planbook.statement.proving import prove_sheets
from planbook.statement.restating import Wording, state_part
from planbook.statement.stacks_told import check_stacks
from planbook.statement.staging import stage_figures
from planbook.statement.standing import Standings
from planbook.statement.stated import Stated
from planbook.statement.telling import Told, tell
from planbook.statement.using import unused
from planbook.statement.vocabulary import vocabulary
from planbook.statement.working import Worked, work_out

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
    moved, moving = move(content, worked, plan, told.because)
    shown, drawing = _picture(content, worked, plan, door, told, moved.travels)
    plan_set, general = state_set(content, worked.design, worked.units, told.summary)
    standings = Standings(content, worked.design, worked.units, told.reasons)
    measures = state_measures(content, worked, told.paths, plan, standings)
    loads, loading = state_loads(content, worked.design, worked.units, told.loads)
    idle = unused(content, told.numbers)
    every = (*found, *wording, *general, *drawing, *moving, *idle, *standings.findings)
    judged = (*moved.judged, *loading, *check_stacks(worked.stacks, content.key, worked.units))
    findings = tuple(dict.fromkeys((*every, *judged)))
    if stops(every):
        return None, findings
    gathered = Gathered(content, edition, plan, worked, told, moved, shown, measures, plan_set, loads)
    stated = gathered.stated(version, issued, pieces)
    return _prove(stated, standings, plan, moved.near, findings)


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
