"""Randomly changed parts: what is lacking and what goes, against two other ways of working it out."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from planbook.impact import Impact
from planbook.impact.limits import General
from planbook.impact.sheets import Sheet
from planbook.impact.wood import outside
from planbook.statement.model import Statement
from tests.dimension.random_parts import SIZE, Skeleton, all_shares, named_skeletons, part_of
from tests.dimension.told.test_told import alike
from tests.impact.making import impact, is_whole, told
from tests.impact.oracles import counted_lacking, plane_area_lacking

THROUGH = ("hole", "slot", "opening", "corner_notch", "edge_notch")


def exactly(part: dict[str, Any]) -> Statement:
    """A part whose numbers are printed without rounding."""
    assume(is_whole({"plate": part}))
    statement = told({"plate": part})
    exact = {
        name: replace(each, printed=replace(each.printed, value=each.nominal))
        for name, each in statement.dimensions.items()
    }
    return replace(statement, dimensions=exact)


def volume(one: Statement, other: Statement) -> float:
    """What the one has that the other has not, as impact works it out: all of it, however thin."""
    sheets = [Sheet(each.parts["plate"], each.dimensions, General(5e5, 0.5)) for each in (one, other)]
    return sum(piece.volume for piece in outside(sheets[0].printed, sheets[1].printed, thicker=0.0))


def flat(named: dict[str, Skeleton]) -> dict[str, Skeleton]:
    """Those features that go through from the face."""
    return {
        name: replace(each, face="face", options=each.options & {"row", "round"})
        for name, each in named.items()
        if each.kind in THROUGH
    }


def resized(part: dict[str, Any], grown: tuple[float, float]) -> dict[str, Any]:
    return {**part, "size": (f"{SIZE[0] + grown[0]:.3f} mm", f"{SIZE[1] + grown[1]:.3f} mm", part["size"][2])}


GROWN = st.tuples(st.floats(-8, 8), st.floats(-8, 8))


@given(named_skeletons().map(flat), all_shares(), all_shares(), GROWN)
@settings(max_examples=60)
def test_volumes_are_plane_areas_times_the_thickness(
    named: dict[str, Skeleton], one: list[float], other: list[float], grown: tuple[float, float]
) -> None:
    old, new = exactly(part_of(named, one)), exactly(resized(part_of(named, alike(one, other)), grown))
    for first, second in ((old, new), (new, old)):
        wanted = plane_area_lacking(first.parts["plate"], second.parts["plate"])
        # Facets lie within 0.05 mm of their rounds: of all the rounds' lengths, times the thickness.
        assert math.isclose(volume(first, second), wanted, rel_tol=0.01, abs_tol=30 * 10 * len(named) + 1)


@given(named_skeletons(), named_skeletons(), all_shares(), all_shares())
@settings(max_examples=40)
def test_volumes_are_the_count_of_points(
    named: dict[str, Skeleton], more: dict[str, Skeleton], one: list[float], other: list[float]
) -> None:
    """Parts with any features, changed, taken out and added."""
    old, new = exactly(part_of(named, one)), exactly(part_of({**more, **named}, alike(one, other)))
    counted, deviation = counted_lacking(new.parts["plate"], old.parts["plate"], 3000)
    assert abs(volume(new, old) - counted) < 5 * deviation + 1


@given(named_skeletons(), all_shares(), all_shares())
@settings(max_examples=60)
def test_the_class_is_what_the_volumes_say(named: dict[str, Skeleton], one: list[float], other: list[float]) -> None:
    old, new = exactly(part_of(named, one)), exactly(part_of(named, alike(one, other)))
    assume(old != new)
    found = impact(old, new)
    lacking, going = volume(new, old), volume(old, new)
    if found.impact is Impact.RECUT:
        assert lacking > 0
        assert found.lacks
    elif found.impact is Impact.REWORK:
        assert going > 0
        # What the limits let pass is no thicker than they are: half a millimetre on all that is cut.
        assert lacking <= 0.5 * 2 * sum(a * b for a, b in ((400, 200), (400, 30), (200, 30)))
    else:
        assert found.impact in (Impact.REPRINT, Impact.CHECK, Impact.UNCHANGED)


@given(named_skeletons(), all_shares())
@settings(max_examples=30)
def test_a_part_with_one_more_feature_is_never_recut(named: dict[str, Skeleton], shares: list[float]) -> None:
    """Wood only goes; what a tenon leaves standing is what is left of the blank."""
    assume(len(named) > 1)
    *kept, _ = named
    old, new = exactly(part_of({name: named[name] for name in kept}, shares)), exactly(part_of(named, shares))
    found = impact(old, new)
    assert found.impact in (Impact.REWORK, Impact.REPRINT)
    assert volume(new, old) < 1
