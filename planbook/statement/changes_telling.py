"""Which changes a builder need be told: new names, and not what another change has said already."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from planbook.design.entries import NOT_THE_AUTHORS
from planbook.statement.calculations import CALCULATIONS, RESULT, WAYS
from planbook.statement.changes_words import NAMED, Titles
from planbook.statement.comparison import Change, Kind
from planbook.statement.model import Statement
from planbook.statement.referring import NewNumbers
from planbook.statement.renaming import Renaming

_CALCULATION = f"{CALCULATIONS}/"
_WORKING = frozenset({"With", "Must", WAYS})
_COMING = ("", "none")
_TEXTS = (Kind.PROSE, Kind.STEP)


def worth_saying(told: Sequence[Change], titles: Titles) -> tuple[Change, ...]:
    """The changes without those that go without saying, in the same order."""
    captions = {
        (change.old, change.new)
        for change in told
        if change.kind is Kind.FIGURE or (change.kind is Kind.LIST and change.id.startswith("cautions/"))
    }
    results = {change.id for change in told if change.kind is Kind.LIST and change.side in ("", RESULT)}
    worked = {name.removeprefix(_CALCULATION) for name in results if name.startswith(_CALCULATION)}
    dimensioned = {change.part for change in told if change.kind is Kind.DIMENSION}
    numbers = NewNumbers(titles.old, titles.new)
    coming = {change.id for change in told if change.kind is Kind.FEATURE and not (change.old and change.new)}
    return tuple(
        change
        for change in told
        if not _repeats_a_list(change)
        and not _has_no_one_value(change, titles)
        and not _comes_into_no_table(change)
        and not (change.kind is Kind.PARAMETER and change.id in worked and not change.side)
        and not (is_working(change) and change.id in results)
        and not (change.kind is Kind.PROSE and ((change.old, change.new) in captions or _of_a_new_page(change, titles)))
        and not (change.kind in _TEXTS and change.new and numbers.of(change.old) == change.new)
        and not (change.part in dimensioned and _shown_by_dimensions(change, titles))
        and not (change.kind is Kind.DIMENSION and "/".join(change.id.split("/")[:2]) in coming)
    )


def is_working(change: Change) -> bool:
    """Whether it is a column of a calculation that follows when a number in it changes."""
    of_calculation = change.kind is Kind.LIST and change.id.startswith(_CALCULATION)
    return of_calculation and change.side in _WORKING and bool(change.old and change.new)


def renamings(previous: Statement, statement: Statement) -> Iterator[Change]:
    """Measures and features that have a new name since `previous`, as it names them: earlier logs use the old one."""
    renaming = Renaming(statement.renamed)
    for old in previous.parameters:
        if (new := renaming.of("parameter", old)) != old and new in statement.parameters:
            yield Change(Kind.PARAMETER, new, "", old, new, side=NAMED)
    for former, part in previous.parts.items():
        key = renaming.of("part", former)
        for old in part.features:
            new = renaming.feature(key, old)
            if new != old and key in statement.parts and new in statement.parts[key].features:
                yield Change(Kind.FEATURE, f"{key}/{new}", key, old, new, side=NAMED)


def _repeats_a_list(change: Change) -> bool:
    """Sheets and the parts list repeat what the part itself says; a cell in brackets repeats its neighbour."""
    if change.kind is not Kind.LIST:
        return change.kind is Kind.SHEET
    both = all(text in _COMING or text.startswith("[") for text in (change.old, change.new))
    return change.id.startswith("parts/") or (bool(change.side) and both)


def _has_no_one_value(change: Change, titles: Titles) -> bool:
    """A measure that moves with a driver is in no table of the plan; its value in one position tells nothing."""
    stated = (titles.old.parameters.get(change.id), titles.new.parameters.get(change.id))
    return change.kind is Kind.PARAMETER and any(each is not None and each.moving for each in stated)


def _comes_into_no_table(change: Change) -> bool:
    """A number of the market or the handbook, or weighed or counted, that a formula began or ceased to use."""
    coming = change.kind is Kind.PARAMETER and not (change.old and change.new)
    return coming and change.id.startswith(NOT_THE_AUTHORS)


def _of_a_new_page(change: Change, titles: Titles) -> bool:
    """A page or step that is new or gone is told by its title alone; a step has a change of its own for that."""
    page = change.id.partition("/")[0]
    if all(any(block.page == page for block in side.blocks) for side in (titles.old, titles.new)):
        return False
    steps = {step.key for side in (titles.old, titles.new) for step in side.steps}
    return page in steps or not change.id.endswith("/start/0")


def _shown_by_dimensions(change: Change, titles: Titles) -> bool:
    """Whether a shape only follows the dimensions of its part that are told: it has the same sides, the same cuts."""
    before, after = (side.parts.get(change.part) for side in (titles.old, titles.new))
    if before is None or after is None:
        return False
    if change.kind is Kind.PART:
        return change.side == "size" or (change.side == "outline" and len(before.outline) == len(after.outline))
    name = change.id.rpartition("/")[2]
    if change.kind is not Kind.FEATURE or change.side or name not in before.features or name not in after.features:
        return False
    old, new = before.features[name], after.features[name]
    return (old.kind, old.face) == (new.kind, new.face)
