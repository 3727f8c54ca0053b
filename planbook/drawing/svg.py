"""A recording written as SVG for an HTML page: user units are millimetres, true arcs, live text.

Written for a renderer that knows plain SVG 1.1 and little more: no vector-effect, no baseline keywords, a direct title
as alternative text. Numbers are rounded to a micrometre; the same recording gives the same text.
"""

from __future__ import annotations

from collections.abc import Iterable
from html import escape
from typing import Final

from planbook.drawing.lettering import FONT_FAMILY, label_corners, label_start, set_runs
from planbook.drawing.recording import (
    DASHES,
    FILLS,
    INKS,
    PEN_WIDTHS,
    Circle,
    Drawing,
    Ink,
    Label,
    LineTo,
    Pen,
    Primitive,
    Stroke,
)

_BOLD: Final = 600


def number(value: float) -> str:
    """A number to 0.001, without trailing zeros or a negative zero."""
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if text in {"-0", ""} else text


def to_svg(drawing: Drawing, id_prefix: str) -> str:
    """The drawing as one `<svg>` element. `id_prefix` keeps ids apart when a page holds several drawings."""
    width, height = number(drawing.width), number(drawing.height)
    head = (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="drawing" width="{width}mm" '
        f'height="{height}mm" viewBox="0 0 {width} {height}" fill="none" stroke-linejoin="round" '
        f'stroke-linecap="butt" font-family="{FONT_FAMILY}">'
    )
    lines = [head, f"<title>{escape(drawing.title)}</title>"]
    lines += (_primitive(primitive, id_prefix, place) for place, primitive in enumerate(drawing.primitives))
    return "\n".join([*lines, "</svg>\n"])


def label_places(drawing: Drawing) -> tuple[tuple[str, float, float, str], ...]:
    """(mark, x, y, text) of every label that carries a mark: the middle of its left end, in millimetres."""
    places = []
    for label in drawing.primitives:
        if isinstance(label, Label) and label.mark:
            low_left, _, _, high_left = label_corners(label)
            middle = (low_left.x + high_left.x) / 2, (low_left.y + high_left.y) / 2
            places.append((label.mark, *middle, label.text))
    return tuple(places)


def _primitive(primitive: Primitive, id_prefix: str, place: int) -> str:
    match primitive:
        case Stroke():
            path = f'<path d="{_path(primitive)}"{_look(primitive.pen, primitive.fill)}'
            return f"{path}><title>{primitive.words}</title></path>" if primitive.words else f"{path}/>"
        case Circle(centre, radius, pen, fill):
            x, y, r = number(centre.x), number(centre.y), number(radius)
            return f'<circle cx="{x}" cy="{y}" r="{r}"{_look(pen, fill)}/>'
        case Label():
            return _text(primitive, f"{id_prefix}-{place}")


def _path(stroke: Stroke) -> str:
    """Path data: absolute commands, arcs as arcs, several rings one after the other."""
    pieces: list[str] = []
    for ring in (stroke, *stroke.holes):
        pieces.append(f"M{number(ring.start.x)} {number(ring.start.y)}")
        for step in ring.steps:
            end = f"{number(step.end.x)} {number(step.end.y)}"
            if isinstance(step, LineTo):
                pieces.append(f"L{end}")
            else:
                radius = number(step.radius)
                pieces.append(f"A{radius} {radius} 0 {int(step.large)} {int(step.sweep)} {end}")
        if ring.closed:
            pieces.append("Z")
    return "".join(pieces)


def _look(pen: Pen | None, fill: str) -> str:
    """Presentation attributes; what the root already says is left out."""
    look = ""
    if fill:
        look += f' fill="{FILLS[fill]}" fill-rule="evenodd"'
    if pen is not None:
        look += f' stroke="{INKS[pen]}" stroke-width="{number(PEN_WIDTHS[pen])}"'
        if pen in DASHES:
            look += f' stroke-dasharray="{_numbers(DASHES[pen])}"'
    return look


def _numbers(values: Iterable[float]) -> str:
    return " ".join(number(value) for value in values)


def _text(label: Label, name: str) -> str:
    """Text from its left end, so that no renderer has to work out an anchor over parts of different size."""
    start = label_start(label)
    x, y = number(start.x), number(start.y)
    attributes = f'x="{x}" y="{y}" fill="{Ink(label.ink).value}"'
    if label.angle:
        attributes += f' transform="rotate({number(-label.angle)} {x} {y})"'
    if label.bold:
        attributes += f' font-weight="{_BOLD}"'
    if label.mark:
        attributes += f' id="{escape(name)}" data-mark="{escape(label.mark)}"'
    runs = set_runs(label.text, label.height, label.bold)
    if len(runs) == 1:
        return f'<text {attributes} font-size="{number(runs[0].size)}">{escape(label.text)}</text>'
    spans, rise = [], 0.0
    for run in runs:
        dy = f' dy="{number(rise - run.rise)}"' if run.rise != rise else ""
        spans.append(f'<tspan font-size="{number(run.size)}"{dy}>{escape(run.text)}</tspan>')
        rise = run.rise
    return f'<text xml:space="preserve" {attributes}>{"".join(spans)}</text>'
