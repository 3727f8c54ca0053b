"""The stool put together: its legs, feet, sockets and rungs meet although nothing in it stands square."""

from __future__ import annotations

import math
from collections.abc import Mapping
from itertools import combinations

import numpy as np
import pytest
from manifold3d import Manifold, Mesh64

from planbook.shape.geometry import Arc, Point, Vec
from planbook.shape.model import Component, Cut
from planbook.shape.solids import mesh_of_component

from .sets import MARKETS, MILLIMETRE, Piece, content, piece

LEGS = ("front_left_leg", "front_right_leg", "rear_left_leg", "rear_right_leg")
EACH_LEG = pytest.mark.parametrize("leg", LEGS)
EACH_MARKET = pytest.mark.parametrize("market", MARKETS)


@pytest.fixture(scope="module")
def stools() -> Mapping[str, Piece]:
    return {market: piece("splayed-stool", market) for market in MARKETS}


def cut_of(component: Component, feature: str) -> Cut:
    assert component.part is not None
    return component.part.features[feature].cuts[0]


def place(component: Component, point: Vec) -> np.ndarray:
    """A part's point in the world, in millimetres."""
    assert component.part is not None
    return np.array(component.placement(point, component.part.blank.y)) / MILLIMETRE


def axis(component: Component, feature: str) -> tuple[np.ndarray, np.ndarray]:
    """Where a round cut's axis meets its surface, and the unit direction out of the wood, in the world."""
    cut = cut_of(component, feature)
    loop = cut.islands[0] if cut.islands else cut.loop
    ring = loop.segments[0]
    assert isinstance(ring, Arc)
    here, out = (place(component, cut.frame.place(ring.centre, depth)) for depth in (cut.lift, cut.lift - MILLIMETRE))
    return here, out - here


def off_axis(point: np.ndarray, through: np.ndarray, along: np.ndarray) -> float:
    """Millimetres from a point to a line."""
    return float(np.linalg.norm(np.cross(point - through, along)))


@EACH_MARKET
@EACH_LEG
def test_every_tenon_stands_in_its_socket_along_its_axis(stools: Mapping[str, Piece], market: str, leg: str) -> None:
    stood = stools[market]
    seat, own = stood.components["seat"], stood.components[leg]
    # The seat is drawn from below with its front to the front: its left end is at the right of the stool.
    side = {"left": "right", "right": "left"}
    front, left = leg.split("_")[:2]
    mouth, out = axis(seat, f"{front}_{side[left]}_socket")
    tip, up = axis(own, "tenon")
    assert float(out @ up) == pytest.approx(-1, abs=1e-9)
    assert off_axis(tip, mouth, up) < 1e-3
    # Down to the bottom, and no further.
    assert float((tip - mouth) @ up) == pytest.approx(stood.mm("socket.depth"), abs=1e-3)


@EACH_MARKET
@EACH_LEG
def test_every_foot_stands_flat_on_the_floor(stools: Mapping[str, Piece], market: str, leg: str) -> None:
    own = stools[market].components[leg]
    cut = cut_of(own, "foot")
    here, out = (place(own, cut.frame.place(Point(0.0, 0.0), depth)) for depth in (cut.lift, cut.lift - MILLIMETRE))
    assert out - here == pytest.approx([0, 0, -1], abs=1e-9)
    # The length of the leg is rounded to a step of the rule.
    assert abs(here[2]) <= stools[market].mm("make.step")


@EACH_MARKET
@EACH_LEG
def test_every_rung_stands_in_its_hole_along_its_axis(stools: Mapping[str, Piece], market: str, leg: str) -> None:
    stood = stools[market]
    rung = stood.components[f"{leg.split('_')[1]}_rung"]
    mouth, out = axis(stood.components[leg], "rung_hole")
    assert abs(float(out[1])) == pytest.approx(1, abs=1e-9)
    mesh = mesh_of_component(rung)
    middle = (mesh.points.min(axis=0) + mesh.points.max(axis=0)) / 2
    assert off_axis(mouth, middle, np.array([0.0, 1.0, 0.0])) < 1.5 * stood.mm("make.step")
    end = mesh.points[:, 1].min() if leg.startswith("front") else mesh.points[:, 1].max()
    left = stood.mm("rung.depth") - abs(end - mouth[1])
    assert 0 < left < 2.5 * stood.mm("make.room")


@EACH_MARKET
def test_nothing_stands_in_anything_else(stools: Mapping[str, Piece], market: str) -> None:
    """But for what roundings and facets are worth: a hundredth of a rung's hole."""
    solids = {}
    for name, component in stools[market].components.items():
        mesh = mesh_of_component(component)
        solids[name] = Manifold(Mesh64(mesh.points, mesh.triangles.astype(np.uint64)))
    for one, other in combinations(solids, 2):
        assert (solids[one] ^ solids[other]).volume() < 70, (one, other)


@EACH_MARKET
def test_the_angles_are_those_of_spherical_trigonometry(stools: Mapping[str, Piece], market: str) -> None:
    stood = stools[market]
    splay, rake = (math.radians(stood.number(f"leg.{name}")) for name in ("splay", "rake"))
    up = np.array([math.tan(splay), math.tan(rake), 1.0])
    up /= np.linalg.norm(up)
    assert stood.number("leg.resultant") == pytest.approx(math.degrees(math.acos(up[2])))
    assert stood.number("leg.sight_line") == pytest.approx(math.degrees(math.atan2(up[1], up[0])))
    # The inner face holds the leg's axis and the width of the stool; the floor shows on it as a line along the width.
    assert stood.number("leg.mitre") == pytest.approx(math.degrees(math.asin(up[1])))


def test_the_stool_has_at_most_eight_parts_and_two_jigs() -> None:
    parts = content("splayed-stool").parts
    assert len(parts) <= 8
    assert sum(part.kind.value == "jig" for part in parts.values()) == 2
