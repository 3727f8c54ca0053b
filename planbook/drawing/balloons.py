"""Part references: numbers in circles round a picture, with leaders that do not cross (ISO 6433)."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import Final

from planbook.drawing.ink import Box, Segment
from planbook.drawing.lettering import text_width
from planbook.drawing.lines import dot, stroke
from planbook.drawing.recording import Anchor, Circle, Label, Pen, Primitive, Pt
from planbook.drawing.running import spread_apart

HEIGHT: Final = 2.5
_LEAST_RADIUS: Final = 3.2
_SPACING: Final = 8.5
MARGIN: Final = 13.0
"""Room round a picture that balloons take, in millimetres."""


def balloons(targets: Mapping[str, Pt], picture: Box) -> tuple[Primitive, ...]:
    """Balloons for the texts, each with a leader to its target; `picture` is the box they stand round."""
    places = _untangled(targets, _places(targets, picture))
    drawn: list[Primitive] = []
    for text, target in sorted(targets.items()):
        centre = places[text]
        radius = max(_LEAST_RADIUS, text_width(text, HEIGHT) / 2 + 1.2)
        share = radius / max(math.dist(centre, target), radius)
        rim = Pt(centre.x + (target.x - centre.x) * share, centre.y + (target.y - centre.y) * share)
        drawn += [
            stroke(rim, target),
            dot(target),
            Circle(centre, radius, Pen.DIMENSION, "white"),
            Label(text, Pt(centre.x, centre.y + HEIGHT / 2), HEIGHT, Anchor.MIDDLE),
        ]
    return tuple(drawn)


def _places(targets: Mapping[str, Pt], picture: Box) -> dict[str, Pt]:
    """Each at the nearest side of the picture, spread along it."""
    out = MARGIN - _LEAST_RADIUS - 1.0
    sides: dict[str, list[tuple[float, str]]] = {"left": [], "right": [], "top": [], "bottom": []}
    for text, p in sorted(targets.items()):
        ways = {
            "left": p.x - picture.left,
            "right": picture.right - p.x,
            "top": p.y - picture.top,
            "bottom": picture.bottom - p.y + 8.0,
        }
        side = min(ways, key=lambda name: ways[name] + 6.0 * len(sides[name]))
        sides[side].append((p.y if side in ("left", "right") else p.x, text))
    places: dict[str, Pt] = {}
    for side, entries in sides.items():
        entries.sort()
        low, high = (picture.top, picture.bottom) if side in ("left", "right") else (picture.left, picture.right)
        for (_, text), at in zip(entries, _spread([at for at, _ in entries], low, high), strict=True):
            places[text] = {
                "left": Pt(picture.left - out, at),
                "right": Pt(picture.right + out, at),
                "top": Pt(at, picture.top - out),
                "bottom": Pt(at, picture.bottom + out),
            }[side]
    return places


def _spread(places: Sequence[float], low: float, high: float) -> list[float]:
    """Spread apart, then shifted so that the row stays within the picture's side where it can."""
    spread = spread_apart(places, _SPACING)
    if spread:
        shift = max(0.0, low - spread[0]) - max(0.0, spread[-1] - high)
        spread = [at + shift for at in spread]
    return spread


def _untangled(targets: Mapping[str, Pt], places: Mapping[str, Pt]) -> dict[str, Pt]:
    """Exchange the balloons of leaders that cross; each exchange shortens the sum of leaders, so this ends."""
    free = dict(places)
    names = sorted(targets)
    changed = True
    while changed:
        changed = False
        for i, a in enumerate(names):
            for b in names[i + 1 :]:
                if Segment(targets[a], free[a]).crosses(Segment(targets[b], free[b])):
                    free[a], free[b] = free[b], free[a]
                    changed = True
    return free
