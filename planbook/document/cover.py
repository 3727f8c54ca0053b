"""The cover: its picture, and what a buyer asks first, in one line."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from planbook.document.figures import Room, draw_figure
from planbook.document.images import Image, drawing_image
from planbook.drawing import Canvas, draw_elevation, draw_isometric
from planbook.measure import MILLIMETRE, Units
from planbook.shape.solids import mesh_of_component
from planbook.source import Door
from planbook.source.findings import Finding
from planbook.source.models.figures import ElevationModel, IsometricModel
from planbook.source.text import Text
from planbook.statement.general import print_box
from planbook.statement.stated import Stated


@dataclass(frozen=True, slots=True)
class Fact:
    """One thing that the cover says: what it is about, and it."""

    about: str
    text: str


def draw_cover(stated: Stated, door: Door, room: Room) -> tuple[Image | None, tuple[Finding, ...]]:
    """The figure that the set names for its cover, without part numbers: an elevation in full tint, an isometric view
    shaded.
    """
    name = str(stated.content.plan_set.cover)
    model = stated.content.figures[Text(name)]
    if not isinstance(model, ElevationModel | IsometricModel):
        return draw_figure(stated, door, name, room)
    components = [each for each in stated.assemblies[name] if model.show is None or each.name in model.show]
    canvas = Canvas(room.width, room.height, units=stated.statement.edition.units)
    if isinstance(model, IsometricModel):
        drawing = draw_isometric(components, model.seen_from, canvas, shaded=True)
    else:
        drawing = draw_elevation(components, model.elevation, canvas, emphasise={each.name for each in components})
    return drawing_image("cover", drawing, stated.statement.figures[name].alt), ()


def list_facts(stated: Stated) -> tuple[Fact, ...]:
    """Overall size, parts to make, sheets, edition and units."""
    edition, parts = stated.statement.edition, stated.statement.parts.values()
    pieces = sum(part.as_drawn + part.mirrored for part in parts if part.kind == "part")
    unlike = sum(part.kind == "part" for part in parts)
    facts = (
        Fact("Length × depth × height", _size(stated)),
        Fact("To make", f"{pieces} pieces, {unlike} unlike"),
        Fact("Drawings", f"{len(stated.statement.sheets)} sheets"),
        Fact("Edition", edition.title),
        Fact("Measures", "inches [millimetres]" if edition.units == "inch" else "millimetres [inches]"),
    )
    return tuple(fact for fact in facts if fact.text)


def _size(stated: Stated) -> str:
    """What the author gives, or the box around the parts as the cover shows them; "" without an assembly."""
    if stated.statement.plan_set.overall:
        return stated.statement.plan_set.overall
    components = stated.assemblies.get(str(stated.content.plan_set.cover), stated.components)
    # Bought rods lie inside.
    corners = [mesh_of_component(each).points for each in components if each.part is not None]
    if not corners:
        return ""
    box = np.ptp(np.concatenate(corners), axis=0) * MILLIMETRE
    return print_box(box.tolist(), Units(stated.statement.edition.units))
