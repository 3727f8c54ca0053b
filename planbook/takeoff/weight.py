"""What the piece weighs to ship: its parts' solids by the density of their stock, hardware by its own mass, packing."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from planbook.design import Design
from planbook.measure import Precision, Quantity, Units, print_quantity
from planbook.measure.dimensionality import MASS
from planbook.shape.model import Part
from planbook.shape.solids import mesh_of
from planbook.source.models.part import PartKind
from planbook.takeoff.hardware import Use
from planbook.takeoff.model import ListRow

PACKING: Final = 0.1
"""The share of the piece that boxes and padding weigh: common practice, no source."""
_TOLD: Final = 0.01
"""Kilograms of hardware that are worth a row of their own; less is counted all the same."""
_CUBIC_MILLIMETRE: Final = 1e18
"""Cubic nanometres."""


@dataclass(frozen=True, slots=True)
class Weight:
    """Kilograms. `without` are the titles of what has no density or mass, each once: the weight is without them."""

    parts: float
    hardware: float
    without: tuple[str, ...]

    @property
    def shipped(self) -> float:
        """With packing."""
        return (self.parts + self.hardware) * (1 + PACKING)


def densities_of(design: Design) -> dict[str, float]:
    """By stock, in base units, where the market's table says one."""
    said = {key: design.parameters.get(f"stock.{key}.density") for key in design.stock}
    return {key: each.value.number for key, each in said.items() if each is not None}


def weight_of(
    parts: Mapping[str, Part],
    densities: Mapping[str, float],
    uses: Sequence[Use],
    titles: Mapping[str, str],
) -> Weight | None:
    """None where nothing can be weighed. Jigs and test pieces are not shipped; `titles` are those of stock."""
    shipped = [part for part in parts.values() if part.kind is PartKind.PART]
    weighed = [part for part in shipped if part.stock in densities]
    if not weighed:
        return None
    wood = sum(part.quantity * mesh_of(part).volume * _CUBIC_MILLIMETRE * densities[part.stock] for part in weighed)
    light = [titles.get(part.stock, part.stock) for part in shipped if part.stock not in densities]
    masses = [mass_of(use) for use in uses]
    # What stands after the comma of a title is for the shop: `M6 flat washer, as under the bolts' heads`.
    unknown = [use.item.model.title.split(",")[0] for use, mass in zip(uses, masses, strict=True) if mass is None]
    metal = sum(mass for mass in masses if mass is not None)
    others = ["hardware"] if unknown and not metal else unknown
    return Weight(wood, metal, tuple(dict.fromkeys((*light, *others))))


def mass_of(use: Use) -> float | None:
    """Of all that a use takes, spares left out: each by its own mass, and by its length where a mass goes by that."""
    own, by_length = (use.item.measures.get(name) for name in ("mass", "mass_by_length"))
    long = None if use.length is None else use.length.number
    if own is None and (by_length is None or long is None):
        return None
    more = by_length.value * long if by_length is not None and long is not None else 0.0
    return use.count * ((own.value if own is not None else 0.0) + more)


def weight_list(weight: Weight, units: Units) -> tuple[ListRow, ...]:
    """The parts, hardware where it is weighed, and what is shipped."""
    told = [("parts", "Parts", weight.parts, "")]
    if weight.hardware >= _TOLD:
        told.append(("hardware", "Hardware", weight.hardware, ""))
    without = f"; without {', '.join(weight.without)}" if weight.without else ""
    told.append(("shipped", "To ship", weight.shipped, f"with a tenth for packing{without}"))
    rows = []
    for key, of, kilograms, note in told:
        printed = print_quantity(Quantity(kilograms, MASS), units, Precision.WOODWORK)
        text = f"{printed.text} {printed.unit} [{printed.other} {printed.other_unit}]"
        rows.append(ListRow(key, {"Of": of, "Weight": text, "Note": note}))
    return tuple(rows)
