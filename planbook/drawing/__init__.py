"""drawing: views of parts, arrangement of dimensions, sheets, elevations, and SVG.

Everything is recorded in millimetres on paper (`recording`), measured with the font's own metrics, and then written.
Sheets are drawn from the statement alone.
"""

from planbook.drawing.alike import look_alike
from planbook.drawing.cutting_plan import draw_cutting_plan
from planbook.drawing.elevation import draw_elevation, draw_exploded, draw_isometric, draw_step
from planbook.drawing.part_figure import draw_part_figure
from planbook.drawing.picture import Canvas
from planbook.drawing.recording import Drawing
from planbook.drawing.revising import mark_sheet
from planbook.drawing.rework import draw_rework
from planbook.drawing.rows import draw_row
from planbook.drawing.sheet import draw_sheet
from planbook.drawing.svg import label_places, to_svg

__all__ = [
    "Canvas",
    "Drawing",
    "draw_cutting_plan",
    "draw_elevation",
    "draw_exploded",
    "draw_isometric",
    "draw_part_figure",
    "draw_rework",
    "draw_row",
    "draw_sheet",
    "draw_step",
    "label_places",
    "look_alike",
    "mark_sheet",
    "to_svg",
]
