"""The class of one part, from the two sheets that told it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from planbook.impact.measuring import measures, nearest_values, shared_dimensions, unmet
from planbook.impact.model import Impact, Measure, PartImpact, Spot, Triple, Work
from planbook.impact.registering import STAY, best_registration
from planbook.impact.sheets import Sheet
from planbook.impact.spotting import going, lacking, say_lacks
from planbook.impact.tokens import is_remeasured, printed_measures
from planbook.impact.wood import NOISE, Piece, outside
from planbook.impact.working import changed, say_moved, works
from planbook.statement.model import DimensionStated, PartStated

_MM = 1e-6


@dataclass(frozen=True, slots=True)
class _Found:
    """What comparing two shapes gave."""

    impact: Impact
    works: tuple[Work, ...] = ()
    """What to do; of a part that is not to be reworked only what changed."""
    goes: tuple[Spot, ...] = ()
    lacks: tuple[Spot, ...] = ()
    moved: Triple = STAY


def judge(old: Sheet, new: Sheet) -> PartImpact:
    """The impact on a part of which the sheets differ in a shape or a number."""
    measured = tuple(measures(old, new))
    impact = PartImpact(
        number=new.part.number,
        key=new.part.key,
        title=new.part.title,
        impact=Impact.RECUT,
        measures=measured,
        more=_pieces(new.part, old.part),
        left=_pieces(old.part, new.part),
    )
    if _other_stock(old.part, new.part):
        stock = new.part.stock_title or new.part.stock
        return replace(impact, because=f"it is of {stock} now, and was of {old.part.stock_title or old.part.stock}")
    found = _compare(old, new)
    remeasured = is_remeasured(_notes(old.part), _notes(new.part), printed_measures(_other_numbers(old, new)))
    other = unmet(old, new)
    if found.impact is Impact.REPRINT and not any(found.moved) and (other or remeasured):
        found = replace(found, impact=Impact.CHECK)
    return replace(
        impact,
        dimensions=other,
        remeasured=remeasured,
        impact=found.impact,
        because=_because(found, measured),
        works=found.works if found.impact is Impact.REWORK else (),
        goes=found.goes,
        lacks=found.lacks,
        moved=found.moved,
        moved_words=say_moved(old, new, found.moved),
    )


def _compare(old: Sheet, new: Sheet) -> _Found:
    """As it was measured if wood is not lacking then; else in its best registration."""
    thicker = NOISE if _same_measures(old, new) else max(NOISE, new.general.length * _MM)
    held, nearest = old.printed, new.shape(nearest_values(old, new))
    wanting = outside(nearest, held, thicker)
    if not wanting:
        if not outside(held, nearest, thicker):
            return _Found(Impact.REPRINT, changed(old, new))
        return _to_be_reworked(old, new, STAY)
    general = max(NOISE, new.general.length * _MM)
    moved = best_registration(old, new, general)
    if moved is not None and not moved.lacks:
        return _to_be_reworked(old, new, moved.shift)
    return _Found(Impact.RECUT, changed(old, new), lacks=_lacking(old, new, wanting))


def _to_be_reworked(old: Sheet, new: Sheet, shift: Triple) -> _Found:
    rest = outside(old.printed, new.printed, max(NOISE, new.general.length * _MM) if any(shift) else NOISE, shift)
    if not rest:
        return _Found(Impact.REPRINT, moved=shift)
    goes = going(rest, new)
    return _Found(Impact.REWORK, works(old, new, shift, goes), goes, moved=shift)


def _lacking(old: Sheet, new: Sheet, wanting: tuple[Piece, ...]) -> tuple[Spot, ...]:
    """As the new numbers have it; of a shape that is within them only by its limits, what those ask for."""
    return lacking(outside(new.printed, old.printed) or wanting, old)


def _same_measures(old: Sheet, new: Sheet) -> bool:
    """Whether both sheets state the part by the same dimensions, so that their limits say all."""
    return set(old.dimensions) == set(new.dimensions) == set(shared_dimensions(old, new))


def _notes(part: PartStated) -> list[str]:
    return [*part.notes, *(feature.note for feature in part.features.values())]


def _other_numbers(old: Sheet, new: Sheet) -> Iterator[DimensionStated]:
    """Dimensions of the old sheet that the new one has not, or prints otherwise."""
    for name, each in old.dimensions.items():
        if name not in new.dimensions or each.printed != new.dimensions[name].printed:
            yield each


def _other_stock(old: PartStated, new: PartStated) -> bool:
    """Whether it is cut from something else. A stock by another key that is called the same is the same."""
    return old.stock != new.stock and (old.stock_title, old.material) != (new.stock_title, new.material)


def _pieces(one: PartStated, other: PartStated) -> tuple[int, int]:
    """How many more pieces one asks for, as drawn and mirrored."""
    return max(0, one.as_drawn - other.as_drawn), max(0, one.mirrored - other.mirrored)


def _because(found: _Found, measured: tuple[Measure, ...]) -> str:
    if found.impact is Impact.RECUT:
        return _lacks(found)
    if found.impact is Impact.CHECK:
        numbers = "; ".join(work.words for work in found.works)
        return "its limits are others" if measured else numbers or "a measure in its notes is another"
    if found.impact is Impact.REPRINT and any(found.moved):
        return "it is measured from another place, and the wood is as it was"
    return "; ".join(work.words for work in found.works) if found.impact is Impact.REWORK else ""


def _lacks(found: _Found) -> str:
    """The numbers of the features that want wood, then what of the old part is in its way."""
    wanting = {spot.feature for spot in found.lacks}
    said = [work.words for work in found.works if work.feature in wanting]
    return "; ".join((*said, say_lacks(found.lacks)))
