"""The print-scale check bars: 100 mm and 4 in, drawn exactly, across and up."""

from __future__ import annotations

from typing import Final

from planbook.drawing.recording import Anchor, Drawing, Label, LineTo, Pen, Primitive, Pt, Stroke

MILLIMETRES: Final = 100.0
INCHES: Final = 4 * 25.4
_LEFT, _TOP, _GAP = 12.0, 4.0, 9.0
_LETTERING: Final = 2.5


def check_bars() -> Drawing:
    """Two bars in each direction from one corner; the outer ones are 4 in, the inner ones 100 mm long."""
    corner = Pt(_LEFT + _GAP, _TOP + INCHES)
    primitives: list[Primitive] = []
    for length, divisions, text, out in ((MILLIMETRES, 10, "100 mm", 0.0), (INCHES, 8, "4 in", _GAP)):
        primitives += _bar(corner, length, divisions, text, out, across=True)
        primitives += _bar(corner, length, divisions, text, out, across=False)
    title = (
        "Two bars across and two bars up the page. Measured with a rule, the inner bars are 100 millimetres long and "
        "the outer bars 4 inches, if the page was printed at its true size."
    )
    return Drawing(corner.x + INCHES + 3, corner.y + _GAP + 6, tuple(primitives), title)


def _bar(corner: Pt, length: float, divisions: int, text: str, out: float, *, across: bool) -> list[Primitive]:
    """A line with a tick at each division, longer at its ends; `out` is how far it stands from the corner's line."""

    def at(along: float, beside: float) -> Pt:
        return (
            Pt(corner.x + along, corner.y + out + beside) if across else Pt(corner.x - out - beside, corner.y - along)
        )

    def line(start: Pt, end: Pt, pen: Pen) -> Stroke:
        return Stroke(start, (LineTo(end),), pen)

    bar: list[Primitive] = [line(at(0, 0), at(length, 0), Pen.OUTLINE)]
    for tick in range(divisions + 1):
        reach = 2.4 if tick in {0, divisions} else 1.2
        along = length * tick / divisions
        bar.append(line(at(along, 0), at(along, reach), Pen.DIMENSION))
    bar.append(Label(text, at(length / 2, 5.0 if across else 3.0), _LETTERING, Anchor.MIDDLE, 0.0 if across else 90.0))
    return bar
