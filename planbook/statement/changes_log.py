"""The change log of a version for builders: what changed, in which order, under which heading, and why."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from planbook.source.models.changes import ReasonModel
from planbook.source.sentences import capital
from planbook.statement.changes_telling import renamings, worth_saying
from planbook.statement.changes_words import Titles, describe, words
from planbook.statement.comparison import Change, Comparison, Kind
from planbook.statement.facets import read_part
from planbook.statement.model import PartStated, RowStated, Statement
from planbook.statement.renaming import in_new_names

_GROUPS = (Kind.PARAMETER, Kind.LIST, Kind.STEP, Kind.PROSE, Kind.FIGURE, Kind.RULE, Kind.EDITION, Kind.SET)
"""What stands after the parts, in order."""
_TITLES = {
    Kind.PARAMETER: "Named dimensions",
    Kind.FIGURE: "Figures",
    Kind.RULE: "What the design must hold to",
    Kind.EDITION: "Edition",
    Kind.SET: "Plan set",
}
_NUMBERS_FOLLOW = "Numbers in the text follow the changes above"


@dataclass(frozen=True, slots=True)
class ChangeLog:
    """The rows of one version, and the author's reasons that speak of nothing that changed."""

    rows: tuple[RowStated, ...]
    idle: tuple[ReasonModel, ...]


@dataclass(frozen=True, slots=True)
class _Group:
    """What stands under one heading. `about` is what a reason for all of it names, "" when none can."""

    title: str
    about: str
    changes: tuple[Change, ...]


@dataclass(frozen=True, slots=True)
class _Line:
    """A line by its stable id, and the names by which a reason may speak of it."""

    id: str
    what: str
    names: tuple[str, ...] = ()


def log_changes(
    version: str, previous: Statement, statement: Statement, comparison: Comparison, reasons: Iterable[ReasonModel]
) -> ChangeLog:
    """The change log of a version: part by part, then measures, lists, steps, pages and the rest.

    A row's cells are version, where ("Part 9, Handle"), what ("Pivot, diameter: 8 mm → 10 mm") and why. A row without
    "what" opens a heading with the reason for all that follows under it. Ids are the same in all editions.
    """
    titles = Titles(in_new_names(previous, statement.renamed), statement)
    given = {_name_of(str(reason.about)): reason for reason in reasons}
    rows: list[RowStated] = []
    used: set[str] = set()
    told = (*renamings(previous, statement), *worth_saying(comparison.told, titles))
    for group in _grouped(titles, told):
        lines = list(_lines(group, titles, follow=_numbers_changed(comparison)))
        if group.about in given:
            lines.insert(0, _Line(f"why/{group.about}", "", (group.about,)))
        said: set[str] = set()
        for line in lines:
            name = next((each for each in line.names if each in given), "")
            why = str(given[name].why) if name and name not in said else ""
            said.add(name)
            cells = {"version": version, "where": group.title, "what": line.what, "why": why}
            rows.append(RowStated(f"change/{version}/{line.id}", cells))
        used |= said
    return ChangeLog(_distinct(rows), tuple(reason for about, reason in given.items() if about not in used))


def log_text(row: RowStated) -> str:
    """A row without its heading as sentences: `Pivot, diameter: 8 mm → 10 mm. Why: it was tight.`"""
    what, why = row.cells["what"], row.cells["why"]
    if not what:
        return why
    stop = "" if what.endswith((".", ".”", "…”")) else "."
    return f"{what}{stop}{f' Why: {why}' if why else ''}"


def _distinct(rows: Iterable[RowStated]) -> tuple[RowStated, ...]:
    """The same rows; an id that comes again is numbered."""
    seen: Counter[str] = Counter()
    out: list[RowStated] = []
    for row in rows:
        seen[row.id] += 1
        out.append(row if seen[row.id] == 1 else RowStated(f"{row.id}/{seen[row.id]}", row.cells))
    return tuple(out)


def _name_of(about: str) -> str:
    """What a reason is about: a page or step by its key (`pages/02-how-to.md` is how_to), else as written."""
    file = about.removesuffix(".md")
    return re.sub(r"\A(?:.*/)?(?:\d+-)?", "", file).replace("-", "_") if file != about else about.replace("-", "_")


def _numbers_changed(comparison: Comparison) -> bool:
    return any(change.kind in (Kind.PARAMETER, Kind.DIMENSION, Kind.LIST) for change in comparison.told)


def _grouped(titles: Titles, told: Sequence[Change]) -> Iterator[_Group]:
    parts: dict[str, PartStated] = {**titles.old.parts, **titles.new.parts}
    for key in sorted(parts, key=lambda key: (parts[key].number, key)):
        if changes := tuple(change for change in told if change.part == key):
            yield _Group(capital(read_part(parts[key])), key, changes)
    pages = _page_titles(titles.old) | _page_titles(titles.new)
    rest: dict[tuple[str, str], list[Change]] = {}
    for kind in _GROUPS:
        for change in told:
            if change.kind is kind and not change.part:
                rest.setdefault(_heading(change, pages), []).append(change)
    for (title, about), those in rest.items():
        yield _Group(title, about, tuple(those))


def _heading(change: Change, pages: Mapping[str, str]) -> tuple[str, str]:
    head = change.id.partition("/")[0]
    if change.kind in (Kind.PROSE, Kind.STEP):
        return pages.get(head, capital(words(head))), head
    return (capital(head), "") if change.kind is Kind.LIST else (_TITLES[change.kind], "")


def _page_titles(statement: Statement) -> dict[str, str]:
    titles = {block.page: block.text for block in statement.blocks if block.id == f"{block.page}/start/0"}
    return titles | {step.key: f"Step {step.number}, {step.title}" for step in statement.steps}


def _lines(group: _Group, titles: Titles, *, follow: bool) -> Iterator[_Line]:
    """With `follow`, texts in which only numbers differ are told once, and not quoted."""
    following: list[str] = []
    for change in group.changes:
        names = _names(change)
        if follow and change.kind is Kind.PROSE and change.old and _no_digits(change.old) == _no_digits(change.new):
            following += names
        else:
            yield _Line(f"{change.kind}/{change.id}", describe(change, titles), (*names, group.about))
    if following:
        yield _Line(f"numbers/{group.about}", _NUMBERS_FOLLOW, (*following, group.about))


def _names(change: Change) -> tuple[str, ...]:
    """By what a reason may name a change, the closest first: its id, its feature or page, a row of a list."""
    owner, _, last = change.id.rpartition("/")
    return (change.id, owner, last) if change.kind is Kind.LIST else (change.id, owner)


def _no_digits(text: str) -> str:
    return re.sub(r"[\d./ ]+", "#", text)
