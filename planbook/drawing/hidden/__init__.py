"""Views of solids with hidden lines told from seen ones, from any direction. Pure; millimetres on the plane of view."""

from planbook.drawing.hidden.directions import NATURAL, SIDES, isometric
from planbook.drawing.hidden.model import Chain, Kind, Sight
from planbook.drawing.hidden.regions import faces_seen, facing_area, regions_of
from planbook.drawing.hidden.scene import Scene, scene_of
from planbook.drawing.hidden.shading import TONES, tones_of
from planbook.drawing.hidden.view import lines_of

__all__ = [
    "NATURAL",
    "SIDES",
    "TONES",
    "Chain",
    "Corner",
    "Kind",
    "Scene",
    "Sight",
    "faces_seen",
    "facing_area",
    "isometric",
    "lines_of",
    "regions_of",
    "scene_of",
    "tones_of",
]
