"""The proof that a sheet says enough, on sheets made by hand."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planbook.dimension.completeness import Adrift, Implied, SheetRecord, Unfixed, check_sheet
from planbook.dimension.completeness.record import Made, Plane, Removed, Told
from tests.dimension.completeness.plates import (
    BLANK,
    FACE,
    MM,
    arc,
    hole,
    linear,
    noted,
    plate,
    pocket,
    polygon,
    sheet,
    slot,
)

ONE_HOLE = sheet(
    plate(hole("pivot", 40, 30, depth=12)),
    linear("pivot/x", "x", 0, 40),
    linear("pivot/y", "y", 0, 30),
    noted("pivot/diameter", 8, "diameter"),
    noted("pivot/depth", 12),
)
POCKET = sheet(
    plate(pocket("bed", 50, 20, 60, 40, 6)),
    linear("bed/x", "x", 0, 50),
    linear("bed/length", "x", 50, 110),
    linear("bed/y", "y", 0, 20),
    linear("bed/width", "y", 20, 60),
    noted("bed/depth", 6),
)
LEVEL_SLOT = sheet(
    plate(slot("way", (50, 40), (120, 40), 5)),
    linear("way/x", "x", 0, 50),
    linear("way/end_x", "x", 0, 120),
    linear("way/y", "y", 0, 40),
    noted("way/width", 10),
)
TILTED_SLOT = sheet(
    plate(slot("way", (50, 20), (110, 65), 5)),
    linear("way/x", "x", 0, 50),
    linear("way/end_x", "x", 0, 110),
    linear("way/y", "y", 0, 20),
    linear("way/end_y", "y", 0, 65),
    noted("way/width", 10),
)
CLIPPED = sheet(
    plate(outline=polygon((0, 0), (200, 0), (200, 60), (150, 100), (0, 100))),
    linear("outline.low/y", "y", 0, 60),
    linear("outline.high/x", "x", 0, 150),
)
ROUNDED = sheet(
    plate(
        outline=(
            *polygon((0, 0), (200, 0), (200, 80), (180, 100), (0, 100))[:2],
            arc((200, 80), (180, 100), (180, 80)),
            *polygon((0, 0), (200, 0), (200, 80), (180, 100), (0, 100))[3:],
        )
    ),
    noted("outline.corner/radius", 20, "radius"),
)
COMPLETE = {
    "a blind hole": ONE_HOLE,
    "a pocket": POCKET,
    "a slot along an axis": LEVEL_SLOT,
    "a tilted slot": TILTED_SLOT,
    "a corner cut off": CLIPPED,
    "a rounded corner": ROUNDED,
}


@pytest.mark.parametrize("record", COMPLETE.values(), ids=COMPLETE)
def test_a_complete_sheet_has_no_fault(record: SheetRecord) -> None:
    assert check_sheet(record) == ()


@pytest.mark.parametrize("record", COMPLETE.values(), ids=COMPLETE)
def test_each_dimension_taken_away_is_missed(record: SheetRecord) -> None:
    for gone in record.dimensions:
        faults = check_sheet(replace(record, dimensions=tuple(d for d in record.dimensions if d is not gone)))
        assert any(isinstance(fault, Unfixed) for fault in faults), gone.id


@pytest.mark.parametrize("record", COMPLETE.values(), ids=COMPLETE)
def test_each_dimension_printed_twice_is_found(record: SheetRecord) -> None:
    for again in record.dimensions:
        twice = replace(record, dimensions=(*record.dimensions, replace(again, id=f"{again.id}/again")))
        assert check_sheet(twice) == (Implied(f"{again.id}/again", (again.id,)),)


def test_what_is_not_fixed_is_named_with_its_direction() -> None:
    without = replace(ONE_HOLE, dimensions=tuple(d for d in ONE_HOLE.dimensions if d.id != "plate/pivot/y"))
    assert check_sheet(without) == (Unfixed(("pivot",), "y", 30e6),)


def test_another_dimension_that_fixes_the_same_will_do() -> None:
    """From the far border instead of the datum; between two holes instead of from the border."""
    other = tuple(linear("pivot/x", "x", 40, 200) if d.id == "plate/pivot/x" else d for d in ONE_HOLE.dimensions)
    assert check_sheet(replace(ONE_HOLE, dimensions=other)) == ()


def test_a_reference_may_repeat_what_others_say_and_fixes_nothing() -> None:
    rest = linear("bed/rest", "x", 110, 200, reference=True)
    assert check_sheet(replace(POCKET, dimensions=(*POCKET.dimensions, rest))) == ()
    only = tuple(replace(d, reference=True) if d.id == "plate/bed/x" else d for d in POCKET.dimensions)
    assert Unfixed(("bed",), "x", 50e6) in check_sheet(replace(POCKET, dimensions=only))


def test_the_dimensions_that_say_it_already_are_named_and_no_others() -> None:
    rest = linear("bed/rest", "x", 110, 200)
    [fault] = check_sheet(replace(POCKET, dimensions=(*POCKET.dimensions, rest)))
    assert fault == Implied("plate/bed/rest", ("plate/bed/length", "plate/bed/x", "plate/blank/length"))


def test_holes_on_a_level_need_one_dimension() -> None:
    record = sheet(
        plate(hole("left", 40, 30), hole("right", 160, 30)),
        linear("left/x", "x", 0, 40),
        linear("right/x", "x", 0, 160),
        linear("left/y", "y", 0, 30),
        noted("left/diameter", 8, "diameter"),
        noted("right/diameter", 8, "diameter"),
    )
    assert check_sheet(record) == ()


def test_recesses_of_one_depth_are_told_it_each() -> None:
    """No view shows the bottoms of two blind holes to be level."""
    record = sheet(
        plate(hole("left", 40, 30, depth=9), hole("right", 160, 30, depth=9)),
        linear("left/x", "x", 0, 40),
        linear("right/x", "x", 0, 160),
        linear("left/y", "y", 0, 30),
        noted("left/diameter", 8, "diameter"),
        noted("right/diameter", 8, "diameter"),
        noted("left/depth", 9),
    )
    assert check_sheet(record) == (Unfixed(("right",), "z", 9e6),)


def test_a_row_is_fixed_by_its_first_and_its_pitch() -> None:
    first = hole("row", 30, 50)
    cuts = tuple(cut for x in (30, 60, 90, 120) for cut in hole("row", x, 50).cuts)
    record = sheet(
        plate(replace(first, cuts=cuts, count=4)),
        linear("row/x", "x", 0, 30),
        linear("row/y", "y", 0, 50),
        linear("row/pitch", "x", 30, 60, count=3),
        replace(noted("row/diameter", 8, "diameter"), count=4),
    )
    assert check_sheet(record) == ()
    without = replace(record, dimensions=tuple(d for d in record.dimensions if d.characteristic != "pitch"))
    assert {fault.value for fault in check_sheet(without) if isinstance(fault, Unfixed)} == {60e6, 90e6, 120e6}


def test_a_dimension_that_points_at_nothing_is_found() -> None:
    astray = linear("pivot/x", "x", 0, 41)
    told = tuple(astray if d.id == "plate/pivot/x" else d for d in ONE_HOLE.dimensions)
    assert check_sheet(replace(ONE_HOLE, dimensions=told)) == (Adrift("plate/pivot/x"), Unfixed(("pivot",), "x", 40e6))


PLACES = st.lists(st.integers(10, 190), min_size=1, max_size=6, unique=True)


@given(PLACES, st.randoms(use_true_random=False))
def test_any_chain_of_dimensions_that_reaches_every_hole_is_complete(places: list[int], random: object) -> None:
    """Each hole measured from any place that is measured already: from the datum, a border or another hole."""
    holes = [hole(f"h{x}", x, 50) for x in places]
    known, told = [0, 200], []
    for x in places:
        base = random.choice(known)  # type: ignore[attr-defined]
        told.append(linear(f"h{x}/x", "x", min(base, x), max(base, x)))
        known.append(x)
    round_them = [noted(f"h{x}/diameter", 8, "diameter") for x in places]
    whole = sheet(plate(*holes), *told, linear(f"h{places[0]}/y", "y", 0, 50), *round_them)
    assert check_sheet(whole) == ()
    extra = linear(f"h{places[0]}/extra", "x", min(known[0], known[-1]), max(known[0], known[-1]))
    assert [type(fault) for fault in check_sheet(replace(whole, dimensions=(*whole.dimensions, extra)))] == [Implied]


def test_a_hole_may_be_measured_from_another_that_stands_just_a_radius_away() -> None:
    told = (linear("h12/x", "x", 0, 12), linear("h16/x", "x", 12, 16), linear("h12/y", "y", 0, 50))
    round_them = (noted(f"h{x}/diameter", 8, "diameter") for x in (12, 16))
    assert check_sheet(sheet(plate(hole("h12", 12, 50), hole("h16", 16, 50)), *told, *round_them)) == ()


def test_a_lean_that_the_hole_has_not_points_at_nothing() -> None:
    """Degrees are told apart as degrees: 12 is not 13."""
    tilt = math.radians(12)
    plane = Plane(
        (50 * MM, 40 * MM, 18 * MM),
        (math.cos(tilt), 0, -math.sin(tilt)),
        (0, 1, 0),
        (math.sin(tilt), 0, math.cos(tilt)),
    )
    rim = arc((4, 0), (4, 0), (0, 0))
    bore = Made("bore", (Removed(plane, (rim,), 60 * MM, lift=1 * MM),))
    for degrees, adrift in ((12.0, False), (13.0, True)):
        told = Told("plate/bore/lean_x", "bore", "lean_x", "note", "", (), degrees)
        found = [each for each in check_sheet(sheet(plate(bore), told)) if isinstance(each, Adrift)]
        assert bool(found) is adrift


def test_a_chamfer_without_reach_points_at_nothing_and_does_not_end_the_proof() -> None:
    flat = Made("soft", (Removed(FACE, polygon((0, 0), (0, 0), (0, 0)), 100 * MM),))
    (found,) = [each for each in check_sheet(sheet(plate(flat), noted("soft/chamfer", 2))) if isinstance(each, Adrift)]
    assert found.dimension == "plate/soft/chamfer"


def test_the_blank_alone() -> None:
    assert check_sheet(SheetRecord(plate(), BLANK)) == ()
    assert check_sheet(SheetRecord(plate(), BLANK[:2])) == (Unfixed(("blank",), "z", 18e6),)
