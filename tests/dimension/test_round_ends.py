"""Cut-outs whose rounding takes up a whole end: their printed numbers make them, and nothing is said twice."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planbook.dimension.completeness import Adrift, Unfixed, check_sheet
from planbook.dimension.completeness.corners import joined
from planbook.dimension.completeness.record import Shape
from tests.dimension.told.test_told import measures, read, told

Part = dict[str, object]


def part(length: float, width: float, x: float, y: float, **more: object) -> Part:
    """A board of 400 by 200 by 30 mm with one cut-out, rounded by half of the lesser of its sizes."""
    kind, places = str(more.pop("kind", "opening")), more or {"at": (f"{x} mm", f"{y} mm"), "on": "face"}
    cut = {kind: (f"{length} mm", f"{width} mm"), "round": f"{min(length, width) / 2} mm", **places}
    return {"size": ("400 mm", "200 mm", "30 mm"), "features": {"grip": cut}}


def mortise(length: float, width: float, x: float, y: float) -> Part:
    return part(length, width, x, y, kind="mortise", on="back", at=(f"{x} mm", f"{y} mm"), depth="12 mm")


def notch(length: float, width: float, x: float, y: float) -> Part:
    return part(length, width, x, y, kind="notch", edge="rear", start=f"{x} mm", on="face")


MADE = {
    "along": (part, (90, 32, 150, 75)),
    "across": (part, (32, 90, 150, 75)),
    "round": (part, (40, 40, 150, 75)),
    "blind, on the back": (mortise, (90, 32, 150, 75)),
    "an open end": (notch, (32, 50, 150, 0)),
}
EACH = pytest.mark.parametrize("name", MADE)


@EACH
def test_its_sheet_says_enough_and_nothing_twice(name: str) -> None:
    make, sizes = MADE[name]
    record, _ = read(make(*sizes))
    assert check_sheet(record) == ()
    for gone in (each for each in record.dimensions if not each.reference):
        faults = check_sheet(replace(record, dimensions=tuple(each for each in record.dimensions if each is not gone)))
        assert any(isinstance(fault, Unfixed) for fault in faults), gone.id


@EACH
def test_the_radius_is_for_reference_and_counts_round_ends(name: str) -> None:
    make, sizes = MADE[name]
    record, _ = read(make(*sizes))
    radius = next(each for each in record.dimensions if each.characteristic == "radius")
    assert (radius.reference, radius.count) == (True, 1 if name in ("round", "an open end") else 2)


@EACH
@given(by=st.tuples(*(st.floats(-6, 6) for _ in range(4))))
def test_it_is_made_anew_from_its_printed_numbers(name: str, by: tuple[float, float, float, float]) -> None:
    """Another of its kind, built from that one's numbers and nothing else."""
    make, sizes = MADE[name]
    more = [by[0], by[0] if name == "round" else by[1], by[2], by[3]]
    wanted, theirs = read(make(*(round(size + way, 3) for size, way in zip(sizes, more, strict=True))))
    drawn, numbers = read(make(*sizes))
    said = {each.id for each in drawn.dimensions if not each.reference}
    made = told(drawn, numbers, {key: each.nominal for key, each in theirs.items() if key in said})
    off = [abs(a - b) for a, b in zip(_cut_out(made), _cut_out(wanted.part), strict=True)]
    assert max(off) < 50.0  # nanometres


def _cut_out(shape: Shape) -> list[float]:
    (cut,) = shape.features["grip"].cuts
    return measures((cut.frame, joined(cut.loop), cut.depth))


@pytest.mark.parametrize(
    ("name", "sizes"), [("along", ["length"]), ("across", ["width"]), ("round", ["length", "width"])]
)
def test_a_size_over_round_ends_touches_them_at_their_outermost(name: str, sizes: list[str]) -> None:
    make, numbers = MADE[name]
    record, _ = read(make(*numbers))
    rounds = [
        (arc.centre, math.dist(arc.start, arc.centre))
        for arc in joined(record.part.features["grip"].cuts[0].loop)
        if arc.centre
    ]
    for size in (each for each in record.dimensions if each.characteristic in sizes and each.feature == "grip"):
        for x, y, _ in size.points:
            gaps = [abs(math.dist((x, y), centre) - radius) for centre, radius in rounds]
            assert min(gaps) < 1000.0, size.id  # nanometres


def test_a_size_that_ends_beside_the_round_end_ends_at_nothing() -> None:
    record, _ = read(part(90, 32, 150, 75))
    length = next(each for each in record.dimensions if each.characteristic == "length")
    short = replace(length, points=(length.points[0], (length.points[1][0] - 2e6, *length.points[1][1:])))
    others = tuple(short if each is length else each for each in record.dimensions)
    assert Adrift(length.id) in check_sheet(replace(record, dimensions=others))
