"""The sewing desk put together: parts stand where the design says, in every position of the lever."""

from __future__ import annotations

import pytest

from .placed import axis_gap, bounds, centres, rod_axis, vertex
from .sets import MARKETS, SETS, Piece, content, first_desk, piece, turned

# Where components stand when stowed: least x, y, z in inches and millimetres, as first designed.
PLACES = {
    "front_apron": ((2.125, 2, 24.031), (53, 50, 607)),
    "front_bar": ((2.875, 3.03125, 24.041), (75, 78, 607.2)),
    "front_left_leg": ((0.75, 2, 1.25), (18, 50, 32)),
    "front_right_leg": ((49.75, 2, 1.25), (1263, 50, 32)),
    "guide_plate": ((11.25, 5.5, None), (286, 140, None)),
    "left_bearer": ((16, 4.5, None), (408, 115, None)),
    "right_bearer": ((31, 4.5, None), (788, 115, None)),
    "platform": ((14.594, 4.344, 26.271), (370.5, 112.5, 665.8)),
    "pin_block": ((11, 5.75, None), (280, 148, None)),
    "left_foot": ((0.75, 0.5, 0), (18, 12, 0)),
    "rear_panel": ((2.5, 17, 12), (63, 433, 300)),
}


@pytest.fixture(scope="module")
def desk() -> dict[str, Piece]:
    return {market: piece("sewing-desk", market) for market in MARKETS}


@pytest.mark.parametrize("name", PLACES)
def test_components_stand_where_they_were_designed(name: str) -> None:
    for market, unit, expected in zip(MARKETS, (25.4, 1.0), PLACES[name], strict=True):
        found = [low for low, _ in bounds(first_desk(market).components[name])]
        for have, want in zip(found, expected, strict=True):
            assert want is None or have / unit == pytest.approx(want, abs=0.001 if unit > 1 else 0.05)


@pytest.mark.parametrize("market", MARKETS)
def test_front_and_rear_mirror_each_other_about_the_centre_of_the_well(desk: dict[str, Piece], market: str) -> None:
    stood, centre = desk[market], desk[market].mm("centre.y")
    pairs = [(name, name.replace("front", "rear")) for name in stood.components if name.startswith("front_")]
    assert len(pairs) >= 9
    for front, rear in pairs:
        one, other = bounds(stood.components[front]), bounds(stood.components[rear])
        if front not in ("front_left_leg", "front_right_leg", "front_apron"):
            assert other[0] == pytest.approx(one[0])
        assert (2 * centre - other[1][1], 2 * centre - other[1][0]) == pytest.approx(one[1])
        assert other[2] == pytest.approx(one[2])


@pytest.mark.parametrize("market", MARKETS)
def test_both_bars_stand_upright_with_their_ramps_rising_to_the_left(desk: dict[str, Piece], market: str) -> None:
    for bar in ("front_bar", "rear_bar"):
        top, foot = (vertex(desk[market], bar, corner) for corner in ("left_ramp_top", "left_ramp_foot"))
        assert top[0] < foot[0]
        assert top[2] - foot[2] == pytest.approx(desk[market].mm("ramp.rise"))


@pytest.mark.parametrize("market", MARKETS)
def test_the_bolt_pockets_of_the_bars_face_the_aprons(desk: dict[str, Piece], market: str) -> None:
    front, rear = (centres(desk[market], bar, "yoke_bolts")[0][1] for bar in ("front_bar", "rear_bar"))
    assert front == pytest.approx(bounds(desk[market].components["front_bar"])[1][0])
    assert rear == pytest.approx(bounds(desk[market].components["rear_bar"])[1][1])


@pytest.mark.parametrize("market", MARKETS)
@pytest.mark.parametrize("degrees", [0, 20, 55, 90, 133, 180])
def test_lever_link_and_fork_stay_joined(market: str, degrees: float) -> None:
    stood = turned(market, degrees)
    axis = centres(stood, "front_apron", "pivot")[0]
    joints = [
        (centres(stood, "lever", "pivot")[0], axis),
        (centres(stood, "lever", "link_pin")[0], centres(stood, "link", "link_pin")[0]),
        (centres(stood, "link", "drive_pin")[0], centres(stood, "front_bar", "drive_pin")[0]),
        (rod_axis(stood, "drive_pin"), centres(stood, "front_bar", "drive_pin")[0]),
        (rod_axis(stood, "link_pin"), centres(stood, "lever", "link_pin")[0]),
        (rod_axis(stood, "pivot_bolt"), axis),
    ]
    assert max(axis_gap(one, other, "y") for one, other in joints) < 1e-6


@pytest.mark.parametrize("market", MARKETS)
@pytest.mark.parametrize("degrees", [0, 90, 180])
def test_both_shafts_are_kept_in_their_grooves(market: str, degrees: float) -> None:
    stood = turned(market, degrees)
    for side, keeper in (("left", "guide_plate"), ("right", "shaft_keeper")):
        shaft, bearer, kept = (bounds(stood.components[name]) for name in (f"{side}_shaft", f"{side}_bearer", keeper))
        assert kept[0][0] <= shaft[0][0] < shaft[0][1] <= kept[0][1]
        assert kept[2][1] == pytest.approx(bearer[2][0])
        assert kept[2][1] <= shaft[2][0] <= kept[2][1] + stood.mm("shaft.groove - hardware.pin_12.diameter") + 1e-6


@pytest.mark.parametrize("market", MARKETS)
def test_both_stops_hang_from_the_top_in_line_with_the_lever(desk: dict[str, Piece], market: str) -> None:
    top, lever = (bounds(desk[market].components[name]) for name in ("top", "lever"))
    for name in ("left_stop", "right_stop"):
        stop = bounds(desk[market].components[name])
        assert top[0][0] < stop[0][0] < stop[0][1] < top[0][1]
        assert stop[1] == pytest.approx(lever[1])
        assert stop[2] == pytest.approx((lever[2][1] + desk[market].mm("stop.play"), top[2][0]))


def test_only_the_rear_legs_are_drilled_for_the_panel(desk: dict[str, Piece]) -> None:
    drilled = {name for name, part in desk["europe"].parts.items() if "panel_bolts" in part.features}
    assert drilled == {"rear_leg"}


@pytest.mark.parametrize("market", MARKETS)
def test_the_lever_turns_through_below(market: str) -> None:
    tips = [vertex(turned(market, degrees), "lever", "tip_low") for degrees in (0, 90, 180)]
    axis = turned(market, 0).mm("axis.x"), turned(market, 0).mm("axis.z")
    assert tips[0][0] < axis[0] < tips[2][0]
    assert tips[1][2] < axis[1] - turned(market, 0).mm("lever.grip")


@pytest.mark.parametrize("market", MARKETS)
def test_raised_the_rollers_stand_on_the_rests_and_the_platform_is_flush(market: str) -> None:
    stood = turned(market, 180)
    bar, roller = (bounds(stood.components[name]) for name in ("front_bar", "front_left_roller"))
    assert roller[2][0] == pytest.approx(bar[2][1])
    platform, top = (bounds(stood.components[name]) for name in ("platform", "top"))
    assert -0.8 <= platform[2][1] - top[2][1] <= 0
    assert bar[0][1] < stood.mm("frame.right")


@pytest.mark.parametrize("market", MARKETS)
@pytest.mark.parametrize("degrees", [0, 45, 90, 135, 180])
def test_the_drive_pin_stays_inside_its_slot(market: str, degrees: float) -> None:
    stood = turned(market, degrees)
    pin = rod_axis(stood, "drive_pin")[0]
    apron = bounds(stood.components["front_apron"])[0][0]
    start = stood.mm("drive.x - slot.spare - frame.left + tongue.length") + apron
    assert start <= pin <= start + stood.mm("bar.travel + 2 * slot.spare")


@pytest.mark.parametrize("key", SETS)
@pytest.mark.parametrize("market", MARKETS)
def test_so_many_components_as_the_parts_list_says(key: str, market: str) -> None:
    made = piece(key, market)
    placed: dict[tuple[str, bool], int] = {}
    for component in made.components.values():
        if component.part is not None:
            seat = (component.part.key, component.placement.mirrored)
            placed[seat] = placed.get(seat, 0) + 1
    # Jigs and test pieces stand nowhere; the leaf post has its place only under the closed leaf.
    wanted = {
        seat: count
        for part in made.parts.values()
        if part.kind.value == "part" and part.key != "leaf_post"
        for seat, count in (((part.key, False), part.as_drawn), ((part.key, True), part.mirrored))
        if count
    }
    assert placed == wanted


def test_every_part_is_used_in_a_build_step() -> None:
    for key in SETS:
        used = {str(part) for step in content(key).steps for part in step.head.parts}
        assert used == set(content(key).parts)


def test_the_desk_is_large_enough_to_be_a_demo() -> None:
    desk = content("sewing-desk")
    assert len(desk.parts) >= 29
    assert len(desk.pages) >= 6
    assert len(desk.steps) == 12
    assert {edition.built for edition in desk.plan_set.editions.values()} == {False}
