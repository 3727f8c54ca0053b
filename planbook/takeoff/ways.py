"""How each stock is cut in one edition: what cutting.yaml says, and what is usual where it says nothing."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Final

from planbook.design import Design, Stock
from planbook.measure import Units
from planbook.measure.dimensionality import LENGTH
from planbook.source.content import Content
from planbook.source.findings import Finding, Place, Severity
from planbook.source.models.cutting import Machine, WayModel
from planbook.source.models.market import StockKind
from planbook.source.text import Formula, Text


@dataclass(frozen=True, slots=True)
class CuttingWay:
    """Nanometres. A trim is lost at each end, at each side; a rough piece is `longer` and `wider` than finished."""

    machine: Machine
    kerf: float
    end_trim: float
    side_trim: float
    longer: float
    wider: float
    board_longer: float
    board_wider: float
    """What boards have there: also for a part that its sheet tells to cut oversize, then trim."""


def _usual(kerf: str, trim: tuple[str, str], oversize: tuple[str, str]) -> WayModel:
    pairs = [(Formula(first), Formula(second)) for first, second in (trim, oversize)]
    return WayModel(by=Machine.SAW, kerf=Formula(kerf), trim=pairs[0], oversize=pairs[1])


USUAL: Final[Mapping[tuple[Units, StockKind], WayModel]] = {
    (Units.INCH, StockKind.SHEET): _usual("1/8 in", ("3/8 in", "3/8 in"), ("0 in", "0 in")),
    (Units.INCH, StockKind.BOARD): _usual("1/8 in", ("1 1/2 in", "0 in"), ("3/4 in", "1/4 in")),
    (Units.INCH, StockKind.ROD): _usual("1/8 in", ("0 in", "0 in"), ("1/4 in", "0 in")),
    (Units.MILLIMETRE, StockKind.SHEET): _usual("3 mm", ("10 mm", "10 mm"), ("0 mm", "0 mm")),
    (Units.MILLIMETRE, StockKind.BOARD): _usual("3 mm", ("40 mm", "0 mm"), ("20 mm", "6 mm")),
    (Units.MILLIMETRE, StockKind.ROD): _usual("3 mm", ("0 mm", "0 mm"), ("6 mm", "0 mm")),
}
"""Common practice, no source."""


def way_of(
    content: Content, design: Design, stock: Stock, units: Units
) -> tuple[CuttingWay | None, tuple[Finding, ...]]:
    """How a stock is cut; None with findings where a formula has no value or the kerf is nothing."""
    kind = stock.model.kind
    told = [content.cutting.stock.get(Text(stock.key)), _of_kind(content, kind), USUAL[units, kind]]
    board = [_of_kind(content, StockKind.BOARD), USUAL[units, StockKind.BOARD]]
    kerf, trim, oversize = (_first(told, field) for field in ("kerf", "trim", "oversize"))
    solved = [design.solve(each, LENGTH) for each in (kerf, *trim, *oversize, *_first(board, "oversize"))]
    findings = tuple(finding for _, found in solved for finding in found)
    values = [value.number for value, _ in solved if value is not None]
    if len(values) < len(solved):
        return None, findings
    if values[0] <= 0:
        message = f"The kerf for {stock.model.title} is `{kerf}`: every cut takes something away."
        remedy = "Give what the saw or the cutter takes, for example `kerf: 3 mm`."
        return None, (*findings, Finding("kerf-size", Severity.STOP, message, remedy, kerf.place))
    machine: Machine = _first(told, "by")
    if machine is Machine.ROUTER and kind is not StockKind.SHEET:
        return None, (*findings, _for_sheets(content, stock))
    return CuttingWay(machine, *values), findings


def _for_sheets(content: Content, stock: Stock) -> Finding:
    message = f"cutting.yaml has {stock.model.title} cut by a router; boards and rods are crosscut and ripped."
    remedy = f"Say `by: router` of sheets only; of `{stock.key}` say `by: saw`, or nothing."
    key = next((each for each in content.cutting.stock if each == stock.key), None)
    place = Place(f"{content.folder}/cutting.yaml", 1, 1) if key is None else key.place
    return Finding("router-for-sheets", Severity.STOP, message, remedy, place)


def kerf_place(content: Content, stock: Stock) -> Formula | None:
    """Where the author wrote the kerf of a stock; None where it is the usual one."""
    told = [content.cutting.stock.get(Text(stock.key)), _of_kind(content, stock.model.kind)]
    return next((each.kerf for each in told if each is not None and each.kerf is not None), None)


def _of_kind(content: Content, kind: StockKind) -> WayModel:
    cutting = content.cutting
    return {StockKind.SHEET: cutting.sheets, StockKind.BOARD: cutting.boards, StockKind.ROD: cutting.rods}[kind]


def _first(told: list[WayModel | None] | list[WayModel], field: str) -> Any:
    """What the first of them that says something has in this field; the usual one always does."""
    return next(getattr(each, field) for each in told if each is not None and getattr(each, field) is not None)
