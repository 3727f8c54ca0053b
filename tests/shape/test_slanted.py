"""What leans, is cut at an angle or is turned: volumes in closed form, axes, published compound angles, bad input."""

from __future__ import annotations

import math
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from ruamel.yaml import YAML

from planbook.shape.end_cuts import blade_tilt
from planbook.shape.kinds import EndCutShape
from planbook.shape.model import Cut
from planbook.shape.solids import mesh_of
from tests.shape.making import MM, feature_on_plate, finding_on_plate, plate, shaped, sound

_PUBLISHED = YAML(typ="safe").load(
    (Path(__file__).parents[1] / "reference" / "compound-angles.yaml").read_text(encoding="utf-8")
)
JOINTS = pytest.mark.parametrize("joint", _PUBLISHED["joints"], ids=lambda joint: joint["id"])
WITHIN: float = _PUBLISHED["tolerance"]
ANGLES = st.integers(-4000, 4000).map(lambda hundredths: hundredths / 100)


def removed(part: dict[str, Any]) -> float:
    """Cubic millimetres that the features take from their plain blank."""
    made = sound(part)
    return math.prod(measure / MM for measure in made.blank) - mesh_of(made).volume


def direction(cut: Cut) -> np.ndarray:
    """The way into the wood."""
    return -np.array(cut.frame.normal)


@given(ANGLES, ANGLES)
def test_a_leaning_hole_runs_along_both_angles_from_its_place_on_the_face(a: float, b: float) -> None:
    lean = {"x": f"{a} deg", "y": f"{b} deg"}
    (cut,) = feature_on_plate({"hole": "8 mm", "at": ("200 mm", "100 mm"), "lean": lean}).cuts
    x, y, z = direction(cut)
    assert math.degrees(math.atan2(x, -z)) == pytest.approx(a, abs=1e-9)
    assert math.degrees(math.atan2(y, -z)) == pytest.approx(b, abs=1e-9)
    entry = np.array(cut.frame.place(cut.loop.segments[0].centre, cut.lift))  # type: ignore[union-attr]
    assert entry == pytest.approx([200 * MM, 100 * MM, 18 * MM], abs=1)


@pytest.mark.parametrize(
    ("face", "letters", "at", "into"),
    [
        ("back", ("x", "y"), ("200 mm", "100 mm"), (0, 0, 1)),
        ("left_end", ("y", "z"), ("100 mm", "30 mm"), (1, 0, 0)),
        ("rear_edge", ("x", "z"), ("200 mm", "30 mm"), (0, -1, 0)),
    ],
)
def test_above_zero_it_runs_away_from_the_datum_whatever_the_face(
    face: str, letters: tuple[str, str], at: tuple[str, str], into: tuple[int, int, int]
) -> None:
    lean = {letters[0]: "10 deg", letters[1]: "20 deg"}
    hole = {"hole": "8 mm", "on": face, "at": at, "depth": "20 mm", "lean": lean}
    (cut,) = sound(plate(thickness="60 mm", features={"it": hole})).features["it"].cuts
    way = direction(cut)
    along = [float(way["xyz".index(letter)]) for letter in letters]
    deep = float(way @ np.array(into))
    assert [math.degrees(math.atan2(each, deep)) for each in along] == pytest.approx([10, 20])


@given(ANGLES, ANGLES)
def test_what_a_leaning_hole_takes(a: float, b: float) -> None:
    """A cylinder cut aslant is as large as one cut square at its middle; through a plate it is longer by 1 / cos R."""
    lean = {"x": f"{a} deg", "y": f"{b} deg"}
    blind = {"hole": "20 mm", "at": ("200 mm", "100 mm"), "depth": "25 mm", "lean": lean}
    through = {"hole": "20 mm", "at": ("200 mm", "100 mm"), "lean": lean}
    longer = math.sqrt(1 + math.tan(math.radians(a)) ** 2 + math.tan(math.radians(b)) ** 2)
    section = math.pi * 10**2
    assert removed(plate(thickness="60 mm", features={"it": blind})) == pytest.approx(section * 25, rel=0.01)
    assert removed(plate(thickness="60 mm", features={"it": through})) == pytest.approx(section * 60 * longer, rel=0.01)


def test_a_row_of_leaning_holes_moves_along_the_face() -> None:
    row = {"count": 3, "pitch": "50 mm", "along": "x"}
    it = feature_on_plate({"hole": "8 mm", "at": ("50 mm", "100 mm"), "lean": {"y": "15 deg"}, "repeat": row})
    entries = [cut.frame.place(cut.loop.segments[0].centre, cut.lift) for cut in it.cuts]  # type: ignore[union-attr]
    assert [entry.x / MM for entry in entries] == pytest.approx([50, 100, 150])
    assert [entry.y / MM for entry in entries] == pytest.approx([100] * 3)


@JOINTS
def test_the_published_mitre_and_bevel_are_those_of_planes_that_meet_in_the_frame_s_corner(
    joint: dict[str, Any],
) -> None:
    """Two sides of a regular frame meet in the upright plane that halves the corner between them."""
    half, slope = math.pi / joint["sides"], math.radians(joint["slope"])
    edge = math.degrees(math.atan(math.tan(half) * math.sin(slope)))
    model = {"end_cut": "right", "mitre": f"{joint['mitre']} deg", "bevel": f"{edge} deg"}
    feature = sound(plate(thickness="30 mm", features={"it": model})).features["it"]
    # The side lies along x and slopes outwards; long points are at its lower edge, on the face that looks down.
    across, thick = np.array([0, math.cos(slope), -math.sin(slope)]), np.array([0, math.sin(slope), math.cos(slope)])
    normal = feature.cuts[0].frame.normal
    world = normal.x * np.array([1, 0, 0]) + normal.y * across + normal.z * thick
    apart = math.degrees(math.acos(min(1.0, float(world @ [math.cos(half), math.sin(half), 0]))))
    assert apart == pytest.approx(0, abs=2 * WITHIN)
    assert isinstance(feature.shape, EndCutShape)
    assert blade_tilt(feature.shape.mitre, feature.shape.bevel) == pytest.approx(joint["bevel"], abs=WITHIN)


@given(ANGLES, ANGLES, st.sampled_from(["left", "right"]))
def test_an_end_cut_takes_a_wedge_and_leaves_the_long_point(m: float, b: float, end: str) -> None:
    cut = {"end_cut": end, "mitre": f"{m} deg", "bevel": f"{b} deg"}
    made = sound(plate(length="200 mm", width="40 mm", thickness="30 mm", features={"it": cut}))
    # On average the end moves in by half of what it moves over the whole width and the whole thickness.
    taken = 40 * 30 * (40 * math.tan(math.radians(abs(m))) + 30 * math.tan(math.radians(abs(b)))) / 2
    mesh = mesh_of(made)
    assert 200 * 40 * 30 - mesh.volume == pytest.approx(taken, rel=1e-6, abs=2)
    # The kernel closes a wedge of a few micrometres a little short of its point: less than a micrometre is nothing.
    assert np.ptp(mesh.points[:, 0]) == pytest.approx(200, abs=1e-3)


def test_turned_lengths_and_round_tenons() -> None:
    pin = plate(
        length="200 mm",
        width="30 mm",
        thickness="30 mm",
        features={
            "rod": {"turned": "30 mm"},
            "neck": {"turned": "20 mm", "start": "50 mm", "end": "80 mm"},
            "tip": {"round_tenon": ("10 mm", "25 mm"), "end": "right"},
        },
    )
    left = math.pi * (15**2 * 145 + 10**2 * 30 + 5**2 * 25)
    assert 200 * 30 * 30 - removed(pin) == pytest.approx(left, rel=0.005)


@pytest.mark.parametrize(
    ("feature", "code", "words"),
    [
        ({"hole": "8 mm", "at": ("9 mm", "9 mm"), "lean": {"x": "60 deg"}}, "too-steep", "60 deg from square"),
        ({"hole": "8 mm", "at": ("9 mm", "9 mm"), "lean": {"z": "9 deg"}}, "axis-not-on-face", "leans along z"),
        (
            {"hole": "8 mm", "at": ("50 mm", "50 mm"), "depth": "19 mm", "lean": {"x": "30 deg"}},
            "feature-too-deep",
            "the rim of its bottom comes out",
        ),
        ({"hole": "8 mm", "at": ("5 mm", "50 mm"), "lean": {"x": "-20 deg"}}, "feature-outside-part", "reaches"),
        ({"end_cut": "left", "mitre": "80 deg"}, "too-steep", "80 deg from square"),
        ({"round_tenon": ("20 mm", "30 mm"), "end": "left"}, "tenon-too-large", "has only"),
        ({"round_tenon": ("10 mm", "400 mm"), "end": "left"}, "tenon-too-large", "400 mm"),
        ({"turned": "10 mm", "start": "90 mm", "end": "80 mm"}, "feature-outside-part", "the start first"),
        ({"turned": "10 mm", "end": "500 mm"}, "feature-outside-part", "is 400 mm"),
    ],
)
def test_bad_input(feature: dict[str, Any], code: str, words: str) -> None:
    finding = finding_on_plate(feature)
    assert finding.code == code
    assert words in f"{finding.message} {finding.remedy}".replace("`400 mm` (400 mm, 15.748 in)", "400 mm")


def test_an_end_cut_longer_than_its_part() -> None:
    part, findings = shaped(
        plate(length="100 mm", width="200 mm", features={"it": {"end_cut": "left", "mitre": "40 deg"}})
    )
    assert part is not None
    assert [finding.code for finding in findings] == ["feature-outside-part"]
