"""What the audit of one edition comes to, for its table."""

from __future__ import annotations

from dataclasses import dataclass

from planbook.dimension.audit.fits import Fit, Gap
from planbook.dimension.audit.rebuild import Coordinate


@dataclass(frozen=True, slots=True)
class PartAudit:
    """One part: how many dimensions its sheet prints, and every coordinate that they fix."""

    part: str
    sheet: str
    printed: int
    coordinates: tuple[Coordinate, ...]

    @property
    def worst(self) -> Coordinate | None:
        """The length that printing puts off most; None if nothing is fixed."""
        lengths = (each for each in self.coordinates if not each.is_angle)
        return max(lengths, key=lambda each: abs(each.off), default=None)


@dataclass(frozen=True, slots=True)
class FitAudit:
    """One fit and its gap."""

    fit: Fit
    gap: Gap
    holds: bool


@dataclass(frozen=True, slots=True)
class Audit:
    """Parts by sheet, fits in file order, and how many rules were judged on the printed numbers."""

    parts: tuple[PartAudit, ...] = ()
    fits: tuple[FitAudit, ...] = ()
    rules: int = 0
