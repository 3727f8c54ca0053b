"""The quick look before solids are asked: it never refuses a place in which an old piece lies without lacking wood."""

from __future__ import annotations

import pytest
from hypothesis import assume, given, settings

from planbook.dimension.completeness.record import Shape
from planbook.impact.limits import General
from planbook.impact.lying import can_lie
from planbook.impact.registering import STAY
from planbook.impact.sheets import Sheet
from planbook.impact.wood import outside
from planbook.statement.model import Statement
from tests.dimension.random_parts import Skeleton, all_shares, named_skeletons, part_of
from tests.impact.making import plate, told
from tests.impact.test_turning import holes
from tests.impact.test_volumes import exactly

GENERAL = 0.5


def shape(statement: Statement) -> Shape:
    return Sheet(statement.parts["plate"], statement.dimensions, General(5e5, 0.5)).printed


@given(named_skeletons(), all_shares())
@settings(max_examples=40)
def test_a_piece_with_a_feature_less_may_lie_as_it_was(named: dict[str, Skeleton], shares: list[float]) -> None:
    assume(len(named) > 1)
    *kept, _ = named
    old = shape(exactly(part_of({name: named[name] for name in kept}, shares)))
    new = shape(exactly(part_of(named, shares)))
    assert not outside(new, old, GENERAL)
    assert can_lie(old, new, STAY, GENERAL)


@pytest.mark.parametrize(
    ("new", "shift", "lies"),
    [
        (plate(**holes((100, 30, 8))), STAY, True),
        (plate(**holes((100.4, 30, 8))), STAY, True),
        (plate(**holes((102, 30, 8))), STAY, False),
        (plate(**holes((102, 30, 16))), STAY, True),
        (plate("390 mm", **holes((90, 30, 8))), (-10.0, 0.0, 0.0), True),
        (plate("390 mm", **holes((90, 30, 8))), STAY, False),
        (plate(**holes((90, 30, 8))), (-10.0, 0.0, 0.0), False),
        (plate("410 mm", **holes((100, 30, 8))), STAY, False),
    ],
)
def test_a_piece_with_a_hole_of_8_at_100_lies_where_no_wood_is_lacking(
    new: dict[str, object], shift: tuple[float, float, float], lies: bool
) -> None:
    old, there = shape(told({"plate": plate(**holes((100, 30, 8)))})), shape(told({"plate": new}))
    x, y, z = shift
    assert can_lie(old, there, shift, GENERAL) is lies
    assert (outside(there, old, GENERAL, moved=(-x, -y, -z)) == ()) is lies


def test_a_leaning_hole_takes_no_more_than_its_cylinder() -> None:
    """A corner of the box round it is wood: what opens the new piece in two steps leaves that standing."""
    bore = {"hole": "30 mm", "at": ("100 mm", "50 mm"), "on": "face", "lean": {"y": "-44 deg"}}
    above = {"mortise": ("34 mm", "58 mm"), "at": ("83 mm", "15 mm"), "on": "face", "depth": "14 mm"}
    below = {"mortise": ("34 mm", "54 mm"), "at": ("83 mm", "10 mm"), "on": "back", "depth": "4 mm"}
    old, new = (shape(told({"plate": plate(**each)})) for each in ({"bore": bore}, {"above": above, "below": below}))
    assert outside(new, old, GENERAL) == ()
    assert can_lie(old, new, STAY, GENERAL)
