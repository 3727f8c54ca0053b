"""Where a reference points: a place well inside what is seen of one face of its part, and of nothing else."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

import shapely
from shapely.geometry.base import BaseGeometry

from planbook.drawing.curves import XY
from planbook.drawing.hidden import Scene, faces_seen
from planbook.drawing.recording import Pt
from planbook.drawing.tracing import Setting

LEAST_CLEAR: Final = 0.12
"""Millimetres of paper about a place that show nothing but its face, the least: an outline is as wide, and nobody sees
what is narrower than one."""
_ENOUGH: Final = 3.0
"""With so much about it a place is as good as any other."""
_WITHIN: Final = 0.8
"""Of the greatest distance from a face's border: a leader ends no nearer to it, and as near the middle as can be."""
_TRACE: Final = 0.5
"""Millimetres of paper beside a trace line that nothing is pointed at in."""
_FINE: Final = 0.02

Piece = tuple[tuple[float, float], tuple[float, float]]


@dataclass(frozen=True, slots=True)
class Spot:
    """A place on paper, with how far about it (mm) nothing is seen but the same face."""

    at: Pt
    clear: float


def spots_of(
    scene: Scene,
    labels: Mapping[str, str],
    setting: Setting,
    window: shapely.Polygon | None = None,
    traces: Sequence[Piece] = (),
) -> dict[str, Spot]:
    """The best place for each text among all faces seen of the components so labelled, none where nothing is seen.

    `traces` are lines over the scene that no place lies on. Of places with room enough that on the largest face wins.
    """
    lines = shapely.MultiLineString(traces).buffer(_TRACE / setting.scale) if traces else None
    best: dict[str, tuple[float, float, shapely.Polygon]] = {}
    least = (LEAST_CLEAR / setting.scale) ** 2
    for name, faces in faces_seen(scene, [name for name in scene.names if labels.get(name)], least).items():
        for piece in _pieces(faces, window, lines):
            room = _clear(piece, setting)
            worth = min(room, _ENOUGH), piece.area
            if room >= LEAST_CLEAR and worth > best.get(labels[name], (0.0, 0.0))[:2]:
                best[labels[name]] = *worth, piece
    return {text: _within(piece, setting) for text, (_, _, piece) in best.items()}


def _pieces(
    faces: Iterable[BaseGeometry], window: shapely.Polygon | None, lines: BaseGeometry | None
) -> Iterator[shapely.Polygon]:
    """What is shown of some faces, in pieces that hang together."""
    for face in faces:
        shown = face if window is None else face.intersection(window)
        free = shown if lines is None else shown.difference(lines)
        yield from (piece for piece in getattr(free, "geoms", (free,)) if isinstance(piece, shapely.Polygon))


def _clear(piece: shapely.Polygon, setting: Setting) -> float:
    """The radius on paper of the largest circle in a piece."""
    if piece.is_empty or piece.area * setting.scale**2 < LEAST_CLEAR**2:
        return 0.0
    return float(shapely.maximum_inscribed_circle(piece, _FINE / setting.scale).length) * setting.scale


def _within(piece: shapely.Polygon, setting: Setting) -> Spot:
    """As near the middle of a piece as a good distance from its border allows."""
    room = min(_WITHIN * _clear(piece, setting), _ENOUGH)
    core = piece.buffer(-room / setting.scale)
    at = shapely.get_coordinates(shapely.shortest_line(core, piece.centroid))[0].tolist()
    return Spot(setting(XY(*at)), room)
