"""All parts of a plan set, shaped for one edition."""

from __future__ import annotations

from collections.abc import Mapping

from planbook.design.values import Value
from planbook.shape.bench import FINE, Bench, Solving
from planbook.shape.board import Board
from planbook.shape.faces import SIZE_NAMES
from planbook.shape.features import shape_feature
from planbook.shape.geometry import Point
from planbook.shape.kinds import Vertex
from planbook.shape.loops import bounds, rectangle
from planbook.shape.model import Part
from planbook.shape.outline import shape_outline
from planbook.shape.showing import cut_planes, surrounds
from planbook.shape.solids.checking import check_solid
from planbook.shape.wording import in_both, like, said
from planbook.source.content import Content
from planbook.source.findings import Finding
from planbook.source.models.part import PartModel

AXES = ("x", "y")


def shape_parts(content: Content, design: Solving) -> tuple[Mapping[str, Part], tuple[Finding, ...]]:
    """Every part whose size and outline could be worked out, by key in the order of part numbers, and all findings.

    A feature that has a finding is left out of its part, so that the rest can still be looked at.
    """
    parts: dict[str, Part] = {}
    bench = Bench(design)
    for key, model in content.parts.items():
        part = _shape_part(bench, key, model)
        if part is not None:
            check_solid(bench, part)
            parts[key] = part
    return parts, bench.findings


def shape_part(design: Solving, key: str, model: PartModel) -> Part | None:
    """One part by itself, without its findings or a look at what is left of it; None when it has no shape."""
    return _shape_part(Bench(design), key, model)


def _shape_part(bench: Bench, key: str, model: PartModel) -> Part | None:
    """One part, or None when its size or its outline has a finding."""
    board, vertices = _board(bench, model)
    if board is None:
        return None
    shaped = (shape_feature(bench, board, model.features, name) for name in model.features)
    features = {feature.name: feature for feature in shaped if feature is not None}
    return Part(
        key=key,
        number=model.number,
        title=str(model.title),
        kind=model.kind,
        sheet=str(model.sheet or model.number),
        stock=str(model.stock),
        as_drawn=model.quantity.as_drawn,
        mirrored=model.quantity.mirrored,
        size=board.size,
        outline=board.outline,
        vertices=vertices,
        features=features,
        model=model,
        sections=cut_planes(bench, board, features, model.sections),
        details=surrounds(bench, board, features, model),
    )


def _board(bench: Bench, model: PartModel) -> tuple[Board | None, tuple[Vertex, ...]]:
    title = str(model.title).lower()
    solved = [
        bench.size(formula, f"the {what} of {title}") for formula, what in zip(model.size, SIZE_NAMES, strict=True)
    ]
    shaped = shape_outline(bench, model.outline) if model.outline else None
    length, width, thickness = solved
    if length is None or width is None or thickness is None or (model.outline and shaped is None):
        return None, ()
    size = (length, width, thickness)
    if shaped is None:
        corners = rectangle(Point(0.0, 0.0), Point(length.number, width.number))
        return Board(title, size, corners, shaped=False), ()
    loop, vertices = shaped
    board = Board(title, size, loop, shaped=True)
    return (board, vertices) if _outline_fits(bench, board, vertices) else (None, ())


def _outline_fits(bench: Bench, board: Board, vertices: tuple[Vertex, ...]) -> bool:
    """Whether the outline stays in the blank; one that does not fill it is worth a warning."""
    low, high = bounds(board.outline)
    fits = True
    for axis, letter in enumerate(AXES):
        whole = board.size[axis]
        past = max(-low[axis], high[axis] - whole.number)
        if past > FINE:
            _report_past(bench, board, vertices, axis, past)
            fits = False
        elif low[axis] > FINE or high[axis] < whole.number - FINE:
            bench.warn(
                "outline-short-of-size",
                whole.place,
                f"The outline of {board.title} runs from {in_both(low[axis])} to {in_both(high[axis])} along {letter}, "
                f"and its {SIZE_NAMES[axis]} is {said(whole)}.",
                f"Let the outline start at 0 and end at {like(whole, whole.number)}, or give the true "
                f"{SIZE_NAMES[axis]}.",
            )
    return fits


def _report_past(bench: Bench, board: Board, vertices: tuple[Vertex, ...], axis: int, past: float) -> None:
    whole = board.size[axis]
    culprit = max(vertices, key=lambda vertex: max(-_reach(vertex, axis)[0], _reach(vertex, axis)[1] - whole.number))
    measures = [culprit.at[axis], *([culprit.through[axis]] if culprit.through else [])]
    measure: Value = max(measures, key=lambda value: max(-value.number, value.number - whole.number))
    bench.stop(
        "outline-outside-size",
        measure.place,
        f"The outline of {board.title} leaves its size by {in_both(past)} along {AXES[axis]}, at or near "
        f"`{culprit.name}` ({AXES[axis]} {said(measure)}); its {SIZE_NAMES[axis]} is {said(whole)}.",
        f"Keep {AXES[axis]} between 0 and {like(measure, whole.number)}, or make the part larger.",
    )


def _reach(vertex: Vertex, axis: int) -> tuple[float, float]:
    numbers = [vertex.at[axis].number, *([vertex.through[axis].number] if vertex.through else [])]
    return min(numbers), max(numbers)
