"""Parts for a router: nested by their true outline, whichever hand, and told where its cutter leaves corners round."""

from __future__ import annotations

from itertools import combinations
from typing import Any

import pytest
from shapely import Point, Polygon, box

from planbook.cutting import Why, faults_of
from planbook.drawing import draw_cutting_plan
from planbook.drawing.recording import Stroke
from planbook.measure import Units
from planbook.shape.loops import flatten
from planbook.statement.layouts import state_layouts
from planbook.statement.model import LayoutStated
from planbook.takeoff.layouts import StockPlan
from tests.shape.making import MM, plate

from .taken import small_set, take, taken

ROUTER = "sheets: {by: router, kerf: 6 mm}"
BRACKET = {
    "heel": {"at": ["0 mm", "0 mm"]},
    "toe": {"at": ["600 mm", "0 mm"]},
    "tread": {"at": ["600 mm", "90 mm"]},
    "crotch": {"at": ["90 mm", "90 mm"]},
    "back": {"at": ["90 mm", "400 mm"]},
    "top": {"at": ["0 mm", "400 mm"]},
}
DISC = {
    name: {"at": at, "round": "200 mm"}
    for name, at in {
        "front_left": ["0 mm", "0 mm"],
        "front_right": ["400 mm", "0 mm"],
        "rear_right": ["400 mm", "400 mm"],
        "rear_left": ["0 mm", "400 mm"],
    }.items()
}


def planned(parts: dict[str, Any], cutting: str = ROUTER) -> StockPlan:
    (plan,) = taken(small_set(parts, cutting)).plans
    assert faults_of(plan.job, plan.plan) == ()
    return plan


def laid_out(parts: dict[str, Any], cutting: str = ROUTER) -> tuple[LayoutStated, ...]:
    return state_layouts(taken(small_set(parts, cutting)).plans, Units.MILLIMETRE)


def test_brackets_and_discs_are_laid_into_one_another_by_a_router_and_by_no_saw() -> None:
    parts = {
        "bracket": plate("600 mm", "400 mm", outline=BRACKET, quantity={"as_drawn": 7, "mirrored": 7}, number=1),
        "disc": plate("400 mm", "400 mm", outline=DISC, quantity={"as_drawn": 3}, number=2),
    }
    plan = planned(parts)
    sawn = planned(parts, "sheets: {by: saw, kerf: 6 mm}")
    assert plan.plan.count < sawn.plan.count
    assert all(each.outline is None for layout in sawn.plan.layouts for each in layout.placed)
    for layout in plan.plan.layouts:
        shapes = [Polygon(each.outline) for each in layout.placed]
        for one, other in combinations(shapes, 2):
            assert one.distance(other) >= 6 * MM - 1


def test_each_hand_has_its_own_outline() -> None:
    part = plate("600 mm", "400 mm", outline=BRACKET, quantity={"as_drawn": 2, "mirrored": 3})
    plan = planned({"bracket": part})
    right, left = plan.job.pieces
    assert (right.quantity, left.quantity) == (2, 3)
    assert right.outline is not None
    assert left.outline is not None
    over = Polygon([(x, 400 * MM - y) for x, y in right.outline])
    assert over.symmetric_difference(Polygon(left.outline)).area == 0
    assert {each.number for layout in laid_out({"bracket": part}) for each in layout.pieces} == {"1"}


@pytest.mark.parametrize("outline", [BRACKET, DISC])
def test_an_outline_holds_the_wood_and_hardly_more(outline: dict[str, Any]) -> None:
    width = {6: "400 mm", 4: "400 mm"}[len(outline)]
    length = "600 mm" if outline is BRACKET else "400 mm"
    (piece,) = planned({"it": (part := plate(length, width, outline=outline))}).job.pieces
    shaped = taken(small_set({"it": part}, ROUTER)).plans[0].pieces[0].part
    wood, told = Polygon(flatten(shaped.outline)), Polygon(piece.outline)
    assert told.buffer(10).covers(wood)
    assert told.area <= wood.area * 1.003


def test_oversize_goes_all_round_the_outline() -> None:
    part = plate("600 mm", "400 mm", outline=BRACKET)
    (piece,) = planned({"it": part}, "sheets: {by: router, kerf: 6 mm, oversize: [20 mm, 10 mm]}").job.pieces
    assert (piece.length, piece.width) == (620 * MM, 410 * MM)
    assert Polygon(piece.outline).area == pytest.approx((620 * 100 + 110 * 310) * MM**2)


def test_a_notch_is_part_of_the_outline_and_a_hole_is_not() -> None:
    features = {
        "post": {"notch": ["80 mm", "60 mm"], "corner": "rear_left"},
        "hand": {"hole": "40 mm", "at": ["300 mm", "100 mm"]},
    }
    (piece,) = planned({"it": plate("600 mm", "200 mm", features=features)}).job.pieces
    whole = box(0, 0, 600 * MM, 200 * MM).difference(box(0, 140 * MM, 80 * MM, 200 * MM))
    assert Polygon(piece.outline).symmetric_difference(whole).area < MM


def test_an_opening_takes_smaller_parts_unless_the_piece_is_larger_at_first() -> None:
    features = {
        "window": {"hole": "300 mm", "at": ["200 mm", "700 mm"]},
        "peg": {"hole": "40 mm", "at": ["450 mm", "100 mm"]},
        "seat": {"hole": "60 mm", "at": ["450 mm", "250 mm"], "depth": "9 mm"},
    }
    parts = {
        "door": plate("1500 mm", "1500 mm", features=features, quantity={"as_drawn": 0, "mirrored": 1}, number=1),
        "knob": plate("200 mm", "200 mm", number=2),
    }
    plan = planned(parts)
    door = next(each for each in plan.job.pieces if each.holes)
    assert plan.plan.count == 1
    (hole,) = (Polygon(each) for each in door.holes)
    # A hand is mirrored about its length; the window is a little less than the true disc.
    true = Point(200 * MM, 800 * MM).buffer(150 * MM, quad_segs=256)
    assert true.buffer(MM / 1000).covers(hole)
    assert hole.area > true.area * 0.995
    (layout,) = laid_out(parts)
    opened, knob = (next(each for each in layout.pieces if each.number == number) for number in ("1", "2"))
    x, y, length, width = knob.box
    assert Polygon(opened.holes[0]).covers(box(x, y, x + length, y + width).buffer(6 * MM - 2))
    drawing = draw_cutting_plan(layout, (), (170.0, 100.0), "millimetre")
    strokes = [each for each in drawing.primitives if isinstance(each, Stroke)]
    assert [len(each.holes) for each in strokes if each.fill == "tint" and each.holes] == [1]
    oversize = "sheets: {by: router, kerf: 6 mm, oversize: [4 mm, 4 mm]}"
    assert all(not each.holes for each in planned(parts, oversize).job.pieces)


def test_two_thousand_outlines_are_answered_as_two_thousand_rectangles_are() -> None:
    part = plate("600 mm", "400 mm", outline=BRACKET, quantity={"as_drawn": 1, "mirrored": 1})
    found, findings = take(small_set({"it": part}, ROUTER), times=1000)
    assert [finding.code for finding in findings] == ["too-many-pieces"]
    (bought,) = (int(row.cells["Buy"]) for row in found.lists["shopping"])
    wood = 2000 * (0.6 * 0.09 + 0.31 * 0.09)
    assert wood / (2.44 * 1.22) < bought <= 2000


def test_a_part_larger_than_any_sheet_is_left_out_by_a_router_too() -> None:
    large = {name: {"at": [x.replace("600", "2600"), y]} for name, each in BRACKET.items() for x, y in [each["at"]]}
    found, _ = take(small_set({"it": plate("2600 mm", "400 mm", outline=large)}, ROUTER))
    (plan,) = found.plans
    assert [(each.piece, each.quantity, each.why) for each in plan.plan.unplaced] == [("it", 1, Why.TOO_LARGE)]


def test_corners_that_the_cutter_leaves_round_are_told_with_its_radius() -> None:
    features = {
        "rear_post": {"notch": ["80 mm", "60 mm"], "corner": "rear_left"},
        "slot": {"notch": ["18 mm", "90 mm"], "edge": "front", "start": "250 mm"},
        "eased": {"notch": ["50 mm", "50 mm"], "corner": "rear_right", "round": "3 mm"},
        "side_opening": {"opening": ["60 mm", "40 mm"], "at": ["400 mm", "80 mm"]},
        "shallow": {"mortise": ["30 mm", "20 mm"], "at": ["150 mm", "80 mm"], "depth": "6 mm"},
    }
    parts = {
        "shelf": plate("600 mm", "200 mm", features=features, number=4),
        "bracket": plate("600 mm", "400 mm", outline=BRACKET, number=5),
        "plain": plate("300 mm", "100 mm", number=6),
    }
    (layout,) = laid_out(parts)
    assert layout.radius == "3 mm [1/8 in]"
    assert sorted(layout.corners) == [
        "part 4, 1 of the notch rear post, 2 of the notch slot, 4 of the side opening",
        "part 5, 1 of its outline",
    ]
    (sawn,) = laid_out(parts, "sheets: {by: saw}")
    assert (sawn.radius, sawn.corners) == ("", ())


def test_outlines_are_drawn_as_they_are_cut_with_a_number_in_each() -> None:
    (layout,) = laid_out({"it": plate("600 mm", "400 mm", outline=BRACKET, quantity={"as_drawn": 4})})
    drawing = draw_cutting_plan(layout, (), (170.0, 100.0), "millimetre")
    tinted = [each for each in drawing.primitives if isinstance(each, Stroke) and each.fill == "tint"]
    assert [len(each.steps) for each in tinted] == [5] * 4
    numbers = [each for each in drawing.primitives if getattr(each, "text", "") == "1" and each.bold]
    shapes = [Polygon([(p.x, p.y) for p in (each.start, *(step.end for step in each.steps))]) for each in tinted]
    assert all(sum(shape.contains(Point(n.at.x, n.at.y)) for n in numbers) == 1 for shape in shapes)
