"""Parts as a blank plus named features, and where they stand in the assembly."""

from planbook.shape.faces import AXIS_NAMES, FACES, FLAT, SIZE_NAMES, frame_of
from planbook.shape.loops import along, bounds
from planbook.shape.methods import method_words
from planbook.shape.parts import shape_part, shape_parts
from planbook.shape.placing import formulas_of, place_components
from planbook.shape.recesses import inner_corners
from planbook.shape.strength import check_walls
from planbook.shape.wording import in_both, said

__all__ = [
    "AXIS_NAMES",
    "FACES",
    "FLAT",
    "SIZE_NAMES",
    "along",
    "bounds",
    "check_walls",
    "formulas_of",
    "frame_of",
    "in_both",
    "inner_corners",
    "method_words",
    "place_components",
    "said",
    "shape_part",
    "shape_parts",
]
