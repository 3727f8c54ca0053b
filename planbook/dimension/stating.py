"""From a measure to a dimension: its printed text, tolerance and provenance, and the checks on them."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

from planbook.dimension.measure import FINE, FINEST_ANGLE, Measure, precision_of
from planbook.dimension.model import DimensionKind, PartDimension, PrintedTolerance
from planbook.measure import (
    INCH,
    MILLIMETRE,
    UNIT_SIGNS,
    Precision,
    Printed,
    Units,
    print_quantity,
    print_tolerance,
    printed_diameter,
)
from planbook.measure.dimensionality import ANGLE, LENGTH
from planbook.measure.quantity import Quantity
from planbook.shape import in_both, said
from planbook.shape.model import Part
from planbook.source.findings import Finding, Place, Severity

BEVELS: Final = ("mitre", "bevel")
"""Angles of an end cut: notes, but set with a bevel all the same."""
_STEEPEST: Final = 45.0
_SET_SQUARE: Final = 15.0
_FINE_OFF: Final = 0.01


@dataclass(frozen=True, slots=True)
class Edition:
    """What printing needs to know of an edition."""

    units: Units
    drills: Sequence[float]


def state(part: Part, measure: Measure, edition: Edition) -> tuple[PartDimension, tuple[Finding, ...]]:
    """The dimension as the edition states it."""
    precision = precision_of(part, measure)
    printed = _print(measure, edition, precision)
    dimension = PartDimension(
        id=f"{part.key}/{measure.name}",
        part=part.key,
        feature=measure.feature,
        characteristic=measure.characteristic,
        kind=measure.kind,
        view=measure.view,
        axis=measure.axis,
        points=measure.points,
        nominal=measure.nominal,
        printed=printed,
        tolerance=_tolerance(measure, edition, precision),
        count=measure.count,
        callout=measure.callout,
        prefix=measure.prefix,
        suffix=_suffix(measure, edition, precision),
        caliper=precision is Precision.CALIPER and not measure.drilled and not measure.angle,
        reference=measure.reference,
        method=measure.method,
        value=measure.value,
        also=measure.also,
        side=measure.side,
        row=measure.row,
    )
    return dimension, tuple(_check(part, measure, edition))


def _print(measure: Measure, edition: Edition, precision: Precision) -> Printed:
    """A unit other than the edition's own is written into the text, for a sheet's note speaks only of that one."""
    if measure.angle:
        printed = print_quantity(Quantity(measure.nominal, ANGLE), edition.units, precision)
    elif measure.drilled:
        printed = printed_diameter(measure.nominal, edition.units, edition.drills)
    else:
        printed = print_quantity(Quantity(measure.nominal, LENGTH), edition.units, precision)
    if printed.unit == UNIT_SIGNS[edition.units]:
        return printed
    first, other = (_with_sign(*pair) for pair in ((printed.text, printed.unit), (printed.other, printed.other_unit)))
    return replace(printed, text=first, other=other, unit="", other_unit="")


def _suffix(measure: Measure, edition: Edition, precision: Precision) -> str:
    """Its words; of a drawn angle also how far it runs off over 300 mm or 12 in, which sets a bevel truer than degrees.

    Over 45 degrees nobody sets a bevel so, and a set square has the multiples of 15 (common practice, no source).
    """
    off_square = measure.nominal % _SET_SQUARE
    told = measure.nominal < _STEEPEST and _FINE_OFF < off_square < _SET_SQUARE - _FINE_OFF
    drawn = measure.kind is DimensionKind.ANGLE or measure.characteristic in BEVELS
    if not drawn or not told:
        return measure.suffix
    over = 12 * INCH if edition.units is Units.INCH else 300 * MILLIMETRE
    offset, whole = (
        print_quantity(Quantity(length, LENGTH), edition.units, precision).text
        for length in (over * math.tan(math.radians(measure.nominal)), over)
    )
    return " ".join(filter(None, (f"or {offset} over {whole}", measure.suffix)))


def _with_sign(text: str, sign: str) -> str:
    return f"{text}{'' if sign == '°' else ' '}{sign}" if text else ""


def _tolerance(measure: Measure, edition: Edition, precision: Precision) -> PrintedTolerance | None:
    tolerance = measure.value.tolerance if measure.value else None
    if tolerance is None or measure.reference:
        return None
    kind = ANGLE if measure.angle else LENGTH
    return PrintedTolerance(*print_tolerance(tolerance.plus, tolerance.minus, edition.units, precision, kind))


def _check(part: Part, measure: Measure, edition: Edition) -> list[Finding]:
    value = measure.value
    place = value.place if value else part.size[0].place
    findings = []
    if value is not None and abs(measure.nominal - value.number) > (FINEST_ANGLE if measure.angle else FINE):
        findings.append(_disagreement(part, measure, place))
    if measure.drilled and not _sold(measure.nominal, edition.drills):
        findings.append(_not_sold(part, measure, place, edition.drills))
    wanted = measure.precision or part.model.precision
    if value is not None and value.precision is Precision.CALIPER and wanted is Precision.WOODWORK:
        findings.append(_coarse(part, measure, place))
    return findings


def _disagreement(part: Part, measure: Measure, place: Place) -> Finding:
    assert measure.value is not None
    if measure.angle:
        found, written = f"{measure.nominal:g} deg", f"`{measure.value.formula}` ({measure.value.number:g} deg)"
    else:
        found, written = in_both(measure.nominal), said(measure.value)
    return Finding(
        "dimension-disagrees",
        Severity.STOP,
        f"`{part.key}/{measure.name}` is {found} in the shape, and its formula says {written}.",
        "Mend the feature so that the formula gives the same measure as the shape.",
        place,
    )


def _sold(diameter: float, drills: Sequence[float]) -> bool:
    """Whether a drill of this size is sold; nothing can be said past the largest one in the table."""
    return not drills or diameter > max(drills) + FINE or any(abs(diameter - drill) < FINE for drill in drills)


def _not_sold(part: Part, measure: Measure, place: Place, drills: Sequence[float]) -> Finding:
    near = sorted(sorted(drills, key=lambda drill: abs(drill - measure.nominal))[:2])
    return Finding(
        "drill-not-sold",
        Severity.WARN,
        f"No drill of {in_both(measure.nominal)} is sold in this market, for `{part.key}/{measure.name}`.",
        f"Choose {' or '.join(in_both(drill) for drill in near)}, or add the drill to the market's table.",
        place,
    )


def _coarse(part: Part, measure: Measure, place: Place) -> Finding:
    return Finding(
        "caliper-printed-coarsely",
        Severity.WARN,
        f"`{part.key}/{measure.name}` rests on a caliper measure and is printed as woodwork.",
        "Leave `precision: woodwork` out here, or say it at the parameter.",
        place,
    )
