"""The two shapes of a part that a picture of its rework shows, in the place where the old piece lies best."""

from __future__ import annotations

from dataclasses import dataclass

from planbook.impact.judging import judge
from planbook.impact.model import PartImpact, Triple
from planbook.impact.sheets import Sheet, Sheets, told_part
from planbook.impact.turning import laid
from planbook.impact.wood import skins_outside
from planbook.shape.solids.surfaces import Floats
from planbook.statement import Comparison
from planbook.statement.model import DimensionStated, PartStated
from planbook.statement.renaming import in_new_names


@dataclass(frozen=True)
class Reshaped:
    """A part as the older and as the newer sheet told it, and what differs, in the axes of the newer one."""

    impact: PartImpact
    old: PartStated
    new: PartStated
    dimensions: tuple[DimensionStated, ...]
    """Those of the newer sheet that a piece made to the older one may not meet, and those of new features."""
    goes: Floats
    """(m, 3, 3): triangles round the wood that goes, in millimetres."""
    lacks: Floats
    """The same round the wood that is lacking."""

    @property
    def moved(self) -> Triple:
        """How far the old piece is shifted to lie in the new shape, in millimetres."""
        return self.impact.moved


def reshaped(comparison: Comparison, key: str) -> Reshaped:
    """A part that both versions have. Raises KeyError for another."""
    old = Sheets(in_new_names(comparison.old, comparison.new.renamed)).of(key)
    new = Sheets(comparison.new).of(key)
    impact = judge(old, new)
    old = laid(old, impact.turn) if impact.turn else old
    x, y, z = impact.moved
    return Reshaped(
        impact=impact,
        old=told_part(old),
        new=told_part(new),
        dimensions=tuple(_dimensions(impact, old, new)),
        goes=skins_outside(old.printed, new.printed, (x, y, z)),
        lacks=skins_outside(new.printed, old.printed, (-x, -y, -z)) + impact.moved,
    )


def _dimensions(impact: PartImpact, old: Sheet, new: Sheet) -> list[DimensionStated]:
    coming = new.part.features.keys() - old.part.features.keys()
    return [each for name, each in new.dimensions.items() if name in impact.dimensions or each.feature in coming]
