"""Whether a number can be worked to: woodwork by rule, caliper work by calipers, angles by a protractor."""

from __future__ import annotations

from planbook.dimension.audit.record import Limits, Number
from planbook.measure import INCH, MILLIMETRE, round_plain, round_to, settled, snap

_WOODWORK = {"in": INCH / 64, "mm": 0.5 * MILLIMETRE}
"""1/32 in or 0.5 mm; a number that is exactly a 64th of an inch is kept."""
_CALIPER = {"in": 0.001 * INCH, "mm": 0.1 * MILLIMETRE}
""".005 in or 0.1 mm; an author's own thousandths of an inch are kept."""
_ANGLE = 0.5
FINEST_WOODWORK = INCH / 64
"""No tolerance under this is held without calipers."""


def is_too_fine(number: Number) -> bool:
    """Whether the printed number lies between the steps that its kind of work has."""
    value = number.printed.value
    if number.is_angle:
        return settled(round_plain(value, _ANGLE)) != settled(value)
    step = (_CALIPER if number.caliper else _WOODWORK).get(number.printed.unit)
    return step is not None and not number.is_chosen and snap(round_to(value, step)) != snap(value)


def is_held_too_closely(number: Number) -> bool:
    """Whether it is woodwork, and its own tolerance is narrower than a 64th of an inch altogether."""
    if number.caliper or number.is_angle or number.upper is None or number.lower is None:
        return False
    return number.upper - number.lower < FINEST_WOODWORK


def is_rounded_out(number: Number, limits: Limits) -> bool:
    """Whether the design itself lies outside the limits that are printed."""
    same = settled if number.is_angle else snap
    off = same(number.nominal - number.printed.value)
    return not (same(limits.lower) <= off <= same(limits.upper))
