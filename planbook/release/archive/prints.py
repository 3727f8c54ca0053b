"""Where each measure of an edition is printed, by itself: so that a number is found in all releases at once.

It repeats what statement and places say, and a release keeps it beside them: they are some ten times as long. Releases
from before there was such a file are read from those two.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from planbook.release.archive.reader import FOLDER, RECORD, damaged, read_release
from planbook.release.archive.record import digest, read_record
from planbook.release.reading_measures import Reading, reads_so, spellings
from planbook.release.version import Version
from planbook.source.findings import Finding
from planbook.statement.model import PrintedStated, Statement
from planbook.statement.places import PlaceOnPage, Places

FILE = "prints.json"
FORM = 1


@dataclass(frozen=True, slots=True)
class Print:
    """A dimension or parameter as it is printed. `part` is the number of a dimension's part, `sheet` that of its sheet.

    `pages` are each page that shows it with the sheet on it ("" for none), in order; of one that is nowhere, none.
    """

    id: str
    kind: str
    part: int | None
    sheet: str | None
    printed: PrintedStated
    pages: tuple[tuple[int, str], ...]


Prints = Mapping[str, tuple[Print, ...]]
"""By edition."""


def prints_of(statement: Statement, places: Places) -> Iterator[Print]:
    """All dimensions, then all parameters."""
    for name in (*statement.dimensions, *statement.parameters):
        yield print_of(statement, places, name)


def print_of(statement: Statement, places: Places, name: str) -> Print:
    """One dimension or parameter."""
    if dimension := statement.dimensions.get(name):
        part = statement.parts[dimension.part]
        pages = _pages(places.dimensions.get(name, ()))
        return Print(name, "dimension", part.number, part.sheet, dimension.printed, pages)
    pages = _pages(places.parameters.get(name, ()))
    return Print(name, "parameter", None, None, statement.parameters[name].printed, pages)


def _pages(places: tuple[PlaceOnPage, ...]) -> tuple[tuple[int, str], ...]:
    first: dict[int, str] = {}
    for place in places:
        first.setdefault(place.page, place.sheet)
    return tuple(sorted(first.items()))


def write_prints(statement: Statement, places: Places) -> bytes:
    """One row a measure, and for each number, in its one spelling, the rows in which it stands."""
    rows: list[list[object]] = []
    numbers: dict[str, list[int]] = {}
    for each in prints_of(statement, places):
        texts = [each.printed.text, each.printed.unit, each.printed.other, each.printed.other_unit, each.printed.value]
        for number in spellings(each.printed):
            numbers.setdefault(number, []).append(len(rows))
        rows.append([each.id, each.kind, each.part, each.sheet, *texts, [list(page) for page in each.pages]])
    document = {"form": FORM, "numbers": numbers, "prints": rows}
    return (json.dumps(document, ensure_ascii=False, separators=(",", ":"), sort_keys=True) + "\n").encode()


def find_prints(root: Path, set_key: str, version: Version, reading: Reading) -> tuple[Prints, tuple[Finding, ...]]:
    """What reads so in every edition of a release, by its name; nothing with a finding where a file was damaged."""
    here = f"{FOLDER}/{set_key}/{version}"
    path = RECORD
    found: dict[str, tuple[Print, ...]] = {}
    try:
        record = read_record((root / here / RECORD).read_bytes())
        for edition in record.editions:
            path = f"{edition}/{FILE}"
            if path not in record.files:
                return _from_statements(root, set_key, version, reading)
            found[edition] = tuple(_read((root / here / path).read_bytes(), record.files[path], reading))
    except (OSError, ValueError) as fault:
        return {}, (damaged(f"{here}/{path}", fault),)
    return found, ()


def _read(data: bytes, sha256: str, reading: Reading) -> Iterator[Print]:
    if digest(data) != sha256:
        raise ValueError("it was altered after the release")
    document = json.loads(data)
    for row in document["numbers"].get(reading.number, ()):
        name, kind, part, sheet, text, unit, other, other_unit, value, pages = document["prints"][row]
        printed = PrintedStated(text, other, value, unit, other_unit)
        if reads_so(printed, reading):
            yield Print(name, kind, part, sheet, printed, tuple((page, on) for page, on in pages))


def _from_statements(
    root: Path, set_key: str, version: Version, reading: Reading
) -> tuple[Prints, tuple[Finding, ...]]:
    release, findings = read_release(root, set_key, version)
    if release is None:
        return {}, findings
    return {
        edition: tuple(
            each for each in prints_of(statement, release.places[edition]) if reads_so(each.printed, reading)
        )
        for edition, statement in release.statements.items()
    }, findings
