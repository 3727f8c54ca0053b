"""Part and sheet numbers: each belongs to one part for life."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import pairwise

from planbook.source.findings import Finding, Place, Related, Severity
from planbook.source.models.part import PartModel


def check_numbers(parts: Mapping[str, PartModel], files: Mapping[str, str]) -> Iterator[Finding]:
    """Findings for part numbers and sheet numbers that two parts have. `parts` is ordered by number."""
    same = [(one, other) for one, other in pairwise(parts) if parts[one].number == parts[other].number]
    free = max((part.number for part in parts.values()), default=0) + 1
    for one, other in same:
        yield Finding(
            "part-number-twice",
            Severity.STOP,
            f"`{one}` and `{other}` both have the number {parts[one].number}.",
            f"Give the newer of them a number of its own, for example `number: {free}`.",
            Place(files[other], 1, 1),
            related=(Related(Place(files[one], 1, 1), "has the number too"),),
        )
    yield from _check_sheets(
        {key: part for key, part in parts.items() if key not in {other for _, other in same}}, files
    )


def _check_sheets(parts: Mapping[str, PartModel], files: Mapping[str, str]) -> Iterator[Finding]:
    holders: dict[str, str] = {}
    for key, part in parts.items():
        sheet = str(part.number if part.sheet is None else part.sheet)
        holder = holders.setdefault(sheet, key)
        if holder != key:
            yield Finding(
                "sheet-number-twice",
                Severity.STOP,
                f"`{holder}` and `{key}` are both on sheet {sheet}.",
                f"Give the newer of them a sheet of its own, for example `sheet: {sheet}a`.",
                Place(files[key], 1, 1) if part.sheet is None else part.sheet.place,
                related=(Related(Place(files[holder], 1, 1), "is on this sheet too"),),
            )
