"""Advisories that a version lifts: what its notes say of them, and what its change log tells."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from planbook.release.archive.advisories import Advisory
from planbook.source.content import Content
from planbook.source.findings import Finding, Severity
from planbook.source.models.changes import VersionNotesModel
from planbook.source.names import in_row
from planbook.source.text import Text
from planbook.statement.model import RowStated, Statement


def check_lifts(content: Content, advisories: Sequence[Advisory]) -> tuple[Finding, ...]:
    """Notes that lift what is not there, or what was lifted before; and, as a warning, what nothing lifts."""
    return (*_wrong(content.changes, advisories), *_left(content, advisories))


def _wrong(notes: Mapping[Text, VersionNotesModel], advisories: Sequence[Advisory]) -> Iterator[Finding]:
    known = {each.number for each in advisories}
    lifted: dict[int, Text] = {}
    for version, note in notes.items():
        for number in note.lifts:
            if number not in known:
                message = f"Version {version} lifts advisory {number}, and there is none of that number."
                there = f"There {'are' if len(known) > 1 else 'is'} {in_row([*map(str, sorted(known))], 'and')}."
                remedy = there if known else "Delete it: no version of this plan set has an advisory."
                yield Finding("advisory-unknown", Severity.STOP, message, remedy, version.place)
            elif number in lifted:
                message = f"Version {version} lifts advisory {number}, which {lifted[number]} has lifted."
                yield Finding("advisory-lifted-twice", Severity.STOP, message, "Delete one of the two.", version.place)
            lifted.setdefault(number, version)


def _left(content: Content, advisories: Sequence[Advisory]) -> Iterator[Finding]:
    lifted = {number for note in content.changes.values() for number in note.lifts}
    for each in advisories:
        if each.number not in lifted:
            message = f"Advisory {each.number} still stands: {subject(each)}. \u201c{each.text}\u201d"
            remedy = f"In changes.yaml, say `lifts: [{each.number}]` at the version that mends it."
            yield Finding("advisory-stands", Severity.WARN, message, remedy)


def subject(advisory: Advisory) -> str:
    """What it is about: `part 9 of version 1.1, metric edition`."""
    part = f"part {advisory.part} of " if advisory.part is not None else ""
    plural = "s" if len(advisory.editions) > 1 else ""
    return f"{part}version {advisory.version}, {in_row(advisory.editions, 'and')} edition{plural}"


def lifted_rows(
    statement: Statement, version: str, own: VersionNotesModel | None, advisories: Sequence[Advisory]
) -> tuple[RowStated, ...]:
    """Rows of the change log: each advisory that this version lifts and that holds for this edition."""
    lifts = own.lifts if own is not None else ()
    return tuple(
        RowStated(
            lifting_id(version, each.number),
            {
                "version": version,
                "where": "Advisories",
                "what": f"Advisory {each.number} is lifted, on {subject(each)}: \u201c{each.text}\u201d",
                "why": "",
            },
        )
        for each in advisories
        if each.number in lifts and statement.edition.name in each.editions
    )


def lifting_id(version: str, number: int) -> str:
    """Of the row in a statement's changes that says that a version lifts an advisory."""
    return f"change/{version}/advisory/{number}"
