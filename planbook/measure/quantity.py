"""A value with its dimensionality, in base units: nanometre, kilogram, second, degree."""

from __future__ import annotations

from dataclasses import dataclass

from planbook.measure.dimensionality import ANGLE, LENGTH, Dimensionality


@dataclass(frozen=True, slots=True)
class Quantity:
    """`value` counts the coherent product of nanometre, kilogram, second and degree that `dimensionality` names."""

    value: float
    dimensionality: Dimensionality


def length(nanometres: float) -> Quantity:
    """A length of so many nanometres."""
    return Quantity(nanometres, LENGTH)


def angle(degrees: float) -> Quantity:
    """An angle of so many degrees."""
    return Quantity(degrees, ANGLE)
