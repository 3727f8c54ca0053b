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
    times: int,
) -> Weight | None:
    """None where nothing can be weighed. Jigs and test pieces are not shipped; `titles` are those of stock."""
    shipped = [part for part in parts.values() if part.kind is PartKind.PART]
    weighed = [part for part in shipped if part.stock in densities]
    if not weighed:
        return None
    wood = sum(part.quantity * mesh_of(part).volume * _CUBIC_MILLIMETRE * densities[part.stock] for part in weighed)
    light = [titles.get(part.stock, part.stock) for part in shipped if part.stock not in densities]
    heavy = [use for use in uses if "mass" in use.item.measures]
    metal = sum(use.count * use.item.measures["mass"].value for use in heavy)
    others = ["hardware" if not heavy else "some hardware"] if len(heavy) < len(uses) else []
    return Weight(wood * times, metal, tuple(dict.fromkeys((*light, *others))))


def weight_list(weight: Weight, units: Units) -> tuple[ListRow, ...]:
    """The parts, hardware where it is weighed, and what is shipped."""
    told = [("parts", "Parts", weight.parts, "")]
    if weight.hardware:
        told.append(("hardware", "Hardware", weight.hardware, ""))
    without = f"; without {', '.join(weight.without)}" if weight.without else ""
    told.append(("shipped", "To ship", weight.shipped, f"with a tenth for packing{without}"))
    rows = []
    for key, of, kilograms, note in told:
        printed = print_quantity(Quantity(kilograms, MASS), units, Precision.WOODWORK)
        text = f"{printed.text} {printed.unit} [{printed.other} {printed.other_unit}]"
        rows.append(ListRow(key, {"Of": of, "Weight": text, "Note": note}))
    return tuple(rows)
