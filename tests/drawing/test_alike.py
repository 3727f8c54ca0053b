"""Whether two pictures look the same in print: what is hidden is not seen to change, and what is seen is."""

from __future__ import annotations

import random
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planbook.document.charts import draw_chart
from planbook.drawing import Canvas, Drawing, draw_elevation, draw_isometric, look_alike, to_svg
from planbook.drawing.recording import ArcTo, Circle, Label, LineTo, Pen, Pt, Stroke
from planbook.shape.model import Component, Placement
from planbook.statement.stated import ChartData, CurveData
from tests.drawing.assemblies import X, Y, Z, at, shaped
from tests.drawing.samples import Bench

ROOM = Canvas(160.0, 100.0, {"leg": "7", "rail": "3"})


def frame(tenon: float = 30.0, leg: float = 400.0) -> list[Component]:
    """A leg, a rail against it, and a loose tenon that lies in both."""
    sizes = {"leg": (leg, 60.0, 60.0), "rail": (300.0, 60.0, 60.0), "tenon": (tenon, 20.0, 20.0)}
    places = {"leg": (0.0, 0.0, 0.0), "rail": (leg, 0.0, 0.0), "tenon": (leg - tenon / 2, 20.0, 20.0)}
    return [
        Component(name, Placement(at(*places[name]), X, Y, Z), shaped(Bench(name, name, size)))
        for name, size in sizes.items()
    ]


def seen(components: list[Component], view: str = "front") -> bytes:
    draw = draw_isometric if "_" in view else draw_elevation
    return to_svg(draw(components, view, ROOM), "x").encode()


@pytest.mark.parametrize("view", ["front", "top", "front_left"])
def test_a_hidden_tenon_that_grows_is_not_seen(view: str) -> None:
    assert look_alike(seen(frame(tenon=30), view), seen(frame(tenon=44), view))


@pytest.mark.parametrize("view", ["front", "top", "front_left"])
def test_an_edge_that_moves_by_two_millimetres_is_seen(view: str) -> None:
    assert not look_alike(seen(frame(leg=400), view), seen(frame(leg=402), view))


def test_an_edge_that_moves_by_less_than_print_shows_is_not_seen() -> None:
    assert look_alike(seen(frame(leg=400)), seen(frame(leg=400.05)))


def test_a_part_that_has_another_number_is_seen() -> None:
    other = replace(ROOM, labels={"leg": "8", "rail": "3"})
    here = to_svg(draw_elevation(frame(), "front", other), "x").encode()
    assert not look_alike(seen(frame()), here)


def drawing(*primitives: Stroke | Circle | Label) -> bytes:
    return to_svg(Drawing(100.0, 60.0, primitives), "x").encode()


def line(*points: tuple[float, float], pen: Pen = Pen.EDGE) -> Stroke:
    first, *others = (Pt(*each) for each in points)
    return Stroke(first, tuple(map(LineTo, others)), pen)


coordinates = st.floats(0, 100).map(lambda number: round(number, 2))
lines = st.tuples(coordinates, coordinates, coordinates, coordinates).filter(
    lambda each: abs(each[0] - each[2]) + abs(each[1] - each[3]) > 2
)


@given(st.lists(lines, min_size=1, max_size=8), st.floats(0.1, 0.9), st.randoms(use_true_random=False))
def test_in_what_pieces_and_order_a_picture_was_drawn_is_not_seen(
    ends: list[tuple[float, float, float, float]], where: float, chance: random.Random
) -> None:
    whole = [line((x, y), (u, v)) for x, y, u, v in ends]
    pieces = []
    for x, y, u, v in ends:
        middle = x + (u - x) * where, y + (v - y) * where
        pieces += [line((x, y), middle), line(middle, (u, v))]
    chance.shuffle(pieces)
    assert look_alike(drawing(*whole), drawing(*pieces))


@given(st.lists(lines, min_size=1, max_size=6), lines)
def test_a_line_more_is_seen_unless_it_lies_on_others(
    ends: list[tuple[float, float, float, float]], more: tuple[float, float, float, float]
) -> None:
    whole = [line((x, y), (u, v)) for x, y, u, v in ends]
    added = line((110, more[1]), (110, more[3] + 5))
    assert not look_alike(drawing(*whole), drawing(*whole, added))
    assert not look_alike(drawing(*whole, added), drawing(*whole))
    assert look_alike(drawing(*whole), drawing(*whole, whole[0]))


def arc(radius: float) -> Stroke:
    return Stroke(Pt(10, 10), (ArcTo(Pt(20, 20), radius, large=False, sweep=True), LineTo(Pt(40, 20))), Pen.OUTLINE)


def test_the_bow_of_an_arc_counts_and_so_do_pens_and_tints() -> None:
    split = (Stroke(Pt(10, 10), arc(10).steps[:1], Pen.OUTLINE), line((40, 20), (20, 20), pen=Pen.OUTLINE))
    assert look_alike(drawing(arc(10)), drawing(*split))
    assert not look_alike(drawing(arc(10)), drawing(arc(12)))
    assert not look_alike(drawing(line((1, 1), (9, 9))), drawing(line((1, 1), (9, 9), pen=Pen.FAINT)))
    ring = replace(line((1, 1), (9, 1), (9, 9)), closed=True, fill="tint")
    assert not look_alike(drawing(ring), drawing(replace(ring, fill="")))


def test_a_tint_counts_by_its_area_and_a_spike_has_none() -> None:
    def tint(*points: tuple[float, float]) -> bytes:
        return drawing(replace(line(*points), closed=True, fill="tint", pen=None))

    square = (10.0, 10.0), (50.0, 10.0), (50.0, 50.0), (10.0, 50.0)
    assert look_alike(tint(*square), tint(*square[:2], (58.0, 10.0), (50.0, 10.0), *square[2:]))
    assert not look_alike(tint(*square), tint(*square[:3], (12.0, 50.0)))


def test_letters_count_by_the_letter_and_where_they_stand() -> None:
    here = Label("44", Pt(10, 10), 2.5)
    assert look_alike(
        drawing(here, line((1, 1), (5, 5))), drawing(line((5, 5), (1, 1)), replace(here, at=Pt(10.02, 10)))
    )
    for other in (
        replace(here, text="45"),
        replace(here, at=Pt(12, 10)),
        replace(here, angle=90.0),
        replace(here, bold=True),
    ):
        assert not look_alike(drawing(here), drawing(other)), other


def test_a_chart_counts_by_what_it_shows() -> None:
    def chart(last: float) -> bytes:
        curve = CurveData("pull", (1.0, 2.0, last))
        return draw_chart(ChartData("lift", "lift", "mm", "pull", "N", (0.0, 1.0, 2.0), (curve,)), 150.0)

    assert look_alike(chart(3.0), chart(3.0 + 1e-7))
    assert not look_alike(chart(3.0), chart(3.4))


def test_what_cannot_be_read_is_like_nothing_else() -> None:
    assert not look_alike(b"<svg", drawing(arc(10)))
    assert not look_alike(b'<svg xmlns="http://www.w3.org/2000/svg"><path d="M0 0Q"/></svg>', drawing(arc(10)))
