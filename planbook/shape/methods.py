"""How a builder gets a measure, in words."""

from __future__ import annotations

from collections.abc import Mapping

from planbook.shape.model import Part
from planbook.source.models.part import Method, MethodModel, PartModel

_WORDS = {
    Method.TO_NUMBER: "",
    Method.OVERSIZE_THEN_TRIM: "cut oversize, then trim",
    Method.MARKED_FROM: "marked from part",
    Method.DRILLED_WITH: "drilled with part",
}


def method_words(method: MethodModel | None, parts: Mapping[str, PartModel] | Mapping[str, Part]) -> str:
    """`drilled with part 9`; "" for a plain number. A part that does not exist is found when the content is read."""
    if method is None:
        return ""
    other = parts.get(method.part) if method.part is not None else None
    return " ".join(filter(None, (_WORDS[method.how], str(other.number) if other else "")))
