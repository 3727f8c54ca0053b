"""Finish: how much surface there is, and how many packs cover it."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from planbook.design import Design
from planbook.measure.dimensionality import AREA
from planbook.shape.model import Part
from planbook.shape.solids import mesh_of
from planbook.source.content import Content
from planbook.source.findings import Finding, Severity
from planbook.source.models.cutting import FinishUseModel
from planbook.source.models.market import FinishModel
from planbook.source.models.part import PartKind
from planbook.source.text import Text

SQUARE_MILLIMETRE = 1e12
"""Square nanometres."""


@dataclass(frozen=True, slots=True)
class Finish:
    """A finish of the piece: `area` in square nanometres, covered so many times, takes whole `packs`."""

    key: str
    use: FinishUseModel
    model: FinishModel
    area: float
    packs: int


def surface_of(part: Part) -> float:
    """Of one part, in square nanometres, with all that its features open."""
    return mesh_of(part).area * SQUARE_MILLIMETRE


def finishes_of(
    content: Content, design: Design, parts: Mapping[str, Part]
) -> tuple[tuple[Finish, ...], tuple[Finding, ...]]:
    """What finishing.yaml asks for; jigs and test pieces get none."""
    found = list(_each(content, design, parts))
    finishes = tuple(finish for finish, _ in found if finish is not None)
    return finishes, tuple(finding for _, findings in found for finding in findings)


def _each(
    content: Content, design: Design, parts: Mapping[str, Part]
) -> Iterator[tuple[Finish | None, tuple[Finding, ...]]]:
    for key, use in content.finishing.items():
        model = content.markets[design.market].finishes.get(Text(use.item))
        if model is None:
            continue
        covers, findings = design.solve(model.covers, AREA)
        if covers is None:
            yield None, findings
            continue
        if covers.number <= 0:
            message = f"One pack of {model.title} covers `{model.covers}`, which is not more than nothing."
            remedy = "Give the area that a pack covers once, as a product of two lengths: `9 m * 1 m`."
            yield None, (*findings, Finding("size-not-positive", Severity.STOP, message, remedy, model.covers.place))
            continue
        finished = (part for part in parts.values() if part.kind is PartKind.PART and part.key not in use.leave_out)
        area = sum(part.quantity * surface_of(part) for part in finished)
        packs = math.ceil(area * use.coats / covers.number - 1e-9)
        yield Finish(str(key), use, model, area, packs), findings
