"""A sheet over several pages: when it is parted, what stands on which page, and which views say that they are moved."""

from __future__ import annotations

from collections import Counter
from itertools import pairwise

import pytest

from planbook.drawing import draw_sheet
from planbook.drawing.block import lay_out
from planbook.drawing.pages import views_needed
from planbook.drawing.projecting import Placed, misleads, moved_views
from planbook.drawing.recording import Drawing, Label
from planbook.drawing.scales import ISO_5455, Scale
from planbook.drawing.wanted import Wanted
from tests.drawing import samples
from tests.drawing.samples import Bench


def pages(bench: Bench) -> tuple[Drawing, ...]:
    drawings, findings = draw_sheet(samples.statement(bench), "1")
    assert not findings
    return drawings


def words(drawing: Drawing) -> list[str]:
    return [p.text for p in drawing.primitives if isinstance(p, Label)]


@pytest.mark.parametrize(("inch", "scale", "paper"), [(False, 1 / 10, 259), (True, 1 / 8, 241)], ids=["metric", "inch"])
def test_a_large_part_goes_over_two_pages_rather_than_be_drawn_small(inch: bool, scale: float, paper: float) -> None:
    """1500 mm on one page with its back would be 75 mm long; parted it is half of the paper's width or more."""
    drawings = pages(samples.top(inch))
    assert len(drawings) == 2
    assert f"1:{1 / scale:g}" in words(drawings[0])
    assert 1500 * scale > paper / 2
    assert "FACE" in words(drawings[0])
    assert "FACE" not in words(drawings[1])


def test_each_dimension_is_printed_once_over_all_pages() -> None:
    bench = samples.top()
    drawings = pages(bench)
    assert Counter(mark for drawing in drawings for mark in drawing.marks) == Counter(
        f"dimension:{d.id}" for d in bench.dimensions
    )
    assert all(drawing.marks for drawing in drawings)


def test_the_title_block_says_which_page_of_the_sheet_it_is() -> None:
    first, second = pages(samples.top())
    assert "1, page 1 of 2" in words(first)
    assert "1, page 2 of 2" in words(second)
    assert "page 2 of 2" in second.title
    (only,) = pages(samples.button())
    assert not any("page" in text for text in words(only))


def test_a_line_more_in_the_notes_seldom_moves_the_views() -> None:
    """At most every second of fifteen lines, where each of them would take its own room nearly every one."""
    layouts = []
    for lines in range(6, 22):
        bench = samples.top()
        bench.notes = ("One line more.",) * lines
        layouts.append(pages(bench)[0].views)
    assert 1 <= sum(a != b for a, b in pairwise(layouts)) <= 7


def test_notes_and_the_box_for_the_stock_stand_on_the_first_page() -> None:
    first, second = pages(samples.top())
    assert "Measured" in words(first)
    assert "Measured" not in words(second)
    assert "For the notes see page 1 of this sheet." in " ".join(words(second))


def placed(**places: tuple[float, float]) -> list[Placed]:
    """Views of a small board with nothing in it, 60 by 30 by 20, at places on the paper."""
    bench = Bench("part", "Board", (60, 30, 20))
    for view in places:
        bench.note("blank", f"note_{view}", view, (0, 0, 0), 1)
    views = views_needed(Wanted(bench.stated(), bench.dimensions, ISO_5455, "third_angle"))
    blocks = {view.name: lay_out(view, Scale(1, 1), (), narrow=False, styles={}).named(moved=False) for view in views}
    return [Placed(blocks[name], *at) for name, at in places.items()]


@pytest.mark.parametrize(("method", "right"), [("third_angle", 1), ("first_angle", -1)])
def test_an_end_is_moved_unless_it_stands_on_the_side_of_the_method(method: str, right: int) -> None:
    """ISO 5456-2: the view from the right stands at the right in third angle, at the left in first angle."""
    assert moved_views(placed(face=(0, 0), right_end=(right * 100, 0)), method) == frozenset()
    assert moved_views(placed(face=(0, 0), right_end=(-right * 100, 0)), method) == {"right_end"}
    assert moved_views(placed(face=(0, 0), right_end=(right * 100, 20)), method) == {"right_end"}


@pytest.mark.parametrize(("method", "down"), [("third_angle", 1), ("first_angle", -1)])
def test_an_edge_is_moved_unless_it_stands_over_or_under_the_face(method: str, down: int) -> None:
    assert moved_views(placed(face=(0, 0), front_edge=(0, down * 80)), method) == frozenset()
    assert moved_views(placed(face=(0, 0), front_edge=(0, -down * 80)), method) == {"front_edge"}
    assert moved_views(placed(face=(0, 0), front_edge=(9, down * 80)), method) == {"front_edge"}


@pytest.mark.parametrize(("method", "side"), [("third_angle", 1), ("first_angle", -1)])
def test_no_end_stands_where_the_other_belongs(method: str, side: int) -> None:
    """The back's left end on paper is the part's right end: beside the back the ends change sides."""
    assert not misleads(placed(face=(0, 0), left_end=(-side * 100, 0)), method)
    assert misleads(placed(face=(0, 0), left_end=(side * 100, 0)), method)
    assert not misleads(placed(back=(0, 0), left_end=(side * 100, 0)), method)
    assert misleads(placed(back=(0, 0), left_end=(-side * 100, 0)), method)


def test_a_moved_view_says_so_under_its_name() -> None:
    (view,) = (each.block.view for each in placed(face=(0, 0)))
    for moved in (False, True):
        block = lay_out(view, Scale(1, 1), (), narrow=False, styles={}).named(moved)
        named = {p.text: p.at.y for p in block.primitives if isinstance(p, Label)}
        assert ("view moved" in named) == moved
        assert not moved or named["view moved"] > named["FACE"]
