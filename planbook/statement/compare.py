"""Comparing two statements by meaning: what each told the builder, whatever the order it was told in.

Left out is what belongs to the release and not to the piece: form, version, issue date, what is said of a one-off (the
measures that it changes are compared), the printed change log, retired ids, in which version a sheet last changed, and
where pieces lie on the stock (what is bought for them is compared).
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Final, TypeVar

from planbook.measure import Units
from planbook.statement import things
from planbook.statement.alignment import align
from planbook.statement.calculations import CALCULATIONS
from planbook.statement.comparison import Change, Comparison, Kind, PartVerdict, Touch, Verdict
from planbook.statement.facets import Facet, Thing, differences, digits_differ
from planbook.statement.loads import LOADS
from planbook.statement.model import (
    BlockStated,
    ComponentStated,
    FeatureStated,
    PartStated,
    RowStated,
    Statement,
    StepStated,
)
from planbook.statement.pinch_points import PINCH_POINTS
from planbook.statement.renaming import in_new_names
from planbook.statement.stacks_told import STACKS

T = TypeVar("T")
Held = TypeVar("Held")


def compare(old: Statement, new: Statement) -> Comparison:
    """Everything that `new` tells otherwise than `old`, and what that means for each part."""
    given, old = old, in_new_names(old, new.renamed)
    units = Units.INCH if new.edition.units == Units.INCH else Units.MILLIMETRE
    changes = (
        *_each(things.PARAMETER, old.parameters, new.parameters),
        *_each(things.part(units), old.parts, new.parts),
        *_features(things.feature(units), old.parts, new.parts),
        *_dimensions(old, new),
        *_prose(old.blocks, new.blocks),
        *_lists(old.lists, new.lists),
        *_each(things.SHEET, old.sheets, new.sheets),
        *_each(things.FIGURE, old.figures, new.figures),
        *_each(things.RULE, old.rules, new.rules),
        *_each(things.fit(units), *_recorded(old.fits, new.fits, {})),
        *_each(things.COMPONENT, *map(_by_name, _recorded(old.assembly, new.assembly, ()))),
        *_each(things.STEP, _by_key(old.steps), _by_key(new.steps)),
        *_one(Kind.EDITION, things.EDITION, old.edition, new.edition),
        *_one(Kind.SET, things.SET, old.plan_set, new.plan_set),
    )
    return Comparison(given, new, changes, _verdicts(old.parts, new.parts, changes))


def as_seen(comparison: Comparison, alike: Callable[[str], bool]) -> Comparison:
    """The same, with figures that look as they did only on record. `alike` says of a figure whether it does, by name.

    A figure's hash is of what stands in it, so it is another as well when something changed that it hides.
    """

    def told(change: Change) -> Change:
        redrawn = change.kind is Kind.FIGURE and change.side == things.PICTURE
        return replace(change, touch=Touch.RECORD) if redrawn and alike(change.id) else change

    return replace(comparison, changes=tuple(map(told, comparison.changes)))


def _by_key(steps: Iterable[StepStated]) -> dict[str, StepStated]:
    return {step.key: step for step in steps}


def _by_name(components: Iterable[ComponentStated]) -> dict[str, ComponentStated]:
    return {component.name: component for component in components}


def _recorded(old: Held | None, new: Held | None, nothing: Held) -> tuple[Held, Held]:
    """What both recorded; where one did not, nothing is known, and nothing is told."""
    return (old, new) if old is not None and new is not None else (nothing, nothing)


def _each(thing: Thing[T], old: Mapping[str, T], new: Mapping[str, T]) -> Iterator[Change]:
    """Changes of things that have names: gone, new, or changed in a facet."""
    for name, before in old.items():
        if name not in new:
            yield Change(thing.kind, name, thing.part_of(before), thing.read(before) or name, "", thing.coming)
    for name, after in new.items():
        part = thing.part_of(after)
        if name not in old:
            yield Change(thing.kind, name, part, "", thing.read(after) or name, thing.coming)
            continue
        for each in differences(thing.facets, old[name], after):
            yield Change(thing.kind, name, part, each.old, each.new, each.touch, each.side)


def _one(kind: Kind, sides: Sequence[Facet[T]], old: T, new: T) -> Iterator[Change]:
    for each in differences(sides, old, new):
        yield Change(kind, each.fields[0], "", each.old, each.new, each.touch, each.side)


def _features(
    thing: Thing[FeatureStated], old: Mapping[str, PartStated], new: Mapping[str, PartStated]
) -> Iterator[Change]:
    for key in new:
        if key in old:
            for change in _each(thing, old[key].features, new[key].features):
                yield replace(change, id=f"{key}/{change.id}", part=key)


def _dimensions(old: Statement, new: Statement) -> Iterator[Change]:
    """Changes of dimensions. Those of a part that came or went go without saying."""
    coming = old.parts.keys() ^ new.parts.keys()
    return (change for change in _each(things.DIMENSION, old.dimensions, new.dimensions) if change.part not in coming)


def _prose(old: Iterable[BlockStated], new: Iterable[BlockStated]) -> Iterator[Change]:
    before, after = _by_page(old), _by_page(new)
    for page in dict.fromkeys((*before, *after)):
        for a, b in align(before.get(page, ()), after.get(page, ())):
            where = b or a
            if where is not None:
                yield Change(Kind.PROSE, where.id, "", a.text if a else "", b.text if b else "")


def _by_page(blocks: Iterable[BlockStated]) -> dict[str, list[BlockStated]]:
    pages: dict[str, list[BlockStated]] = {}
    for block in blocks:
        pages.setdefault(block.page, []).append(block)
    return pages


LATER: Final = frozenset({"shopping", "cutting", "cost", "weight", PINCH_POINTS, LOADS})
"""Lists that older releases did not have: where one side has none, that is not recorded."""
_LATER_COLUMNS: Final = frozenset({"Spares"})
_WORKINGS: Final = frozenset({CALCULATIONS, STACKS}) | LATER
"""Lists that print what was worked out, and those that follow from others: what spoils cut wood is told by the
parts themselves, and a better plan of cutting, or another price, spoils none."""
_ADVICE: Final = frozenset({"Spares"})
"""Columns that nobody has to follow: who has fewer spares has all that the piece needs."""


def _lists(old: Mapping[str, Sequence[RowStated]], new: Mapping[str, Sequence[RowStated]]) -> Iterator[Change]:
    for name in dict.fromkeys((*old, *new)):
        if name in LATER and not (name in old and name in new):
            continue
        before, after = ({row.id: row for row in _told(name, side, other)} for side, other in ((old, new), (new, old)))
        for row in dict.fromkeys((*before, *after)):
            changes = _cells(f"{name}/{row}", before.get(row), after.get(row))
            yield from (replace(each, touch=Touch.TEXT) if name in _WORKINGS else each for each in changes)


def _told(
    name: str, lists: Mapping[str, Sequence[RowStated]], other: Mapping[str, Sequence[RowStated]]
) -> list[RowStated]:
    """The rows of a list; of a stack its layers only where the other side has it: a new one is told whole."""
    rows = lists.get(name, ())
    if name != STACKS:
        return list(rows)
    known = {row.id for row in other.get(CALCULATIONS, ())}
    return [row for row in rows if row.id.partition("/")[0] in known]


def _cells(row: str, old: RowStated | None, new: RowStated | None) -> Iterator[Change]:
    if old is None or new is None:
        texts = [", ".join(cell for cell in each.cells.values() if cell) or row if each else "" for each in (old, new)]
        yield Change(Kind.LIST, row, "", texts[0], texts[1], Touch.NUMBER if digits_differ(*texts) else Touch.TEXT)
        return
    for column in dict.fromkeys((*old.cells, *new.cells)):
        before, after = (each.cells.get(column) for each in (old, new))
        unrecorded = column in _LATER_COLUMNS and None in (before, after)
        if before != after and not unrecorded:
            counts = column not in _ADVICE and digits_differ(before or "", after or "")
            touch = Touch.NUMBER if counts else Touch.TEXT
            texts = ["" if cell is None else cell or "none" for cell in (before, after)]
            yield Change(Kind.LIST, row, "", texts[0], texts[1], touch, column)


def _verdicts(
    old: Mapping[str, PartStated], new: Mapping[str, PartStated], changes: Iterable[Change]
) -> tuple[PartVerdict, ...]:
    touched: dict[str, set[Touch]] = {}
    everywhere: set[Touch] = set()
    for change in changes:
        if change.part:
            touched.setdefault(change.part, set()).add(change.touch)
        elif change.kind in (Kind.EDITION, Kind.SET) and change.id in things.ON_EVERY_SHEET:
            everywhere.add(change.touch)
    verdicts = [
        PartVerdict(part.number, key, _verdict(touched.get(key, set()) | everywhere) if key in old else Verdict.NEW)
        for key, part in new.items()
    ]
    verdicts += [PartVerdict(part.number, key, Verdict.WITHDRAWN) for key, part in old.items() if key not in new]
    return tuple(sorted(verdicts, key=lambda each: (each.number, each.key)))


def _verdict(touched: set[Touch]) -> Verdict:
    if touched & {Touch.SHAPE, Touch.NUMBER}:
        return Verdict.CHANGED
    return Verdict.REPRINT if Touch.TEXT in touched else Verdict.UNCHANGED
