"""What is painted on a page is what the SVG of the same drawing shows there."""

from __future__ import annotations

import math
import subprocess
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from planbook.document.fetch import FONTS, Fetcher
from planbook.document.fonts import font_faces
from planbook.document.images import drawing_image
from planbook.document.typeset import typeset
from planbook.drawing.recording import Anchor, ArcTo, Circle, Drawing, Ink, Label, LineTo, Pen, Pt, Stroke
from planbook.drawing.tracing import arc_curves, arc_points, circle_curves
from planbook.source import Door

from .readback import Word, words

SIZE = 120.0
RING = (LineTo(Pt(60, 20)), LineTo(Pt(60, 60)), LineTo(Pt(20, 60)))
HOLE = Stroke(Pt(30, 30), (LineTo(Pt(50, 30)), LineTo(Pt(40, 50))), None, closed=True)
SHOWN = (
    Stroke(Pt(20, 20), RING, Pen.OUTLINE, closed=True, fill="tint", holes=(HOLE,)),
    Stroke(Pt(70, 20), (ArcTo(Pt(90, 20), 10, large=False, sweep=True), LineTo(Pt(90, 50))), Pen.DIMENSION),
    Stroke(Pt(100, 20), (LineTo(Pt(100, 50)),), Pen.HIDDEN),
    Stroke(Pt(70, 70), (ArcTo(Pt(76, 70), 14, large=True, sweep=False),), Pen.FAINT),
    Stroke(Pt(20, 75), (LineTo(Pt(60, 95)),), Pen.CENTRE),
    Stroke(Pt(90, 80), (LineTo(Pt(110, 80)), LineTo(Pt(100, 95))), None, closed=True, fill="solid"),
    Circle(Pt(40, 85), 12, Pen.HEAVY),
    Circle(Pt(40, 85), 4, Pen.GRID, fill="white"),
    Label("19 1/2 [495.5] ±1/32", Pt(10, 10), 2.5),
    Label("SECTION A–A", Pt(110, 110), 3.5, Anchor.END, bold=True),
    Label("5/8 turned", Pt(8, 100), 2.5, Anchor.MIDDLE, angle=90.0, ink=Ink.GREY),
    Label("askew", Pt(60, 100), 5.0, angle=30.0),
)
DRAWING = Drawing(SIZE, SIZE, SHOWN, "all that a drawing can hold")


def set_on_a_page(drawing: Drawing, door: Door, *, painted: bool) -> bytes:
    image = drawing_image("it", drawing)
    fetcher = Fetcher(door, {image.file: image.data}, {image.file: drawing} if painted else {})
    style = f"@page{{size:{SIZE}mm {SIZE}mm;margin:0}}body{{margin:0}}img{{display:block}}"
    html = f'<!DOCTYPE html><html lang="en"><head><title>x</title></head><body>{image.html}</body></html>'
    done, findings = typeset(html, {"": font_faces(FONTS) + style}, fetcher)
    assert done is not None
    assert findings == ()
    return done.pdf


@pytest.fixture(scope="module")
def both(door: Door) -> tuple[bytes, bytes]:
    return set_on_a_page(DRAWING, door, painted=True), set_on_a_page(DRAWING, door, painted=False)


def test_a_painted_drawing_looks_like_its_svg(both: tuple[bytes, bytes]) -> None:
    ours, other = (_greys(pdf) for pdf in both)
    assert other.min() < 40  # something is there
    assert np.abs(_tiles(ours) - _tiles(other)).max() < 16
    for a, b in ((ours, other), (other, ours)):
        assert np.count_nonzero((a < 100) & ~_near(b < 180)) == 0  # nothing dark but where the other is


def test_its_words_stand_where_the_svg_has_them(both: tuple[bytes, bytes]) -> None:
    ours, other = (_sorted(words(pdf)) for pdf in both)
    assert {"turned", "SECTION", "[495.5]"} <= {word.text for word in ours}
    assert [word.text for word in ours] == [word.text for word in other]
    for a, b in zip(ours, other, strict=True):
        assert math.dist((a.left, a.middle), (b.left, b.middle)) < 0.02


def test_a_painted_drawing_takes_fewer_bytes(both: tuple[bytes, bytes]) -> None:
    assert len(both[0]) < len(both[1])


def test_letters_that_the_fonts_lack_are_complained_of_in_drawings_too(door: Door) -> None:
    image = drawing_image("it", odd := Drawing(SIZE, SIZE, (Label("\N{CJK UNIFIED IDEOGRAPH-6728}", Pt(9, 9), 3.5),)))
    html = f'<!DOCTYPE html><html lang="en"><head><title>x</title></head><body>{image.html}</body></html>'
    _, findings = typeset(
        html, {"": font_faces(FONTS)}, Fetcher(door, {image.file: image.data}, {image.file: odd})
    )  # fmt: skip
    assert any("\N{CJK UNIFIED IDEOGRAPH-6728}" in each.message for each in findings)


@given(st.floats(1, 200), st.floats(-math.pi, math.pi), st.floats(0.05, 6.2), st.booleans())
def test_curves_stay_on_their_arc(radius: float, begin: float, turn: float, sweep: bool) -> None:
    ends = [begin, begin + (turn if sweep else -turn)]
    start, end = (Pt(radius * math.cos(angle), radius * math.sin(angle)) for angle in ends)
    arc = ArcTo(end, radius, large=turn > math.pi, sweep=sweep)
    if abs(turn - math.pi) < 0.01:
        return  # a half circle that is not quite one may bend either way
    here, length = start, 0.0
    for first, second, last in arc_curves(start, arc):
        points = [_bezier(here, first, second, last, k / 8) for k in range(9)]
        assert all(abs(math.hypot(*p) - radius) < 3e-4 * radius + 1e-6 for p in points)
        length += sum(math.dist(a, b) for a, b in pairwise(points))
        here = last
    assert here == end
    assert length == pytest.approx(radius * turn, rel=0.01)
    assert all(abs(math.hypot(*p) - radius) < 1e-6 * radius + 1e-6 for p in arc_points(start, arc))


def test_curves_go_round_a_circle() -> None:
    found = circle_curves(Circle(Pt(5, 7), 3, None))
    assert [(round(p.x, 9), round(p.y, 9)) for *_, p in found] == [(5, 10), (2, 7), (5, 4), (8, 7)]


def _bezier(a: Pt, b: Pt, c: Pt, d: Pt, t: float) -> tuple[float, float]:
    shares = (1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t**2 * (1 - t), t**3
    return (
        sum(share * p.x for share, p in zip(shares, (a, b, c, d), strict=True)),
        sum(share * p.y for share, p in zip(shares, (a, b, c, d), strict=True)),
    )


def _sorted(found: tuple[Word, ...]) -> list[Word]:
    return sorted(found, key=lambda word: (word.text, word.left, word.top))


def _greys(pdf: bytes) -> np.ndarray:
    """The page in greys (h, w), as poppler draws it."""
    done = subprocess.run(["pdftoppm", "-gray", "-r", "150", "-"], input=pdf, capture_output=True, check=True)
    _, size, _, rest = done.stdout.split(b"\n", 3)
    width, height = map(int, size.split())
    return np.frombuffer(rest, dtype=np.uint8).reshape(height, width)


def _tiles(greys: np.ndarray) -> np.ndarray:
    """Means of squares of ten by ten."""
    high, wide = (10 * (length // 10) for length in greys.shape)
    return greys[:high, :wide].reshape(high // 10, 10, wide // 10, 10).mean(axis=(1, 3))


def _near(ink: np.ndarray) -> np.ndarray:
    """Whether it or a neighbour is set."""
    padded = np.pad(ink, 1)
    high, wide = ink.shape
    return np.logical_or.reduce([padded[k : k + high, j : j + wide] for k in range(3) for j in range(3)])
