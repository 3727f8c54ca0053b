"""Dimensions that both sheets print, compared by their limits: what is kept, and what the rest comes to."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from planbook.impact.limits import Band
from planbook.impact.model import Impact, Measure, Range
from planbook.impact.sheets import Sheet
from planbook.impact.wood import outside
from planbook.measure import UNIT_SIGNS, Precision, Units, print_limits
from planbook.statement.naming import dimension_words

_HAIR = 1e-6
"""Cubic millimetres: what two shapes that differ by one measure share but for the noise of arithmetic."""


def shared_dimensions(old: Sheet, new: Sheet) -> tuple[str, ...]:
    """Dimensions of lengths and angles that both sheets print of the same thing."""
    return tuple(
        name
        for name, each in new.dimensions.items()
        if name in old.dimensions and old.numbers[name].is_angle == new.numbers[name].is_angle
        and old.dimensions[name].kind == each.kind
    )  # fmt: skip


def nearest_values(old: Sheet, new: Sheet) -> Mapping[str, float]:
    """Numbers that the new limits allow, each as near to the old number as may be."""
    return {name: new.bands[name].nearest(old.dimensions[name].printed.value) for name in shared_dimensions(old, new)}


def unmet(old: Sheet, new: Sheet) -> tuple[str, ...]:
    """Dimensions whose new limits do not let in all that the old ones did."""
    return tuple(name for name in shared_dimensions(old, new) if not new.bands[name].holds(old.bands[name]))


def measures(old: Sheet, new: Sheet) -> Iterator[Measure]:
    """Those whose new limits let in a part only of what the old ones did."""
    for name in shared_dimensions(old, new):
        before, after = old.bands[name], new.bands[name]
        kept = before.shared(after)
        if after.holds(before) or kept is None or old.numbers[name].is_angle:
            continue
        below = Band(before.low, kept.low) if before.low < kept.low else None
        above = Band(kept.high, before.high) if before.high > kept.high else None
        parts = tuple(
            _range(new, name, band, _outcome(old, name, end, kept.nearest(end)), side)
            for band, end, side in ((below, before.low, "under"), (above, before.high, "over"))
            if band is not None
        )
        unit = UNIT_SIGNS[_units(new, name)]
        yield Measure(name, dimension_words(name), unit, _range(new, name, kept, Impact.UNCHANGED), parts)


def _outcome(sheet: Sheet, name: str, found: float, wanted: float) -> Impact:
    """What becomes of a piece that measures `found` where `wanted` is the nearest that is right."""
    lacking = outside(sheet.shape({name: wanted}), sheet.shape({name: found}), thicker=0.0)
    return Impact.RECUT if sum(piece.volume for piece in lacking) > _HAIR else Impact.REWORK


def _range(sheet: Sheet, name: str, band: Band, impact: Impact, side: str = "") -> Range:
    precision = Precision.CALIPER if sheet.dimensions[name].caliper else Precision.WOODWORK
    low, high = print_limits(band.low, band.high, _units(sheet, name), precision)
    return Range(low.text, high.text, impact, side)


def _units(sheet: Sheet, name: str) -> Units:
    return Units.INCH if sheet.dimensions[name].printed.unit == UNIT_SIGNS[Units.INCH] else Units.MILLIMETRE
