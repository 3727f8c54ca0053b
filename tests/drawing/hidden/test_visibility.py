"""What is drawn against rays: each line is there because an edge is seen there, and each edge that is seen is drawn."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from planbook.drawing.facing import Facing
from planbook.drawing.hidden import SIDES, Chain, Sight, isometric, lines_of, scene_of
from planbook.drawing.solid import XYZ
from planbook.shape.solids import Mesh
from planbook.shape.solids.surfaces import Floats
from planbook.source.models.figures import Corner
from tests.drawing.hidden.brute import Sharp, clearly_hidden, clearly_seen, sharp_edges, turned
from tests.drawing.hidden.heaps import assembly, heaps, meshes

NEAR = 0.06
"""Millimetres from a point to a line that runs through it."""


def slanting(round_about: float, height: float) -> Facing:
    """Any direction of view from above: degrees round z from the front, and over the level."""
    a, h = np.radians(round_about), np.radians(height)
    eye = XYZ(float(np.sin(a) * np.cos(h)), float(-np.cos(a) * np.cos(h)), float(np.sin(h)))
    right = XYZ(float(np.cos(a)), float(np.sin(a)), 0.0)
    return Facing(right, XYZ(*np.cross(eye, right).tolist()), eye, "")


VIEWS = {**SIDES, **{corner.value: isometric(corner) for corner in Corner}, "slanting": slanting(17, 38)}


def seen(chains: tuple[Chain, ...]) -> shapely.MultiLineString:
    return shapely.MultiLineString([chain.points for chain in chains if chain.sight is Sight.SEEN])


def wrong_lines(parts: Mapping[str, Mesh], facing: Facing, count: int) -> tuple[Floats, Floats]:
    """Points on lines that no edge is seen at, and points of edges that are seen and not drawn; of `count` each."""
    whole = turned(parts, facing)
    edges, drawn = sharp_edges(whole), seen(lines_of(scene_of(parts, facing)))
    chance = np.random.default_rng(7)
    places = shapely.line_interpolate_point(drawn, chance.uniform(0, drawn.length, count))
    return _unfounded(whole, edges, shapely.get_coordinates(places)), _missing(whole, edges, drawn, chance, count)


def _unfounded(whole, edges: Sharp, places: Floats) -> Floats:  # type: ignore[no-untyped-def]
    lines = shapely.linestrings(np.stack([edges.start[:, :2], edges.end[:, :2]], axis=1))
    place, edge = shapely.STRtree(lines).query(shapely.points(places), predicate="dwithin", distance=NEAR)
    way = edges.end[edge] - edges.start[edge]
    long = np.maximum(np.sum(way[:, :2] ** 2, axis=1), 1e-12)
    share = np.clip(np.sum((places[place] - edges.start[edge][:, :2]) * way[:, :2], axis=1) / long, 0, 1)
    hidden = clearly_hidden(whole, edges.start[edge] + way * share[:, None])
    founded = np.unique(place[~hidden])
    return np.delete(places, founded, axis=0)


def _missing(whole, edges: Sharp, drawn, chance: np.random.Generator, count: int) -> Floats:  # type: ignore[no-untyped-def]
    sure = np.flatnonzero(edges.sure)
    long = np.linalg.norm((edges.end - edges.start)[sure, :2], axis=1)
    edge = chance.choice(sure, count, p=long / long.sum())
    points = edges.start[edge] + (edges.end - edges.start)[edge] * chance.uniform(0, 1, count)[:, None]
    points = points[clearly_seen(whole, points)]
    assert len(points) > 0
    # Nothing drawn at all is at no distance, and missing too.
    return points[~(shapely.distance(drawn, shapely.points(points[:, :2])) <= NEAR)]


@pytest.mark.parametrize("view", VIEWS)
@pytest.mark.parametrize(
    ("key", "count"), [("tool-tote", 400), ("splayed-stool", 400), ("sewing-desk", 60), ("lift-column", 60)]
)
def test_the_demos_show_what_rays_see(key: str, count: int, view: str) -> None:
    unfounded, missing = wrong_lines(meshes(*assembly(key)), VIEWS[view], count)
    assert unfounded.tolist() == []
    assert missing.tolist() == []


@settings(max_examples=40)
@given(heaps(), st.sampled_from(sorted(VIEWS)))
def test_heaps_show_what_rays_see(parts: dict[str, Mesh], view: str) -> None:
    unfounded, missing = wrong_lines(parts, VIEWS[view], 60)
    assert unfounded.tolist() == []
    assert missing.tolist() == []


@settings(max_examples=20)
@given(heaps(), st.floats(0, 360), st.floats(1, 89))
def test_heaps_from_anywhere_above(parts: dict[str, Mesh], round_about: float, height: float) -> None:
    unfounded, missing = wrong_lines(parts, slanting(round_about, height), 60)
    assert unfounded.tolist() == []
    assert missing.tolist() == []
