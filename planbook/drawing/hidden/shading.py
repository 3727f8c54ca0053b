"""Calm shading: how light the faces are that a viewer sees, in a few tones, by the way they face."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from planbook.drawing.hidden.faces import faces_of
from planbook.drawing.hidden.regions import seen_of
from planbook.drawing.hidden.scene import Scene
from planbook.shape.solids.surfaces import Floats, Whole

TONES: Final = 5
"""From the lightest, 0, to the darkest."""
_LIGHT: Final = np.array([-0.42, 0.80, 0.43])
"""Where the light comes from as the viewer has it: over the left shoulder. Of unit length."""
_SLIVER: Final = 0.3
"""Half the millimetres under which a strip of tone is only what two faces that touch leave between them."""
_LEAST_SHOWN: Final = 20.0
"""Square millimetres in the world under which a face stays in the lightest tone: nobody sees it on a cover."""
_DARKEST: Final = -0.4
"""Cosine of the angle between light and face at which a face is as dark as it gets."""


def tones_of(scene: Scene) -> Mapping[int, BaseGeometry]:
    """The region seen in each tone; the lightest lies under all others, so that no paper shows where faces meet."""
    faces = faces_of(scene)
    if not len(faces.owner):
        return {}
    outline = faces.outline(np.arange(len(faces.owner)))
    large = np.flatnonzero(shapely.area(outline) >= _LEAST_SHOWN)
    tones = _tones(faces.plane[large])
    groups = faces.surface[large] * TONES + tones
    seen, tone_of = seen_of(faces, large, groups, by_own=True), np.unique(groups) % TONES
    darker = {tone: _without_slivers(shapely.union_all(seen[tone_of == tone])) for tone in range(1, TONES)}
    return {0: shapely.union_all(outline[large])} | {tone: each for tone, each in darker.items() if not each.is_empty}


def _without_slivers(region: BaseGeometry) -> BaseGeometry:
    with np.errstate(divide="ignore", invalid="ignore"):  # where neighbours lie in one line; the region is sound
        return region.buffer(-_SLIVER, join_style="mitre").buffer(_SLIVER, join_style="mitre")


def _tones(planes: Floats) -> Whole:
    """(k,) of planes z = a x + b y + c: their normals are (-a, -b, 1)."""
    normals = np.column_stack([-planes[:, 0], -planes[:, 1], np.ones(len(planes))])
    lit = normals @ _LIGHT / np.linalg.norm(normals, axis=1)
    dark = (1.0 - lit) / (1.0 - _DARKEST)
    tones: Whole = np.minimum((dark * TONES).astype(np.int64), TONES - 1)
    return tones
