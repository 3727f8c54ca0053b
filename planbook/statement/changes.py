"""What changed since the version before, as it is printed: the revision table and the change log for builders."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

from planbook.source.models.changes import ReasonModel
from planbook.source.sentences import capital
from planbook.statement.comparison import Change, Comparison, Kind, Verdict
from planbook.statement.facets import read_part
from planbook.statement.model import PartStated, RowStated, Statement

_LONGEST = 90
"""Characters of a changed text that a row quotes."""
_GROUPS = (Kind.PARAMETER, Kind.LIST, Kind.STEP, Kind.PROSE, Kind.FIGURE, Kind.RULE, Kind.EDITION, Kind.SET)
"""What stands after the parts, in order. Sheets stand with their parts."""
_TITLES = {
    Kind.PARAMETER: "Dimensions",
    Kind.LIST: "Lists",
    Kind.FIGURE: "Figures",
    Kind.RULE: "Rules",
    Kind.EDITION: "Edition",
    Kind.SET: "Plan set",
}


@dataclass(frozen=True, slots=True)
class Revision:
    """A row of the revision table (ISO 7200 revision block): version, ISO 8601 date, the author's summary."""

    version: str
    issued: str
    summary: str


@dataclass(frozen=True, slots=True)
class Changes:
    """What a release knows about its forerunners and prints: given to print_changes.

    `changed_in` is the version in which each sheet last changed; `retired` are dimension ids never to be used again.
    """

    revisions: tuple[Revision, ...]
    log: tuple[RowStated, ...] = ()
    changed_in: Mapping[str, str] = field(default_factory=dict)
    retired: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class ChangeLog:
    """The rows of one version, and the author's reasons that speak of nothing that changed."""

    rows: tuple[RowStated, ...]
    idle: tuple[ReasonModel, ...]


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
    return replace(statement, sheets=sheets, changes=(*revisions, *changes.log), retired=changes.retired)


def changed_in(previous: Statement, statement: Statement, comparison: Comparison, version: str) -> Mapping[str, str]:
    """The version in which each sheet last changed: `version` for those whose part is not as it was."""
    same = {each.key for each in comparison.parts if each.verdict is Verdict.UNCHANGED}
    return {
        number: previous.sheets[number].changed_in if sheet.part in same and number in previous.sheets else version
        for number, sheet in statement.sheets.items()
    }


def log_changes(
    version: str, previous: Statement, statement: Statement, comparison: Comparison, reasons: Iterable[ReasonModel]
) -> ChangeLog:
    """The change log of a version for builders: part by part, then measures, lists, steps, pages and the rest.

    A row's cells are version, where ("Part 9, Handle"), what ("pivot, diameter: 8 mm -> 10 mm") and why.
    """
    told = [change for change in comparison.told if not _said_by_the_part(change)]
    given = {_name_of(str(reason.about)): reason for reason in reasons}
    used: set[str] = set()
    rows: list[RowStated] = []
    for where, about, changes in _grouped(previous, statement, told):
        general = given.get(about)
        for what, ids in _lines(changes):
            own = next((given[each] for each in ids if each in given), None)
            reason = own or general
            if general is not None and own is None:
                general = None  # once for the whole group
            used.update(_name_of(str(each.about)) for each in (own, given.get(about)) if each is not None)
            cells = {"version": version, "where": where, "what": what, "why": str(reason.why) if reason else ""}
            rows.append(RowStated(f"change/{version}/{len(rows) + 1}", cells))
    return ChangeLog(tuple(rows), tuple(reason for about, reason in given.items() if about not in used))


def _said_by_the_part(change: Change) -> bool:
    """Sheets and the parts list repeat what the part itself says."""
    return change.kind is Kind.SHEET or (change.kind is Kind.LIST and change.id.startswith("parts/"))


def _name_of(about: str) -> str:
    """What a reason is about: a page or step by its key (`pages/02-how-to.md` is how_to), else as written."""
    file = about.removesuffix(".md")
    return re.sub(r"\A(?:.*/)?(?:\d+-)?", "", file).replace("-", "_") if file != about else about.replace("-", "_")


def log_text(row: RowStated) -> str:
    """A row of the change log as one sentence: `Part 9, Handle: pivot, diameter: 8 mm -> 10 mm. Why: it was tight.`"""
    why = f" Why: {row.cells['why']}" if row.cells["why"] else ""
    what = row.cells["what"]
    return f"{row.cells['where']}: {what}{'' if what.endswith(('.', '”')) else '.'}{why}"


def _grouped(
    previous: Statement, statement: Statement, told: Sequence[Change]
) -> Iterator[tuple[str, str, list[Change]]]:
    """Title, what a reason for the whole group is about, and changes."""
    parts: dict[str, PartStated] = {**previous.parts, **statement.parts}
    for key in sorted(parts, key=lambda key: (parts[key].number, key)):
        changes = [change for change in told if change.part == key]
        if changes:
            yield capital(read_part(parts[key])), key, changes
    titles = _page_titles(previous) | _page_titles(statement)
    for kind in _GROUPS:
        groups: dict[tuple[str, str], list[Change]] = {}
        for change in told:
            if change.kind is kind and not change.part:
                groups.setdefault(_group(change, titles), []).append(change)
        for (title, about), changes in groups.items():
            yield title, about, changes


def _group(change: Change, titles: Mapping[str, str]) -> tuple[str, str]:
    if change.kind in (Kind.PROSE, Kind.STEP):
        page = change.id.partition("/")[0]
        return titles.get(page, capital(_words(page))), page
    return _TITLES[change.kind], ""


def _page_titles(statement: Statement) -> dict[str, str]:
    titles = {block.page: block.text for block in statement.blocks if block.id == f"{block.page}/start/0"}
    return titles | {step.key: f"Step {step.number}, {step.title}" for step in statement.steps}


def _lines(changes: Iterable[Change]) -> Iterator[tuple[str, tuple[str, ...]]]:
    """What each row says, and the ids that a reason for it may name. Numbers inside prose only follow others."""
    follows = False
    for change in changes:
        if change.kind is Kind.PROSE and change.old and _no_digits(change.old) == _no_digits(change.new):
            follows = True
        else:
            yield describe(change), (change.id, change.id.rpartition("/")[0])
    if follows:
        yield "numbers in the text follow the changes above", ()


def describe(change: Change) -> str:
    """A change in a builder's words: `pivot, diameter: 8 mm [5/16 in] -> 10 mm [13/32 in]`."""
    subject = _subject(change)
    old, new = (_quoted(change, text) for text in (change.old, change.new))
    if not old:
        return f"{subject} added: {new}" if new else f"{subject} added"
    if not new:
        return f"{subject} removed: {old}"
    return f"{subject}: {old} → {new}" if subject else f"{old} → {new}"


def _subject(change: Change) -> str:
    names = change.id.split("/")
    match change.kind:
        case Kind.PART:
            return "part" if not (change.old and change.new) else ""
        case Kind.DIMENSION | Kind.FEATURE:
            return ", ".join(_words(name) for name in names[1:] if name != "blank")
        case Kind.PROSE:
            return "text"
        case Kind.LIST:
            return f"{names[0]}, {_words('/'.join(names[1:]))}"
        case _:
            return _words(change.id)


def _quoted(change: Change, text: str) -> str:
    if change.kind is not Kind.PROSE or not text:
        return text
    return f"“{text if len(text) <= _LONGEST else f'{text[: _LONGEST - 1].rstrip()}…'}”"


def _no_digits(text: str) -> str:
    return re.sub(r"[\d./ ]+", "#", text)


def _words(name: str) -> str:
    return name.replace("_", " ")
