"""Parts as a blank plus named features, and where they stand in the assembly."""

from planbook.shape.faces import AXIS_NAMES, FACES, FLAT, frame_of
from planbook.shape.loops import along, bounds
from planbook.shape.parts import shape_parts
from planbook.shape.placing import place_components
from planbook.shape.strength import check_walls
from planbook.shape.wording import in_both, said

__all__ = [
    "AXIS_NAMES",
    "FACES",
    "FLAT",
    "along",
    "bounds",
    "check_walls",
    "frame_of",
    "in_both",
    "place_components",
    "said",
    "shape_parts",
]
