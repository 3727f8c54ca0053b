"""Left and right: what the pieces of a part are called that is made so many times as drawn and so many mirrored."""

from __future__ import annotations

from dataclasses import dataclass

from planbook.statement.model import PartStated


@dataclass(frozen=True, slots=True)
class Hand:
    """So many pieces of one hand."""

    name: str
    count: int


def hands_of(part: PartStated) -> tuple[Hand, ...]:
    """The hands of a part, as drawn first; none when no piece is mirrored."""
    if not part.mirrored:
        return ()
    as_drawn, mirrored = part.marks or ("as drawn", "mirrored")
    both = (Hand(as_drawn, part.as_drawn), Hand(mirrored, part.mirrored))
    return tuple(hand for hand in both if hand.count)
