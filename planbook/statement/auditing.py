"""The rounding audit of one edition: parts, fits and rules, from the numbers that its sheets print."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from planbook.design import Design, Plan, evaluate
from planbook.dimension.audit import (
    Audit,
    FitAudit,
    Number,
    PartAudit,
    gap_of,
    holds,
    limits_of,
    read_numbers,
    rebuild,
)
from planbook.dimension.completeness import read_sheet_record
from planbook.measure import Precision, Units, print_tolerance
from planbook.measure.dimensionality import ANGLE, LENGTH, Dimensionality
from planbook.source.content import Content
from planbook.source.findings import Finding, Place
from planbook.source.text import Text
from planbook.statement.adverse import check_adverse
from planbook.statement.audit_findings import fit_findings, number_fault, number_finding, part_finding
from planbook.statement.clearances import Clearance, check_printed
from planbook.statement.judging import judge_printed
from planbook.statement.mating import Mating
from planbook.statement.mating_measures import Sheets
from planbook.statement.model import DimensionStated, Statement
from planbook.statement.proving import write_sheet
from planbook.statement.shop import as_printed, held_to

Findings = tuple[Finding, ...]


def audit_statement(
    statement: Statement, content: Content, design: Design, plan: Plan, near: tuple[Clearance, ...] = ()
) -> tuple[Audit, Findings]:
    """Rebuild each part from its sheet, measure every fit, and judge every rule on the printed numbers.

    `near` are the clearances that rules ask for along travels.
    """
    units = Units(statement.edition.units)
    numbers, parts = _read_sheets(statement)
    lengths = _general(design, content.plan_set.tolerances.length, LENGTH, units)
    angles = _general(design, content.plan_set.tolerances.angle, ANGLE, units)
    sheets = Sheets(content, statement, design, numbers, lengths, angles)
    mating = Mating(sheets)
    fits = tuple((FitAudit(fit, gap_of(fit), holds(fit, gap_of(fit))), model) for fit, model in mating.fits())
    found = [*_of_numbers(sheets), *(finding for part in parts for finding in _of_part(part, sheets))]
    found += mating.findings
    found += [finding for audited, model in fits for finding in fit_findings(audited, model, units)]
    rules, broken = _judge(sheets, plan, near)
    return Audit(parts, tuple(audited for audited, _ in fits), rules), (*found, *broken)


def _read_sheets(statement: Statement) -> tuple[Mapping[str, Number], tuple[PartAudit, ...]]:
    """What all sheets print, by dimension id, and each part rebuilt from its own; asked of the file of each sheet."""
    numbers: dict[str, Number] = {}
    parts = []
    for number, sheet in statement.sheets.items():
        written = write_sheet(statement, number)
        printed = {each.id: each for each in read_numbers(written)}
        numbers |= printed
        told = sum(not each.reference for each in printed.values())
        parts.append(PartAudit(sheet.part, number, told, rebuild(read_sheet_record(written), printed)))
    return numbers, tuple(parts)


def _general(design: Design, formula: Text, kind: Dimensionality, units: Units) -> float:
    """A general tolerance as its note prints it; a fault in its formula is reported there."""
    value, _ = design.solve(formula, kind)
    plain = value.number if value is not None else 0.0
    return print_tolerance(plain, plain, units, Precision.WOODWORK, kind).upper


def _of_part(part: PartAudit, sheets: Sheets) -> Iterator[Finding]:
    worst = part.worst
    if worst is not None and abs(worst.off) > sheets.general:
        yield part_finding(part, worst, sheets.statement, sheets.content.place_in_part(part.part))


def _of_numbers(sheets: Sheets) -> Iterator[Finding]:
    """Numbers that are wrong by themselves; those that print one parameter are one finding, at that parameter."""
    groups: dict[tuple[str, Place], list[DimensionStated]] = {}
    for stated in sheets.statement.dimensions.values():
        number = sheets.numbers[stated.id]
        limits = limits_of(number, sheets.angle if number.is_angle else sheets.general)
        if code := number_fault(number, limits):
            groups.setdefault((code, _place(stated, sheets.content)), []).append(stated)
    return (number_finding(code, numbers, place) for (code, place), numbers in groups.items())


def _place(stated: DimensionStated, content: Content) -> Place:
    """Of the parameter that a number prints, else of its feature."""
    parameter = next((name.place for name in content.parameters if name == stated.formula), None)
    return parameter or content.place_in_part(stated.part, (stated.feature,))


def _judge(sheets: Sheets, plan: Plan, near: tuple[Clearance, ...]) -> tuple[int, Findings]:
    """The design with every parameter that a sheet prints as the number printed there, and clearances at the limits
    that the shop holds; how many rules it was put to.
    """
    statement, design, values = sheets.statement, sheets.design, as_printed(sheets)
    printed, _ = evaluate(plan, design.overriding(values))
    if printed is None:
        return 0, ()
    broken = judge_printed(sheets.content, design, printed, sheets.units, statement.rules)
    passing = check_printed(near, values, sheets.units)
    return len(statement.rules), (*broken, *passing, *check_adverse(near, held_to(sheets), sheets.units))
