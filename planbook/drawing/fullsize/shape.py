"""The lines of a part on one page of its template, and the names of its holes where there is room."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import Final

from shapely import STRtree
from shapely import box as rectangle

from planbook.drawing.curves import XY, Curve, Line
from planbook.drawing.flat import Centre, FlatPart
from planbook.drawing.fullsize.clipping import clip
from planbook.drawing.fullsize.tiling import Tile, Tiling
from planbook.drawing.ink import CLEAR, Box, Segment, around, label_box, segments_of
from planbook.drawing.recording import Anchor, Label, Pen, Primitive, Pt
from planbook.drawing.tracing import trace
from planbook.statement.model import Statement

LETTER: Final = 2.5
_ARM: Final = 3.0
"""Half the cross at a hole's centre."""
_OFF: Final = 2.0
"""From a hole to its name."""


def part_lines(flat: FlatPart, tiling: Tiling, tile: Tile) -> Iterator[Primitive]:
    """Outline and openings; recesses from the face in narrow lines, from the back dashed; hole centres."""
    setting = tiling.setting(tile)
    for curves, pen in _lines(flat):
        for piece in clip(curves, tile.shown):
            yield trace(piece, setting, pen)


def _lines(flat: FlatPart) -> Iterator[tuple[Iterable[Curve], Pen]]:
    for chain in flat.outline:
        yield chain, Pen.EDGE
    for recess in flat.recesses:
        pen = Pen.DIMENSION if recess.face == "face" else Pen.HIDDEN
        yield from ((chain, pen) for chain in recess.chains)
    for centre in flat.centres:
        (x, y) = centre.at
        arms = Line(XY(x - _ARM, y), XY(x + _ARM, y)), Line(XY(x, y - _ARM), XY(x, y + _ARM))
        yield arms, Pen.DIMENSION


def hole_names(
    flat: FlatPart, names: Sequence[str], tiling: Tiling, tile: Tile, drawn: Sequence[Primitive]
) -> Iterator[Label]:
    """A name beside each hole of the page, where it touches nothing that is drawn; `names` go with the centres."""
    strokes = Strokes(segments_of(drawn))
    boxes: list[Box] = []
    setting = tiling.setting(tile)
    for centre, name in zip(flat.centres, names, strict=True):
        found = free_label(_beside(setting(centre.at), centre.radius, name), strokes, boxes, tiling.window)
        if found is not None:
            boxes.append(label_box(found))
            yield found


def _beside(at: Pt, radius: float, name: str) -> Iterator[Label]:
    """To the right, to the left, above, under; then farther off."""
    for off in (radius + _OFF, radius + 3 * _OFF, radius + 5 * _OFF):
        yield Label(name, Pt(at.x + off, at.y + LETTER / 2), LETTER)
        yield Label(name, Pt(at.x - off, at.y + LETTER / 2), LETTER, Anchor.END)
        yield Label(name, Pt(at.x, at.y - off), LETTER, Anchor.MIDDLE)
        yield Label(name, Pt(at.x, at.y + off + LETTER), LETTER, Anchor.MIDDLE)


class Strokes:
    """Strokes made ready to be asked often which of them pass through a box."""

    def __init__(self, strokes: Sequence[Segment]) -> None:
        """Nothing but the strokes."""
        self._strokes = strokes
        self._tree = STRtree([rectangle(*around(stroke)) for stroke in strokes])

    def meet(self, box: Box) -> bool:
        """Whether any passes through the box."""
        return any(self._strokes[place].meets(box) for place in self._tree.query(rectangle(*box)))


def free_label(wanted: Iterable[Label], strokes: Strokes, boxes: Sequence[Box], window: Box) -> Label | None:
    """The first of some labels that lies in a window and touches neither strokes nor other lettering."""
    for label in wanted:
        box = label_box(label).grown(CLEAR)
        inside = window.left <= box.left and box.right <= window.right and window.top <= box.top
        if not inside or box.bottom > window.bottom or any(box.meets(other) for other in boxes):
            continue
        if not strokes.meet(box):
            return label
    return None


def name_of(centre: Centre, part: str, statement: Statement) -> str:
    """`drive pin, Ø12`: the feature's name, and its diameter as printed on the sheet."""
    words = centre.feature.replace("_", " ")
    dimension = statement.dimensions.get(f"{part}/{centre.feature}/diameter")
    return f"{words}, Ø{dimension.printed.text}" if dimension else words
