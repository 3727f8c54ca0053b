"""Shaded pictures: each face that is seen in the tone of the way it faces, and nothing twice."""

from __future__ import annotations

import itertools
import math

import pytest

from planbook.drawing.hidden import TONES, isometric, regions_of, scene_of, tones_of
from planbook.drawing.recording import FILLS, SHADES
from planbook.source.models.figures import Corner
from tests.drawing.assemblies import desk_like
from tests.drawing.hidden.heaps import box, meshes, rod

FRONT_LEFT = isometric(Corner.FRONT_LEFT)


def test_the_three_faces_of_a_box_have_three_tones_the_top_the_lightest() -> None:
    """A face square to an axis shows 1/sqrt(3) of its area in an isometric view (ISO 5456-3)."""
    tones = tones_of(scene_of(meshes(box("b", (0, 0, 0), (300, 80, 20))), FRONT_LEFT))
    top, front, left = (area / math.sqrt(3) for area in (300 * 80, 300 * 20, 80 * 20))
    assert tones.pop(0).area == pytest.approx(top + front + left)
    assert sorted(region.area for region in tones.values()) == pytest.approx(sorted((front, left)))


def test_what_stands_behind_has_no_tone_of_its_own() -> None:
    before = tones_of(scene_of(meshes(box("b", (0, 0, 0), (100, 100, 100))), FRONT_LEFT))
    behind = box("c", (60, 110, 10), (20, 20, 20))
    after = tones_of(scene_of(meshes(box("b", (0, 0, 0), (100, 100, 100)), behind), FRONT_LEFT))
    hidden = regions_of(scene_of(meshes(box("b", (0, 0, 0), (100, 100, 100)), behind), FRONT_LEFT), ["c"])["c"].area
    assert hidden < 1
    assert {tone: region.area for tone, region in after.items()} == pytest.approx(
        {tone: region.area for tone, region in before.items()}
    )


@pytest.mark.parametrize("corner", [Corner.FRONT_LEFT, Corner.REAR_RIGHT_BELOW])
def test_tones_do_not_overlap_and_cover_no_more_than_is_seen(corner: Corner) -> None:
    scene = scene_of(meshes(*desk_like()), isometric(corner))
    tones = tones_of(scene)
    darker = [region for tone, region in tones.items() if tone]
    twice = sum(a.intersection(b).area for a, b in itertools.combinations(darker, 2))
    assert twice < 1e-3 * tones[0].area
    assert all(region.difference(tones[0].buffer(0.01)).area < 1e-6 for region in darker)


def test_a_rod_runs_from_light_to_dark() -> None:
    tones = tones_of(scene_of(meshes(rod("r", (0, 0, 0), 0, 20, 100)), FRONT_LEFT))
    assert len(tones) >= 3


def test_every_tone_has_its_shade() -> None:
    assert len(SHADES) == TONES
    assert {f"tone {tone}" for tone in range(TONES)} <= FILLS.keys()
