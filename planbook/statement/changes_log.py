"""The change log of a version for builders: what changed, in which order, under which heading, and why."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass, field

from planbook.source.models.changes import ReasonModel
from planbook.source.sentences import capital
from planbook.source.text import Text
from planbook.statement.asking import is_question
from planbook.statement.changes_causes import Causes
from planbook.statement.changes_following import Following
from planbook.statement.changes_lines import NUMBERS, Line, heading_names, lines_of
from planbook.statement.changes_names import reason_name, sorts_of
from planbook.statement.changes_telling import renamings, worth_saying
from planbook.statement.changes_words import Titles
from planbook.statement.comparison import Change, Comparison, Kind
from planbook.statement.model import PartStated, RowStated, Statement
from planbook.statement.naming import words
from planbook.statement.renaming import in_new_names
from planbook.statement.things import read_part
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
_ANSWERS = "Questions and answers"
_NUMBERED = (Kind.PARAMETER, Kind.DIMENSION, Kind.LIST)
"""Changes that numbers in the text follow."""


@dataclass(frozen=True, slots=True)
class ChangeLog:
    """The rows of one version, the `names` of what changed, and how the author's reasons fall short.

    `idle` is what reasons are about that did not change; `unexplained` are the names of what changed without one, by
    the heading under which it is told; `ambiguous` are names in reasons that several sorts of things have that changed,
    and those sorts.
    """

    rows: tuple[RowStated, ...]
    idle: tuple[Text, ...]
    names: tuple[str, ...] = ()
    unexplained: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    ambiguous: Mapping[Text, tuple[str, ...]] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Heading:
    """What is told under one heading ("Part 9, Handle"). `about` is what a reason for all of it names, "" for none.

    Ids and headings are the same in all editions.
    """

    title: str
    about: str
    lines: tuple[Line, ...]
    names: tuple[str, ...] = ()
    """By what a reason for all of it may speak of it."""


def tell_changes(
    comparison: Comparison, given: AbstractSet[str] = frozenset(), *, brief: bool = False
) -> tuple[Heading, ...]:
    """What changed, for builders: part by part, then measures, lists, steps, pages and the rest.

    What has a reason of its own, among the names `given`, is not told in one breath with others. `brief`: what merely
    follows from other changes is told in one line for each cause, with what changed most.
    """
    previous, statement = comparison.old, comparison.new
    titles = Titles(in_new_names(previous, statement.renamed), statement)
    told = (*renamings(previous, statement), *worth_saying(comparison.told, titles))
    following = Following(titles, Causes(comparison, given), given) if brief else None
    follow = any(change.kind in _NUMBERED for change in comparison.told)
    headings = []
    for title, about, changes in _grouped(titles, told):
        lines = lines_of(changes, titles, about, given, follow=follow, following=following)
        headings.append(Heading(title, about, tuple(lines), heading_names(about, titles)))
    return _numbers_once(headings, given) if brief else tuple(headings)


def _numbers_once(headings: Sequence[Heading], given: AbstractSet[str]) -> tuple[Heading, ...]:
    """Pages and steps in which only numbers follow are named in one line, where the first of them stood."""
    only = [
        heading
        for heading in headings
        if given.isdisjoint(heading.names) and all(line.id.startswith(f"{NUMBERS}/") for line in heading.lines)
    ]
    if len(only) < 2:
        return tuple(headings)
    told = Wording("Numbers follow the changes above", new="; ".join(heading.title for heading in only))
    changes = tuple(change for heading in only for line in heading.lines for change in line.changes)
    names = tuple(name for heading in only for name in heading.names)
    together = Heading("In the text", "", (Line(NUMBERS, told, names, changes, asks=False),))
    at = headings.index(only[0])
    return (*(each for each in headings[:at]), together, *(each for each in headings[at:] if each not in only))


def log_changes(version: str, comparison: Comparison, reasons: Iterable[ReasonModel]) -> ChangeLog:
    """The change log of a version, as rows.

    A row's cells are version, where ("Part 9, Handle"), what ("Pivot, diameter: 8 mm → 10 mm") and why. A row without
    "what" opens a heading with the reason for all that follows under it.
    """
    given = {reason_name(str(about)): (about, str(reason.why)) for reason in reasons for about in reason.subjects}
    rows: list[RowStated] = []
    used: set[str] = set()
    told = tell_changes(comparison, given.keys(), brief=True)
    for heading in told:
        lines = [*heading.lines]
        if not given.keys().isdisjoint(heading.names):
            lines.insert(0, Line(f"why/{heading.about}", Wording(""), heading.names))
        said: set[str] = set()
        for line in lines:
            name = next((each for each in line.names if each in given), "")
            why = given[name][1] if name else ""
            told_before = why in said
            said.add(why)
            cells = {"version": version, "where": heading.title, "what": str(line.what)}
            rows.append(RowStated(f"change/{version}/{line.id}", {**cells, "why": "" if told_before else why}))
            used |= given.keys() & set(line.names)
    causes = Causes(comparison, given.keys())
    unexplained = _unexplained(told, causes, given.keys())
    names = {name: None for heading in told for line in heading.lines for name in line.names if name}
    idle = tuple(about for name, (about, _) in given.items() if name not in used | causes.used)
    sorts = {about: sorts_of(name, names) for name, (about, _) in given.items()}
    ambiguous = {about: those for about, those in sorts.items() if len(those) > 1}
    return ChangeLog(_distinct(rows), idle, tuple(names), unexplained, ambiguous)


def _unexplained(told: Iterable[Heading], causes: Causes, given: AbstractSet[str]) -> dict[str, tuple[str, ...]]:
    """The names of what changed under each heading and has no reason, without what follows from others of them.

    An answer to a question has its reason: the question.
    """
    asking = [heading for heading in told if given.isdisjoint(heading.names) and heading.title != _ANSWERS]
    found = {
        heading.title: [change for change in _asking(heading) if not causes.account_for(change)] for heading in asking
    }
    measures = {change.id for changes in found.values() for change in changes if change.kind is Kind.PARAMETER}
    names = {
        title: tuple(dict.fromkeys(change.id for change in changes if not causes.follows_from(change, measures)))
        for title, changes in found.items()
    }
    return {title: those for title, those in names.items() if those}


def _asking(heading: Heading) -> Iterator[Change]:
    return (change for line in heading.lines if line.asks for change in line.changes)


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


def _grouped(titles: Titles, told: Sequence[Change]) -> Iterator[tuple[str, str, tuple[Change, ...]]]:
    """Title, what a reason for all of it names, and the changes under it."""
    parts: dict[str, PartStated] = {**titles.old.parts, **titles.new.parts}
    for key in sorted(parts, key=lambda key: (parts[key].number, key)):
        if changes := tuple(change for change in told if change.part == key):
            yield capital(read_part(parts[key])), key, changes
    pages = page_titles(titles.old) | page_titles(titles.new)
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
        return _ANSWERS, ""
    if change.kind in (Kind.PROSE, Kind.STEP):
        return pages.get(head, capital(words(head))), head
    return (capital(words(head)), "") if change.kind is Kind.LIST else (_TITLES[change.kind], "")


def page_titles(statement: Statement) -> dict[str, str]:
    """Of pages and steps, by key."""
    titles = {block.page: block.text for block in statement.blocks if block.id == f"{block.page}/start/0"}
    return titles | {step.key: f"Step {step.number}, {step.title}" for step in statement.steps}
