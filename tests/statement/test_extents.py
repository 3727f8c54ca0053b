"""Cuts in words, for the log of changes."""

from __future__ import annotations

from typing import Any

import pytest

from planbook.measure import Units
from planbook.statement.extents import read_cuts
from tests.drawing.test_faceted import stated

LEANING = {"hole": "28 mm", "at": ("85 mm", "75 mm"), "depth": "12 mm", "lean": {"x": "10 deg", "y": "12 deg"}}


@pytest.mark.parametrize(
    ("feature", "words"),
    [
        (LEANING, "hole in the face, 28 × 12 mm, 15.5° off square, at 85, 75 mm"),
        ({"end_cut": "left", "mitre": "10 deg"}, "end_cut in the left end, 10° off square"),
        ({"tenon": ("20 mm", "30 mm", "10 mm"), "end": "left"}, "tenon in the left end, 30 × 10 × 20 mm, at 85, 4 mm"),
        (
            {
                "arc_ramp": ("6 mm", "2 mm"),
                "radii": ("20 mm", "30 mm"),
                "at": ("85 mm", "75 mm"),
                "angles": ("0 deg", "90 deg"),
            },
            "arc_ramp in the face, 6 mm deep at its start and 2 mm at its end, at 85, 75 mm",
        ),
        ({"hole": "8 mm", "at": ("85 mm", "75 mm")}, "hole in the face, 8 × 8 × 18 mm, at 81, 71 mm"),
    ],
)
def test_a_cut_is_told_by_its_size_its_lean_and_its_place(feature: dict[str, Any], words: str) -> None:
    assert read_cuts(stated({"it": feature}).features["it"], Units.MILLIMETRE) == words
