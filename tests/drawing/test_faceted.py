"""Parts with tilted cuts and turned lengths: ellipses, slanting ends and round borders where they truly are."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any

import pytest

from planbook.drawing.curves import XY, Line
from planbook.drawing.facing import FACINGS
from planbook.drawing.merge import Piece
from planbook.drawing.recording import Pen, Stroke
from planbook.drawing.sight import see
from planbook.drawing.stated_solid import solid_of_stated
from planbook.drawing.tracing import Setting
from planbook.drawing.views import view_of
from planbook.measure import Units
from planbook.statement.model import PartStated
from planbook.statement.restating import Wording, state_part
from tests.shape.making import content_of, design_of, plate, sound

WITHIN = 0.06
"""Millimetres: the chords of a solid stay within 0.05 of the true curve."""


def stated(features: Mapping[str, Any], **rest: Any) -> PartStated:
    part = plate(features=features, **rest)
    made, design = sound(part), design_of(content_of({"plate": part}))
    return state_part(made, {}, design, Units.MILLIMETRE, Wording((), dict.fromkeys(made.features, ""), frozenset()))


def seen(part: PartStated, view: str, emphasise: frozenset[str] = frozenset()) -> tuple[Piece, ...]:
    return see(solid_of_stated(part), FACINGS[view], emphasise)


def ends(pieces: tuple[Piece, ...], rank: int) -> list[XY]:
    return [p for piece in pieces if piece.rank == rank and isinstance(piece.curve, Line) for p in _ends(piece.curve)]


def _ends(line: Line) -> tuple[XY, XY]:
    return line.start, line.end


HOLE = {"hole": "40 mm", "at": ("200 mm", "100 mm"), "lean": {"x": "20 deg", "y": "15 deg"}}


def test_the_mouth_of_a_leaning_hole_is_an_ellipse_along_its_sight_line() -> None:
    """A cylinder of radius r that leans by R meets a plane in an ellipse with the semi-axes r / cos R and r."""
    tangents = math.tan(math.radians(20)), math.tan(math.radians(15))
    longer = 20 * math.sqrt(1 + math.hypot(*tangents) ** 2)
    way = math.atan2(tangents[1], tangents[0])
    rim = [p for p in ends(seen(stated({"it": HOLE}), "face"), 1) if math.dist(p, (200, 100)) < 40]
    turned = [
        (
            (p.x - 200) * math.cos(way) + (p.y - 100) * math.sin(way),
            (p.y - 100) * math.cos(way) - (p.x - 200) * math.sin(way),
        )
        for p in rim
    ]
    # The far mouth, 18 mm below, shows through the near one; the near one is all that lies on the ellipse.
    on_it = [abs(math.hypot(u / longer, v / 20) - 1) < WITHIN / 20 for u, v in turned]
    assert sum(on_it) > 40
    assert max(u for u, _ in turned) == pytest.approx(longer, abs=WITHIN)
    assert max(abs(v) for _, v in turned) == pytest.approx(20, abs=WITHIN)


def test_from_the_side_a_leaning_hole_is_dashed_and_leans_by_the_angle_along_the_view() -> None:
    hidden = [piece.curve for piece in seen(stated({"it": HOLE}), "front_edge") if piece.rank == 2]
    walls = [line for line in hidden if isinstance(line, Line) and abs(line.end.y - line.start.y) > 17]
    assert len(walls) == 2
    for wall in walls:
        # On its way in from the face, down, it runs along x.
        run = (wall.end.x - wall.start.x) / (wall.start.y - wall.end.y)
        assert math.degrees(math.atan(run)) == pytest.approx(20, abs=0.2)


@pytest.mark.parametrize(("view", "angle"), [("face", 12.0), ("front_edge", 10.0)])
def test_an_end_cut_slants_in_both_views(view: str, angle: float) -> None:
    part = stated(
        {"it": {"end_cut": "left", "mitre": "12 deg", "bevel": "10 deg"}},
        length="200 mm",
        width="40 mm",
        thickness="40 mm",
    )
    lines = [piece.curve for piece in seen(part, view) if isinstance(piece.curve, Line)]
    slanting = [line for line in lines if line.length > 30 and abs(line.end.x - line.start.x) > 1 and line.box[2] < 60]
    assert slanting
    for line in slanting:
        run, rise = line.end.x - line.start.x, line.end.y - line.start.y
        assert math.degrees(math.atan(run / rise)) == pytest.approx(angle, abs=1e-3)
    assert min(line.box[0] for line in slanting) == pytest.approx(0, abs=1e-3)


def test_a_turned_length_and_a_round_tenon_end_at_their_radius() -> None:
    features = {
        "neck": {"turned": "20 mm", "start": "50 mm", "end": "80 mm"},
        "tip": {"round_tenon": ("10 mm", "25 mm"), "end": "right"},
    }
    pieces = seen(stated(features, length="200 mm", width="40 mm", thickness="30 mm"), "face")
    level = sorted(
        {
            round(line.start.y, 1)
            for line in (p.curve for p in pieces)
            if isinstance(line, Line) and line.start.y == pytest.approx(line.end.y, abs=1e-2)
        }
    )
    assert level == pytest.approx([0, 10, 15, 25, 30, 40], abs=WITHIN)


def test_what_is_emphasised_is_what_the_feature_adds() -> None:
    features = {"one": HOLE, "other": {"hole": "20 mm", "at": ("320 mm", "60 mm"), "lean": {"x": "10 deg"}}}
    pieces = seen(stated(features), "face", frozenset({"other"}))
    assert all(math.dist(p, (320, 60)) < 15 for p in ends(pieces, 0))
    assert len(ends(pieces, 0)) > 40
    assert any(math.dist(p, (200, 100)) < 25 for p in ends(pieces, 1))


def test_chords_of_one_curve_are_drawn_in_one_stroke() -> None:
    """So that the dashes of what is hidden run on along the curve."""
    part = stated({"it": {**HOLE, "depth": "10 mm"}})
    drawn = view_of(solid_of_stated(part), "back", part.features).draw(Setting(1.0))
    dashed = [stroke for stroke in drawn if isinstance(stroke, Stroke) and stroke.pen is Pen.HIDDEN]
    assert len(dashed) <= 4
    assert max(len(stroke.steps) for stroke in dashed) > 20
