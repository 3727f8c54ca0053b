"""What the whole set states: the general tolerances, how near caliper work is to be, and the size over all."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from planbook.design import Design
from planbook.measure import CALIPER_TOLERANCE, UNIT_SIGNS, Precision, Quantity, Units, print_quantity, print_tolerance
from planbook.measure.dimensionality import ANGLE, LENGTH, Dimensionality
from planbook.source.findings import Finding, Severity
from planbook.source.models.plan_set import GeneralTolerances
from planbook.source.text import Formula, Text


class General(NamedTuple):
    """`caliper` is for measures with the sign of caliper work: `±0.1 mm`."""

    lines: tuple[str, ...]
    caliper: str


def state_general(model: GeneralTolerances, design: Design, units: Units) -> tuple[General | None, tuple[Finding, ...]]:
    """Lengths, angles, squareness by diagonals and moisture in words; None when a tolerance has no value above 0.

    Caliper work is held to its own fineness, or to the general tolerance where that is closer.
    """
    found: list[Finding] = []

    def solve(name: str, formula: Text, kind: Dimensionality) -> float:
        value, findings = design.solve(formula, kind)
        found.extend(findings)
        if value is not None and value.number <= 0:
            found.append(_not_positive(name, formula, kind, units))
        return value.number if value is not None else 0.0

    length, angle = solve("length", model.length, LENGTH), solve("angle", model.angle, ANGLE)
    diagonal = solve("diagonals", model.diagonals, LENGTH)
    if min(length, angle, diagonal) <= 0:
        return None, tuple(found)
    fine = min(length, CALIPER_TOLERANCE[units])
    diagonals = print_quantity(Quantity(diagonal, LENGTH), units, Precision.WOODWORK)
    lengths = print_tolerance(length, length, units, Precision.WOODWORK).text
    angles = print_tolerance(angle, angle, units, Precision.WOODWORK, ANGLE).text
    lines = (
        f"Lengths {lengths} {UNIT_SIGNS[units]}, angles {angles}, unless a tolerance is stated.",
        f"Square: the two diagonals of a rectangle differ by at most {diagonals.text} {diagonals.unit}.",
        f"Wood at {model.moisture} moisture content.",
    )
    caliper = f"{print_tolerance(fine, fine, units, Precision.CALIPER).text} {UNIT_SIGNS[units]}"
    return General(lines, caliper), tuple(found)


def state_overall(sizes: tuple[Formula, ...] | None, design: Design, units: Units) -> tuple[str, tuple[Finding, ...]]:
    """Length, depth and height in one line, as the cover gives them; "" where the author leaves them to the parts."""
    solved = [design.solve(formula, LENGTH) for formula in sizes or ()]
    found = tuple(finding for _, findings in solved for finding in findings)
    lengths = [value.number for value, _ in solved if value is not None]
    if not lengths or found:
        return "", found
    return print_box(lengths, units), found


def print_box(lengths: Iterable[float], units: Units) -> str:
    """`1500 × 600 × 760 mm` from nanometres."""
    printed = [print_quantity(Quantity(each, LENGTH), units, Precision.WOODWORK) for each in lengths]
    return f"{' × '.join(each.text for each in printed)} {printed[0].unit}"


def _not_positive(name: str, formula: Text, kind: Dimensionality, units: Units) -> Finding:
    usual = "0.5 deg" if kind == ANGLE else "1/32 in" if units is Units.INCH else "0.5 mm"
    return Finding(
        "bad-tolerance",
        Severity.STOP,
        f"The general tolerance `{name}`, `{formula}`, is not more than 0: no wood can be cut to it.",
        f"Give what the work may be off by, above 0 and without a sign, such as `{usual}`.",
        formula.place,
    )
