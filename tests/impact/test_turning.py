"""Pieces that are right when they are turned: end for end, over, or a quarter; and those that no turn makes right."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from planbook.impact import Impact, PartImpact, Stage, say_part, say_stages, weigh
from planbook.impact.limits import General
from planbook.impact.sheets import Sheet
from planbook.impact.turning import laid, say_turn, turns_of
from planbook.impact.wood import outside
from planbook.statement import compare
from planbook.statement.model import PartStated, RowStated, Statement
from tests.dimension.random_parts import Skeleton, all_shares, named_skeletons, part_of
from tests.impact.making import hole, impact, plate, told
from tests.impact.oracles import counted_lacking, plane_area_lacking, plane_area_turned
from tests.impact.test_volumes import exactly, flat

UP, DOWN, OVER = (
    "turned end for end, its old face up",
    "turned end for end, its old face down",
    "turned over about its length, its old face down",
)
BLIND = {"depth": "10 mm"}


def holes(*places: tuple[float, int, int], **more: Any) -> dict[str, Any]:
    """By number: x, y and diameter."""
    return {f"hole_{n}": hole(f"{x} mm", f"{y} mm", f"{size} mm", **more) for n, (x, y, size) in enumerate(places)}


def between(old: dict[str, Any], new: dict[str, Any]) -> PartImpact:
    return impact(told({"plate": old}), told({"plate": new}))


def test_a_sheet_measured_from_the_other_end_asks_for_nothing() -> None:
    found = between(plate(**holes((100, 30, 8), (300, 20, 5))), plate(**holes((300, 50, 8), (100, 60, 5))))
    assert found.impact is Impact.REPRINT
    assert found.because == f"{UP}: it is measured from another place, and the wood is as it was"
    assert not found.asks
    assert (found.moved, found.measures) == ((0.0, 0.0, 0.0), ())


@pytest.mark.parametrize(
    ("on", "at", "words"),
    [("face", (300, 30), UP), ("back", (300, 50), DOWN), ("back", (100, 30), OVER)],
)
def test_every_half_turn_is_told_in_words(on: str, at: tuple[int, int], words: str) -> None:
    x, y = at
    old = plate(pivot=hole("100 mm", "50 mm", **BLIND), stop=hole("100 mm", "60 mm", "5 mm", **BLIND))
    way = 10 if y == 50 else -10
    there = plate(
        pivot={**hole(f"{x} mm", f"{y} mm", **BLIND), "on": on},
        stop={**hole(f"{x} mm", f"{y + way} mm", "5 mm", **BLIND), "on": on},
    )
    assert between(old, there).because.startswith(f"{words}: ")


def test_a_piece_is_trimmed_and_bored_as_it_lies_then() -> None:
    """Turned end for end it is 20 mm too long at its new right end, and one hole is enlarged."""
    found = between(
        plate("400 mm", **holes((100, 30, 8), (300, 20, 5))), plate("380 mm", **holes((300, 50, 10), (100, 60, 5)))
    )
    assert found.impact is Impact.REWORK
    assert [work.words for work in found.works] == [
        "trim the length: 400 mm → 380 mm, at the right end", "enlarge hole 0: Ø8 mm → Ø10 mm",
    ]  # fmt: skip
    assert found.moved_words == f"lay it {UP}"
    assert say_part(found).endswith(f"lay it {UP}")
    assert say_stages(found)[Stage.CUT] == say_part(found)


def test_no_turn_makes_a_piece_its_own_mirror_image() -> None:
    one = plate(**holes((100, 30, 8), (300, 20, 5), **BLIND))
    mirrored = plate(**holes((300, 30, 8), (100, 20, 5), **BLIND))
    assert between(one, mirrored).impact is Impact.RECUT
    # What goes through may be turned over.
    through = [plate(**holes(*places)) for places in (((100, 30, 8), (300, 20, 5)), ((300, 30, 8), (100, 20, 5)))]
    assert between(*through).because.startswith(DOWN)


def test_a_square_section_is_turned_a_quarter_and_the_grain_stays_along() -> None:
    def leg(on: str, at: tuple[str, str], length: str = "40 mm") -> dict[str, Any]:
        size = (length, "40 mm", "40 mm")
        return {"size": size, "features": {"rung": {"hole": "8 mm", "at": at, "on": on, **BLIND}}}

    found = between(leg("face", ("15 mm", "12 mm")), leg("rear_edge", ("15 mm", "28 mm")))
    assert found.because.startswith("turned a quarter about its length, its old face to the rear: ")
    assert between(leg("face", ("15 mm", "12 mm")), leg("left_end", ("12 mm", "15 mm"))).impact is Impact.RECUT


def test_what_is_alike_both_ways_round_is_no_better_for_a_turn() -> None:
    calipers = [told({"plate": plate("400 mm", "80 mm", pivot=hole("200 mm", y))}) for y in ("40 mm", "40.5 mm")]
    found = impact(*map(_by_calipers, calipers))
    assert (found.impact, found.turn, found.moved) == (Impact.RECUT, None, (0.0, 0.0, 0.0))


def _by_calipers(statement: Statement) -> Statement:
    return replace(
        statement, dimensions={name: replace(each, caliper=True) for name, each in statement.dimensions.items()}
    )


def test_a_piece_that_is_too_narrow_by_calipers_is_too_narrow_however_it_lies() -> None:
    old, new = (
        _by_calipers(told({"plate": plate("400 mm", width, pivot=hole(x, "20 mm", "12 mm"))}))
        for width, x in (("40 mm", "100 mm"), ("40.4 mm", "300 mm"))
    )
    assert impact(old, new).impact is Impact.RECUT


def test_an_edge_with_a_strip_stays_where_it_is() -> None:
    old, new = (
        replace(
            told({"plate": plate(**holes(*places))}),
            lists={"cutting": (RowStated("plate", {"Part": "1", "Edges": "front"}),)},
        )
        for places in (((100, 30, 8), (300, 20, 5)), ((300, 50, 8), (100, 60, 5)))
    )
    found = weigh(compare(old, new)).of("plate")
    assert found is not None
    assert found.impact is Impact.RECUT


# Random parts, told anew from another corner of their box.


def as_laid(statement: Statement, at: int) -> tuple[Statement, str]:
    """The same part told as it lies after one of its half turns: `at` is 0 to 2. Its places are not printed."""
    sheet = Sheet(statement.parts["plate"], statement.dimensions, General(5e5, 0.5))
    turn = list(turns_of(sheet.part))[at]
    there = laid(sheet, turn)
    return replace(statement, version="1.1", parts={"plate": there.part}, dimensions=there.dimensions), say_turn(turn)


ABOUT = {UP: 2, DOWN: 1, OVER: 0}


@given(named_skeletons(), all_shares(), st.integers(0, 2))
@settings(max_examples=40)
def test_a_turned_part_is_the_old_one_at_every_point(named: dict[str, Skeleton], shares: list[float], at: int) -> None:
    """Asked of the drawing room's solid, point by point."""
    old = exactly(part_of(named, shares))
    new, words = as_laid(old, at)
    there, here = new.parts["plate"], old.parts["plate"]
    # Both ways, for neither is to have what the other has not.
    assert counted_lacking(there, here, 1500, about=ABOUT[words])[0] == 0
    assert counted_lacking(here, there, 1500, about=ABOUT[words])[0] == 0
    found = impact(old, new)
    assert found.impact in (Impact.UNCHANGED, Impact.REPRINT, Impact.CHECK)


@given(named_skeletons().map(flat), all_shares(), st.floats(4, 20), st.floats(0.2, 0.8), st.floats(0.2, 0.8))
@settings(max_examples=40)
def test_what_goes_from_a_turned_part_is_plane_areas_times_the_thickness(
    named: dict[str, Skeleton], shares: list[float], size: float, along: float, across: float
) -> None:
    """A part of which every feature goes through, told from its other end with one more hole; shapely turns it."""
    old = exactly(part_of(named, shares))
    new, words = as_laid(old, 2)
    assert words == UP
    length, width = (side * 1e-6 for side in old.parts["plate"].size[:2])
    bore = told({"plate": {"size": (f"{length} mm", f"{width} mm", "18 mm"), "features": {
        "bore": hole(f"{length * along:.3f} mm", f"{width * across:.3f} mm", f"{size:.3f} mm"),
    }}}).parts["plate"].features["bore"]  # fmt: skip
    part = _with(new.parts["plate"], bore)
    new = replace(new, parts={"plate": part})
    assert plane_area_turned(part, old.parts["plate"]) < 30 * 10 * (len(named) + 1) + 1
    assume(plane_area_lacking(part, old.parts["plate"]) > 2000)
    found = impact(old, new)
    assert found.impact in (Impact.REWORK, Impact.REPRINT)
    assert found.impact is Impact.REPRINT or found.turn is not None
    goes = plane_area_turned(old.parts["plate"], part)
    assert math.isclose(sum(spot.volume for spot in found.goes), goes, rel_tol=0.02, abs_tol=30 * 10 * (len(named) + 1))


def _with(part: PartStated, bore: Any) -> PartStated:
    cuts = tuple(
        replace(cut, frame=replace(cut.frame, origin=(0.0, 0.0, part.size[2])), depth=part.size[2]) for cut in bore.cuts
    )
    return replace(part, features={**part.features, "bore": replace(bore, cuts=cuts)})


@given(named_skeletons(), all_shares(), all_shares())
@settings(max_examples=30)
def test_a_turn_is_told_only_where_nothing_is_lacking_then(
    named: dict[str, Skeleton], one: list[float], other: list[float]
) -> None:
    old, new = exactly(part_of(named, one)), exactly(part_of(named, other))
    found = impact(old, new)
    if found.turn is not None:
        sheets = [Sheet(each.parts["plate"], each.dimensions, General(5e5, 0.5)) for each in (old, new)]
        assert (
            outside(sheets[1].printed, laid(sheets[0], found.turn).printed, 0.5, tuple(-each for each in found.moved))
            == ()
        )  # type: ignore[arg-type]
