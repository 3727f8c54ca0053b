"""Drawings painted on the pages of a PDF as they are, without being written as SVG and read again.

Besides `typeset` the only module that knows WeasyPrint: a painting has the form of its images, and it writes with the
operators of the page that it is given (pydyf). What is painted is what the SVG of the same drawing shows.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cache
from typing import Any, Final

from planbook.drawing.lettering import FONT_FAMILY, label_start, set_runs
from planbook.drawing.recording import (
    DASHES,
    FILLS,
    INKS,
    PEN_WIDTHS,
    Circle,
    Drawing,
    Label,
    LineTo,
    Pen,
    Primitive,
    Pt,
    Stroke,
)
from planbook.drawing.tracing import arc_curves, circle_curves

_PX: Final = 96 / 25.4
"""CSS pixels in a millimetre."""
_MEASURED: Final = 100.0
"""Size in pixels at which letters are looked up; what is found does not depend on it."""
_REGULAR, _BOLD = 400, 600
_ROUND_JOIN: Final = 1


@dataclass(frozen=True, slots=True)
class _Glyph:
    """A letter in the font that Pango sets it in: `font` is Pango's, `width` a share of its size."""

    font: Any
    number: int
    width: float


class Lettering:
    """The glyphs of letters in a document's fonts, each looked up once. `fonts`: WeasyPrint's FontConfiguration."""

    def __init__(self, fonts: Any) -> None:
        self._fonts = fonts
        self._glyphs: dict[tuple[str, bool], _Glyph | None] = {}
        self._in_pdf: dict[tuple[str, bool], Any] = {}
        # Kept, since Pango's fonts live no longer than its layouts.
        self._layouts: list[Any] = []

    def can_set(self, drawing: Drawing) -> bool:
        """Whether each letter is a plain glyph of one font. With others the typesetter knows what to do."""
        labels = (each for each in drawing.primitives if isinstance(each, Label))
        letters = {(letter, label.bold) for label in labels for letter in label.text}
        return all(self._glyph(*each) is not None for each in sorted(letters))

    def set(self, text: str, bold: bool, stream: Any) -> Iterator[tuple[Any, float, str]]:
        """Pieces of a text, each in one of the PDF's fonts: the font, where the piece begins in parts of the size, and
        its glyphs in hexadecimal. Most texts are one piece."""
        x, begin, codes = 0.0, 0.0, ""
        last = None
        for letter in text:
            glyph = self._glyph(letter, bold)
            assert glyph is not None, letter
            font = self._font(letter, bold, glyph, stream)
            if codes and font is not last:
                yield last, begin, codes
                begin, codes = x, ""
            codes, last, x = f"{codes}{glyph.number:04x}", font, x + glyph.width
        if codes:
            yield last, begin, codes

    def _font(self, letter: str, bold: bool, glyph: _Glyph, stream: Any) -> Any:
        """The font of a letter in the PDF, which now has its glyph, and knows how wide it is and what it reads as."""
        key = letter, bold
        if key not in self._in_pdf:
            font = self._in_pdf[key] = stream.add_font(glyph.font)[0]
            font.to_unicode.setdefault(glyph.number, letter)
            font.widths.setdefault(glyph.number, round(1000 * glyph.width))
        return self._in_pdf[key]

    def _glyph(self, letter: str, bold: bool) -> _Glyph | None:
        key = letter, bold
        if key not in self._glyphs:
            self._glyphs[key] = self._look_up(letter, bold)
        return self._glyphs[key]

    def _look_up(self, letter: str, bold: bool) -> _Glyph | None:
        from weasyprint.css.properties import INITIAL_VALUES  # noqa: PLC0415
        from weasyprint.text.ffi import FROM_UNITS, ffi, pango  # noqa: PLC0415
        from weasyprint.text.line_break import create_layout  # noqa: PLC0415

        class Style(dict[str, Any]):
            font_config = self._fonts

        weight = _BOLD if bold else _REGULAR
        style = Style(INITIAL_VALUES, font_family=[FONT_FAMILY], font_weight=weight, font_size=_MEASURED)
        layout = create_layout(letter, style, None, None, 0)
        self._layouts.append(layout)
        run = layout.get_first_line()[0].runs
        if run == ffi.NULL or run.next != ffi.NULL or run.data.glyphs.num_glyphs != 1:
            return None
        found = run.data.glyphs.glyphs[0]
        if found.glyph == pango.PANGO_GLYPH_EMPTY or found.glyph & pango.PANGO_GLYPH_UNKNOWN_FLAG:
            return None
        return _Glyph(run.data.item.analysis.font, found.glyph, found.geometry.width * FROM_UNITS / _MEASURED)


@dataclass(frozen=True, slots=True)
class Painting:
    """A drawing as an image of WeasyPrint's."""

    drawing: Drawing
    lettering: Lettering

    def get_intrinsic_size(self, _resolution: float, _font_size: float) -> tuple[float, float, float]:
        """Width and height in pixels, and their ratio."""
        return self.drawing.width * _PX, self.drawing.height * _PX, self.drawing.width / self.drawing.height

    def draw(self, stream: Any, width: float, height: float, _style: Any) -> None:
        """Paint it on a page, `width` by `height` pixels large from the zero of the stream."""
        scale = min(width / self.drawing.width, height / self.drawing.height)
        left, top = (width - scale * self.drawing.width) / 2, (height - scale * self.drawing.height) / 2
        with stream.stacked():
            stream.transform(a=scale, d=scale, e=left, f=top)
            stream.set_alpha(1)
            stream.set_alpha(1, stroke=True)
            stream.set_line_join(_ROUND_JOIN)
            brush = _Brush(stream, self.lettering)
            for primitive in self.drawing.primitives:
                brush.paint(primitive)


class _Brush:
    """Paints one primitive after the other, and says of pen and colour only what is new."""

    def __init__(self, stream: Any, lettering: Lettering) -> None:
        self._stream, self._lettering = stream, lettering
        self._pen: Pen | None = None
        self._fill = ""

    def paint(self, primitive: Primitive) -> None:
        """With its own pen, fill or ink."""
        if isinstance(primitive, Label):
            self._take_fill(primitive.ink.value)
            _write(self._stream, primitive, self._lettering)
            return
        pen, fill = primitive.pen, primitive.fill
        if pen is not None:
            self._take_pen(pen)
        if fill:
            self._take_fill(FILLS[fill])
        _describe(self._stream, primitive)
        if pen is None and not fill:
            self._stream.end()
        elif pen is None:
            self._stream.fill(even_odd=True)
        elif fill:
            self._stream.fill_and_stroke(even_odd=True)
        else:
            self._stream.stroke()

    def _take_pen(self, pen: Pen) -> None:
        if pen is not self._pen:
            self._pen = pen
            self._stream.set_color_rgb(*_rgb(INKS[pen]), stroke=True)
            self._stream.set_line_width(PEN_WIDTHS[pen])
            self._stream.set_dash(DASHES.get(pen, ()), 0)

    def _take_fill(self, colour: str) -> None:
        if colour != self._fill:
            self._fill = colour
            self._stream.set_color_rgb(*_rgb(colour))


@cache
def _rgb(colour: str) -> tuple[float, float, float]:
    """Shares of red, green and blue from `#rrggbb`."""
    red, green, blue = bytes.fromhex(colour.removeprefix("#"))
    return red / 255, green / 255, blue / 255


def _describe(stream: Any, shape: Stroke | Circle) -> None:
    """The path of a stroke with its holes, or of a circle."""
    if isinstance(shape, Circle):
        stream.move_to(*_at(Pt(shape.centre.x + shape.radius, shape.centre.y)))
        _curve(stream, circle_curves(shape))
        stream.close()
        return
    for ring in (shape, *shape.holes):
        here = ring.start
        stream.move_to(*_at(here))
        for step in ring.steps:
            if isinstance(step, LineTo):
                stream.line_to(*_at(step.end))
            else:
                _curve(stream, arc_curves(here, step))
            here = step.end
        if ring.closed:
            stream.close()


def _curve(stream: Any, curves: Iterable[tuple[Pt, Pt, Pt]]) -> None:
    for first, second, end in curves:
        stream.curve_to(*_at(first), *_at(second), *_at(end))


def _at(p: Pt) -> tuple[float, float]:
    """To a micrometre, as in the SVG."""
    return round(p.x, 3), round(p.y, 3)


def _write(stream: Any, label: Label, lettering: Lettering) -> None:
    """A label run by run. Letters follow one another by their own widths, as they were measured: without kerning."""
    start, turn = label_start(label), math.radians(-label.angle)
    cos, sin = math.cos(turn), math.sin(turn)
    stream.begin_text()
    for run in set_runs(label.text, label.height, label.bold):
        for font, x, codes in lettering.set(run.text, label.bold, stream):
            along = run.x + x * run.size
            at = Pt(start.x + along * cos + run.rise * sin, start.y + along * sin - run.rise * cos)
            stream.set_font_size(font.hash, round(run.size, 3))
            stream.set_text_matrix(cos, sin, sin, -cos, *_at(at))
            stream.show_text(f"<{codes}>")
    stream.end_text()
