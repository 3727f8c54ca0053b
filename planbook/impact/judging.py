"""The class of one part, from the two sheets that told it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from planbook.impact.measuring import measures, nearest_values, shared_dimensions, unmet
from planbook.impact.model import Impact, Measure, PartImpact, Spot, Triple, Turn, Work
from planbook.impact.registering import STAY, registered, registrations, shifted
from planbook.impact.sheets import Sheet
from planbook.impact.spotting import going, lacking, say_lacks
from planbook.impact.tokens import is_remeasured, printed_measures
from planbook.impact.turning import laid, say_turn, turns_of
from planbook.impact.wood import NOISE, Piece, outside
from planbook.impact.working import changed, say_moved, works
from planbook.statement.model import DimensionStated, PartStated

_MM = 1e-6
_BETTER = 0.5
"""A turned piece lacks less than this part of what it lacks as it was measured."""


@dataclass(frozen=True, slots=True)
class _Found:
    """What comparing two shapes gave."""

    impact: Impact
    works: tuple[Work, ...] = ()
    """What to do; of a part that is not to be reworked only what changed."""
    goes: tuple[Spot, ...] = ()
    lacks: tuple[Spot, ...] = ()
    turn: Turn | None = None
    moved: Triple = STAY

    @property
    def is_elsewhere(self) -> bool:
        """Whether the old piece lies otherwise in the new one than it was measured."""
        return self.turn is not None or any(self.moved)


def judge(old: Sheet, new: Sheet) -> PartImpact:
    """The impact on a part of which the sheets differ in a shape or a number."""
    impact = PartImpact(
        number=new.part.number,
        key=new.part.key,
        title=new.part.title,
        impact=Impact.RECUT,
        more=_pieces(new.part, old.part),
        left=_pieces(old.part, new.part),
    )
    if _other_stock(old.part, new.part):
        stock = new.part.stock_title or new.part.stock
        impact = replace(impact, measures=tuple(measures(old, new)))
        return replace(impact, because=f"it is of {stock} now, and was of {old.part.stock_title or old.part.stock}")
    found = _compare(old, new)
    lying = laid(old, found.turn) if found.turn else old
    measured = tuple(measures(lying, new))
    remeasured = is_remeasured(_notes(old.part), _notes(new.part), printed_measures(_other_numbers(old, new)))
    other = unmet(lying, new)
    if found.impact is Impact.REPRINT and not found.is_elsewhere and (other or remeasured):
        found = replace(found, impact=Impact.CHECK)
    return replace(
        impact,
        dimensions=other,
        measures=measured,
        remeasured=remeasured,
        impact=found.impact,
        because=_because(found, measured),
        works=found.works if found.impact is Impact.REWORK else (),
        goes=found.goes,
        lacks=found.lacks,
        turn=found.turn,
        moved=found.moved,
        moved_words=_say_lying(lying, new, found),
    )


def _compare(old: Sheet, new: Sheet) -> _Found:
    """As it was measured if wood is not lacking then; else in its best registration, shifted or turned."""
    thicker = NOISE if _same_measures(old, new) else max(NOISE, new.general.length * _MM)
    held, nearest = old.printed, new.shape(nearest_values(old, new))
    wanting = outside(nearest, held, thicker)
    if not wanting:
        if not outside(held, nearest, thicker):
            return _Found(Impact.REPRINT, changed(old, new))
        return _to_be_reworked(old, new, STAY)
    general = max(NOISE, new.general.length * _MM)
    moved = shifted(old, new, general)
    if moved is not None:
        return _to_be_reworked(old, new, moved.shift)
    if turned := _best_turned(old, new, wanting, general):
        return turned
    return _Found(Impact.RECUT, changed(old, new), lacks=_lacking(old, new, wanting))


def _best_turned(old: Sheet, new: Sheet, wanting: tuple[Piece, ...], general: float) -> _Found | None:
    """Of all turns in which no wood is lacking that in which least goes; an edge with a strip stays where it is.

    `wanting` is what is lacking as it was measured: a piece that is alike both ways round is no better for a turn.
    """
    found: list[_Found] = []
    for turn in () if old.edged or new.edged else turns_of(old.part):
        lying = laid(old, turn)
        for each in registrations(lying, new, general):
            lacks = registered(lying, new, each.shift, NOISE).volume
            if lacks < _volume(wanting) * _BETTER and not _is_too_small(lying, new):
                found.append(_to_be_reworked(lying, new, each.shift, turn))
    return min(found, key=lambda each: round(sum(spot.volume for spot in each.goes), 3), default=None)


def _is_too_small(lying: Sheet, new: Sheet) -> bool:
    """Whether wood is lacking for the numbers alone that hold however a piece lies."""
    sizes = {name: lying.dimensions[name].printed.value for name in shared_dimensions(lying, new)}
    return bool(outside(new.shape(nearest_values(lying, new)), new.shape(sizes)))


def _volume(pieces: tuple[Piece, ...]) -> float:
    return sum(each.volume for each in pieces)


def _to_be_reworked(old: Sheet, new: Sheet, shift: Triple, turn: Turn | None = None) -> _Found:
    """`old` lies as it is turned. Numbers that say where something is are no longer those of the sheet then."""
    general = any(shift) or turn is not None
    rest = outside(old.printed, new.printed, max(NOISE, new.general.length * _MM) if general else NOISE, shift)
    if not rest:
        return _Found(Impact.REPRINT, turn=turn, moved=shift)
    goes = going(rest, new)
    return _Found(Impact.REWORK, works(old, new, shift, goes), goes, turn=turn, moved=shift)


def _say_lying(lying: Sheet, new: Sheet, found: _Found) -> str:
    """How the old piece is laid to be worked on, and where all else that was cut lies then."""
    turned = f"lay it {say_turn(found.turn)}" if found.turn else ""
    return "; ".join(filter(None, (turned, say_moved(lying, new, found.moved))))


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
    if found.impact is Impact.REPRINT and found.is_elsewhere:
        turned = f"{say_turn(found.turn)}: " if found.turn else ""
        return f"{turned}it is measured from another place, and the wood is as it was"
    return "; ".join(work.words for work in found.works) if found.impact is Impact.REWORK else ""


def _lacks(found: _Found) -> str:
    """The numbers of the features that want wood, then what of the old part is in its way."""
    wanting = {spot.feature for spot in found.lacks}
    said = [work.words for work in found.works if work.feature in wanting]
    return "; ".join((*said, say_lacks(found.lacks)))
