"""SVG as written: golden sheets, true arcs, numbers, text that reads back, places."""

from __future__ import annotations

import re
import subprocess
from pathlib import Path
from xml.etree import ElementTree

import pytest
import weasyprint
from hypothesis import given
from hypothesis import strategies as st

from planbook.drawing import draw_part_figure, draw_sheet, label_places, to_svg
from planbook.drawing.lettering import label_corners, set_runs, text_width, wrap
from planbook.drawing.recording import Anchor, Circle, Drawing, Label, LineTo, Pen, Pt, Stroke
from planbook.drawing.svg import number
from tests.drawing import samples
from tests.drawing.checker import font, read
from tests.drawing.golden.renew import golden, golden_marked


@pytest.mark.parametrize("inch", [False, True], ids=["metric", "inch"])
def test_golden_sheet(inch: bool) -> None:
    """A small sheet in each edition, letter by letter."""
    path, svg = golden(inch)
    assert svg == path.read_text(encoding="utf-8")


def test_golden_marked_sheet() -> None:
    path, svg = golden_marked()
    assert svg == path.read_text(encoding="utf-8")


@given(st.floats(-1e4, 1e4))
def test_numbers_are_to_a_micrometre_and_short(value: float) -> None:
    text = number(value)
    assert abs(float(text) - value) <= 0.0005 + 1e-9
    assert re.fullmatch(r"-?\d+(\.\d{0,2}[1-9])?", text)
    assert text != "-0"


def test_arcs_of_an_outline_are_arcs() -> None:
    svg = to_svg(draw_part_figure(samples.statement(samples.button()), "button", "face"), "f")
    paths = re.findall(r'd="(M[^"]*)"', svg)
    arcs = [path for path in paths if re.search(r"A(\d+(?:\.\d+)?) \1 0 0 [01] ", path)]
    assert len(arcs) == 4
    assert not [path for path in paths if path.count("L") > 4]
    assert svg.count("<circle") == 2


def test_root_carries_size_and_alternative_text() -> None:
    drawing = Drawing(120, 80.5, (), "A <plain> picture")
    root = ElementTree.fromstring(to_svg(drawing, "p"))
    assert (root.get("width"), root.get("height"), root.get("viewBox")) == ("120mm", "80.5mm", "0 0 120 80.5")
    assert root.get("fill") == "none"
    assert root[0].tag.endswith("title")
    assert root[0].text == "A <plain> picture"


def test_ids_are_prefixed_and_unlike() -> None:
    (drawing, *_), _ = draw_sheet(samples.statement(samples.leg()), "1")
    ids = re.findall(r' id="([^"]*)"', to_svg(drawing, "sheet-7"))
    assert len(ids) == len(set(ids)) == len(drawing.marks)
    assert all(name.startswith("sheet-7") for name in ids)


def test_places_say_where_each_dimension_stands() -> None:
    (drawing, *_), _ = draw_sheet(samples.statement(samples.leg(True)), "1")
    inked = {text.mark: text for text in read(to_svg(drawing, "s")).texts if text.mark}
    places = label_places(drawing)
    assert {mark for mark, *_ in places} == set(inked)
    for mark, x, y, text in places:
        assert inked[mark].words == text
        left, top, right, bottom = inked[mark].ink.bounds
        assert left - 1 <= x <= right + 1
        assert top - 1 <= y <= bottom + 1


def test_a_label_is_as_wide_as_the_font_says() -> None:
    """Against the font file itself: units per em and advances."""
    source = font(False)
    advances, cmap = source["hmtx"], source.getBestCmap()
    size = 2.5 / (source["OS/2"].sCapHeight / source["head"].unitsPerEm)
    for text in ("600", "through", "Ø7 [x]"):
        units = sum(advances[cmap[ord(letter)]][0] for letter in text)
        assert text_width(text, 2.5) == pytest.approx(units / source["head"].unitsPerEm * size)


@pytest.mark.parametrize(
    ("text", "figures"),
    [("23 5/8 [600]", ["5", "8"]), ("4x Ø9/32 [7]", ["9", "32"]), ("±1/32", ["1", "32"]), ("R1/2", ["1", "2"])],
)
def test_fractions_are_built(text: str, figures: list[str]) -> None:
    runs = set_runs(text, 2.5)
    assert "".join(run.text for run in runs) == text
    over, under = (next(run for run in runs if run.text == figure) for figure in figures)
    assert over.rise > under.rise
    assert over.size == under.size < runs[-1].size or runs[-1] is under


@pytest.mark.parametrize("text", ["2026/03/01", "and/or", "1.5/2", "+0.5/0"])
def test_what_only_looks_like_a_fraction_is_left(text: str) -> None:
    assert len(set_runs(text, 2.5)) == 1


def test_lines_break_at_spaces_but_never_in_a_mixed_number() -> None:
    lines = wrap("cut it 23 5/8 long and 23 5/8 wide, then sand", 2.5, 22)
    assert all(text_width(line, 2.5) <= 22 for line in lines)
    assert " ".join(lines) == "cut it 23 5/8 long and 23 5/8 wide, then sand"
    assert not any(re.search(r"\d$", line) and not line.endswith("5/8") for line in lines)


@pytest.mark.parametrize("whole", ["[3 mm]", "6 3/4 in", "[279.5 mm]", "(part 17)", "step 10", "9 %"])
def test_lines_break_neither_in_a_measure_nor_before_a_number(whole: str) -> None:
    for width in range(8, 40):
        assert any(whole in line for line in wrap(f"laid {whole} on", 2.5, width))


@given(st.sampled_from(list(Anchor)), st.sampled_from([0.0, 90.0]), st.floats(-50, 50), st.floats(-50, 50))
def test_corners_turn_with_a_label(anchor: Anchor, angle: float, x: float, y: float) -> None:
    label = Label("Width 5/8", Pt(x, y), 2.5, anchor, angle)
    low_left, low_right, high_right, high_left = label_corners(label)
    width = text_width(label.text, 2.5)
    along = (low_right.x - low_left.x, low_right.y - low_left.y)
    assert along == pytest.approx((width, 0) if angle == 0 else (0, -width), abs=1e-9)
    up = (high_left.x - low_left.x, high_left.y - low_left.y)
    assert (up[1] < 0 and abs(up[0]) < 1e-9) if angle == 0 else (up[0] < 0 and abs(up[1]) < 1e-9)
    assert high_right.x - low_right.x == pytest.approx(up[0])


def test_a_shape_with_holes_is_one_path() -> None:
    def square(low: float, high: float) -> Stroke:
        corners = Pt(high, low), Pt(high, high), Pt(low, high)
        return Stroke(Pt(low, low), tuple(LineTo(p) for p in corners), None, closed=True, fill="white")

    outer = square(0, 10)
    shape = Stroke(outer.start, outer.steps, Pen.EDGE, True, "white", (square(3, 6),))
    svg = to_svg(Drawing(10, 10, (shape, Circle(Pt(1, 1), 0.5, Pen.CENTRE)), ""), "h")
    assert svg.count("<path") == 1
    assert svg.count("Z") == 2
    assert 'fill-rule="evenodd"' in svg
    assert "stroke-dasharray" in svg


def test_fractions_read_back_from_a_pdf(tmp_path: Path) -> None:
    label = Label("23 5/8 [600] ±1/32", Pt(10, 10), 2.5)
    svg = to_svg(Drawing(80, 20, (label,), "t"), "t")
    path = tmp_path / "t.pdf"
    weasyprint.HTML(string=f"<style>@page{{size:80mm 20mm;margin:0}}</style>{svg}").write_pdf(path)
    text = subprocess.run(["pdftotext", str(path), "-"], capture_output=True, text=True, check=True).stdout
    assert "23 5/8 [600] ±1/32" in text
