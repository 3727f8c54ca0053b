"""CHANGES.md: the change log for builders, from the comparison with the former release and the author's own notes."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace

from planbook.impact import ORDER, TITLES, Impact, say_part
from planbook.release.across import PartAcross, others_across, parts_across
from planbook.release.archive.reader import Release
from planbook.release.compilation import Told
from planbook.release.remedies import remedies_said
from planbook.source.models.changes import RemedyModel, VersionNotesModel
from planbook.source.sentences import capital
from planbook.statement import log_text
from planbook.statement.model import RowStated


def write_changelog(told: Mapping[str, Told], former: Release | None, notes: VersionNotesModel) -> str:
    """The change log as Markdown. `told` is by edition, with its history written in; `former` is the release before."""
    first = next(iter(told.values())).statement
    since = f"after version {former.version}" if former else "the first version"
    lines = [
        f"# {first.plan_set.title}, version {first.version}",
        "",
        f"Issued {notes.issued.isoformat()}, {since}. {notes.summary}",
        "",
    ]
    if former:
        lines += [*_which_editions(told, former), *_parts(told, notes.remedies), *_changes(told)]
    return "\n".join(lines).rstrip() + "\n"


def _which_editions(told: Mapping[str, Told], former: Release) -> Iterator[str]:
    """What comes and goes as a whole: no part of it changed, and no heading below speaks of it."""
    gone = [name for name in former.statements if name not in told]
    said = [f"- The {name} edition is made no longer; {former.version} is the last version with one." for name in gone]
    said += [f"- The {name} edition is new." for name in told if name not in former.statements]
    yield from ("## Editions", "", *said, "") if said else ()


def _parts(told: Mapping[str, Told], remedies: tuple[RemedyModel, ...]) -> Iterator[str]:
    """What the version means for each part, the gravest first; parts that are as before are counted only."""
    sinces = {edition: one.since for edition, one in told.items() if one.since}
    parts = parts_across(sinces)
    yield from ("## What it means for the parts", "")
    for impact in ORDER:
        group = [part for part in parts if part.impact is impact and not part.as_before]
        lines = [line for part in group for line in _part(part, len(told), remedies)]
        yield from (f"### {TITLES[impact]}", "", *lines, "") if group else ()
    if same := sum(part.as_before for part in parts):
        yield from (f"{'One part is' if same == 1 else f'{same} parts are'} as before.", "")
    for title, others in others_across(sinces).items():
        said = [_other(line, editions, told) for line, editions in others.items()]
        yield from (f"## {title}", "", *said, "") if said else ()


def _part(part: PartAcross, editions: int, remedies: tuple[RemedyModel, ...]) -> Iterator[str]:
    """One line where all editions say the same or one alone is concerned, else a line for each that is."""
    name = f"Part {part.number}, {part.title}"
    meanings = part.meanings
    concerned = [edition for edition, impact in part.impacts.items() if impact.impact is not Impact.UNCHANGED]
    if len(set(meanings.values())) == 1 and len(meanings) == editions:
        yield f"- {name}{_said(next(iter(meanings.values())))}"
    elif len(concerned) == 1:
        yield f"- {name}, {concerned[0]} edition only{_said(say_part(part.impacts[concerned[0]]))}"
    else:
        yield f"- {name}:"
        yield from (f"  - {edition.capitalize()} edition{_said(meanings[edition])}" for edition in concerned)
    said = dict.fromkeys(each for impact in part.impacts.values() for each in remedies_said(impact, remedies))
    yield from (f"  - Once it is glued: {_escape(each)}" for each in said)


def _said(meaning: str) -> str:
    return f": {_escape(meaning)}." if meaning else "."


def _other(line: str, editions: tuple[str, ...], told: Mapping[str, Told]) -> str:
    if len(editions) == len(told):
        return f"- {_escape(capital(line))}."
    return f"- {' and '.join(editions).capitalize()} edition: {_escape(line)}."


def _changes(told: Mapping[str, Told]) -> Iterator[str]:
    """Heading by heading; a line that is not the same in every edition names its own."""
    rows = {edition: {row.id: row for row in _change_rows(one)} for edition, one in told.items()}
    headings: dict[str, dict[str, None]] = {}
    for own in rows.values():
        for row in own.values():
            headings.setdefault(row.cells["where"], {})[row.id] = None
    order = _in_order([row.cells["where"] for row in own.values()] for own in rows.values())
    if not headings:
        yield from ("## What changed", "", "Nothing that is printed reads differently.", "")
        return
    yield from ("## What changed", "")
    for where in order:
        yield from (f"### {_escape(where)}", "")
        for each in headings[where]:
            yield from _lines({edition: own[each] for edition, own in rows.items() if each in own}, len(told))
        yield ""


def _in_order(editions: Iterable[Iterable[str]]) -> list[str]:
    """The headings of all editions, each after the one that it follows in its own."""
    order: list[str] = []
    for own in editions:
        place = 0
        for heading in dict.fromkeys(own):
            if heading not in order:
                order.insert(place, heading)
            place = order.index(heading) + 1
    return order


def _lines(rows: Mapping[str, RowStated], editions: int) -> Iterator[str]:
    """One row in the editions that have it: once when all say the same, and the reason of a heading as a paragraph."""
    first = next(iter(rows.values()))
    texts = {edition: _escape(log_text(row)) for edition, row in rows.items()}
    if len(texts) == editions and len(set(texts.values())) == 1:
        text = next(iter(texts.values()))
        yield from (f"- {text}",) if first.cells["what"] else (text, "")
        return
    why = first.cells["why"] if first.cells["what"] and len({row.cells["why"] for row in rows.values()}) == 1 else ""
    for edition, row in rows.items():
        told = replace(row, cells={**row.cells, "why": ""}) if why else row
        yield f"- {edition.capitalize()} edition: {_escape(log_text(told))}"
    if why:
        yield f"- Why: {_escape(why)}"


def _change_rows(told: Told) -> Iterator[RowStated]:
    return (row for row in told.statement.changes if row.id.startswith("change/"))


def _escape(text: str) -> str:
    """Printed text as Markdown that shows it as it is, and stays readable where nobody renders it."""
    return "".join(f"\\{char}" if char in "\\`*<" else char for char in text)
