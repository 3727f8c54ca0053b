"""The lists beside an edition's PDF, for a spreadsheet: a CSV each, and one workbook with all of them."""

from __future__ import annotations

import csv
import io
import re
import zipfile
from collections.abc import Iterator, Sequence
from datetime import date, datetime

from openpyxl import Workbook
from openpyxl.styles import Alignment, Font
from openpyxl.utils import get_column_letter

from planbook.statement.model import Statement
from planbook.takeoff.grids import Grid

_FIRST_DAY = (1980, 1, 1, 0, 0, 0)
"""The earliest that a ZIP archive can hold: the clock stays out of the file."""
_WIDEST = 48


def list_files(statement: Statement, grids: Sequence[Grid]) -> Iterator[tuple[str, bytes]]:
    """Path and bytes: RFC 4180 in UTF-8, and Office Open XML (ECMA-376)."""
    for grid in grids:
        yield f"lists/{grid.name}.csv", _csv(grid)
    yield "lists/lists.xlsx", _workbook(statement, grids)


def _csv(grid: Grid) -> bytes:
    text = io.StringIO(newline="")
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerows((grid.columns, *grid.rows))
    return text.getvalue().encode()


def _workbook(statement: Statement, grids: Sequence[Grid]) -> bytes:
    book = Workbook()
    book.remove(book.active)
    for grid in grids:
        sheet = book.create_sheet(grid.name.capitalize())
        sheet.append(grid.columns)
        for row in grid.rows:
            sheet.append(row)
            for cell in sheet[sheet.max_row]:
                if isinstance(cell.value, str):
                    cell.data_type = "s"  # words that begin with = are words, no formula
        sheet.freeze_panes = "A2"
        for cell in sheet[1]:
            cell.font, cell.alignment = Font(bold=True), Alignment(wrap_text=True, vertical="top")
        for place, column in enumerate(zip(grid.columns, *grid.rows, strict=True), start=1):
            widest = max(len(str(each)) for each in column[1:]) if len(column) > 1 else 0
            sheet.column_dimensions[get_column_letter(place)].width = min(max(widest, 8) + 2, _WIDEST)
    issued = datetime.combine(date.fromisoformat(statement.issued), datetime.min.time())
    book.properties.title = f"{statement.plan_set.title}: {statement.edition.title}, {statement.issue}"
    book.properties.creator = statement.plan_set.workshop
    book.properties.created = book.properties.modified = issued
    written = io.BytesIO()
    book.save(written)
    return _without_clock(written.getvalue(), issued)


def _without_clock(archive: bytes, issued: datetime) -> bytes:
    """The same archive with no time of its making: in its entries, and in the properties, which saving sets anew."""
    stilled = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(archive)) as old, zipfile.ZipFile(stilled, "w", zipfile.ZIP_DEFLATED) as new:
        for entry in sorted(old.namelist()):
            data = old.read(entry)
            if entry == "docProps/core.xml":
                data = _dated(data, issued)
            new.writestr(zipfile.ZipInfo(entry, _FIRST_DAY), data, zipfile.ZIP_DEFLATED)
    return stilled.getvalue()


def _dated(properties: bytes, issued: datetime) -> bytes:
    stamp = issued.strftime("%Y-%m-%dT%H:%M:%SZ").encode()
    return re.sub(rb"(<dcterms:modified[^>]*>)[^<]*(<)", rb"\g<1>" + stamp + rb"\g<2>", properties)
