"""Part references: numbers in circles round a picture, with leaders that do not cross (ISO 6433)."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import Final

import numpy as np

from planbook.drawing.footprint import Floats, strokes_crossed
from planbook.drawing.ink import Box, Segment
from planbook.drawing.lettering import text_width
from planbook.drawing.lines import DOT, arrowhead, dot, stroke
from planbook.drawing.pointing import Spot
from planbook.drawing.recording import Anchor, Circle, Label, Pen, Primitive, Pt
from planbook.drawing.running import spread_apart

HEIGHT: Final = 2.5
_LEAST_RADIUS: Final = 3.2
_SPACING: Final = 8.5
_CROSSED: Final = 1.5
"""What it costs to cross a line of the picture, in millimetres of leader."""
_SHARED: Final = 6.0
"""What it costs that another balloon stands at the same side."""
_UNDER: Final = 8.0
"""What it costs to stand under the picture, where the scale bar then moves down."""
MARGIN: Final = 13.0
"""Room round a picture that balloons take, in millimetres."""


def balloons(spots: Mapping[str, Spot], picture: Box, lines: Floats) -> tuple[Primitive, ...]:
    """Balloons for the texts, each with a leader to its spot. They stand round the box of a picture, in which there are
    `lines` (n, 4).

    A leader ends in a dot on its part (ISO 128-2); where the part is narrower than a dot, in the point of an arrow.
    """
    targets = {text: spot.at for text, spot in sorted(spots.items())}
    places = _untangled(targets, _places(targets, picture, lines))
    drawn: list[Primitive] = []
    for text, target in targets.items():
        centre = places[text]
        radius = max(_LEAST_RADIUS, text_width(text, HEIGHT) / 2 + 1.2)
        share = radius / max(math.dist(centre, target), radius)
        rim = Pt(centre.x + (target.x - centre.x) * share, centre.y + (target.y - centre.y) * share)
        drawn += [
            stroke(rim, target),
            dot(target) if spots[text].clear >= DOT else arrowhead(target, rim),
            Circle(centre, radius, Pen.DIMENSION, "white"),
            Label(text, Pt(centre.x, centre.y + HEIGHT / 2), HEIGHT, Anchor.MIDDLE),
        ]
    return tuple(drawn)


def _places(targets: Mapping[str, Pt], picture: Box, lines: Floats) -> dict[str, Pt]:
    """Each at the side of the picture to which its leader is shortest and crosses least, spread along it."""
    out = MARGIN - _LEAST_RADIUS - 1.0
    sides: dict[str, list[tuple[float, str]]] = {"left": [], "right": [], "top": [], "bottom": []}
    for text, p in sorted(targets.items()):
        ways = _costs(p, picture, lines)
        side = min(ways, key=lambda name: ways[name] + _SHARED * len(sides[name]))
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


def _costs(p: Pt, picture: Box, lines: Floats) -> dict[str, float]:
    """What a straight leader from a spot to each side costs: its length, and the lines that it crosses."""
    ends = {
        "left": Pt(picture.left, p.y),
        "right": Pt(picture.right, p.y),
        "top": Pt(p.x, picture.top),
        "bottom": Pt(p.x, picture.bottom),
    }
    ways = np.array([(*p, *end) for end in ends.values()])
    crossed = np.count_nonzero(strokes_crossed(ways[:, None], lines), axis=1).tolist()
    costs = [math.dist(p, end) + _CROSSED * many for end, many in zip(ends.values(), crossed, strict=True)]
    return dict(zip(ends, costs, strict=True)) | {"bottom": costs[-1] + _UNDER}


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
