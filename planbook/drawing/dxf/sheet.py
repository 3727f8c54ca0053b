"""A page of a sheet as a DXF file, as large as its paper: the recording, its dimensions as DIMENSION entities."""

from __future__ import annotations

from collections import defaultdict

from planbook.drawing.dxf.dimensions import Measured, add_dimension, can_measure
from planbook.drawing.dxf.file import File, units_of
from planbook.drawing.dxf.paper import Paper
from planbook.drawing.recording import Drawing, Label, Primitive
from planbook.statement.model import Statement


def sheet_dxf(statement: Statement, drawing: Drawing) -> bytes:
    """The DXF file of one page as drawn, in the edition's unit, its origin at the paper's lower left corner."""
    named = {"plan set": statement.plan_set.code, "version": statement.issue, "title": drawing.title}
    file = File(units_of(statement.edition.units), named)
    paper = Paper(file, drawing.height)
    measured = _measured(statement, drawing)
    for primitive in drawing.primitives:
        if primitive.of not in measured:
            paper.add(primitive, file.space)
    for each in measured.values():
        add_dimension(each, paper)
    return file.write()


def _measured(statement: Statement, drawing: Drawing) -> dict[str, Measured]:
    """Dimensions of the page that can be written as such, by id; others stay lines and lettering."""
    recorded: dict[str, list[Primitive]] = defaultdict(list)
    for primitive in drawing.primitives:
        if primitive.of:
            recorded[primitive.of].append(primitive)
    views = {shown.face: shown for shown in drawing.views}
    moved = {key: shown for shown in drawing.views for key in shown.holds}
    found = {}
    for key, primitives in recorded.items():
        dimension = statement.dimensions[key]
        has_text = any(isinstance(each, Label) and each.mark for each in primitives)
        shown = moved.get(key) or views.get(dimension.view)
        if can_measure(dimension) and shown is not None and has_text:
            found[key] = Measured(dimension, shown, primitives)
    return found
