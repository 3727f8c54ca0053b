"""What builders do who hold an older version, by part and by how far they got, with the drawings that they need."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence

from planbook.document import CatchUp, PartTask, Rework, TaskGroup, withdrawn_sheets
from planbook.drawing import Drawing, mark_sheet
from planbook.impact import Impact, PartImpact, Stage, say_part, say_stages
from planbook.release.guidance import Guidance, Point
from planbook.release.reworks import draw_reworks
from planbook.release.since import Since
from planbook.source.models.changes import ReasonModel
from planbook.source.sentences import capital
from planbook.statement import SheetMark, changed_sheets, mark_changes
from planbook.statement.model import Statement

Pages = Mapping[str, Sequence[Drawing]]
"""The pages of sheets by number, without marks."""


def catch_up(since: Since, told: Guidance, now: Statement, pages: Pages) -> CatchUp:
    """For builders who hold an older version. `told` is what they are told at all, `now` what they get; `pages` has at
    least the sheets that changed.
    """
    sheets, untold = _marked(since, now, pages, told.reasons)
    reprinted = (group.points for group in told.groups if group.impact is Impact.REPRINT)
    return CatchUp(
        old=told.old,
        versions=told.versions,
        groups=tuple(
            TaskGroup(group.title, tuple(_task(point, now, sheets) for point in group.points))
            for group in told.groups
            if group.impact is not Impact.REPRINT
        ),
        reprinted=tuple(point.part.number for points in reprinted for point in points),
        as_before=told.as_before,
        others=told.others,
        lifted=tuple(each.text for each in told.lifted),
        reworks=tuple(
            Rework(f"Part {part.number}, {part.title}", _words(part), drawing) for part, drawing in draw_reworks(since)
        ),
        sheets=sheets,
        withdrawn=withdrawn_sheets(since.comparison),
        untold=untold,
    )


def _words(part: PartImpact) -> str:
    """What stands over the picture of a part; what is to be done to one that is reworked stands in the picture."""
    return part.because if part.impact is Impact.RECUT else ""


def _marked(
    since: Since, now: Statement, pages: Pages, reasons: Iterable[ReasonModel]
) -> tuple[Pages, Mapping[str, tuple[SheetMark, ...]]]:
    """The sheets that changed, marked since the older version, and the marks that found no room."""
    marks = mark_changes(since.comparison, now, reasons)
    sheets: dict[str, Sequence[Drawing]] = {}
    untold: dict[str, tuple[SheetMark, ...]] = {}
    for number in changed_sheets(since.comparison):
        those = marks.sheets.get(number, ())
        sheets[number], left = mark_sheet(pages[number], those, marks.since, now.edition.paper)
        untold |= {number: left} if left else {}
    return sheets, untold


def _task(point: Point, now: Statement, changed: Collection[str]) -> PartTask:
    """By stage. A part that no step glues says nothing of that; what the column before says is not repeated."""
    part, why = point.part, " ".join(point.why)
    if part.impact is Impact.WITHDRAWN:
        return PartTask(part.number, part.title, "Leave it out", "It is wanted no longer", why=why)
    sheet = now.parts[part.key].sheet
    if part.impact is Impact.NEW:
        return PartTask(part.number, part.title, f"{capital(say_part(part))}, from sheet {sheet}", why=why)
    stages = say_stages(part)
    cut = _when_cut(part)
    remedy = "; ".join(point.remedies)
    glued = remedy or stages.get(Stage.GLUED, cut)
    finished = remedy or stages.get(Stage.FINISHED, glued)
    return PartTask(
        part.number,
        part.title,
        f"Work from the new sheet {sheet}" if sheet in changed else f"Work from sheet {sheet} as you have it",
        capital(cut),
        _unless(glued, cut, "as when cut") if part.glued else "",
        _unless(finished, glued, "as when glued" if part.glued else "as when cut"),
        why,
    )


def _when_cut(part: PartImpact) -> str:
    """Of a part that is cut anew only the numbers that ask for it: where wood is lacking its picture shows."""
    if part.impact is Impact.RECUT and part.lacks and not any((*part.more, *part.left)):
        numbers = part.because.partition(part.lacks[0].words)[0].removesuffix("; ")
        return f"make it anew, for {numbers}" if numbers else "make it anew"
    return say_part(part) or part.impact.value


def _unless(text: str, before: str, words: str) -> str:
    """A stage that asks for the same as the one before, or for that and something more, does not say it again."""
    if text == before:
        return words
    return capital(f"{words};{text.removeprefix(f'{before};')}" if text.startswith(f"{before};") else text)
