"""The marks of a version, from its comparison with the one before: nothing is compared here a second time.

They are known before any page is composed, and nothing that is drawn or set hangs on them.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from itertools import chain
from typing import Final

from planbook.source.models.changes import ReasonModel
from planbook.source.sentences import capital
from planbook.statement.calculations import CALCULATIONS
from planbook.statement.changes_causes import Causes
from planbook.statement.changes_log import page_titles
from planbook.statement.changes_names import reason_name, with_sort
from planbook.statement.changes_words import plain_numbers
from planbook.statement.comparison import Change, Comparison, Kind, Touch, Verdict
from planbook.statement.loads import LOADS, lines_of
from planbook.statement.marks import Marks, Removed, SheetMark
from planbook.statement.model import Statement
from planbook.statement.naming import dimension_words, feature_words
from planbook.statement.stacks_told import STACKS
from planbook.statement.things import ON_EVERY_SHEET
from planbook.statement.wording import relisted

_STEP: Final = {"step": "title", "dry fit": "joining", "glue-up order": "joining", "open time": "joining"}
"""Where sides of a step are seen that have no place of their own name."""
_HELD: Final = ("parts", "tools", "cautions", "joining", "hold")
"""What stands beside the prose of a step."""
_SIZES: Final = frozenset({"size", "outline"})
"""Sides of a part that its dimensions tell."""
_SAID: Final = frozenset({"method", "standing", "note"})
"""Sides that say something, or nothing."""


def mark_changes(comparison: Comparison, now: Statement, given: Iterable[ReasonModel] = ()) -> Marks:
    """The marks of `now`: the newer statement with its history written in.

    `given` are the author's reasons. Where nothing changed, nothing is said of marks either.
    """
    reasons = _Reasons(comparison, given)
    changed = (f"sheet/{number}" for number, sheet in now.sheets.items() if sheet.changed_in == now.issue)
    told = frozenset(chain(changed, *map(_places, comparison.told)))
    fresh = {each.key for each in comparison.parts if each.verdict is Verdict.NEW}
    sheets = {
        number: marks
        for number, sheet in now.sheets.items()
        if sheet.part not in fresh and (marks := tuple(_of_part(comparison, sheet.part, reasons)))
    }
    removed = tuple(_removed(comparison))
    since = comparison.old.version if told or sheets or removed else ""
    return Marks(since, now.issue, told, sheets, removed)


class _Reasons:
    """Why things changed, as the author says."""

    def __init__(self, comparison: Comparison, given: Iterable[ReasonModel]) -> None:
        self._why = {reason_name(str(about)): str(each.why) for each in given for about in each.subjects}
        self._causes = Causes(comparison, self._why.keys())
        self._parts = comparison.new.parts

    def of(self, change: Change) -> str:
        """The closest reason: for the thing, its feature, its part, what it is worked out from; "" for none.

        What a part has from its stock goes by that of the stock before that of the part.
        """
        owner = change.id.rpartition("/")[0]
        behind = self._causes.name_for(change)
        part = with_sort(change.part, "part")
        names = (change.id, owner, *part, behind)
        if change.id == f"{change.part}/blank/thickness":
            names = (change.id, owner, behind, *part)
        elif change.kind is Kind.PART and change.side == "stock range" and change.part in self._parts:
            names = (self._parts[change.part].stock, change.id, *part, behind)
        return next((self._why[name] for name in names if name in self._why), "")


def _places(change: Change) -> Iterator[str]:
    """Where on pages a change is seen; what is gone is seen nowhere."""
    if not change.new:
        return
    match change.kind:
        case Kind.PROSE:
            yield f"block/{change.id}"
        case Kind.LIST:
            yield from _of_list(change)
        case Kind.STEP:
            sides = (_STEP.get(change.side, change.side),) if change.side else _HELD
            yield from (f"step.{change.id}/{side}" for side in sides)
        case Kind.PARAMETER | Kind.DIMENSION | Kind.FIGURE:
            yield f"{change.kind}/{change.id}"


def _of_list(change: Change) -> Iterator[str]:
    """A row, the calculation that it is, or of a load the lines that it is printed in."""
    name, _, row = change.id.partition("/")
    if name == LOADS:
        yield from (f"list/{change.id}/{line}" for line in lines_of(change.side))
    else:
        yield f"calculation.{row.partition('/')[0]}" if name in (CALCULATIONS, STACKS) else f"list/{change.id}"


def _of_part(comparison: Comparison, part: str, reasons: _Reasons) -> Iterator[SheetMark]:
    """The marks of a part's sheet, dimensions first, numbered from 1."""
    dimensions: dict[str, SheetMark] = {}
    for change in comparison.told:
        if change.kind is Kind.DIMENSION and change.part == part and change.touch is not Touch.TABLE:
            mark = replace(_of_dimension(change), why=reasons.of(change))
            first = dimensions.get(change.id)
            dimensions[change.id] = replace(first, was=f"{first.was}; {mark.was}") if first else mark
    others = (
        replace(other, why=reasons.of(change))
        for change in comparison.told
        for other in _of_sheet(change, part, dimensioned=bool(dimensions))
    )
    for number, mark in enumerate((*dimensions.values(), *others), start=1):
        yield replace(mark, number=number)


def _of_dimension(change: Change) -> SheetMark:
    subject = capital(dimension_words(change.id))
    if not change.new:
        return SheetMark(0, subject, plain_numbers(change.old, "")[0], gone=True)
    if change.side == "drawn as":
        return SheetMark(0, subject, "drawn in another place or way", dimension=change.id)
    if change.side in _SAID and change.old == "none":
        return SheetMark(0, subject, f"{change.side}: {_unsaid(change)}", dimension=change.id)
    was = plain_numbers(change.old, change.new)[0]
    return SheetMark(0, subject, f"{change.side} {was}" if change.side and was else was, dimension=change.id)


def _unsaid(change: Change) -> str:
    """What was said before, in words also where that was nothing."""
    return "nothing was said" if change.side in _SAID and change.old == "none" else change.old


def _of_sheet(change: Change, part: str, *, dimensioned: bool) -> Iterator[SheetMark]:
    """What else a sheet says of a part, and what every sheet says; nothing for what its dimensions tell."""
    if change.kind in (Kind.EDITION, Kind.SET):
        if change.id in ON_EVERY_SHEET:
            yield SheetMark(0, capital(change.side), change.old)
    elif change.part != part:
        return
    elif change.kind is Kind.PART:
        yield from _of_part_itself(change, dimensioned=dimensioned)
    elif change.kind is Kind.FEATURE:
        name = capital(feature_words(change.id.partition("/")[2]))
        if change.side:
            yield SheetMark(0, f"{name}, {change.side}", _unsaid(change))
        elif not dimensioned:
            yield SheetMark(0, name, change.old, gone=not change.new)


def _of_part_itself(change: Change, *, dimensioned: bool) -> Iterator[SheetMark]:
    if change.side == "shown":
        yield from _of_views(change)
    elif change.side == "notes":
        yield _of_notes(change)
    elif change.side != "dimensioning" and not (dimensioned and change.side in _SIZES):
        yield SheetMark(0, capital(change.side), _unsaid(change))


def _of_views(change: Change) -> Iterator[SheetMark]:
    """Sections and details that the sheet did not have, or has no longer: they were nothing to read."""
    old, new = ([each for each in text.split(", ") if each != "none"] for text in (change.old, change.new))
    yield from (SheetMark(0, capital(each), "") for each in new if each not in old)
    yield from (SheetMark(0, capital(each), "was drawn", gone=True) for each in old if each not in new)


def _of_notes(change: Change) -> SheetMark:
    """It points at the first note that the sheet did not have."""
    had = change.old.split("\n")
    note = next((each for each in change.new.split("\n") if each not in had and change.new != "none"), "")
    was = "none" if change.old == "none" else relisted("", change.old, change.new).old
    return SheetMark(0, capital(change.side), was, note=note)


def _removed(comparison: Comparison) -> Iterator[Removed]:
    """Blocks of prose that are gone; of a page that is gone as a whole its title."""
    left = {block.page for block in comparison.new.blocks}
    titles = page_titles(comparison.old) | page_titles(comparison.new)
    for change in comparison.told:
        page = change.id.partition("/")[0]
        if change.kind is Kind.PROSE and change.old and not change.new:
            where = titles.get(page, capital(page.replace("_", " ")))
            if page in left:
                yield Removed(where, change.old)
            elif change.id == f"{page}/start/0":
                yield Removed(where, "Taken out as a whole.")
