"""A flat part as a DXF file at full size: what to cut, on layers named for how to cut it."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Final

from planbook.drawing.curves import Arc
from planbook.drawing.dxf.file import LETTERING, File, Look, units_of
from planbook.drawing.flat import FlatPart, Recess, flat_part, is_flat
from planbook.drawing.profile import Chain, signed_area
from planbook.statement.model import PartStated, Statement

__all__ = ["is_flat", "part_dxf"]

OUTLINE: Final = "outline"
THROUGH: Final = "through"
CENTRES: Final = "centres"
TEXT: Final = "text"
_LOOKS: Final = {
    OUTLINE: Look(7, 50),
    THROUGH: Look(1, 50),
    CENTRES: Look(3, 25),
    TEXT: Look(8, 25),
    "face": Look(5, 25),
    "back": Look(6, 25),
}
_LETTER: Final = 5.0
_PITCH: Final = 8.0
"""Height and line spacing of the words under the part, in millimetres."""


def part_dxf(statement: Statement, key: str) -> bytes:
    """The DXF file of a flat part: coordinates from the datum corner, in the edition's unit. Raises KeyError."""
    part = statement.parts[key]
    flat = flat_part(part)
    units = units_of(statement.edition.units)
    version = statement.issue
    named = {"plan set": statement.plan_set.code, "version": version, "part": part.key, "sheet": part.sheet}
    file = File(units, {**named, "thickness": units.text(part.size[2] * 1e-6)})
    for chain in flat.outline:
        layer = OUTLINE if signed_area(chain) > 0 else THROUGH
        _draw(file, chain, layer, _LOOKS[layer])
    for recess in flat.recesses:
        for chain in recess.chains:
            _draw(file, chain, recess_layer(recess, file), _LOOKS[recess.face])
    for x, y in (centre.at for centre in flat.centres):
        layer = file.layer(CENTRES, _LOOKS[CENTRES])
        file.space.add_point((x * units.factor, y * units.factor), dxfattribs={"layer": layer})
    _write(file, list(_words(statement, part, flat, file)))
    return file.write()


def recess_layer(recess: Recess, file: File) -> str:
    """`face 6.35 mm deep`; a countersink's layer says so, since its walls are not square."""
    return f"{recess.face} {file.units.text(recess.depth)} deep{' tapered' if recess.tapered else ''}"


def _draw(file: File, chain: Chain, layer: str, look: Look) -> None:
    """A closed chain: a circle, or a polyline whose arcs are bulges."""
    factor = file.units.factor
    attributes = {"layer": file.layer(layer, look)}
    first = chain[0]
    if len(chain) == 1 and isinstance(first, Arc):
        centre = first.centre.x * factor, first.centre.y * factor
        file.space.add_circle(centre, first.radius * factor, dxfattribs=attributes)
        return
    vertices = [
        (c.start.x * factor, c.start.y * factor, math.tan(c.sweep / 4) if isinstance(c, Arc) else 0.0) for c in chain
    ]
    file.space.add_lwpolyline(vertices, format="xyb", close=True, dxfattribs=attributes)


def _words(statement: Statement, part: PartStated, flat: FlatPart, file: File) -> Iterator[str]:
    edition, units = statement.edition, file.units
    yield f"{part.number} {part.title} ({part.key})"
    yield f"{statement.plan_set.code}-{part.sheet}, version {statement.issue}, {edition.title}"
    yield f"Thickness {units.text(part.size[2] * 1e-6)}, {part.material}"
    made = f"Make {part.as_drawn}" + (f" as drawn, {part.mirrored} mirrored" if part.mirrored else "")
    yield f"{made}. Seen from the face, full size, in {units.words}"
    if part.stock_note:
        yield f"Thickness of the stock: {part.stock_note}"
    for name in flat.left_out:
        yield f"Not in this file: {name.replace('_', ' ')}, {part.features[name].face.replace('_', ' ')}"


def _write(file: File, lines: list[str]) -> None:
    """Lines under the part, clear of what is cut."""
    factor = file.units.factor
    attributes = {"layer": file.layer(TEXT, _LOOKS[TEXT]), "style": LETTERING}
    for place, line in enumerate(lines, start=2):
        text = file.space.add_text(line, height=_LETTER * factor, dxfattribs=attributes)
        text.set_placement((0.0, -place * _PITCH * factor))
