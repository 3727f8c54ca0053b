"""Where the sections that a part's file asks for cut the part, and what its details show."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Final

from planbook.shape.bench import FINE, Bench
from planbook.shape.board import Board
from planbook.shape.faces import AXIS_NAMES, FACES, SIZE_NAMES
from planbook.shape.geometry import Point, Vec
from planbook.shape.loops import bounds
from planbook.shape.model import Cut, CutPlane, Feature, Surround
from planbook.shape.wording import in_both, like, said
from planbook.source.models.part import FaceName, PartModel
from planbook.source.models.showing import DetailModel, SectionModel
from planbook.source.text import Text

_AROUND: Final = 1.2
"""The circle of a detail is so many times as wide as what it holds."""


def cut_planes(
    bench: Bench, board: Board, features: Mapping[str, Feature], asked: Mapping[Text, SectionModel]
) -> Mapping[str, CutPlane]:
    """Sections by letter. One whose plane misses the part has a finding, and is left out."""
    found = {str(letter): _cut_plane(bench, board, features, letter, model) for letter, model in asked.items()}
    return {letter: plane for letter, plane in found.items() if plane is not None}


def surrounds(bench: Bench, board: Board, features: Mapping[str, Feature], part: PartModel) -> Mapping[str, Surround]:
    """Details by letter. One whose circle shows nothing of the part has a finding, and is left out."""
    found: dict[str, Surround] = {}
    for letter, model in part.details.items():
        section = part.sections.get(model.view)
        face = FaceName(str(section.view if section else model.view))
        circle = _circle(bench, board, features, letter, (face, model))
        if circle is not None:
            found[str(letter)] = Surround(str(model.view), *circle, str(model.scale or ""))
    return found


def _cut_plane(
    bench: Bench, board: Board, features: Mapping[str, Feature], letter: Text, model: SectionModel
) -> CutPlane | None:
    view = FaceName(str(model.view))
    axis = FACES[view].normal
    if model.at is None:
        box = _box(board, features, str(model.through))
        return None if box is None else CutPlane(view, (box[0][axis] + box[1][axis]) / 2)
    at = bench.length(model.at)
    if at is None:
        return None
    whole = board.size[axis]
    if FINE < at.number < whole.number - FINE:
        return CutPlane(view, at.number)
    bench.stop(
        "section-misses-part",
        at.place,
        f"Section {letter} lies at {AXIS_NAMES[axis]} {said(at)}, and {board.title} reaches from 0 to "
        f"{in_both(whole.number)} there.",
        f"Keep it between 0 and {like(at, whole.number)}, the {SIZE_NAMES[axis]}, or name a feature: "
        "`through` in the place of `at`.",
    )
    return None


def _circle(
    bench: Bench, board: Board, features: Mapping[str, Feature], letter: Text, asked: tuple[FaceName, DetailModel]
) -> tuple[Vec, float] | None:
    """Centre and radius of what a detail shows in the view of a face."""
    face, model = asked
    axes = FACES[face].u, FACES[face].v
    if model.at is None or model.radius is None:
        box = _box(board, features, str(model.around))
        if box is None:
            return None
        low, high = box
        half = math.hypot(*(high[axis] - low[axis] for axis in axes)) / 2
        return Vec(*((a + b) / 2 for a, b in zip(low, high, strict=True))), _AROUND * half
    places, radius = bench.pair(model.at), bench.size(model.radius, f"the radius of detail {letter}")
    if places is None or radius is None:
        return None
    for axis, place in zip(axes, places, strict=True):
        whole = board.size[axis]
        if not -radius.number < place.number < whole.number + radius.number:
            bench.stop(
                "detail-outside-part",
                place.place,
                f"Detail {letter} lies at {AXIS_NAMES[axis]} {said(place)}, and {board.title} reaches from 0 to "
                f"{in_both(whole.number)} there.",
                f"Keep its centre between 0 and {like(place, whole.number)}, the {SIZE_NAMES[axis]}.",
            )
            return None
    centre = [size / 2 for size in board.blank]
    for axis, place in zip(axes, places, strict=True):
        centre[axis] = place.number
    return Vec(*centre), radius.number


def _box(board: Board, features: Mapping[str, Feature], name: str) -> tuple[Vec, Vec] | None:
    """Least and greatest corner of a feature, of a row the first, within the blank; None if it could not be shaped."""
    if name not in features:
        return None
    spots = [spot for cut in features[name].first for spot in _corners(cut)]
    within = [[min(max(spot[axis], 0.0), size) for spot in spots] for axis, size in enumerate(board.blank)]
    return Vec(*(min(places) for places in within)), Vec(*(max(places) for places in within))


def _corners(cut: Cut) -> list[Vec]:
    (x0, y0), (x1, y1) = bounds(cut.loop)
    corners = [Point(x, y) for x in (x0, x1) for y in (y0, y1)]
    return [cut.frame.place(corner, depth) for corner in corners for depth in (0.0, cut.depth)]
