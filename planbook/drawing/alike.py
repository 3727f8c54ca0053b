"""Whether two pictures, as SVG, look the same in print: what a reader would not see apart is the same.

Both may be years old: they are read from the files that were frozen, and nothing is drawn again.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Final
from xml.etree import ElementTree as ET

import numpy as np
import shapely
from fontTools.pens.recordingPen import RecordingPen
from fontTools.svgLib.path import parse_path

SEEN: Final = 0.05
"""Millimetres on paper by which a line has to move until it is another: a quarter of the width of a narrow one."""
_STEP: Final = 0.5
"""Millimetres between the points of a line that are looked at."""
_CURVE: Final = np.linspace(0.0, 1.0, 9)[1:]
"""Where a cubic curve, as which arcs are read, is cut into straight pieces."""
_NUMBER: Final = re.compile(r"-?\d+(?:\.\d+)?")
_UNSEEN: Final = frozenset({"id", "data-mark", "class", "clip-path", "{http://www.w3.org/1999/xlink}href"})
"""Attributes that name things; what they name is compared by itself."""
_GEOMETRY: Final = frozenset(
    {"d", "cx", "cy", "r", "x", "y", "transform", "{http://www.w3.org/XML/1998/namespace}space"}
)
_DRAWN: Final = frozenset({"svg", "title", "path", "circle", "text", "tspan"})
"""All that planbook's own drawings are written with."""
Look = tuple[tuple[str, str], ...]
"""Attributes of an element without those that say where it is."""


def look_alike(one: bytes, other: bytes) -> bool:
    """Whether two SVG documents show the same: lines, tints and letters within `SEEN`, words and figures to the letter.

    Those of drawings are compared as they lie on paper, in whatever order and pieces they were drawn; other documents,
    as charts, element by element. What cannot be read is like nothing else.
    """
    if one == other:
        return True
    try:
        roots = ET.fromstring(one), ET.fromstring(other)
        if _same(*roots):
            return True
        if any(_name(each) not in _DRAWN for root in roots for each in root.iter()):
            return False
        return _lie_alike(*map(_on_paper, roots))
    except (ET.ParseError, LookupError, ValueError):
        return False


def _name(element: ET.Element) -> str:
    return element.tag.rpartition("}")[2]


def _same(one: ET.Element, other: ET.Element) -> bool:
    """The same elements in the same order, their numbers within `SEEN`."""
    ours, theirs = ([each for each in side if _name(each) != "title"] for side in (one, other))
    return (
        one.tag == other.tag
        and len(ours) == len(theirs)
        and _words(one) == _words(other)
        and _attributes_alike(_seen(one), _seen(other))
        and all(map(_same, ours, theirs))
    )


def _words(element: ET.Element) -> tuple[str, str]:
    return (element.text or "").strip(), (element.tail or "").strip()


def _seen(element: ET.Element) -> dict[str, str]:
    return {name: value for name, value in element.attrib.items() if name not in _UNSEEN}


def _attributes_alike(one: Mapping[str, str], other: Mapping[str, str]) -> bool:
    return one.keys() == other.keys() and all(_alike(value, other[name]) for name, value in one.items())


def _alike(one: str, other: str) -> bool:
    if one == other:
        return True
    if _NUMBER.sub("#", one) != _NUMBER.sub("#", other):
        return False
    numbers = zip(_NUMBER.findall(one), _NUMBER.findall(other), strict=True)
    return all(abs(float(a) - float(b)) <= SEEN for a, b in numbers)


@dataclass
class _Paper:
    """What a drawing puts on paper: lines and tints by their look, and each text with its look by where it stands."""

    lines: dict[Look, list[shapely.LineString]] = field(default_factory=dict)
    tints: dict[Look, list[shapely.Geometry]] = field(default_factory=dict)
    texts: dict[tuple[str, Look, str], list[tuple[float, float]]] = field(default_factory=dict)


def _on_paper(root: ET.Element) -> _Paper:
    paper = _Paper()
    for element in root.iter():
        look = tuple(sorted((k, v) for k, v in _seen(element).items() if k not in _GEOMETRY))
        match _name(element):
            case "path":
                _put(paper, look, [*_rings(element.attrib["d"])])
            case "circle":
                centre, radius = shapely.Point(*_numbers(element, "cx", "cy")), float(element.attrib["r"])
                _put(paper, look, [centre.buffer(radius, quad_segs=16).exterior])
            case "text":
                turned = element.get("transform", "").partition(" ")[0]
                key = ("".join(element.itertext()), look, turned)
                paper.texts.setdefault(key, []).append(_numbers(element, "x", "y"))
    return paper


def _put(paper: _Paper, look: Look, rings: list[shapely.LineString]) -> None:
    """With the lines or tints that rings are: filled ones are an outline and the rings in it that stay free."""
    names = dict(look)
    if "stroke" in names and rings:
        paper.lines.setdefault(look, []).extend(rings)
    if "fill" in names and rings:
        outline, *free = [ring.coords for ring in rings if len(ring.coords) > 3]
        paper.tints.setdefault(look, []).append(shapely.make_valid(shapely.Polygon(outline, free)))


def _numbers(element: ET.Element, one: str, other: str) -> tuple[float, float]:
    return float(element.attrib[one]), float(element.attrib[other])


def _rings(path: str) -> Iterator[shapely.LineString]:
    """The lines of path data, arcs as chords."""
    pen = RecordingPen()
    parse_path(path, pen)
    points: list[tuple[float, float]] = []
    for way, stops in pen.value:
        match way:
            case "moveTo":
                points = [*stops]
            case "lineTo":
                points += stops
            case "curveTo":
                points += _chords(points[-1], *stops)
            case "closePath" | "endPath" if len(set(points)) > 1:
                yield shapely.LineString(points)


def _chords(
    start: tuple[float, float], one: tuple[float, float], other: tuple[float, float], end: tuple[float, float]
) -> list[tuple[float, float]]:
    t = _CURVE[:, np.newaxis]
    a, b, c, d = map(np.array, (start, one, other, end))
    curve = (1 - t) ** 3 * a + 3 * t * (1 - t) ** 2 * b + 3 * t**2 * (1 - t) * c + t**3 * d
    return [(x, y) for x, y in curve.tolist()]


def _lie_alike(one: _Paper, other: _Paper) -> bool:
    if any(ours.keys() != theirs.keys() for ours, theirs in ((one.lines, other.lines), (one.tints, other.tints))):
        return False
    if one.texts.keys() != other.texts.keys():
        return False
    tinted = all(_fill_alike(areas, other.tints[look]) for look, areas in one.tints.items())
    lettered = all(_stand_alike(places, other.texts[key]) for key, places in one.texts.items())
    return tinted and lettered and _covers(one, other) and _covers(other, one)


def _stand_alike(one: list[tuple[float, float]], other: list[tuple[float, float]]) -> bool:
    """Whether the same text stands as often, and each time in a place of the other."""
    tree = shapely.STRtree(shapely.points(other))
    return len(one) == len(other) and len(_near(tree, shapely.points(one))) == len(one)


def _fill_alike(one: list[shapely.Geometry], other: list[shapely.Geometry]) -> bool:
    """Whether the same is filled, but for slivers."""
    apart = shapely.union_all(one).symmetric_difference(shapely.union_all(other))
    return bool(apart.buffer(-SEEN / 2).is_empty)


def _covers(others: _Paper, lines: _Paper) -> bool:
    """Whether all lines lie on others of the same look; where one goes over into another, to a step."""
    every = shapely.STRtree([line for those in others.lines.values() for line in those])
    for look, those in lines.lines.items():
        cut = shapely.segmentize(np.array(those), _STEP)
        coordinates, owners = shapely.get_coordinates(cut, return_index=True)
        points = shapely.points(coordinates)
        off = np.setdiff1d(np.arange(len(points)), _near(shapely.STRtree(others.lines[look]), points))
        if len(np.unique(owners[off])) < len(off) or len(_near(every, points[off])) < len(off):
            return False
    return True


def _near(tree: shapely.STRtree, points: np.ndarray) -> np.ndarray:
    """Which of the points lie on something, by number."""
    near, _ = tree.query_nearest(points, max_distance=SEEN, all_matches=False)
    return np.asarray(near)
