"""The lists that a builder buys and cuts from: parts, materials, hardware."""

from __future__ import annotations

from collections.abc import Mapping

from planbook.design import Design
from planbook.measure import Units
from planbook.shape.model import Part
from planbook.source.content import Content
from planbook.takeoff.hardware import check_hardware, hardware_list
from planbook.takeoff.materials import materials_list
from planbook.takeoff.model import ListRow
from planbook.takeoff.parts import parts_list

__all__ = ["ListRow", "check_hardware", "take_off"]


def take_off(
    content: Content, design: Design, parts: Mapping[str, Part], units: Units
) -> Mapping[str, tuple[ListRow, ...]]:
    """The lists by name: "parts", "materials", "hardware"."""
    return {
        "parts": parts_list(design, parts, units),
        "materials": materials_list(design, parts, units),
        "hardware": hardware_list(content, design, units),
    }
