"""What builders who hold an older version have to do when they get a newer one, in one edition."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from planbook.impact import ORDER, TITLES, Impact, PartImpact, Stage, say_part, say_stages
from planbook.release.across import others_across
from planbook.release.archive.advisories import Advisory
from planbook.release.history import Notes, notes_between
from planbook.release.remedies import remedies_said
from planbook.release.since import Since
from planbook.release.version import read_version
from planbook.source.models.changes import ReasonModel, VersionNotesModel
from planbook.source.names import sheet_order
from planbook.source.sentences import capital
from planbook.statement import Revision, changed_sheets, reason_name, with_sort


@dataclass(frozen=True, slots=True)
class Point:
    """One part and what becomes of it: its name, what to do, what else to do once it is glued, and the author's why."""

    part: PartImpact
    remedies: tuple[str, ...] = ()
    """What the author says to do with a glued one."""
    why: tuple[str, ...] = ()

    @property
    def name(self) -> str:
        """`Part 9, Handle`."""
        return f"Part {self.part.number}, {self.part.title}"

    @property
    def said(self) -> str:
        """What to do."""
        return say_part(self.part)

    @property
    def glued(self) -> tuple[str, ...]:
        """What to do once it is glued: what the author says, else what follows where that is another thing."""
        if self.remedies:
            return self.remedies
        stages = say_stages(self.part)
        differs = stages and self.part.glued and stages[Stage.GLUED] != stages[Stage.CUT]
        return (stages[Stage.GLUED],) if differs else ()


@dataclass(frozen=True, slots=True)
class Group:
    """Parts of one class of impact."""

    impact: Impact
    points: tuple[Point, ...]

    @property
    def title(self) -> str:
        """The class as a heading."""
        return TITLES[self.impact]


@dataclass(frozen=True, slots=True)
class Guidance:
    """All that a builder has to know, short: parts by class with the gravest first, then what to buy and to redo."""

    title: str
    edition: str
    old: str
    new: str
    issued: str
    versions: tuple[Revision, ...]
    """Those after `old`, oldest first, in the author's words."""
    groups: tuple[Group, ...]
    as_before: int
    """How many parts are as they were."""
    others: Mapping[str, tuple[str, ...]]
    """What to buy, and steps to look at again, by title."""
    sheets: tuple[str, ...]
    """To be printed anew."""
    lifted: tuple[Advisory, ...] = ()
    """Advisories on `old` that hold no longer."""
    answered: tuple[str, ...] = ()
    """Questions that a version after `old` is the first to answer."""
    reasons: tuple[ReasonModel, ...] = ()
    """Why things changed since `old`."""

    @property
    def asks(self) -> bool:
        """Whether somebody may have to do something to the piece."""
        return any(group.impact is not Impact.REPRINT for group in self.groups) or any(self.others.values())


def guide(
    since: Since, old: str, notes: Notes, advisories: Sequence[Advisory] = (), answered: Iterable[str] = ()
) -> Guidance:
    """From a comparison with version `old`; `notes` are the author's on all versions."""
    statement = since.comparison.new
    later = notes_between(notes, read_version(old), statement.version)
    parts = [part for part in since.impact.parts if part.impact is not Impact.UNCHANGED]
    lifts = {number for _, note in later for number in note.lifts}
    return Guidance(
        title=statement.plan_set.title,
        edition=statement.edition.name,
        old=old,
        new=statement.version,
        issued=statement.issued,
        versions=tuple(Revision(str(key), note.issued.isoformat(), str(note.summary)) for key, note in later),
        groups=tuple(_groups(parts, [note for _, note in later])),
        as_before=len(since.impact.parts) - len(parts),
        others={
            title: tuple(map(capital, lines)) for title, lines in others_across({statement.edition.name: since}).items()
        },
        sheets=tuple(sorted(changed_sheets(since.comparison), key=sheet_order)),
        lifted=tuple(
            each
            for each in advisories
            if each.number in lifts and each.version == old and statement.edition.name in each.editions
        ),
        answered=tuple(answered),
        reasons=tuple(reason for _, note in later for reason in note.reasons),
    )


def _reasons_for(part: PartImpact, notes: Iterable[VersionNotesModel]) -> tuple[str, ...]:
    """What the author says of a part in the notes of these versions; often how best to go about it."""
    names = {name for key in (part.key, *part.was) for name in with_sort(key, "part")}
    reasons = (reason for note in notes for reason in note.reasons)
    ours = (each for each in reasons if any(reason_name(str(about)) in names for about in each.subjects))
    return tuple(dict.fromkeys(str(each.why) for each in ours))


def _groups(parts: Iterable[PartImpact], notes: Sequence[VersionNotesModel]) -> Iterator[Group]:
    remedies = tuple(each for note in notes for each in note.remedies)
    by_impact: dict[Impact, list[Point]] = {}
    for part in parts:
        why = _reasons_for(part, notes)
        by_impact.setdefault(part.impact, []).append(Point(part, remedies_said(part, remedies), why))
    for impact in ORDER:
        if impact in by_impact:
            yield Group(impact, tuple(by_impact[impact]))
