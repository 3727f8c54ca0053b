"""Diameters of holes, named as the market names its drills."""

from __future__ import annotations

from collections.abc import Sequence

from planbook.measure.lengths import print_length
from planbook.measure.printed import Printed
from planbook.measure.rounding import round_to, snap
from planbook.measure.systems import Precision, Units
from planbook.measure.units import INCH, MILLIMETRE


def printed_diameter(nm: float, units: Units, drills: Sequence[float]) -> Printed:
    """A diameter as text: a drill that the market sells (`drills`, nanometres) keeps the market's own name.

    A shop that sells inch drills has a 9/32 in one also for a reader of millimetres. Any other diameter is woodwork if
    that states it exactly, else caliper work.
    """
    if snap(nm) in {snap(drill) for drill in drills}:
        sold_in = Units.INCH if _sells_inches(drills) else Units.MILLIMETRE
        return print_length(nm, sold_in, _fitting(nm, sold_in))
    return print_length(nm, units, _fitting(nm, units))


def _sells_inches(drills: Sequence[float]) -> bool:
    """Whether most drills are whole 64ths of an inch; 12.7 mm alone would not tell."""
    inches = sum(_is_multiple(drill, INCH / 64) for drill in drills)
    millimetres = sum(_is_multiple(drill, MILLIMETRE / 20) for drill in drills)
    return inches > millimetres


def _fitting(nm: float, units: Units) -> Precision:
    exact = INCH / 64 if units is Units.INCH else MILLIMETRE / 2
    return Precision.WOODWORK if _is_multiple(nm, exact) else Precision.CALIPER


def _is_multiple(nm: float, step: float) -> bool:
    return snap(round_to(nm, step)) == snap(nm)
