"""The audit's tables: every part rebuilt from its printed numbers, and every fit at its printed limits."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from markupsafe import Markup

from planbook.dimension.audit import Coordinate, FitAudit, PartAudit
from planbook.document.tables import Cell, Group, Row, Table, columns_of
from planbook.document.words import as_html
from planbook.measure import CALIPER_TOLERANCE, UNIT_SIGNS, Precision, Quantity, Units, print_quantity, printed_diameter
from planbook.measure.dimensionality import LENGTH
from planbook.statement.stated import Stated

AUDITED: Final = {"rounding": "Parts", "fits": "Fits"}
"""The tables of the chapter with their titles."""
_ALONG: Final = {"x": "along x", "y": "along y", "z": "along z", "radius": "in radius", "depth": "in depth"}


def audit_tables(stated: Stated) -> tuple[Table, ...]:
    """Those that have a row."""
    units = Units(stated.statement.edition.units)
    sign = UNIT_SIGNS[units]
    parts = _table("rounding", (
        ("Part", "text"), ("Sheet", "no"), ("Dimensions printed", "figures"), ("Coordinates fixed", "figures"),
        (f"Furthest off, {sign}", "figures"), ("Where", "text"),
    ), [_part_row(each, stated, units) for each in stated.audit.parts])  # fmt: skip
    fits = _table("fits", (
        ("Fit", "text"), (f"Designed gap, {sign}", "figures"), ("Least as printed", "figures"),
        ("Most as printed", "figures"), ("Wanted", "figures"), ("Holds", "text"),
    ), [_fit_row(each, units) for each in stated.audit.fits])  # fmt: skip
    return tuple(table for table in (parts, fits) if table.groups)


def audit_lead(stated: Stated) -> Markup:
    """What was done before the edition was printed, in two sentences."""
    units = Units(stated.statement.edition.units)
    fineness = f"{printed_diameter(CALIPER_TOLERANCE[units], units, ()).text} {UNIT_SIGNS[units]}"
    text = (
        "Every number on a sheet is rounded, so every part of this edition was worked out once more from its printed "
        "numbers alone and compared with the design. Gaps are the worst that the printed limits allow; a number for "
        f"calipers without a tolerance of its own is held to ±{fineness}, and stock to the range that is accepted. "
        "Where a step fits one piece to the other at the bench, the gap is the designed one, whatever the stock."
    )
    rules = stated.audit.rules
    told = f" All {rules} rules of the design hold with the printed numbers." if rules > 1 else ""
    return Markup('<div class="prose"><p>{}</p></div>').format(text + told)


def _table(name: str, heads: Sequence[tuple[str, str]], rows: Sequence[Row]) -> Table:
    return Table(name, AUDITED[name], columns_of(heads, rows), (Group("", tuple(rows)),) if rows else ())


def _part_row(part: PartAudit, stated: Stated, units: Units) -> Row:
    worst = part.worst
    off = print_quantity(Quantity(abs(worst.off), LENGTH), units, Precision.CALIPER).text if worst else ""
    where = _where(worst) if worst is not None and off != "0" else ""
    title = stated.statement.parts[part.part].title
    return _row(title, part.sheet, str(part.printed), str(len(part.coordinates)), off, where)


def _where(worst: Coordinate) -> str:
    names = " and ".join(name.replace(".", " ").replace("_", " ") for name in worst.features)
    return f"{names}, {_ALONG[worst.direction]}"


def _fit_row(audited: FitAudit, units: Units) -> Row:
    gap, fit = audited.gap, audited.fit
    name = fit.name.replace(".", " ").replace("_", " ").capitalize()
    limits = ("", "") if fit.fitted else (_length(gap.least, units), _length(gap.most, units))
    wanted = f"{_length(fit.least, units)} to {_length(fit.most, units)}"
    verdict = ("fitted at the bench" if fit.fitted else "yes") if audited.holds else "no"
    return _row(name, _length(gap.designed, units), *limits, wanted, verdict)


def _length(nanometres: float, units: Units) -> str:
    return printed_diameter(nanometres, units, ()).text


def _row(*cells: str) -> Row:
    return Row(tuple(Cell(as_html(cell)) for cell in cells))
