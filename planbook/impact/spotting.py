"""Where the wood of a piece goes or is lacking: the feature that it belongs to, and that in words for the bench."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Final

from planbook.dimension.completeness.record import Shape
from planbook.impact.following import boxes
from planbook.impact.model import Spot
from planbook.impact.sheets import Sheet
from planbook.impact.wood import Piece
from planbook.impact.working import called
from planbook.shape.walls import BORDERS

_NM: Final = 1e6
_NEAR: Final = 0.01
_LIES: Final = " lies where the new part needs wood"


def going(pieces: Iterable[Piece], sheet: Sheet) -> tuple[Spot, ...]:
    """Pieces that go, with the feature of the new sheet that takes them away."""
    return tuple(_spot(each, _owner(each, sheet.printed), "") for each in pieces)


def lacking(pieces: Iterable[Piece], sheet: Sheet) -> tuple[Spot, ...]:
    """Pieces that are lacking, with the feature of the old sheet that took them away."""
    return tuple(_lacking(each, sheet) for each in pieces)


def say_lacks(spots: Sequence[Spot]) -> str:
    """`the old pegs hole lies where the new part needs wood, and so does the old slot`: the largest piece first."""
    first, *others = dict.fromkeys(each.words for each in spots)
    same = [each.removesuffix(_LIES) for each in others if each.endswith(_LIES)]
    if not first.endswith(_LIES) or not same:
        return "; ".join((first, *others))
    listed = " and ".join(filter(None, (", ".join(same[:-1]), same[-1])))
    rest = [each for each in others if not each.endswith(_LIES)]
    return "; ".join((f"{first}, and so {'do' if len(same) > 1 else 'does'} {listed}", *rest))


def _lacking(piece: Piece, sheet: Sheet) -> Spot:
    feature = _owner(piece, sheet.printed)
    if feature != "blank":
        return _spot(piece, feature, f"the old {called(sheet.part, feature, kind_first=False)}{_LIES}")
    beyond = _border(piece, sheet.printed)
    return _spot(
        piece, feature, f"the new part reaches beyond the old {beyond}" if beyond else f"the old outline{_LIES}"
    )


def _border(piece: Piece, shape: Shape) -> str:
    """That of the shape beyond which a piece lies, "" for one that lies within."""
    for axis, (near, far) in enumerate(BORDERS):
        if piece.high[axis] <= _NEAR:
            return near
        if piece.low[axis] >= shape.size[axis] / _NM - _NEAR:
            return far
    return ""


def _spot(piece: Piece, feature: str, words: str) -> Spot:
    return Spot(feature, piece.volume, piece.low, piece.high, piece.thickness, words)


def _owner(piece: Piece, shape: Shape) -> str:
    """The feature whose cuts reach round a piece; of several the smallest; else the blank."""
    middle = [(low + high) / 2 * _NM for low, high in zip(piece.low, piece.high, strict=True)]
    found = [
        (sum(high - low for low, high in box), name)
        for name, feature in shape.features.items()
        for box in boxes(feature)
        if all(low - _NM / 2 <= at <= high + _NM / 2 for at, (low, high) in zip(middle, box, strict=True))
    ]
    return min(found)[1] if found else "blank"
