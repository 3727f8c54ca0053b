"""The sewing desk against figures that a separate program computed before planbook existed, in both markets.

That program worked on solids and by steps of the lever; its figures are from its final table and are rounded as there.
It knew no slip tape: the tape under the bars (.010 in, 0.2 mm) lifts what stands on them, and the shaft grooves are
deeper by as much. Figures that hang on either are its own with that correction, marked "tape".

Later releases changed the bed height and the inch edition's sheet. The figures are held against today's formulas with
the values that the program had (`first_desk`); what must always hold, against the desk as it stands.
"""

from __future__ import annotations

import math
from itertools import pairwise

import pytest

from planbook.design import Overrides, evaluate
from planbook.measure import Quantity
from planbook.measure.dimensionality import LENGTH, MASS
from planbook.shape import place_components, shape_parts
from planbook.source.findings import stops
from planbook.source.text import Formula
from planbook.statement.weighed import with_masses

from .sets import (
    MARKETS,
    MILLIMETRE,
    Piece,
    comparisons,
    content,
    first_design,
    first_desk,
    piece,
    plan,
    statement,
    swept,
    turned,
)


@pytest.fixture(scope="module")
def desk() -> dict[str, Piece]:
    return {market: first_desk(market) for market in MARKETS}


# formula: (inches in North America, millimetres in Europe)
MEASURES = {
    "frame.inside": (47.25, 1200),
    "centre.x": (24.5, 623),
    "centre.y": (10, 255),
    "bar.travel": (13.5, 342),
    "bar.left_valley": (14.125, 358),
    "bar.length": (32.875, 834),
    "bar.height": (3.875, 98),
    "bar.x": (2.875, 75),
    "bar.y": (3 + 1 / 32, 78),
    "lever.crank": (6.75, 171),
    "roller.axis_drop": (1.454 - 0.010, 38.8 - 0.2),  # tape
    "platform.flush": (-0.010, -0.2),
    "platform.drop": (3.010, 76.2),
    "platform.length": (19 + 11 / 16, 501.5),
    "platform.width": (11 + 5 / 16, 285),
    "axis.z": (27.031, 683),
    "link.length": (19.5, 494),
    "knee.clear": (23 + 21 / 32, 597),
    "leaf.under": (2.291, 58.2),
    "leaf.hinge_half": (9 + 29 / 32, 252),
    "leaf.free_half": (9 + 7 / 8, 252),
    "apron.length": (48, 1220),
    "leg.length": (28 + 1 / 32, 710),
    "rail.length": (13, 334),
    "yoke.length": (11 + 15 / 16, 300),
    "runner.width": (2 + 1 / 16, 56),
    "bearer.length": (11, 280),
    "plate.length": (6.75, 172),
    "shaft.length": (13 + 11 / 16, 346),
    "shaft.groove": (0.515 + 0.010, 12.2 + 0.2),  # tape
    "link.length + link.width": (20.75, 526),
    "lever.tip + lever.tail": (14.5, 368),
    "well.left": (14.5, 368),
    "pin.x": (12.5, 318),
}

# rule: its measured side (the second where it has a lower limit), in millimetres: North America, Europe
RULES = {
    "ramp.pitch": (19.05, 18.00),
    "ramp.roller_in_valley": (3.05, 4.00),
    "ramp.land_is_flat": (7.63, 8.10),
    "bar.left_end": (9.52, 12.00),
    "bar.right_end": (12.70, 12.00),
    "fork.goes_in_width": (1.59, 2.00),
    "platform.flush": (-0.256, -0.200),
    "roller.under_top": (2.93 - 0.254, 5.00 - 0.2),  # tape
    "roller.gap_shaft_apron": (3.97, 5.00),
    "guide.block_gap": (6.61, 7.20),
    "pin.still_in_bush": (6.49, 5.80),
    "pin.above_runner": (15.88, 17.00),
    "gap.at_bar": (7.94, 7.50),
    "pin.wood_above": (15.87, 16.00),
    "lever.within_top": (6.35, 8.00),
    "lever.under_front_edge": (9.53, 7.00),
    "leaf.post": (58.20 - 25.4 / 16, 58.20 - 1.5),  # tape; less the felt, which the separate program did not know
    "leaf.on_wing": (371, 370),
    "knee.height": (601, 597),
    "knee.depth": (432, 433),
    "fork.goes_in_length": (365, 366),
}


@pytest.mark.parametrize("formula", MEASURES)
def test_measures_of_the_desk(desk: dict[str, Piece], formula: str) -> None:
    inches, mm = MEASURES[formula]
    assert desk["north_america"].inches(formula) == pytest.approx(inches, abs=0.0006 if inches < 10 else 0.006)
    assert desk["europe"].mm(formula) == pytest.approx(mm, abs=0.05)


@pytest.mark.parametrize("market", MARKETS)
@pytest.mark.parametrize("rule", RULES)
def test_rules_come_out_as_computed_before(desk: dict[str, Piece], rule: str, market: str) -> None:
    expected = RULES[rule][MARKETS.index(market)]
    measured = _judged(desk[market], rule)
    assert measured == pytest.approx(expected, abs=0.5 if float(expected).is_integer() else 0.006)


@pytest.mark.parametrize("market", MARKETS)
def test_every_rule_holds(desk: dict[str, Piece], market: str) -> None:
    for design in (desk[market], piece("sewing-desk", market)):
        assert [rule for rule in comparisons("sewing-desk", market) if not _holds(design, rule)] == []


@pytest.mark.parametrize("edition", ["imperial", "metric"])
def test_the_whole_travel_is_free(edition: str) -> None:
    rules = {str(name) for name, rule in content("sewing-desk").rules.items() if rule.over is not None}
    stated = statement("sewing-desk", edition).rules
    assert len(rules) >= 6
    assert all(stated[name].holds for name in rules)


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("roller.span", 345),
        ("ramp.run", 260),
        ("axis.x", 1110),
        ("drive.up", 67),
        ("reach.left", 545),
        ("bearer.floor", 17),
        ("pin.inset", 30),
        ("buy.cross_bolt", 90),
        ("lever.sink", 6),
        ("bearer.short", 2),
        ("yoke.start", 27),
    ],
)
def test_spoiled_designs_are_refused(name: str, value: float) -> None:
    # The separate program refused those down to the inset too. A floor of 17 mm is a groove of 10 mm; pins 30 mm from
    # the well put the block over it. It knew no bolt heads, collars and keeper, which refuse the last four.
    assert _refused("europe", {name: Quantity(value * MILLIMETRE, LENGTH)})


def test_a_heavier_machine_is_refused() -> None:
    assert not _refused("europe", {"load.machine": Quantity(15, MASS)})
    assert _refused("europe", {"load.machine": Quantity(20, MASS)})


@pytest.mark.parametrize(("market", "bed", "apron"), [("north_america", 2.75 * 25.4, 5 * 25.4), ("europe", 70, 129)])
def test_a_lower_bed_asks_for_a_lower_drive_pin_but_not_by_as_much(market: str, bed: float, apron: float) -> None:
    # The separate program's finding: left alone the pin lacks wood above it, lowered as much as the bed the link
    # meets the knees, lowered by half as much all rules hold.
    lowered = 76.2 - bed if market == "north_america" else 76 - bed
    up = 76.2 if market == "north_america" else 76.0
    assert not _rules_hold(market, ramp__rise=bed, apron__height=apron)
    assert not _rules_hold(market, ramp__rise=bed, apron__height=apron, drive__up=up - lowered)
    assert _rules_hold(market, ramp__rise=bed, apron__height=apron, drive__up=up - lowered / 2)


def _rules_hold(market: str, **lengths_mm: float) -> bool:
    return not _refused(market, first_design(market, **lengths_mm))


def _refused(market: str, values: dict[str, Quantity]) -> bool:
    """Whether the first design with values replaced breaks a rule, or cannot even be shaped."""
    design, before = evaluate(plan("sewing-desk"), Overrides(market, {**first_design(market), **values}))
    assert design is not None, before
    parts, findings = shape_parts(content("sewing-desk"), design)
    components, _ = place_components(content("sewing-desk"), design, parts)
    design, _ = with_masses(content("sewing-desk"), design, before, plan("sewing-desk"), components)
    changed = Piece(design, {}, {})
    return stops(findings) or not all(_holds(changed, rule) for rule in comparisons("sewing-desk", market))


@pytest.mark.parametrize("market", MARKETS)
def test_the_link_hangs_lowest_where_the_design_says(market: str) -> None:
    depths = {degrees: _hang(market, degrees) for degrees in range(30, 91, 3)}
    assert max(depths.values()) - swept(market, 0).mm("link.low") < 0.1


def _hang(market: str, degrees: float) -> float:
    desk = swept(market, degrees)
    tilt = math.radians(desk.number("link.tilt"))
    reach = desk.mm("knee.right - drive.x - fork.travel")
    return reach * math.tan(tilt) + desk.mm("link.width") / 2 / math.cos(tilt)


@pytest.mark.parametrize(
    ("market", "travel", "lift"), [("north_america", 7.96 * 25.4, 1.84 * 25.4), ("europe", 201.5, 46.5)]
)
def test_halfway_the_lever_has_moved_fork_and_platform_so_far(market: str, travel: float, lift: float) -> None:
    halfway = swept(market, 90, first_desk(market))
    assert halfway.mm("fork.travel") == pytest.approx(travel, abs=0.15)
    assert halfway.mm("platform.lift") == pytest.approx(lift, abs=0.15)


@pytest.mark.parametrize("market", MARKETS)
def test_the_platform_ends_where_it_should(market: str) -> None:
    stowed, full, raised = (swept(market, degrees) for degrees in (0, 150.5, 180))
    # Rounding leaves the drive pin a hair above the axis, and the link that much aslant.
    assert stowed.mm("fork.travel") == pytest.approx(0, abs=1e-4)
    assert stowed.mm("platform.lift") == 0
    assert raised.mm("fork.travel") == pytest.approx(raised.mm("bar.travel"))
    assert raised.mm("platform.lift") == raised.mm("ramp.rise")
    assert full.mm("platform.lift") == pytest.approx(full.mm("ramp.rise"), abs=0.05)


@pytest.mark.parametrize("market", MARKETS)
@pytest.mark.parametrize("degrees", [0, 7, 20, 45, 90, 120, 145, 148, 149, 150, 165, 180])
def test_the_lift_is_that_of_a_roller_resting_on_the_bar(market: str, degrees: float) -> None:
    desk = turned(market, degrees)
    assert desk.mm("platform.lift") == pytest.approx(_roller_on_outline(desk), abs=0.002)


def _roller_on_outline(desk: Piece) -> float:
    """The lift by brute force: how high a circle rests on the left ramp and its flats, less that in the valley."""
    outline = _upper_outline(desk)
    r, u = desk.mm("roller.radius"), desk.mm("bar.left_valley - fork.travel")
    count = 8000
    offsets = [-r + 2 * r * step / count for step in range(count + 1)]
    height = max(_height(outline, u + offset) + math.sqrt(r * r - offset * offset) for offset in offsets)
    return height - desk.mm("bar.web") - r


def _upper_outline(desk: Piece) -> list[tuple[float, float]]:
    """Rest, ramp and valley: the flats, with what is let into them, are as high as the ends of the ramp."""
    corners = {vertex.name: vertex.point for vertex in desk.parts["front_ramp_bar"].vertices}
    top, foot = corners["left_ramp_top"], corners["left_ramp_foot"]
    points = ((corners["high_left"].x, top.y), (top.x, top.y), (foot.x, foot.y), (corners["left_wall_foot"].x, foot.y))
    return [(x / MILLIMETRE, y / MILLIMETRE) for x, y in points]


def _height(outline: list[tuple[float, float]], u: float) -> float:
    for (x0, y0), (x1, y1) in pairwise(outline):
        if x0 <= u <= x1:
            return y0 + (y1 - y0) * (u - x0) / (x1 - x0)
    return -math.inf


@pytest.mark.parametrize("market", MARKETS)
def test_the_pull_of_the_hand_is_near_what_was_computed_before(market: str) -> None:
    # 52.4 N in both markets. The allowance for rubbing is fitted to it; this guards the formula, not the physics.
    desk = first_desk(market)
    pulls = {degrees: swept(market, degrees, desk).number("load.hand") / 1e9 for degrees in range(0, 181, 5)}
    assert max(pulls.values()) == pytest.approx(52.4, abs=1.0)
    assert max(pulls, key=pulls.__getitem__) in (65, 70, 75)
    # Nearly: rounding leaves the drive pin a hair above the lever's axis.
    assert pulls[0] == pytest.approx(0, abs=0.02)
    assert pulls[180] == pytest.approx(0, abs=0.02)


@pytest.mark.parametrize("market", MARKETS)
def test_the_lever_ratio_is_the_slope_of_the_travel(market: str) -> None:
    step = 0.01
    for degrees in (10, 40, 75, 90, 120, 170):
        before, here, after = (swept(market, degrees + change) for change in (-step, 0, step))
        slope = (after.mm("fork.travel") - before.mm("fork.travel")) / math.radians(2 * step)
        assert here.number("load.lever_ratio") == pytest.approx(slope / here.mm("lever.grip"), rel=1e-6)
        assert here.number("load.lever_ratio") <= here.number("load.ratio_most") * 1.005


def _judged(desk: Piece, rule: str) -> float:
    """The measured side in millimetres: the middle of three, the first of two."""
    judgement, findings = desk.design.judge(_require(desk, rule))
    assert judgement is not None, findings
    return judgement.sides[1 if len(judgement.sides) == 3 else 0].number / 1e6


def _holds(desk: Piece, rule: str) -> bool:
    judgement, findings = desk.design.judge(_require(desk, rule))
    assert judgement is not None, findings
    return judgement.holds


def _require(desk: Piece, rule: str) -> Formula:
    return comparisons("sewing-desk", desk.design.market)[rule]
