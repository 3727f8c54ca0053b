"""What is printed of the versions before: the revision table, the change log, the versions of sheets."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from planbook.statement.comparison import Comparison, Verdict
from planbook.statement.model import RowStated, Statement


@dataclass(frozen=True, slots=True)
class Revision:
    """A row of the revision table (ISO 7200 revision block): version, ISO 8601 date, the author's summary."""

    version: str
    issued: str
    summary: str


@dataclass(frozen=True, slots=True)
class Changes:
    """What a release knows about its forerunners and prints: given to print_changes.

    `changed_in` is the version in which each sheet last changed; `retired` are dimension ids, `retired_sheets` sheet
    numbers, never to be used again.
    """

    revisions: tuple[Revision, ...]
    log: tuple[RowStated, ...] = ()
    changed_in: Mapping[str, str] = field(default_factory=dict)
    retired: tuple[str, ...] = ()
    retired_sheets: tuple[str, ...] = ()


def print_changes(statement: Statement, changes: Changes) -> Statement:
    """The statement with its revision table, its change log, and the versions of its sheets."""
    sheets = {
        number: replace(sheet, changed_in=changes.changed_in.get(number, sheet.changed_in))
        for number, sheet in statement.sheets.items()
    }
    revisions = (
        RowStated(f"revision/{each.version}", {"version": each.version, "issued": each.issued, "summary": each.summary})
        for each in changes.revisions
    )
    return replace(
        statement,
        sheets=sheets,
        changes=(*revisions, *changes.log),
        retired=changes.retired,
        retired_sheets=changes.retired_sheets,
    )


def changed_sheets(comparison: Comparison) -> tuple[str, ...]:
    """Numbers of the newer statement's sheets whose part is new or not as it was."""
    same = {each.key for each in comparison.parts if each.verdict is Verdict.UNCHANGED}
    return tuple(number for number, sheet in comparison.new.sheets.items() if sheet.part not in same)


def changed_in(previous: Statement, statement: Statement, comparison: Comparison, version: str) -> Mapping[str, str]:
    """The version in which each sheet last changed: `version` for those whose part is not as it was."""
    changed = changed_sheets(comparison)
    return {
        number: version if number in changed or number not in previous.sheets else previous.sheets[number].changed_in
        for number in statement.sheets
    }
