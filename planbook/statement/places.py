"""The places record: on which page, and where on it, each thing was printed. Never compared."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class PlaceOnPage:
    """`page` counts from 1; x and y are millimetres from the page's left and top edge to the text's left and middle.

    `part` and `sheet` are empty outside sheets; `text` is what stands there.
    """

    page: int
    x: float
    y: float
    text: str
    sheet: str = ""


@dataclass(frozen=True, slots=True)
class Places:
    """What an edition's PDF shows where."""

    pages: int
    page_sizes: tuple[tuple[float, float], ...]
    """Width and height of each page in millimetres."""
    dimensions: Mapping[str, tuple[PlaceOnPage, ...]]
    """By dimension id: on the sheets."""
    parameters: Mapping[str, tuple[PlaceOnPage, ...]]
    """By parameter name: in prose and tables."""
    targets: Mapping[str, PlaceOnPage]
    """By target: "sheet.11", "part.ramp_bar", "page.how_to", "step.frames", "figure.stowed", "table.hardware",
    "caution.pinch"."""
