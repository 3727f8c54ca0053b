"""How many of each part are made for a class: of a jig one, whatever their number."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from planbook.shape.model import Part
from planbook.source.models.part import PartKind


def for_pieces(parts: Mapping[str, Part], times: int) -> dict[str, Part]:
    """Each part as often as so many `times` the piece want it; one jig or test piece serves them all."""
    return {key: _many(part, times) if part.kind is PartKind.PART else part for key, part in parts.items()}


def _many(part: Part, times: int) -> Part:
    return replace(part, as_drawn=part.as_drawn * times, mirrored=part.mirrored * times)
