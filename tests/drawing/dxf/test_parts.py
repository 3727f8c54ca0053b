"""DXF files of flat parts, read back and held against the part's exact geometry."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from shapely.geometry import Point, Polygon
from shapely.geometry import box as rectangle

from planbook.drawing.curves import XY, Arc, Line, circle
from planbook.drawing.dxf import is_flat, part_dxf
from planbook.drawing.profile import Chain, profile, signed_area
from planbook.statement.model import FeatureStated, PartStated, SegmentStated
from tests.drawing import samples
from tests.drawing.dxf.reading import Piece, read, same

FLAT = (samples.ramp_bar, samples.top)
UNITS = pytest.mark.parametrize("inch", [False, True], ids=["millimetre", "inch"])
NM = 1e6


def stated(segments: tuple[SegmentStated, ...]) -> list[Piece]:
    """The pieces of a loop as the statement has them, in the reader's form."""
    pieces: list[Piece] = []
    for segment in segments:
        ends = sorted(((x / NM, y / NM) for x, y in (segment.start, segment.end)), key=lambda p: (round(p[0], 6), p[1]))
        flat = tuple(value for end in ends for value in end)
        if segment.centre is None:
            pieces.append(("line", flat))
            continue
        centre = tuple(value / NM for value in segment.centre)
        radius = math.dist(segment.start, segment.centre) / NM
        whole = segment.start == segment.end
        pieces.append(("circle", (*centre, radius)) if whole else ("arc", (*centre, radius, *flat)))
    return pieces


def cuts_of(part: PartStated, through: bool) -> list[tuple[FeatureStated, float, list[Piece]]]:
    found = [(feature, cut.depth / NM, stated(cut.loop)) for feature in part.features.values() for cut in feature.cuts]
    return [each for each in found if (each[1] >= part.size[2] / NM) == through]


@UNITS
@pytest.mark.parametrize("sample", FLAT)
def test_a_part_reads_back_as_it_is_shaped(sample, inch: bool) -> None:
    bench = sample(inch)
    part = bench.stated()
    found = read(part_dxf(samples.statement(bench), part.key))
    assert same(found.pieces("outline"), stated(part.outline))
    assert same(found.pieces("through"), [piece for _, _, loop in cuts_of(part, True) for piece in loop])
    layers = {layer.dxf.name for layer in found.document.layers}
    for feature, depth, loop in cuts_of(part, False):
        text = f"{depth / 25.4:.5f}".rstrip("0") + " in" if inch else f"{depth:g} mm"
        layer = f"{feature.face} {text} deep"
        assert layer in layers
        assert all(any(same([piece], [other]) for other in found.pieces(layer)) for piece in loop)


@UNITS
def test_every_round_cut_has_its_centre_once(inch: bool) -> None:
    found = read(part_dxf(samples.statement(samples.ramp_bar(inch)), "ramp_bar"))
    places = sorted(
        (point.dxf.location.x * found.unit, point.dxf.location.y * found.unit) for point in found.of("POINT")
    )
    assert places == [pytest.approx(place) for place in ((450, 12), (760, 30), (810, 30))]


@UNITS
def test_the_file_says_what_it_is(inch: bool) -> None:
    found = read(part_dxf(samples.statement(samples.ramp_bar(inch)), "ramp_bar"))
    words = " ".join(text.dxf.text for text in found.of("TEXT"))
    assert "ramp_bar" in words
    assert ("1.06299 in" if inch else "27 mm") in words
    assert "1 as drawn, 1 mirrored" in words
    properties = dict(found.document.header.custom_vars.properties)
    assert properties["part"] == "ramp_bar"
    assert properties["thickness"] == ("1.06299 in" if inch else "27 mm")


def test_what_is_bored_into_an_edge_is_named_and_not_drawn() -> None:
    bench = samples.ramp_bar()
    bench.cut("cross_bolt", "hole", "front_edge", samples.round_loop((300, 13.5), 7), 40)
    found = read(part_dxf(samples.statement(bench), "ramp_bar"))
    assert any("cross bolt, front edge" in text.dxf.text for text in found.of("TEXT"))
    assert len(found.of("POINT")) == 3


def test_a_post_and_a_part_with_a_tenon_are_not_flat() -> None:
    bar = samples.ramp_bar().stated()
    assert is_flat(bar)
    assert not is_flat(replace(bar, size=(834 * NM, 98 * NM, 50 * NM)))
    tenon = FeatureStated("tongue", "tenon", "left_end", ())
    assert not is_flat(replace(bar, features={**bar.features, "tongue": tenon}))


def test_the_same_part_gives_the_same_bytes() -> None:
    statement = samples.statement(samples.top())
    assert part_dxf(statement, "top") == part_dxf(statement, "top")


def test_notches_are_cut_out_of_the_outline() -> None:
    """A corner notch, one on an edge, and a hole that breaks out: one outline, with its arc, and nothing else."""
    bench = samples.Bench("plate", "Plate", (200, 100, 10))
    bench.cut("corner", "notch", "face", samples.box((0, 0), (30, 20)), 10)
    bench.cut("edge", "notch", "back", samples.box((80, 80), (120, 100)), 10)
    bench.cut("bite", "hole", "face", samples.round_loop((200, 50), 20), 10)
    found = read(part_dxf(samples.statement(bench), "plate"))
    assert found.pieces("through") == []
    assert same(
        found.pieces("outline"),
        [
            ("line", (0, 20, 30, 20)), ("line", (30, 0, 30, 20)), ("line", (30, 0, 200, 0)),
            ("line", (200, 0, 200, 40)),
            ("arc", (200, 50, 10, 200, 40, 200, 60)),
            ("line", (200, 60, 200, 100)), ("line", (120, 100, 200, 100)), ("line", (120, 80, 120, 100)),
            ("line", (80, 80, 120, 80)), ("line", (80, 80, 80, 100)), ("line", (0, 100, 80, 100)),
            ("line", (0, 20, 0, 100)),
        ],
    )  # fmt: skip


def polygon(chain: Chain, steps: int = 90) -> Polygon:
    """Arcs as many chords."""
    return Polygon([curve.point(k / steps) for curve in chain for k in range(steps if isinstance(curve, Arc) else 1)])


def box_chain(x0: float, y0: float, x1: float, y1: float) -> Chain:
    corners = XY(x0, y0), XY(x1, y0), XY(x1, y1), XY(x0, y1)
    return tuple(Line(a, b) for a, b in zip(corners, (*corners[1:], corners[0]), strict=True))


OPENINGS = st.lists(
    st.one_of(
        st.builds(
            lambda x, y, w, h: box_chain(x, y, x + w, y + h),
            *(st.integers(0, 170), st.integers(0, 70), st.integers(5, 30), st.integers(5, 30)),
        ),
        st.builds(lambda x, y, r: (circle(XY(x, y), r),), st.integers(0, 200), st.integers(0, 100), st.integers(3, 20)),
    ),
    max_size=5,
)


@settings(max_examples=60)
@example([(circle(XY(15, 13), 12),), (circle(XY(34, 13), 10),)])
@given(OPENINGS)
def test_the_outline_encloses_what_a_library_says_is_left(openings: list[Chain]) -> None:
    """Oracle: shapely's difference of polygons, with circles as polygons of 360 corners."""
    left = rectangle(0, 0, 200, 100)
    for opening in openings:
        curve = opening[0]
        round_one = isinstance(curve, Arc)
        left = left.difference(Point(curve.centre).buffer(curve.radius, 90) if round_one else polygon(opening))
    chains = profile(box_chain(0, 0, 200, 100), openings)
    # A chord of one degree of a circle of 20 mm leaves 0.09 mm2 of the whole circle.
    assert sum(map(signed_area, chains)) == pytest.approx(left.area, abs=0.7)
    for chain in chains:
        assert math.dist(chain[-1].end, chain[0].start) < 1e-4
