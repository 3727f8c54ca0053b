"""The change log of a version for builders: what changed, in which order, under which heading, and why."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass
from itertools import chain

from planbook.source.models.changes import ReasonModel
from planbook.source.sentences import capital
from planbook.statement.asking import is_question
from planbook.statement.changes_telling import renamings, worth_saying
from planbook.statement.changes_words import Titles, describe, redrawn_figures
from planbook.statement.comparison import Change, Comparison, Kind
from planbook.statement.facets import PICTURE, read_part
from planbook.statement.model import PartStated, RowStated, Statement
from planbook.statement.naming import words
from planbook.statement.renaming import in_new_names
from planbook.statement.wording import Wording

_GROUPS = (Kind.PARAMETER, Kind.LIST, Kind.STEP, Kind.PROSE, Kind.FIGURE, Kind.RULE, Kind.FIT, Kind.EDITION, Kind.SET)
"""What stands after the parts, in order."""
_TITLES = {
    Kind.PARAMETER: "Named dimensions",
    Kind.FIGURE: "Figures",
    Kind.RULE: "What the design must hold to",
    Kind.FIT: "What fits what",
    Kind.EDITION: "Edition",
    Kind.SET: "Plan set",
}
_NUMBERS_FOLLOW = Wording("Numbers in the text follow the changes above")
_REWRITTEN = Wording("Written anew; please read it again")
_LONG = 8
"""Changes to the text of one page or step that are still told one by one."""
_NUMBERED = (Kind.PARAMETER, Kind.DIMENSION, Kind.LIST)
"""Changes that numbers in the text follow."""


@dataclass(frozen=True, slots=True)
class ChangeLog:
    """The rows of one version, the author's reasons that speak of nothing that changed, and the `names` of what did."""

    rows: tuple[RowStated, ...]
    idle: tuple[ReasonModel, ...]
    names: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Line:
    """One change by its stable id, and the names by which a reason may speak of it.

    `grave` says whether a builder may have to rework something for it.
    """

    id: str
    what: Wording
    names: tuple[str, ...] = ()
    grave: bool = False


@dataclass(frozen=True, slots=True)
class Heading:
    """What is told under one heading ("Part 9, Handle"). `about` is what a reason for all of it names, "" for none.

    Ids and headings are the same in all editions.
    """

    title: str
    about: str
    lines: tuple[Line, ...]


def tell_changes(comparison: Comparison, given: AbstractSet[str] = frozenset()) -> tuple[Heading, ...]:
    """What changed, for builders: part by part, then measures, lists, steps, pages and the rest.

    What has a reason of its own, among the names `given`, is not told in one breath with others.
    """
    previous, statement = comparison.old, comparison.new
    titles = Titles(in_new_names(previous, statement.renamed), statement)
    told = (*renamings(previous, statement), *worth_saying(comparison.told, titles))
    follow = any(change.kind in _NUMBERED for change in comparison.told)
    return tuple(
        Heading(title, about, tuple(_lines(changes, titles, about, given, follow=follow)))
        for title, about, changes in _grouped(titles, told)
    )


def log_changes(version: str, comparison: Comparison, reasons: Iterable[ReasonModel]) -> ChangeLog:
    """The change log of a version, as rows.

    A row's cells are version, where ("Part 9, Handle"), what ("Pivot, diameter: 8 mm → 10 mm") and why. A row without
    "what" opens a heading with the reason for all that follows under it.
    """
    given = {reason_name(str(reason.about)): reason for reason in reasons}
    rows: list[RowStated] = []
    used: set[str] = set()
    told = tell_changes(comparison, given.keys())
    for heading in told:
        lines = [*heading.lines]
        if heading.about in given:
            lines.insert(0, Line(f"why/{heading.about}", Wording(""), (heading.about,)))
        said: set[str] = set()
        for line in lines:
            name = next((each for each in line.names if each in given), "")
            why = str(given[name].why) if name and name not in said else ""
            said.add(name)
            cells = {"version": version, "where": heading.title, "what": str(line.what), "why": why}
            rows.append(RowStated(f"change/{version}/{line.id}", cells))
        used |= said
    names = {name: None for heading in told for line in heading.lines for name in line.names if name}
    idle = tuple(reason for about, reason in given.items() if about not in used)
    return ChangeLog(_distinct(rows), idle, tuple(names))


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


def reason_name(about: str) -> str:
    """What a reason is about: a page or step by its key (`pages/02-how-to.md` is how_to), else as written."""
    file = about.removesuffix(".md")
    return re.sub(r"\A(?:.*/)?(?:\d+-)?", "", file).replace("-", "_") if file != about else about.replace("-", "_")


def _grouped(titles: Titles, told: Sequence[Change]) -> Iterator[tuple[str, str, tuple[Change, ...]]]:
    """Title, what a reason for all of it names, and the changes under it."""
    parts: dict[str, PartStated] = {**titles.old.parts, **titles.new.parts}
    for key in sorted(parts, key=lambda key: (parts[key].number, key)):
        if changes := tuple(change for change in told if change.part == key):
            yield capital(read_part(parts[key])), key, changes
    pages = _page_titles(titles.old) | _page_titles(titles.new)
    rest: dict[tuple[str, str], list[Change]] = {}
    for kind in _GROUPS:
        for change in told:
            if change.kind is kind and not change.part:
                rest.setdefault(_heading(change, pages), []).append(change)
    for (title, about), those in rest.items():
        yield title, about, tuple(those)


def _heading(change: Change, pages: Mapping[str, str]) -> tuple[str, str]:
    head = change.id.partition("/")[0]
    if change.kind is Kind.PROSE and is_question(head):
        return "Questions and answers", ""
    if change.kind in (Kind.PROSE, Kind.STEP):
        return pages.get(head, capital(words(head))), head
    return (capital(head), "") if change.kind is Kind.LIST else (_TITLES[change.kind], "")


def _page_titles(statement: Statement) -> dict[str, str]:
    titles = {block.page: block.text for block in statement.blocks if block.id == f"{block.page}/start/0"}
    return titles | {step.key: f"Step {step.number}, {step.title}" for step in statement.steps}


def _lines(
    changes: Sequence[Change], titles: Titles, about: str, given: AbstractSet[str], *, follow: bool
) -> Iterator[Line]:
    """With `follow`, texts in which only numbers differ are told once, and not quoted; so are figures drawn anew, and
    pages that were written anew.
    """
    following: list[str] = []
    redrawn: dict[str, tuple[str, ...]] = {}
    rewritten = _rewritten(changes, titles, about, given)
    if rewritten:
        names = tuple(dict.fromkeys(chain(*map(_names, rewritten))))
        yield Line(f"rewritten/{about}", _REWRITTEN, (*names, about))
    for change in (each for each in changes if each not in rewritten):
        names = _names(change)
        if follow and change.kind is Kind.PROSE and change.old and _no_digits(change.old) == _no_digits(change.new):
            following += names
        elif change.side == PICTURE and given.isdisjoint(names):
            redrawn[change.id] = names
        else:
            yield Line(f"{change.kind}/{change.id}", describe(change, titles), (*names, about), change.grave)
    if following:
        yield Line(f"numbers/{about}", _NUMBERS_FOLLOW, (*following, about))
    if redrawn:
        yield Line("redrawn/figures", redrawn_figures(redrawn, titles), (*chain(*redrawn.values()), about))


def _rewritten(changes: Sequence[Change], titles: Titles, about: str, given: AbstractSet[str]) -> tuple[Change, ...]:
    """The changes to a text of which more than half has changed, in many places; none with a reason of its own."""
    prose = tuple(each for each in changes if each.kind is Kind.PROSE and given.isdisjoint(_names(each)))
    blocks = max(sum(block.page == about for block in side.blocks) for side in (titles.old, titles.new))
    return prose if len(prose) > max(_LONG, blocks / 2) else ()


def _names(change: Change) -> tuple[str, ...]:
    """By what a reason may name a change, the closest first: its id, its feature or page, a row of a list."""
    owner, _, last = change.id.rpartition("/")
    return (change.id, owner, last) if change.kind is Kind.LIST else (change.id, owner)


def _no_digits(text: str) -> str:
    return re.sub(r"[\d./ ]+", "#", text)
