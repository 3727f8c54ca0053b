"""What is to be drawn of a part, and its views laid out with their dimensions."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from planbook.drawing.angles import is_angle
from planbook.drawing.block import Unnamed, lay_out
from planbook.drawing.calling_out import called_out
from planbook.drawing.callouts import is_linear
from planbook.drawing.detail import Detail
from planbook.drawing.facing import Gap
from planbook.drawing.hole_tables import HoleTable
from planbook.drawing.scales import Scale
from planbook.drawing.views import View
from planbook.statement.model import DimensionStated, PartStated


@dataclass(frozen=True, slots=True)
class Wanted:
    """What is to be drawn of a part, whatever the page: its dimensions, the scales to choose from, the projection.

    Of the holes in `tables` only their tags are drawn. `gaps` are left out of views along the part: they go with one
    scale, which is then the only one in `tried`. So do `details`, to which their dimensions move.
    """

    part: PartStated
    dimensions: Sequence[DimensionStated]
    scales: Sequence[Scale]
    projection: str
    tables: Sequence[HoleTable] = ()
    gaps: tuple[Gap, ...] = ()
    tried: Sequence[Scale] = ()
    details: tuple[Detail, ...] = ()
    _laid_out: dict[tuple[str, Scale, bool, bool], Unnamed] = field(default_factory=dict, compare=False)
    """Laying out takes long, and the same view at the same scale is asked for on many pages."""

    def detailed(self, details: tuple[Detail, ...]) -> Wanted:
        """The same with details; views without any are laid out as before."""
        names = {detail.view for detail in details}
        same = {key: laid for key, laid in self._laid_out.items() if key[0] not in names}
        return replace(self, details=details, _laid_out=same)

    def laid_out(self, view: View, scale: Scale, narrow: bool, full: bool = False) -> Unnamed:
        """A view with its dimensions round it; with `full` its callouts too."""
        key = (view.name, scale, narrow, full)
        if key not in self._laid_out:
            self._laid_out[key] = self._lay_out(view, scale, narrow, full)
        return self._laid_out[key]

    def _lay_out(self, view: View, scale: Scale, narrow: bool, full: bool) -> Unnamed:
        if full:
            return called_out(self.laid_out(view, scale, narrow), self.of([view]), self.part.features)
        linear = [d for d in self._in(view) if is_linear(d) or is_angle(d)]
        return lay_out(view, scale, linear, narrow, self.part.dimensioning)

    def _in(self, view: View) -> list[DimensionStated]:
        """The dimensions that stand round a view itself: of a detail those that have moved to it."""
        if view.detail:
            return [each for each in self.dimensions if each.id in view.detail.ids]
        moved = frozenset(name for detail in view.details for name in detail.ids)
        return [each for each in self.of([view]) if each.id not in moved]

    def of(self, views: Sequence[View]) -> list[DimensionStated]:
        """The dimensions that stand in some views."""
        names = {view.name for view in views}
        return [dimension for dimension in self.dimensions if dimension.view in names]
