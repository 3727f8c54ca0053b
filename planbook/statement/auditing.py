"""The rounding audit of one edition: parts, fits and rules, from the numbers that its sheets print."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from planbook.design import Design, Overrides, Plan, evaluate
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
from planbook.measure import Precision, Quantity, Units, print_tolerance
from planbook.measure.dimensionality import ANGLE, LENGTH
from planbook.source.content import Content
from planbook.source.findings import Finding, Place
from planbook.source.text import Text
from planbook.statement.audit_findings import fit_findings, number_findings, part_finding
from planbook.statement.judging import judge_printed
from planbook.statement.mating import Mates
from planbook.statement.model import DimensionStated, Statement
from planbook.statement.proving import write_sheet

Findings = tuple[Finding, ...]


@dataclass(frozen=True)
class _Sheets:
    """What all sheets print: dimensions as numbers by id, and the audit of each part."""

    numbers: Mapping[str, Number]
    parts: tuple[PartAudit, ...]


def audit_statement(statement: Statement, content: Content, design: Design, plan: Plan) -> tuple[Audit, Findings]:
    """Rebuild each part from its sheet, measure every fit, and judge every rule on the printed numbers."""
    sheets = _read_sheets(statement)
    general = _general(content, design, Units(statement.edition.units))
    mates = Mates(content, statement, design, sheets.numbers, general)
    found: list[Finding] = []
    for part in sheets.parts:
        found += _of_part(part, statement, content, sheets, general)
    fits: list[FitAudit] = []
    for fit, model in mates.fits():
        gap = gap_of(fit)
        fits.append(FitAudit(fit, gap, holds(fit, gap)))
        found += fit_findings(fits[-1], model, Units(statement.edition.units))
    rules, broken = _judge(statement, content, plan)
    return Audit(sheets.parts, tuple(fits), rules), (*found, *mates.findings, *broken)


def _read_sheets(statement: Statement) -> _Sheets:
    numbers: dict[str, Number] = {}
    parts = []
    for number, sheet in statement.sheets.items():
        written = write_sheet(statement, number)
        printed = {each.id: each for each in read_numbers(written)}
        numbers |= printed
        told = sum(not each.reference for each in printed.values())
        parts.append(PartAudit(sheet.part, number, told, rebuild(read_sheet_record(written), printed)))
    return _Sheets(numbers, tuple(parts))


def _general(content: Content, design: Design, units: Units) -> float:
    """The general tolerance on lengths, as its note prints it; a fault in its formula is reported there."""
    value, _ = design.solve(content.plan_set.tolerances.length, LENGTH)
    plain = value.number if value is not None else 0.0
    return print_tolerance(plain, plain, units, Precision.WOODWORK).upper


def _of_part(
    part: PartAudit, statement: Statement, content: Content, sheets: _Sheets, general: float
) -> Iterator[Finding]:
    for stated in statement.dimensions.values():
        if stated.part == part.part:
            number = sheets.numbers[stated.id]
            yield from number_findings(number, stated, limits_of(number, general), _place(stated, content))
    worst = part.worst
    if worst is not None and abs(worst.deviation) > general:
        yield part_finding(part, worst, statement, _at_part(part.part, content))


def _place(stated: DimensionStated, content: Content) -> Place:
    written = (name.place for name in content.parts[stated.part].features if str(name) == stated.feature)
    return next(written, _at_part(stated.part, content))


def _at_part(part: str, content: Content) -> Place:
    return Place(content.part_files[part], 1, 1)


def _judge(statement: Statement, content: Content, plan: Plan) -> tuple[int, Findings]:
    """The design with every parameter that a sheet prints as the number printed there; how many rules it was put to."""
    market = statement.edition.market
    printed, _ = evaluate(plan, Overrides(market, _as_printed(statement, content)))
    if printed is None:
        return 0, ()
    return len(statement.rules), judge_printed(content, printed, Units(statement.edition.units), statement.rules)


def _as_printed(statement: Statement, content: Content) -> Mapping[str, Quantity]:
    """By parameter; of several numbers that are printed for one, that which is furthest off."""
    values: dict[str, DimensionStated] = {}
    for each in statement.dimensions.values():
        name = Text(each.formula)
        if name in content.parameters and _off(each) >= _off(values.get(str(name), each)):
            values[str(name)] = each
    return {
        name: Quantity(each.printed.value, ANGLE if each.characteristic.endswith("angle") else LENGTH)
        for name, each in values.items()
    }


def _off(stated: DimensionStated) -> float:
    return abs(stated.printed.value - stated.nominal)
