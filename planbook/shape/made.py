"""What the maker of one kind of feature hands back: its shape, the cuts of the first of a row, and how it must lie."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum, auto

from planbook.design.values import Value
from planbook.shape.bench import FINE, Bench
from planbook.shape.board import Board
from planbook.shape.faces import FACES, SIZE_NAMES, stock_depth
from planbook.shape.geometry import Loop
from planbook.shape.kinds import FeatureShape
from planbook.shape.model import Cut, Ring
from planbook.shape.wording import like, said
from planbook.source.models.part import FaceName


class Fit(Enum):
    """How a feature must lie in its part."""

    INSIDE = auto()
    """Wholly within the blank and the outline."""
    ACROSS = auto()
    """Within the blank, and somewhere in the outline's wood: it may run out at a border."""
    SETTLED = auto()
    """However it lies: its maker has seen to it."""


@dataclass(frozen=True, slots=True)
class Made:
    """The first of a row, or the only one."""

    face: FaceName
    shape: FeatureShape
    cuts: tuple[Cut, ...]
    fit: Fit
    at: tuple[Value, ...] = ()
    """The measures along the face's two axes that say where it is, for findings."""
    prints: tuple[Loop, ...] = ()
    """What it takes seen from over its face, where that is not the loops of its cuts: of a leaning hole."""
    ring: Ring | None = None
    """How it is repeated about a centre."""


def depth_or_through(bench: Bench, board: Board, face: FaceName, depth: Value | None, what: str) -> float | None:
    """The depth of a cut: all the way without `depth`; None after a finding when it is deeper than its stock."""
    if depth is None:
        return stock_depth(face, board.blank)
    return blind_depth(bench, board, face, depth, what, otherwise=", or leave `depth` out if it should go through")


def blind_depth(
    bench: Bench, board: Board, face: FaceName, depth: Value, what: str, *, otherwise: str = ""
) -> float | None:
    """The depth of a cut that must leave wood; `otherwise` ends the remedy of the finding that it leaves none."""
    behind = stock_depth(face, board.blank)
    if depth.number < behind - FINE:
        return depth.number
    axis = FACES[face].normal
    bench.stop(
        "feature-too-deep",
        depth.place,
        f"{what} is {said(depth)} deep, and the {SIZE_NAMES[axis]} of {board.title} is only {said(board.size[axis])}.",
        f"Make it less than {like(depth, behind)} deep{otherwise}.",
    )
    return None
