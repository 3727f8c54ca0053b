"""Which views a sheet has: those that something is said in, and sections, with the marks of their planes."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from planbook.drawing.section import CutMark
from planbook.drawing.sectioning import Cutting, cuttings
from planbook.drawing.solid import XYZ
from planbook.drawing.stated_solid import solid_of_stated
from planbook.drawing.views import View, section_of, view_of
from planbook.drawing.wanted import Wanted

ORDER: Final = ("face", "front_edge", "rear_edge", "right_end", "left_end", "back")
EDGES: Final = ("front_edge", "rear_edge")


def views_needed(wanted: Wanted) -> tuple[View, ...]:
    """The face view, every view that a dimension, a hole table or a detail names, and the sections."""
    part = wanted.part
    named = {"face", *(each.view for each in wanted.dimensions), *(table.view for table in wanted.tables)}
    named |= {each.view for each in part.details.values()}
    solid = solid_of_stated(part)
    cuts = {cutting.name: cutting for cutting in cuttings(part, solid, wanted.dimensions)}
    views = []
    for name in (
        *(name for name in ORDER if name in named or name in cuts),
        *(name for name in cuts if name not in ORDER),
    ):
        if name in cuts:
            views.append(section_of(solid, cuts[name], part, wanted.gaps))
        else:
            views.append(view_of(solid, name, part.features, gaps=wanted.gaps))
    views[0] = replace(views[0], marks=tuple(_mark(cutting, views[0]) for cutting in cuts.values()))
    return tuple(replace(view, details=tuple(d for d in wanted.details if d.view == view.name)) for view in views)


def _mark(cutting: Cutting, face: View) -> CutMark:
    """A cutting plane as the face view, which looks along it, shows it."""
    eye = cutting.facing.eye
    level = abs(eye.dot(face.facing.up)) > 0.5
    place = face.facing.flat(XYZ(*(component * cutting.at for component in eye)))
    way = -eye.dot(face.facing.up if level else face.facing.right)
    return CutMark(cutting.letter, level, place.y if level else place.x, way)
