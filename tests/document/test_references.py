"""In every picture of every plan set a reference points at its own part, and a reader sees that it does; on every
cutting plan too."""

from __future__ import annotations

import math
from collections.abc import Mapping
from itertools import pairwise

import numpy as np
import pytest

from planbook.document.figures import draw_figure
from planbook.document.gallery import Gallery
from planbook.document.papers import LAYOUT_HEIGHT, PAPERS
from planbook.drawing import draw_cutting_plan, picture
from planbook.drawing.hidden import Scene
from planbook.drawing.ink import Segment, label_box
from planbook.drawing.lines import DOT
from planbook.drawing.pointing import LEAST_CLEAR, Spot, spots_of
from planbook.drawing.recording import Circle, Drawing, Label, Primitive, Pt, Stroke
from planbook.drawing.tracing import Setting, flatten
from planbook.source import Door
from planbook.source.models.figures import OfAssemblyModel
from planbook.source.text import Text
from planbook.statement.cut_order import cut_order

from .plan_sets import EDITIONS, WORKSPACE, stated

SETS = ("sewing-desk", "lift-column", "splayed-stool", "tool-tote")
ROUND = [(math.cos(math.radians(a)), math.sin(math.radians(a))) for a in range(0, 360, 45)]


class Pointed:
    """What one picture was to point at, and where it does."""

    def __init__(self, scene: Scene, labels: Mapping[str, str], setting: Setting, spots: Mapping[str, Spot]) -> None:
        self.scene, self.labels, self.setting, self.spots = scene, labels, setting, spots

    def seen_at(self, at: Pt) -> tuple[str, int] | None:
        """Reference and surface that a line of sight meets first: each triangle is asked, nothing is clipped."""
        place = np.array([(at.x - self.setting.x), (self.setting.y - at.y)]) / self.setting.scale
        rows = np.flatnonzero(self.scene.front)
        a, b, c = self.scene.corners[rows].swapaxes(0, 1)
        (ux, uy), (vx, vy), (wx, wy) = (b - a)[:, :2].T, (c - a)[:, :2].T, (place - a[:, :2]).T
        size = np.maximum(ux * vy - uy * vx, 1e-12)  # counter-clockwise, so that it is not negative
        s, t = (wx * vy - wy * vx) / size, (ux * wy - uy * wx) / size
        met = (s >= 0) & (t >= 0) & (s + t <= 1)
        if not met.any():
            return None
        z = a[:, 2] + s * (b - a)[:, 2] + t * (c - a)[:, 2]
        first = rows[np.argmax(np.where(met, z, -np.inf))]
        return self.labels.get(self.scene.names[self.scene.owners[first]], ""), int(self.scene.faces[first])


def pictures_of(key: str, edition: str, monkeypatch: pytest.MonkeyPatch) -> list[tuple[str, Pointed, Drawing]]:
    """All that point at something."""
    told, door = stated(key, edition), Door(WORKSPACE)
    kept: list[Pointed] = []

    def noted(scene: Scene, labels: Mapping[str, str], setting: Setting, *more: object) -> Mapping[str, Spot]:
        spots = spots_of(scene, labels, setting, *more)  # type: ignore[arg-type]
        kept.append(Pointed(scene, labels, setting, spots))
        return spots

    monkeypatch.setattr(picture, "spots_of", noted)
    found = []
    for name, room in Gallery(told, door).rooms.items():
        if isinstance(told.content.figures[Text(name)], OfAssemblyModel):
            kept.clear()
            image, _ = draw_figure(told, door, name, room)
            found += [(name, pointed, image.drawing) for pointed in kept]
    return found


@pytest.mark.parametrize("edition", EDITIONS)
@pytest.mark.parametrize("key", SETS)
def test_references_point_at_their_own_parts(key: str, edition: str, monkeypatch: pytest.MonkeyPatch) -> None:
    pictures = pictures_of(key, edition, monkeypatch)
    assert pictures
    for name, pointed, drawing in pictures:
        for text, spot in pointed.spots.items():
            here = pointed.seen_at(spot.at)
            assert here is not None, (name, text)
            assert here[0] == text, (name, text, here)
            assert spot.clear >= 0.8 * LEAST_CLEAR
            near = 0.9 * spot.clear
            about = {pointed.seen_at(Pt(spot.at.x + near * dx, spot.at.y + near * dy)) for dx, dy in ROUND}
            assert about == {here}, (name, text)
        leaders = _leaders(drawing.primitives)
        assert {text: end for text, _, end in leaders} == {text: spot.at for text, spot in pointed.spots.items()}
        over = [(text, end) for text, a, b in leaders for _, _, end in leaders if end != b and _off(end, a, b) < DOT]
        assert not over, f"{name}: nobody can tell whose leader ends there"


@pytest.mark.parametrize("edition", EDITIONS)
@pytest.mark.parametrize("key", SETS)
def test_leaders_on_cutting_plans_run_through_no_lettering(key: str, edition: str) -> None:
    told = stated(key, edition).statement
    room = PAPERS[told.edition.paper].text_width, LAYOUT_HEIGHT
    assert told.layouts
    for layout in told.layouts:
        drawn = draw_cutting_plan(layout, cut_order(layout), room, told.edition.units).primitives
        ends = [(a.start, flatten(a)[-1]) for a, b in pairwise(drawn) if isinstance(a, Stroke) and _is_dot(b)]
        boxes = [label_box(each) for each in drawn if isinstance(each, Label)]
        met = [(layout.id, box) for a, b in ends for box in boxes if Segment(a, b).meets(box)]
        assert not met
        assert not [layout.id for a, b in ends for c, d in ends if Segment(a, b).crosses(Segment(c, d))]


def _is_dot(primitive: Primitive) -> bool:
    return isinstance(primitive, Circle) and primitive.fill == "solid"


def _leaders(primitives: tuple[Primitive, ...]) -> list[tuple[str, Pt, Pt]]:
    """The text of each reference, with the ends of its leader: at its circle, and on its part."""
    found = []
    for line, _, ring, label in zip(primitives, primitives[1:], primitives[2:], primitives[3:], strict=False):
        if isinstance(ring, Circle) and ring.fill == "white" and isinstance(line, Stroke) and isinstance(label, Label):
            along = flatten(line)
            found.append((label.text, along[0], along[-1]))
    return found


def _off(p: Pt, a: Pt, b: Pt) -> float:
    """From a place to a straight line."""
    along = np.array([b.x - a.x, b.y - a.y])
    share = np.clip(np.dot(along, [p.x - a.x, p.y - a.y]) / np.dot(along, along), 0, 1)
    return math.dist(p, np.array(a) + share * along)
