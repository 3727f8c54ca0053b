"""Proving each sheet of a statement from its own file: that it says enough, and nothing twice."""

from __future__ import annotations

import json
from dataclasses import asdict

from planbook.dimension.completeness import Adrift, Fault, Implied, Unfixed, check_sheet, read_sheet_record
from planbook.shape import in_both
from planbook.source.content import Content
from planbook.source.findings import Finding, Place, Severity
from planbook.statement.model import PartStated, Statement

_ASKED = {
    "angle": "the angle of {what}, seen from its centre, on the face",
    "x": "where {what} lies along x, the length",
    "y": "where {what} lies along y, the width",
    "z": "where {what} lies along z, the thickness",
    "radius": "the radius or diameter of {what}",
    "depth": "how deep {what} goes along its axis",
    "lean x": "how far {what} is off square along x, the length",
    "lean y": "how far {what} is off square along y, the width",
    "lean z": "how far {what} is off square along z, the thickness",
}


def write_sheet(statement: Statement, number: str) -> bytes:
    """All that one sheet tells of its part, as JSON: the resolved shape and the printed dimensions."""
    key = statement.sheets[number].part
    told = [asdict(each) for each in statement.dimensions.values() if each.part == key]
    return json.dumps({"part": asdict(statement.parts[key]), "dimensions": told}, sort_keys=True).encode()


def prove_sheets(statement: Statement, content: Content) -> tuple[Finding, ...]:
    """A finding for each thing that a sheet leaves open, says twice, or says of nothing."""
    return tuple(
        _finding(fault, number, statement, _place(fault, sheet.part, content))
        for number, sheet in statement.sheets.items()
        for fault in check_sheet(read_sheet_record(write_sheet(statement, number)))
    )


def _finding(fault: Fault, number: str, statement: Statement, place: Place) -> Finding:
    part = statement.parts[statement.sheets[number].part]
    match fault:
        case Unfixed():
            return Finding(
                "sheet-incomplete",
                Severity.STOP,
                f"Sheet {number} does not say {_asked(fault, part)} (drawn at {_drawn(fault)}).",
                "Take back what hides its dimension, or give the feature a place of its own.",
                place,
            )
        case Implied():
            others = ", ".join(f"`{name}`" for name in fault.by) or "what the drawing takes for granted"
            return Finding(
                "dimension-implied",
                Severity.WARN,
                f"Sheet {number} prints `{fault.dimension}` although it follows from {others}.",
                "Measure the feature from another one, or give both the same formula.",
                place,
            )
        case Adrift():
            return Finding(
                "dimension-adrift",
                Severity.STOP,
                f"Sheet {number} prints `{fault.dimension}`, which ends at nothing that the part has.",
                "Look at the feature's place and its size: one of them does not reach the shape.",
                place,
            )


def _asked(fault: Unfixed, part: PartStated) -> str:
    what = " and ".join(f"`{name}`" for name in fault.features)
    return f"{_ASKED[fault.direction].format(what=what)} of the {part.title.lower()}"


def _drawn(fault: Unfixed) -> str:
    """A lean is in degrees, an angle about a centre the length of its arc; all else a length."""
    if fault.direction.startswith("lean"):
        return f"{fault.value:.2f}".rstrip("0").rstrip(".") + "°"
    return f"{in_both(fault.value)}{' along its arc' if fault.direction == 'angle' else ''}"


def _place(fault: Fault, key: str, content: Content) -> Place:
    return content.place_in_part(
        key, fault.features if isinstance(fault, Unfixed) else (fault.dimension.split("/")[1],)
    )
