"""Real sheets and boards are never nominal: over each accepted range every mate still fits and every rule holds."""

from __future__ import annotations

import pytest

from planbook.shape.kinds import GrooveShape, RecessShape, TenonShape
from planbook.shape.model import Part

from .placed import axis_gap, bounds, centres, rod_axis
from .sets import MARKETS, MILLIMETRE, SETS, Piece, comparisons, piece

EXACT = 1e-6
STOCK = ("sheet_19", "sheet_12", "sheet_6", "board_25", "thin_19", "post_45")


def _varied(key: str, market: str, stock: str, end: int) -> Piece:
    """The piece with one stock at the least (0) or greatest (1) thickness that is accepted."""
    accepted = piece(key, market).design.stock[stock].accepted
    assert accepted is not None
    return piece(key, market, **{f"stock__{stock}__thickness": accepted[end] / MILLIMETRE})


@pytest.fixture(
    scope="module", params=[(market, stock, end) for market in MARKETS for stock in STOCK for end in (0, 1)], ids=str
)
def tote(request: pytest.FixtureRequest) -> Piece:
    return _varied("tool-tote", *request.param)


@pytest.fixture(
    scope="module",
    params=[
        (market, stock, end)
        for market in MARKETS
        for stock in ("sheet_19", "board_25", "thin_19", "strip_10", "post_45")
        for end in (0, 1)
    ],
    ids=str,
)
def desk(request: pytest.FixtureRequest) -> Piece:
    return _varied("sewing-desk", *request.param)


def groove(part: Part, name: str) -> GrooveShape:
    shape = part.features[name].shape
    assert isinstance(shape, GrooveShape)
    return shape


def recess(part: Part, name: str) -> RecessShape:
    shape = part.features[name].shape
    assert isinstance(shape, RecessShape)
    return shape


def tenon(part: Part, name: str) -> TenonShape:
    shape = part.features[name].shape
    assert isinstance(shape, TenonShape)
    return shape


def mm(value: float) -> float:
    return value / MILLIMETRE


# The tote.


def test_the_sides_slide_into_their_housings(tote: Piece) -> None:
    play = groove(tote.parts["end"], "left_housing").width.number - tote.parts["side"].blank.z
    assert 0 < mm(play) <= 0.5


def test_the_sides_reach_into_both_housings_and_do_not_hold_the_ends_apart(tote: Piece) -> None:
    reach = tote.parts["side"].blank.x - tote.number("inside.length")
    room = 2 * groove(tote.parts["end"], "left_housing").depth.number - reach
    assert 0 <= mm(room) < 1
    assert mm(reach) > 5


@pytest.mark.parametrize(
    ("part", "feature"), [("end", "bottom_groove"), ("side", "bottom_groove"), ("side", "divider_groove")]
)
def test_the_thin_panels_slide_in_their_grooves(tote: Piece, part: str, feature: str) -> None:
    for panel in ("bottom", "divider"):
        play = groove(tote.parts[part], feature).width.number - tote.parts[panel].blank.z
        assert 0 < mm(play) <= 0.5


def test_the_bottom_is_held_on_all_sides_and_touches_no_groove_end(tote: Piece) -> None:
    bottom, depth = tote.parts["bottom"].blank, tote.number("groove.depth")
    for size, clear in ((bottom.x, "inside.length"), (bottom.y, "inside.width")):
        held = size - tote.number(clear)
        assert 0 < mm(2 * depth - held) < 2.5
        assert mm(held) > 5


def test_the_handle_goes_through_both_ends(tote: Piece) -> None:
    handle, end = tote.parts["handle"], tote.parts["end"]
    made = tenon(handle, "left_tenon")
    assert made.length.number == end.blank.z
    assert [size.number for size in recess(end, "handle_mortise").size] == [made.thickness.number, made.width.number]
    shoulders = handle.blank.x - 2 * made.length.number
    assert shoulders == pytest.approx(tote.number("inside.length"))


def test_rack_and_divider_go_in_and_do_not_meet(tote: Piece) -> None:
    assert 0 <= mm(tote.number("inside.length") - tote.parts["tool_rack"].blank.x) < 1
    rack, divider = bounds(tote.components["rack"]), bounds(tote.components["divider"])
    notch = recess(tote.parts["divider"], "rack_notch")
    assert divider[1][1] - mm(notch.size[0].number) < rack[1][0]
    assert divider[2][1] - mm(notch.size[1].number) < rack[2][0]


def test_the_screws_meet_the_middle_of_the_sides(tote: Piece) -> None:
    side = bounds(tote.components["rear_side"])
    _, y, z = max(centres(tote, "right_end", "screws"), key=lambda centre: centre[1])
    assert y == pytest.approx(sum(side[1]) / 2, abs=mm(tote.number("make.step")) * 0.75)
    assert z == pytest.approx(sum(side[2]) / 2)


# The desk.


def test_all_rules_hold(desk: Piece) -> None:
    for name, require in comparisons("sewing-desk", desk.design.market).items():
        judgement, findings = desk.design.judge(require)
        assert judgement is not None, findings
        assert judgement.holds, (name, [mm(side.number) for side in judgement.sides])


def test_the_top_stands_at_its_height(desk: Piece) -> None:
    leg = bounds(desk.components["front_left_leg"])
    top = bounds(desk.components["top"])
    assert leg[2][1] == pytest.approx(top[2][0])
    assert top[2][1] == pytest.approx(desk.mm("top.height"))


@pytest.mark.parametrize("apron", ["front_apron", "rear_apron"])
def test_the_aprons_fit_between_the_legs(desk: Piece, apron: str) -> None:
    part, leg = desk.parts[apron], desk.parts[apron.replace("apron", "leg")]
    tongue, mortise = tenon(part, "left_tongue"), recess(leg, "tongue_mortise")
    assert mm(part.blank.x - 2 * tongue.length.number) == pytest.approx(desk.mm("frame.inside"))
    assert [mm(size.number) for size in mortise.size] == pytest.approx(
        [mm(tongue.width.number), mm(tongue.thickness.number)]
    )
    assert mortise.depth is not None
    assert mortise.depth.number > tongue.length.number
    assert bounds(desk.components[apron])[2] == pytest.approx((desk.mm("apron.z"), desk.mm("top.height - wood.sheet")))


@pytest.mark.parametrize(
    ("apron", "left", "right"),
    [("front_apron", "front_left_leg", "front_right_leg"), ("rear_apron", "rear_right_leg", "rear_left_leg")],
)
def test_apron_bolts_pass_from_leg_to_nut(desk: Piece, apron: str, left: str, right: str) -> None:
    for leg, end in ((left, "left"), (right, "right")):
        through = centres(desk, leg, "apron_bolts")
        inside = centres(desk, apron, f"{end}_bolts")
        nuts = centres(desk, apron, f"{end}_nuts")
        assert max(axis_gap(one, other, "x") for one, other in zip(through, inside, strict=True)) < EXACT
        assert [nut[2] for nut in nuts] == pytest.approx([bolt[2] for bolt in inside])


def test_panel_bolts_pass_from_leg_to_panel(desk: Piece) -> None:
    for leg, end in (("rear_right_leg", "left"), ("rear_left_leg", "right")):
        pairs = zip(centres(desk, leg, "panel_bolts"), centres(desk, "rear_panel", f"{end}_bolts"), strict=True)
        assert max(axis_gap(one, other, "x") for one, other in pairs) < EXACT


def test_rails_and_feet_fit_the_legs(desk: Piece) -> None:
    front, rear, foot = (desk.parts[part] for part in ("front_leg", "rear_leg", "foot"))
    for part, feature, holder, mortise in (
        ("end_rail", "front_tenon", front, "rail_mortise"),
        ("end_rail", "rear_tenon", rear, "rail_mortise"),
        ("front_leg", "foot_tenon", foot, "front_mortise"),
        ("rear_leg", "foot_tenon", foot, "rear_mortise"),
    ):
        made, hole = tenon(desk.parts[part], feature), recess(holder, mortise)
        assert [mm(size.number) for size in hole.size] == pytest.approx(
            [mm(made.width.number), mm(made.thickness.number)]
        )
        assert hole.depth is not None
        assert 0 < mm(hole.depth.number - made.length.number) < 3


def test_the_fork_fits_between_the_aprons(desk: Piece) -> None:
    front, rear, yoke = (bounds(desk.components[name]) for name in ("front_bar", "rear_bar", "yoke"))
    aprons = bounds(desk.components["front_apron"])[1][1], bounds(desk.components["rear_apron"])[1][0]
    assert front[1][0] - aprons[0] == pytest.approx(desk.mm("bar.side_gap"))
    assert aprons[1] - rear[1][1] == pytest.approx(desk.mm("bar.side_gap"))
    assert (front[1][1], rear[1][0]) == pytest.approx(yoke[1])


@pytest.mark.parametrize(("bar", "end"), [("front_bar", "front"), ("rear_bar", "rear")])
def test_yoke_bolts_pass_from_bar_to_yoke(desk: Piece, bar: str, end: str) -> None:
    through = sorted(centres(desk, bar, "yoke_bolts"))
    inside = sorted(centres(desk, "yoke", f"{end}_bolts"))
    assert max(axis_gap(one, other, "y") for one, other in zip(through, inside, strict=True)) < EXACT


def test_the_rollers_stand_in_the_valleys(desk: Piece) -> None:
    for roller in ("front_left_roller", "front_right_roller", "rear_left_roller", "rear_right_roller"):
        x, y, z = bounds(desk.components[roller])
        bar = bounds(desk.components["front_bar" if roller.startswith("front") else "rear_bar"])
        assert z[0] == pytest.approx(bar[2][0] + desk.mm("bar.web"))
        assert bar[1][0] < y[0] < y[1] < bar[1][1]
        valley = "bar.left_valley" if "left" in roller else "bar.right_valley"
        assert sum(x) / 2 == pytest.approx(bar[0][0] + desk.mm(valley))


def test_one_pin_line_goes_through_top_block_bush_and_plate(desk: Piece) -> None:
    block = centres(desk, "pin_block", "pins")
    for pin, hole in (("front_guide_pin", "front_pin"), ("rear_guide_pin", "rear_pin")):
        axis = rod_axis(desk, pin)
        assert axis_gap(axis, centres(desk, "top", hole)[0], "z") < EXACT
        assert min(axis_gap(axis, each, "z") for each in block) < EXACT
    assert axis_gap(rod_axis(desk, "front_guide_pin"), centres(desk, "guide_plate", "bush")[0], "z") < EXACT
    assert axis_gap(rod_axis(desk, "bush"), rod_axis(desk, "front_guide_pin"), "z") < EXACT


def test_the_platform_clears_the_well_all_round(desk: Piece) -> None:
    x, y, _ = bounds(desk.components["platform"])
    assert x[0] - desk.mm("well.left") == pytest.approx(desk.mm("gap.side"))
    assert desk.mm("well.right") - x[1] == pytest.approx(desk.mm("gap.hinge_side"))
    assert y[0] - desk.mm("well.y") == pytest.approx(desk.mm("gap.side"))


MAIN_STOCK = {"splayed-stool": "square_40"}
"""What a plan set is made of that has no plywood."""


@pytest.mark.parametrize("key", SETS)
@pytest.mark.parametrize("market", MARKETS)
def test_a_thicker_sheet_changes_more_than_its_own_number(key: str, market: str) -> None:
    changed = [_varied(key, market, MAIN_STOCK.get(key, "sheet_19"), end) for end in (0, 1)]
    names = {name for name in changed[0].design.parameters if not name.startswith("stock.")}
    moved = {name for name in names if changed[0].number(name) != changed[1].number(name)}
    assert len(moved) >= 4
