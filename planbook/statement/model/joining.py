"""How the parts stand together: components in their places, and fits."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class ComponentStated:
    """A part, or a bought rod, in its place in the assembly (shape.model.Component). `part` is "" for a rod."""

    name: str
    part: str
    origin: tuple[float, float, float]
    x: tuple[float, float, float]
    y: tuple[float, float, float]
    z: tuple[float, float, float]
    mirrored: bool = False
    rod: tuple[float, float, float] = (0.0, 0.0, 0.0)
    """Radius, length, and radius of the bore; zeros for a part."""


@dataclass(frozen=True, slots=True)
class FitStated:
    """What goes into what: the dimensions that make the gap, and between which limits (nanometres) it must lie."""

    name: str
    dimensions: tuple[str, ...]
    least: float
    most: float
    because: str
    fitted: bool = False
    """Whether a step has the builder make one to the other."""
