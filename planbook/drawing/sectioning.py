"""Where a part is cut open: planes through what an edge or end view could only show dashed.

Such a view becomes a section: it looks the same way and stands in the same place, so that its dimensions stay true. It
does so only if it shows nothing of its own that the cut would take away. A section that the part's file asks for stands
beside such a view.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from planbook.drawing.curves import TINY, Arc
from planbook.drawing.facing import FACINGS, Facing
from planbook.drawing.solid import Prism, Solid
from planbook.source.names import LETTERS
from planbook.statement.model import DimensionStated, FeatureStated, PartStated

_CAN_BE_CUT: Final = ("front_edge", "rear_edge", "right_end", "left_end")
MM: Final = 1e-6
_MOST: Final = 2
"""So many sections of one part, if its author asks for none; more have to be asked for."""
_TRIED: Final = 24
"""So many planes are looked at, those in which most lies."""
_TOLD: Final = 3
"""What a section is worth that shows a blind or stepped recess; of a plain hole 1."""
_OFF_AXIS: Final = 2
"""What it costs to cut a hole beside its axis, which shows it narrower than it is."""
_ON_AXIS: Final = 0.01
_INSIDE: Final = 0.5
"""Millimetres: so near to its axis is a hole cut through it; so far within its walls is a recess cut."""


@dataclass(frozen=True, slots=True)
class Cutting:
    """A cutting plane: its letter, the view that it turns into a section, its place along the direction to the eye.

    `beside`: the view stays as it is, and the section stands beside it.
    """

    letter: str
    view: str
    at: float
    beside: bool = False

    @property
    def name(self) -> str:
        """Of the view that shows the section."""
        return f"section_{self.letter.lower()}" if self.beside else self.view

    @property
    def facing(self) -> Facing:
        """Which way the section looks."""
        return FACINGS[self.view]


@dataclass(frozen=True, slots=True)
class _Recess:
    """A feature as planes square to one direction meet it: where along it its cuts lie, and its axes if it is round."""

    name: str
    reaches: tuple[tuple[float, float], ...]
    axes: tuple[float, ...]
    worth: int

    @property
    def middles(self) -> tuple[float, ...]:
        """Where it would be cut."""
        return self.axes or tuple((low + high) / 2 for low, high in self.reaches)

    def is_cut(self, at: float) -> bool:
        """Whether a plane shows it truly."""
        if self.axes:
            return any(abs(at - axis) < _ON_AXIS for axis in self.axes)
        return any(low + _INSIDE < at < high - _INSIDE for low, high in self.reaches)

    def is_grazed(self, at: float) -> bool:
        """Whether a plane cuts a hole beside its axis."""
        return bool(self.axes) and not self.is_cut(at) and any(low < at < high for low, high in self.reaches)


def cuttings(part: PartStated, solid: Solid, dimensions: Sequence[DimensionStated]) -> tuple[Cutting, ...]:
    """The sections of a part's sheet: those that its file asks for, then those that turn other views into sections."""
    found = list(_asked(part, solid, dimensions))
    taken = {each.view for each in found if not each.beside}
    named = {each.view for each in dimensions} - taken
    letters = free_letters(part, found)
    for view in _CAN_BE_CUT:
        if view in named and len(found) < _MOST and not _has_its_own(part, view):
            at = _best_plane(part, solid, view, _shown(view, dimensions))
            if at is not None and not any(each.view == view and abs(each.at - at) < _INSIDE for each in found):
                found.append(Cutting(next(letters), view, at))
    return tuple(found)


def free_letters(part: PartStated, taken: Iterable[Cutting]) -> Iterator[str]:
    """Letters that no section or detail of a part has, in order."""
    held = {*part.sections, *part.details, *(cutting.letter for cutting in taken)}
    return iter([letter for letter in LETTERS if letter not in held])


def _asked(part: PartStated, solid: Solid, dimensions: Sequence[DimensionStated]) -> Iterator[Cutting]:
    """Each takes the place of its view if that loses nothing by it, and if it is the first to do so."""
    replaced = set[str]()
    for letter, asked in sorted(part.sections.items()):
        at = asked.at * MM * sum(FACINGS[asked.view].eye)
        cut = {each.name for each in _recesses(part, solid, asked.view) if each.is_cut(at)}
        needed = {each.feature for each in _shown(asked.view, dimensions)} - {"blank"}
        beside = asked.view in replaced or _has_its_own(part, asked.view) or not needed <= cut
        replaced |= set() if beside else {asked.view}
        yield Cutting(letter, asked.view, at, beside)


def _shown(view: str, dimensions: Sequence[DimensionStated]) -> list[DimensionStated]:
    return [each for each in dimensions if each.view == view]


def _has_its_own(part: PartStated, view: str) -> bool:
    return any(feature.face == view for feature in part.features.values())


def _best_plane(part: PartStated, solid: Solid, view: str, shown: Sequence[DimensionStated]) -> float | None:
    """The plane that tells most; None where nothing is worth a section, or a dimension would lose its place."""
    recesses = _recesses(part, solid, view)
    needed = {each.feature for each in shown} - {"blank"}
    best: tuple[float, float] | None = None
    places = Counter(round(middle, 6) for each in recesses if each.worth for middle in each.middles)
    for at, _ in sorted(places.most_common(_TRIED)):
        cut = [each for each in recesses if each.is_cut(at)]
        if max((each.worth for each in cut), default=0) < _TOLD or not needed <= {each.name for each in cut}:
            continue
        worth = sum(each.worth for each in cut) - _OFF_AXIS * sum(each.is_grazed(at) for each in recesses)
        if worth > 0 and (best is None or worth > best[0]):
            best = worth, at
    return best[1] if best else None


def _recesses(part: PartStated, solid: Solid, view: str) -> list[_Recess]:
    return [_recess(solid, feature, FACINGS[view]) for feature in part.features.values()]


def _recess(solid: Solid, feature: FeatureStated, facing: Facing) -> _Recess:
    cuts = [cut for cut in solid.cuts if cut.feature == feature.name]
    reaches = tuple(reach_along(cut, facing) for cut in cuts)
    square = [cut for cut in cuts if abs(cut.plane.normal.dot(facing.eye)) < TINY]
    axes = tuple({round(axis, 6): None for cut in square for axis in _axes(cut, facing)})
    whole = sum(abs(c) * size for c, size in zip(facing.eye, solid.size, strict=True))
    runs_through = any(high - low > whole - TINY for low, high in reaches)
    worth = 0 if runs_through or not square else _TOLD if _is_told_by_section(square, feature, solid) else 1
    return _Recess(feature.name, reaches, axes, worth)


def _is_told_by_section(cuts: Sequence[Prism], feature: FeatureStated, solid: Solid) -> bool:
    """Whether it has a floor, a step or a cone."""
    stepped = len(cuts) > feature.count or any(cut.cone is not None for cut in cuts)
    return stepped or any(cut.depth < _depth_through(cut, solid) - TINY for cut in cuts)


def _depth_through(cut: Prism, solid: Solid) -> float:
    return sum(abs(c) * size for c, size in zip(cut.plane.normal, solid.size, strict=True))


def _axes(cut: Prism, facing: Facing) -> list[float]:
    if len(cut.loop) != 1 or not isinstance(cut.loop[0], Arc):
        return []
    return [cut.plane.place(*cut.loop[0].centre).dot(facing.eye)]


def reach_along(cut: Prism, facing: Facing) -> tuple[float, float]:
    """From where to where a cut lies along the direction to the eye."""
    x0, y0, x1, y1 = cut.box
    corners = [cut.plane.place(x, y, depth) for x in (x0, x1) for y in (y0, y1) for depth in (0.0, cut.depth)]
    places = [corner.dot(facing.eye) for corner in corners]
    return min(places), max(places)
