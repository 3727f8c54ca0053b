"""The plant stand: rollers on helicoids, a rim that rises twice as far as the top, strips that are tracks unrolled."""

from __future__ import annotations

import math
from functools import lru_cache

import numpy as np
import pytest

from planbook.design import Overrides, evaluate
from planbook.measure import Quantity
from planbook.measure.dimensionality import ANGLE
from planbook.shape import place_components, shape_parts
from planbook.shape.solids import mesh_of, mesh_of_component

from .sets import MARKETS, Piece, content, piece, plan

KEY = "lift-column"
EACH_MARKET = pytest.mark.parametrize("market", MARKETS)
TURNS = (0.0, 2.0, 4.0, 6.5, 30.0, 41.0, 60.0, 77.0, 79.5, 84.0)
"""On the low flats, at the foot, along the ramps, over the crest and on the high flats."""


@lru_cache
def turned(market: str, degrees: float) -> Piece:
    """The stand with its ring turned so far."""
    design, findings = evaluate(plan(KEY), Overrides(market, {"ring.angle": Quantity(degrees, ANGLE)}))
    assert design is not None, findings
    parts, _ = shape_parts(content(KEY), design)
    components, findings = place_components(content(KEY), design, parts)
    assert findings == ()
    return Piece(design, parts, {component.name: component for component in components})


def floor(stand: Piece, x: np.ndarray, y: np.ndarray, ramps: int, back: float) -> np.ndarray:
    """Height of a track over its back at places (mm) from the axis, with the ring turned back by `back` degrees."""
    turn = (np.degrees(np.arctan2(y, x)) + back) % (360 / ramps)
    start, end = (stand.number(f"track.{name}") for name in ("land", "top_end"))
    return stand.mm("track.low") + stand.mm("track.rise") * np.clip((turn - start) / (end - start), 0.0, 1.0)


def stands_at(stand: Piece, radius: float, ramps: int, aside: float) -> float:
    """The height of a roller's axis over the back of a track that just bears it, found by trying its whole surface."""
    r, half = stand.mm("roller.radius"), stand.mm("hardware.roller_22.width") / 2
    along, across = np.meshgrid(np.linspace(radius - half, radius + half, 15), np.linspace(-r, r, 2001))
    back = stand.number("track.start") + stand.number("ring.angle")
    return float((floor(stand, along, aside + across, ramps, back) + np.sqrt(r * r - across * across)).max())


@EACH_MARKET
@pytest.mark.parametrize("degrees", TURNS)
def test_the_top_is_as_high_as_a_roller_tried_all_over_the_inner_track(market: str, degrees: float) -> None:
    stand = turned(market, degrees)
    wanted = stands_at(stand, stand.mm("inner.radius"), 3, 0.0)
    lowest = stand.mm("track.low") + stand.mm("roller.radius")
    assert stand.mm("lift.top") == pytest.approx(wanted - lowest, abs=0.03)


@EACH_MARKET
@pytest.mark.parametrize("degrees", TURNS)
def test_the_levers_lie_as_a_roller_tried_all_over_the_outer_track_makes_them(market: str, degrees: float) -> None:
    """The roller draws back as its lever swings; found by going to and fro until nothing moves any more."""
    stand = turned(market, degrees)
    half, rise = stand.mm("lever.half"), stand.mm("track.rise")
    lowest = stand.mm("track.low") + stand.mm("roller.radius")
    lift = rise / 2
    for _ in range(20):
        aside = math.sqrt(half**2 - (lift - rise / 2) ** 2) - half
        lift = stands_at(stand, stand.mm("outer.radius"), 2, aside) - lowest
    assert stand.mm("lift.lever") == pytest.approx(lift, abs=0.03)


@EACH_MARKET
@pytest.mark.parametrize("degrees", TURNS)
def test_the_rim_stands_on_the_round_tips_of_both_levers(market: str, degrees: float) -> None:
    stand = turned(market, degrees)
    for side in ("right", "left"):
        tip = mesh_of_component(stand.components[f"{side}_lever"]).points[:, 2].max()
        foot = mesh_of_component(stand.components[f"{side}_foot"]).points[:, 2].min()
        ends = stand.number("lever.tilt")
        if ends > 0:  # else the pivot's end is the higher one
            assert tip == pytest.approx(foot, abs=0.06)


@EACH_MARKET
def test_the_rim_rises_twice_as_far_as_the_top_and_both_are_level_when_lowered(market: str) -> None:
    low, high = turned(market, 0.0), turned(market, 84.0)
    face = {
        name: [mesh_of_component(stand.components[name]).points[:, 2].max() for stand in (low, high)]
        for name in ("top", "rim")
    }
    rise = low.mm("track.rise")
    assert face["top"][1] - face["top"][0] == pytest.approx(rise, abs=1e-6)
    assert face["rim"][1] - face["rim"][0] == pytest.approx(2 * rise, abs=1e-6)
    assert face["rim"][0] == pytest.approx(face["top"][0], abs=low.mm("make.fine"))


@EACH_MARKET
@pytest.mark.parametrize(("track", "ramps"), [("inner", 3), ("outer", 2)])
def test_a_track_is_a_ring_less_its_flats_and_half_of_what_its_ramps_cover(market: str, track: str, ramps: int) -> None:
    stand = piece(KEY, market)
    inside, outside = stand.mm(f"{track}.inside"), stand.mm(f"{track}.outside")
    whole = math.pi * (outside**2 - inside**2)
    land, turn = (stand.number(f"track.{name}") / 360 for name in ("land", "turn"))
    taken = stand.mm("track.rise") * ramps * (land + turn / 2)
    wanted = whole * (stand.mm("wood.double") - taken)
    assert mesh_of(stand.parts[f"{track}_track"]).volume == pytest.approx(wanted, rel=2e-3)


@EACH_MARKET
@pytest.mark.parametrize("track", ["inner", "outer"])
@pytest.mark.parametrize("side", ["inside", "outside"])
def test_a_strip_is_the_track_unrolled(market: str, track: str, side: str) -> None:
    """As long as its share of the way round, and with the slope of an arc ramp of that radius."""
    stand = piece(KEY, market)
    strip, radius = stand.parts[f"{track}_strip_{side}"], stand.mm(f"{track}.{side}")
    corners = {vertex.name: (vertex.point.x / 1e6, vertex.point.y / 1e6) for vertex in strip.vertices}
    assert corners["low_end"][0] == pytest.approx(radius * math.radians(stand.number(f"{track}.share")))
    (x0, y0), (x1, y1) = corners["ramp_foot"], corners["crest"]
    slope = stand.number(f"arc_ramp_slope(track.rise, {track}.{side}, track.turn)")
    assert math.degrees(math.atan2(y1 - y0, x1 - x0)) == pytest.approx(slope)


@EACH_MARKET
def test_the_ramp_that_the_levers_save_would_be_over_four_times_as_steep(market: str) -> None:
    """At under half the radius and with twice the lift: more than 2 x 2."""
    stand = piece(KEY, market)
    assert stand.mm("inner.radius") < stand.mm("outer.radius") / 2
    assert stand.number("slope.times") == pytest.approx(2 * stand.mm("outer.radius") / stand.mm("inner.radius"))
    assert stand.number("slope.times") > 4


@EACH_MARKET
def test_work_put_in_at_the_ring_is_work_got_out_without_friction(market: str) -> None:
    """Torque by turn is weight by lift, for the top on the inner track and the rim, doubled, on the outer one."""
    stand = piece(KEY, market)
    turn, rise = math.radians(stand.number("track.turn")), stand.mm("track.rise")
    for load, track, lift in (("load.lifted", "inner", rise), ("mass.rim * load.gravity", "outer", 2 * rise)):
        weight = stand.number(load)
        pressed = weight * (2 if track == "outer" else 1)
        torque = pressed * math.tan(math.radians(stand.number(f"slope.{track}"))) * stand.mm(f"{track}.radius")
        assert torque * turn == pytest.approx(weight * lift)


def test_the_stand_has_at_most_fourteen_parts_and_four_strips() -> None:
    parts = content(KEY).parts
    assert sum(part.kind.value == "part" for part in parts.values()) <= 14
    assert sum(part.kind.value == "jig" for part in parts.values()) == 4


@EACH_MARKET
def test_the_test_piece_is_the_inner_track_unrolled_along_its_middle(market: str) -> None:
    """As steep as the track that its roller will climb, within what rounding to the builder's step leaves."""
    stand = piece(KEY, market)
    corners = {vertex.name: vertex.point for vertex in stand.parts["ramp_test_piece"].vertices}
    foot, crest = corners["ramp_foot"], corners["crest"]
    slope = math.degrees(math.atan2(crest.y - foot.y, crest.x - foot.x))
    assert slope == pytest.approx(stand.number("slope.inner"), abs=0.15)
    assert (crest.y - foot.y) / 1e6 == pytest.approx(stand.mm("track.rise"))
