"""What pages are put together from: panels, figures, charts, the order of chapters."""

from __future__ import annotations

import io
import xml.etree.ElementTree as ET
from dataclasses import replace

from planbook.document import Composed, compose
from planbook.document.charts import draw_chart
from planbook.document.fill import fill, placed_figures, placed_tables
from planbook.document.panels import named_in, shorten, with_anchor
from planbook.source import Door

from .readback import page_texts
from .tote import caution, state

DUST = caution("dust", "warning", "Wood dust", "Extract it.")
RAGS = caution("rags", "caution", "Oily rags", "They burn.")


def test_a_caution_told_before_keeps_its_word_and_title_and_says_where_it_stands() -> None:
    brief = shorten(DUST + RAGS, {"dust"})
    assert "WARNING" in brief
    assert "Wood dust" in brief
    assert "Extract it." not in brief
    assert 'href="#caution.dust"' in brief
    assert RAGS in brief
    assert shorten(DUST, frozenset()) == DUST
    assert named_in(DUST + RAGS) == {"dust", "rags"}
    assert with_anchor(DUST).startswith('<aside id="caution.dust"')


def test_the_first_step_tells_a_caution_in_full_and_the_next_in_brief(door: Door) -> None:
    stated = state()
    prose = tuple(
        replace(each, cautions_html=DUST) if each.slot == "step" else replace(each, cautions_html="")
        for each in stated.prose
    )
    done, findings = compose(replace(stated, prose=prose), door)
    assert findings == ()
    assert done is not None
    assert done.html.count("Extract it.") == 1
    assert done.html.count('href="#caution.dust"') == 1


def test_figures_and_tables_are_put_where_prose_left_room() -> None:
    page = (
        '<p>a</p><figure id="figure.x" data-figure="x" data-block="b"></figure><div id="table.t" data-table="t"></div>'
    )
    assert placed_figures([page, page]) == ("x",)
    assert placed_tables([page]) == {"t"}
    filled = fill(page, lambda name: f"[{name}]", lambda name: f"({name})", frozenset({"x"}))
    assert '<figure class="wide" id="figure.x" data-figure="x" data-block="b">[x]</figure>' in filled
    assert '<div id="table.t" data-table="t">(t)</div>' in filled


def test_a_chart_is_the_same_every_time_and_keeps_its_words() -> None:
    chart = state().charts["room"]
    svg = draw_chart(chart, 124.0)
    assert svg == draw_chart(chart, 124.0)
    root = ET.parse(io.BytesIO(svg)).getroot()
    words = {" ".join("".join(text.itertext()).split()) for text in root.iter("{http://www.w3.org/2000/svg}text")}
    assert {"Overall length, mm", "Room inside, mm", "in", "plane", "clear length inside", "short bay"} <= words
    assert b"metadata" not in svg
    # 124 mm wide in points of 1/72 in.
    assert abs(float(root.attrib["width"].removesuffix("pt")) - 124 / 25.4 * 72) < 0.01


def test_a_chart_of_no_lengths_has_no_second_axes() -> None:
    chart = replace(state().charts["room"], x_unit="°", y_unit="N")
    svg = draw_chart(chart, 124.0).decode()
    assert "Overall length, °" in svg
    assert ">mm<" not in svg
    assert ">in<" not in svg


def test_words_of_charts_and_sheets_can_be_searched_in_the_pdf(metric: Composed) -> None:
    texts = page_texts(metric.pdf)
    assert any("Overall length, mm" in text for text in texts)
    assert "290 [11 1/2]" in texts[metric.places.targets["sheet.1"].page - 1]


def test_a_set_without_steps_back_pages_or_cautions_has_no_empty_chapters(door: Door) -> None:
    stated = state()
    bare = replace(
        stated,
        prose=tuple(each for each in stated.prose if each.slot == "front"),
        cautions_html={},
        statement=replace(stated.statement, steps=(), changes=()),
    )
    done, findings = compose(bare, door)
    assert findings == ()
    assert done is not None
    for absent in (">Cautions<", ">Building<", ">Care<"):
        assert absent not in done.html
    assert "Nothing came before it" in done.html


def test_a_set_without_a_page_on_how_to_use_it_still_explains_its_dimensions(door: Door) -> None:
    stated = state()
    done, _ = compose(replace(stated, prose=tuple(p for p in stated.prose if p.key != "how_to_use")), door)
    assert done is not None
    assert "How to use these plans" in done.html
    assert "Print scale" in done.html
