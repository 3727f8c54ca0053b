"""Parts as a blank plus named features, and where they stand in the assembly."""

from planbook.shape.board import cut_volume
from planbook.shape.faces import FACES, FLAT, extent, frame_of, stock_depth
from planbook.shape.loops import area, bounds
from planbook.shape.parts import shape_parts
from planbook.shape.placing import place_components

__all__ = [
    "FACES",
    "FLAT",
    "area",
    "bounds",
    "cut_volume",
    "extent",
    "frame_of",
    "place_components",
    "shape_parts",
    "stock_depth",
]
