"""A template's PDF, measured in its own numbers: what is 100 mm is 100 mm within 0.01 mm, and so is the part."""

from __future__ import annotations

import io
import math
from pathlib import Path

import pytest
from pypdf import PdfReader

from planbook.document import full_size_pdf
from planbook.drawing.curves import XY
from planbook.drawing.frame import PAPERS
from planbook.drawing.fullsize import full_size
from planbook.drawing.fullsize.tiling import plan_tiles
from planbook.drawing.recording import Pt
from planbook.source import Door
from tests.drawing import samples
from tests.drawing.fullsize.ink import Piece, pages

NEAR = 0.01
"""Millimetres."""


def printed(inch: bool) -> bytes:
    drawn = full_size(samples.statement(samples.ramp_bar(inch)), "ramp_bar")
    pdf, findings = full_size_pdf(drawn, "Ramp bar", "en", "2026-03-01", Door(Path.cwd()))
    assert pdf is not None, findings
    assert findings == ()
    return pdf


@pytest.fixture(scope="module", params=[False, True], ids=["a4", "letter"])
def pdf(request: pytest.FixtureRequest) -> tuple[bytes, str]:
    return printed(request.param), "letter" if request.param else "a4"


def long(pieces: list[Piece], length: float, *, level: bool) -> list[Piece]:
    found = []
    for x0, y0, x1, y1 in pieces:
        along, off = (abs(x1 - x0), abs(y1 - y0)) if level else (abs(y1 - y0), abs(x1 - x0))
        if abs(along - length) < NEAR and off < NEAR:
            found.append((x0, y0, x1, y1))
    return found


def test_check_bars_of_every_page_are_true_both_ways(pdf: tuple[bytes, str]) -> None:
    for _, pieces in pages(pdf[0]):
        for length in (100.0, 101.6):
            for level in (True, False):
                assert len(long(pieces, length, level=level)) == 1, (length, level)


def test_pages_have_the_size_of_the_paper_and_ask_to_be_printed_as_they_are(pdf: tuple[bytes, str]) -> None:
    data, paper = pdf
    for size, _ in pages(data):
        assert sorted(size) == pytest.approx(sorted(PAPERS[paper]), abs=NEAR)
    reader = PdfReader(io.BytesIO(data))
    assert reader.trailer["/Root"]["/ViewerPreferences"]["/PrintScaling"] == "/None"
    assert reader.metadata.title == "Ramp bar"


def test_joined_pages_are_the_part(pdf: tuple[bytes, str]) -> None:
    """Every place of the outline, 5 mm apart, lies on a line of each page that shows it, within 0.01 mm."""
    data, paper = pdf
    part = samples.ramp_bar().stated()
    edges = [[value / 1e6 for value in (*s.start, *s.end)] for s in part.outline]
    tiling = plan_tiles((0.0, 0.0, 834.0, 98.0), paper)
    _, *tiles = pages(data)
    plan = list(tiling.tiles())
    assert len(tiles) == len(plan) > 1
    seen = 0
    for tile, (_, pieces) in zip(plan, tiles, strict=True):
        x0, y0, x1, y1 = tile.shown
        setting = tiling.setting(tile)
        for ax, ay, bx, by in edges:
            count = math.ceil(math.dist((ax, ay), (bx, by)) / 5.0)
            for k in range(count):
                x, y = ax + (bx - ax) * (k + 0.5) / count, ay + (by - ay) * (k + 0.5) / count
                if x0 < x < x1 and y0 < y < y1:
                    assert min(off(setting(XY(x, y)), piece) for piece in pieces) < NEAR
                    seen += 1
    assert seen > 2 * (834 + 98) / 5


def test_pages_laid_as_they_say_make_the_part_as_long_as_it_is(pdf: tuple[bytes, str]) -> None:
    """Each page's left border is laid on the dashed line of the one before it, as a builder does."""
    _, *tiles = pages(pdf[0])
    start, ends = 0.0, {}
    for place, (_, pieces) in enumerate(tiles):
        tallest = max(abs(y1 - y0) for _, y0, _, y1 in pieces)
        across = sorted({round(piece[0], 3) for piece in long(pieces, tallest, level=False)})
        border, *dashed = across[:-1]
        for height in (22.0, 60.0):
            for x, *_ in long(pieces, height, level=False):
                ends[height] = start + x - border
        assert len(dashed) == (place < len(tiles) - 1)
        start += (dashed[0] if dashed else border) - border
    assert ends[60.0] - ends[22.0] == pytest.approx(834.0, abs=NEAR)


def off(p: Pt, piece: Piece) -> float:
    """Distance of a point from a straight piece."""
    x0, y0, x1, y1 = piece
    length = math.hypot(x1 - x0, y1 - y0) or 1e-9
    ux, uy = (x1 - x0) / length, (y1 - y0) / length
    t = min(max((p.x - x0) * ux + (p.y - y0) * uy, 0.0), length)
    return math.hypot(p.x - x0 - t * ux, p.y - y0 - t * uy)


def test_the_same_template_gives_the_same_bytes() -> None:
    assert printed(False) == printed(False)
