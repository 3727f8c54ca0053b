"""Templates before they are printed: which page shows what, what is written on it, and that nothing is cut short."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import LineString, box

from planbook.drawing import to_svg
from planbook.drawing.curves import XY, Arc, Line
from planbook.drawing.frame import PAPERS
from planbook.drawing.fullsize import full_size
from planbook.drawing.fullsize.clipping import clip
from planbook.drawing.fullsize.tiling import OVERLAP, plan_tiles
from planbook.drawing.recording import Drawing, Label
from tests.drawing import samples
from tests.drawing.checker import faults

PAPER = st.sampled_from(sorted(PAPERS))
SIZE = st.floats(1.0, 3000.0)


def words(page: Drawing) -> list[str]:
    return [label.text for label in page.primitives if isinstance(label, Label)]


@given(SIZE, SIZE, PAPER)
def test_pages_together_show_all_of_a_part_and_overlap(length: float, width: float, paper: str) -> None:
    tiling = plan_tiles((0.0, 0.0, length, width), paper)
    assert sorted((tiling.width, tiling.height)) == sorted(PAPERS[paper])
    tiles = {(tile.row, tile.column): tile for tile in tiling.tiles()}
    assert len({tile.name for tile in tiles.values()}) == len(tiles) == tiling.rows * tiling.columns
    shown = [tile.shown for tile in tiles.values()]
    assert min(s[0] for s in shown) < 0 < length < max(s[2] for s in shown)
    assert min(s[1] for s in shown) < 0 < width < max(s[3] for s in shown)
    for (row, column), tile in tiles.items():
        right, below = tiles.get((row, column + 1)), tiles.get((row + 1, column))
        if right:
            assert tile.shown[2] - right.shown[0] == pytest.approx(OVERLAP)
        if below:
            assert below.shown[3] - tile.shown[1] == pytest.approx(OVERLAP)


@given(SIZE, SIZE, PAPER)
def test_no_row_or_column_could_be_spared(length: float, width: float, paper: str) -> None:
    tiling = plan_tiles((0.0, 0.0, length, width), paper)
    across, down = tiling.step
    white = 2 * 4.0
    assert tiling.columns == 1 or (tiling.columns - 1) * across + OVERLAP < length + white
    assert tiling.rows == 1 or (tiling.rows - 1) * down + OVERLAP < width + white


def test_rows_are_letters_and_columns_numbers() -> None:
    tiling = plan_tiles((0.0, 0.0, 400.0, 600.0), "a4")
    names = [tile.name for tile in tiling.tiles()]
    assert names[0] == "A1"
    assert names[tiling.columns] == "B1"
    many = plan_tiles((0.0, 0.0, 10.0, 8000.0), "a4")
    assert [tile.name for tile in many.tiles()][25:28] == ["Z1", "AA1", "AB1"]


@given(
    st.tuples(st.floats(-50, 50), st.floats(-50, 50)),
    st.floats(1, 60),
    st.floats(-math.pi, math.pi),
    st.floats(-6.2, 6.2).filter(lambda sweep: abs(sweep) > 0.01),
)
def test_arcs_are_cut_at_the_window_and_stay_arcs(centre, radius: float, begin: float, sweep: float) -> None:
    """Oracle: shapely cuts the same arc, drawn with 4,000 chords."""
    window = (-40.0, -30.0, 40.0, 30.0)
    arc = Arc(XY(*centre), radius, begin, sweep)
    pieces = list(clip([arc], window))
    chords = LineString([arc.point(k / 4000) for k in range(4001)])
    assert sum(piece.length for piece in pieces) == pytest.approx(chords.intersection(box(*window)).length, abs=0.2)
    for piece in pieces:
        assert isinstance(piece, Arc)
        assert (piece.centre, piece.radius) == (arc.centre, arc.radius)
        x0, y0, x1, y1 = piece.box
        assert x0 > -40 - 1e-6
        assert x1 < 40 + 1e-6
        assert y0 > -30 - 1e-6
        assert y1 < 30 + 1e-6


def test_a_line_along_the_window_is_kept_where_it_is_inside() -> None:
    (piece,) = clip([Line(XY(-100.0, 0.0), XY(100.0, 10.0))], (-40.0, -30.0, 40.0, 30.0))
    assert (piece.start.x, piece.end.x) == pytest.approx((-40.0, 40.0))


@pytest.fixture(scope="module", params=[False, True], ids=["a4", "letter"])
def bar(request: pytest.FixtureRequest) -> tuple[Drawing, ...]:
    return full_size(samples.statement(samples.ramp_bar(request.param)), "ramp_bar")


def test_nothing_is_written_over_anything(bar: tuple[Drawing, ...]) -> None:
    for page in bar:
        assert faults(to_svg(page, "page")) == []


def test_the_map_shows_every_page_by_name(bar: tuple[Drawing, ...]) -> None:
    first, *tiles = bar
    for number in range(1, len(tiles) + 1):
        assert f"A{number}" in words(first)
        assert f"A{number}" in words(tiles[number - 1])
    assert any("turn the template over" in text for text in words(first))


def test_distances_across_seams_are_printed_as_on_the_sheet(bar: tuple[Drawing, ...]) -> None:
    first = words(bar[0])
    inch = any("Imperial edition" in text for text in first)
    for what, text in (("whole length", "32 27/32 [834]" if inch else "834"),
                       ("yoke bolts, from the left end", "29 29/32 [760]" if inch else "760")):  # fmt: skip
        assert first[first.index(what) + 1].strip("()") == text
    assert "yoke bolts, pitch" not in first
    assert "whole width" not in first


def test_distances_from_the_borders_say_from_which() -> None:
    """Also where the noise of arithmetic keeps the border from being zero exactly; from elsewhere it is just across."""
    stated = samples.statement(samples.top())
    first, second = stated.dimensions["top/well/y"].points
    for start, says in ((1e-7, "well, from the front edge"), (5e6, "well, across")):
        moved = replace(stated.dimensions["top/well/y"], points=((first[0], start, first[2]), second))
        again = replace(stated, dimensions={**stated.dimensions, "top/well/y": moved})
        assert says in words(full_size(again, "top")[0])


@given(SIZE, SIZE, PAPER, st.floats(0, 1), st.floats(0, 1))
def test_a_place_is_seen_on_the_last_page_that_shows_it(
    length: float, width: float, paper: str, across: float, up: float
) -> None:
    """Pages are laid upon those to their left and above."""
    tiling = plan_tiles((0.0, 0.0, length, width), paper)
    p = XY(across * length, up * width)
    showing = [
        tile
        for tile in tiling.tiles()
        if tile.shown[0] <= p.x <= tile.shown[2] and tile.shown[1] <= p.y <= tile.shown[3]
    ]
    assert tiling.tile_at(p) == max(showing, key=lambda tile: (tile.row, tile.column))
    tile, window = tiling.tile_at(p), tiling.window
    setting = tiling.setting(tile)
    assert setting(XY(tile.shown[0], tile.shown[3])) == pytest.approx((window.left, window.top))
    at = setting(p)
    assert window.left - 1e-6 <= at.x <= window.right + 1e-6
    assert window.top - 1e-6 <= at.y <= window.bottom + 1e-6


def test_holes_are_named_with_their_drill() -> None:
    pages = full_size(samples.statement(samples.ramp_bar()), "ramp_bar")
    every = [text for page in pages for text in words(page)]
    assert "drive pin, Ø12" in every
    assert every.count("yoke bolts, Ø7") >= 2


def test_a_part_that_fits_one_page_has_nothing_to_join() -> None:
    first, *tiles = full_size(samples.statement(samples.button()), "button")
    assert len(tiles) == 1
    assert not any("crop mark" in text or "joined" in text for text in words(first))
    assert "MEASURE WHEN JOINED" not in words(first)
