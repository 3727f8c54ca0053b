"""What builders do who hold an older version, by part and by how far they got, with the drawings that they need."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import replace

from planbook.document import CatchUp, PartTask, Rework, TaskGroup, withdrawn_sheets
from planbook.drawing import Drawing, mark_sheet
from planbook.impact import ORDER, TITLES, Impact, PartImpact, Stage, say_part, say_stages
from planbook.release.archive.advisories import Advisory
from planbook.release.guidance import guide, reasons_for
from planbook.release.history import Notes, notes_between
from planbook.release.remedies import remedies_said
from planbook.release.reworks import draw_reworks
from planbook.release.since import Since
from planbook.release.version import read_version
from planbook.source.models.changes import RemedyModel, VersionNotesModel
from planbook.source.sentences import capital
from planbook.statement import SheetMark, changed_sheets, mark_changes
from planbook.statement.model import Statement

Pages = Mapping[str, Sequence[Drawing]]
"""The pages of sheets by number, without marks."""
_MILD = (Impact.UNCHANGED, Impact.REPRINT)


def catch_up(
    since: Since, old: str, now: Statement, pages: Pages, notes: Notes, advisories: Sequence[Advisory] = ()
) -> CatchUp:
    """For builders who hold version `old`; `now` is what they get, `pages` has at least the sheets that changed."""
    told = guide(since, old, notes, advisories)
    later = [note for _, note in notes_between(notes, read_version(old), now.version)]
    sheets, untold = _marked(since, now, pages, later)
    parts = [part for part in since.impact.parts if part.impact not in _MILD]
    reprinted = tuple(part.number for part in since.impact.parts if part.impact is Impact.REPRINT)
    return CatchUp(
        old=old,
        versions=told.versions,
        groups=tuple(_groups(parts, now, sheets, later)),
        reprinted=reprinted,
        as_before=told.as_before,
        others=told.others,
        lifted=tuple(each.text for each in told.lifted),
        reworks=tuple(
            Rework(f"Part {part.number}, {part.title}", part.because, drawing) for part, drawing in draw_reworks(since)
        ),
        sheets=sheets,
        withdrawn=withdrawn_sheets(since.comparison),
        untold=untold,
    )


def _marked(
    since: Since, now: Statement, pages: Pages, notes: Iterable[VersionNotesModel]
) -> tuple[Pages, Mapping[str, tuple[SheetMark, ...]]]:
    """The sheets that changed, marked since the older version, and the marks that found no room."""
    reasons = [each for note in notes for each in note.reasons]
    marks = mark_changes(since.comparison, now, reasons)
    sheets: dict[str, Sequence[Drawing]] = {}
    untold: dict[str, tuple[SheetMark, ...]] = {}
    for number in changed_sheets(since.comparison):
        those = marks.sheets.get(number, ())
        sheets[number], left = mark_sheet(pages[number], those, marks.since, now.edition.paper)
        untold |= {number: left} if left else {}
    return sheets, untold


def _groups(
    parts: Sequence[PartImpact], now: Statement, changed: Collection[str], notes: Sequence[VersionNotesModel]
) -> Iterator[TaskGroup]:
    remedies = tuple(each for note in notes for each in note.remedies)
    for impact in ORDER:
        tasks = tuple(
            replace(_task(part, now, changed, remedies), why=" ".join(reasons_for(part, notes)))
            for part in parts
            if part.impact is impact
        )
        if tasks:
            yield TaskGroup(TITLES[impact], tasks)


def _task(part: PartImpact, now: Statement, changed: Collection[str], remedies: tuple[RemedyModel, ...]) -> PartTask:
    """By stage. A part that no step glues says nothing of that; what the column before says is not repeated."""
    if part.impact is Impact.WITHDRAWN:
        return PartTask(part.number, part.title, "Leave it out", "It is wanted no longer")
    sheet = now.parts[part.key].sheet
    if part.impact is Impact.NEW:
        return PartTask(part.number, part.title, f"{capital(say_part(part))}, from sheet {sheet}")
    stages = say_stages(part)
    cut = _when_cut(part)
    remedy = "; ".join(remedies_said(part, remedies))
    glued = remedy or stages.get(Stage.GLUED, cut)
    finished = remedy or stages.get(Stage.FINISHED, glued)
    return PartTask(
        part.number,
        part.title,
        f"Work from the new sheet {sheet}" if sheet in changed else f"Work from sheet {sheet} as you have it",
        capital(cut),
        _unless(glued, cut, "as when cut") if part.glued else "",
        _unless(finished, glued, "as when glued" if part.glued else "as when cut"),
    )


def _when_cut(part: PartImpact) -> str:
    """Of a part that is cut anew only the numbers that ask for it: where wood is lacking its picture shows."""
    if part.impact is Impact.RECUT and part.lacks and not any((*part.more, *part.left)):
        numbers = part.because.partition(part.lacks[0].words)[0].removesuffix("; ")
        return f"make it anew, for {numbers}" if numbers else "make it anew"
    return say_part(part) or part.impact.value


def _unless(text: str, before: str, words: str) -> str:
    return words if text == before else capital(text)
