"""On every sheet: no text on text, no text crossed by a stroke, no text out of the frame, no leader over another
view, every dimension once.

Measured on the finished SVG by `checker`, which shares nothing with the program's own reckoning.
"""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Callable

import pytest

from planbook.drawing import Canvas, draw_elevation, draw_sheet, to_svg
from tests.drawing import samples
from tests.drawing.assemblies import desk_like
from tests.drawing.checker import faults, read, strayed
from tests.drawing.samples import Bench, box, round_loop, rounded_box, stadium

LEAST_LETTERING = 2.5
CAP_HEIGHT = 0.66
"""Of the font: OS/2 sCapHeight over units per em."""


def random_part(seed: int, inch: bool) -> Bench:
    """A board with up to eight features of all kinds, each dimensioned from the datum corner."""
    rng = random.Random(seed)
    length = rng.choice((60, 140, 300, 520, 900, 1500))
    width, thickness = max(24.0, length * rng.choice((0.08, 0.2, 0.5, 0.9))), rng.choice((10.0, 18.0, 27.0, 45.0))
    bench = Bench("part", "Random part", (length, width, thickness), inch)
    bench.overall()
    for k in range(rng.randint(1, 8)):
        _add_feature(bench, rng, f"f{k}", rng.choice(("hole", "hole", "blind", "slot", "mortise", "groove", "back")))
    if rng.random() < 0.3:
        bench.stock_note = "accepted 17.6 to 18.4 mm"
    if rng.random() < 0.3:
        bench.notes = ("The best face shows. " * rng.randint(1, 5),)
    return bench


def _add_feature(bench: Bench, rng: random.Random, name: str, kind: str) -> None:
    length, width, thickness = bench.size
    x, y = rng.uniform(0.05, 0.85) * length, rng.uniform(0.1, 0.7) * width
    side = min(width, length) * 0.12
    view, z = ("back", 0.0) if kind == "back" else ("face", thickness)
    caliper, tolerance = rng.random() < 0.3, rng.choice(("", "", "±0.1", "+0.5/0"))
    if kind in ("hole", "blind", "back"):
        depth = thickness if kind == "hole" else thickness / 2
        bench.cut(name, "hole", view, round_loop((x, y), side), depth)
        call = {"callout": f"part/{name}", "count": rng.choice((1, 1, 4))}
        bench.diameter(name, view, (x, y, z), (x + side / 2, y, z), caliper=caliper, **call)
        if kind != "hole":
            bench.note(name, "depth", view, (x, y, z), depth, suffix="deep", **call)
    elif kind == "slot":
        end = min(x + length * 0.1, length - side)
        bench.cut(name, "slot", "face", stadium((x, y), (end + 1, y), side / 2), thickness)
        bench.linear(name, "length", "face", "x", (x, y, z), (end + 1, y, z), tolerance=tolerance)
    elif kind == "mortise":
        bench.cut(name, "mortise", "face", rounded_box((x, y), (x + side * 1.1, y + side), side / 5), thickness / 3)
        bench.linear(name, "length", "face", "x", (x, y, z), (x + side * 1.1, y, z), caliper=caliper)
        bench.linear(
            name, "width", "face", "y", (x, y, z), (x, y + side, z), method=rng.choice(("", "marked from part 3"))
        )
        bench.note(name, "depth", "face", (x + side / 2, y + side / 2, z), thickness / 3, suffix="deep")
    else:
        bench.cut(name, "groove", "face", box((0, y), (length, y + side / 2)), thickness / 3)
        bench.linear(name, "width", "right_end", "y", (length, y, z), (length, y + side / 2, z), tolerance=tolerance)
        bench.linear(name, "depth", "right_end", "z", (length, y, z - thickness / 3), (length, y, z))
    if kind != "groove":
        bench.linear(name, "x", view, "x", (0, 0, z), (x, y, z), tolerance=tolerance)
    bench.linear(name, "y", view, "y", (0, 0, z), (x, y, z), caliper=caliper)


def _check(bench: Bench) -> None:
    statement = samples.statement(bench)
    drawings, findings = draw_sheet(statement, "1")
    pages = [to_svg(drawing, "s") for drawing in drawings]
    assert [fault for svg in pages for fault in faults(svg)] == []
    printed = Counter(text.mark for svg in pages for text in read(svg).texts if text.mark)
    wanted = Counter(f"dimension:{d.id}" for d in bench.dimensions)
    missing = wanted - printed
    assert not printed - wanted
    assert bool(missing) == bool(findings)
    assert not missing, f"no room for {sorted(missing)}"


@pytest.mark.parametrize("inch", [False, True], ids=["metric", "inch"])
@pytest.mark.parametrize("seed", range(32))
def test_nothing_touches_on_generated_sheets(seed: int, inch: bool) -> None:
    _check(random_part(seed, inch))


@pytest.mark.parametrize("inch", [False, True], ids=["metric", "inch"])
@pytest.mark.parametrize("make", samples.ALL, ids=lambda make: make.__name__)
def test_nothing_touches_on_real_parts(make: Callable[[bool], Bench], inch: bool) -> None:
    _check(make(inch))


def test_lettering_is_full_height() -> None:
    """ISO 3098: 2.5 mm capitals at least; only captions of title block fields are 1.8 mm."""
    (drawing, *_), _ = draw_sheet(samples.statement(samples.leg(True)), "1")
    texts = read(to_svg(drawing, "s")).texts
    for text in texts:
        if text.mark:
            assert text.size * CAP_HEIGHT >= LEAST_LETTERING - 0.01
    small = {text.words for text in texts if text.size * CAP_HEIGHT < LEAST_LETTERING - 0.01}
    assert all(words.isupper() for words in small)


def test_the_checker_sees_faults() -> None:
    """The instrument itself: text on a stroke, on text and out of the frame are each reported."""
    frame = '<path d="M0 0L50 0L50 50L0 50Z" stroke="#000" stroke-width="0.7"/>'
    text = '<text x="{}" y="20" font-size="4">Width</text>'
    line = '<path d="M8 19L30 19" stroke="#000" stroke-width="0.25"/>'
    page = '<svg xmlns="http://www.w3.org/2000/svg">{}</svg>'
    assert faults(page.format(frame + text.format(10))) == []
    assert faults(page.format(frame + text.format(10) + line)) == ["'Width' crossed"]
    assert len(faults(page.format(frame + text.format(10) + text.format(14)))) == 1
    assert "'Width' leaves the frame" in faults(page.format(frame + text.format(46)))


def test_the_checker_sees_leaders_that_stray() -> None:
    """A leader from one view over the next, to it, and beside it; and one that stays with its own."""
    view = '<path d="M{0} 0L{1} 0L{1} 20L{0} 20L{0} 0" stroke="#1a1a1a" stroke-width="0.5"/>'
    leader = '<path d="M8 10L{0} {1}L{2} {1}" stroke="#1a1a1a" stroke-width="0.25"/>'
    text = '<text x="{}" y="{}" font-size="4">Width</text>'
    views = view.format(0, 20) + view.format(40, 60)

    def strays(elbow: float, shelf: float, y: float) -> bool:
        words = text.format(shelf + 1 if shelf > elbow else shelf - 12, y + 1)
        svg = f'<svg xmlns="http://www.w3.org/2000/svg">{views}{leader.format(elbow, y, shelf)}{words}</svg>'
        assert len(read(svg).views) == 2
        assert len(read(svg).leaders) == 1
        return strayed(read(svg)) != []

    assert strays(70, 72, 12)
    assert strays(36, 38, 10)
    assert not strays(24, 26, 10)
    assert not strays(70, 72, 40)


def test_too_many_dimensions_are_a_finding_and_not_an_overlap() -> None:
    bench = Bench("part", "Pegboard", (900, 600, 18))
    for k in range(150):
        x, y = 20.0 + 5.8 * k, 20.0 + (k * 37) % 560
        bench.cut(f"h{k}", "hole", "face", round_loop((x, y), 5), 18)
        bench.diameter(f"h{k}", "face", (x, y, 18), (x + 2.5, y, 18), caliper=True, suffix="through")
    (drawing, *_), findings = draw_sheet(samples.statement(bench), "1")
    assert [finding.code for finding in findings] == ["sheet-crowded"]
    assert "Sheet 1" in findings[0].message
    assert faults(to_svg(drawing, "s")) == []


def test_balloons_touch_nothing_but_what_they_name() -> None:
    components = desk_like()
    labels = {component.name: str(k + 1) for k, component in enumerate(components)}
    for side in ("front", "rear", "left", "right", "top", "below"):
        svg = to_svg(draw_elevation(components, side, Canvas(labels=labels)), "e")
        assert [fault for fault in faults(svg) if " on " in fault] == []
