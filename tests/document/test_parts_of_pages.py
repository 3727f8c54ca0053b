"""What pages are put together from: panels, figures, charts, the order of chapters."""

from __future__ import annotations

import io
import xml.etree.ElementTree as ET
from dataclasses import replace

from planbook.document import Composed, compose
from planbook.document.charts import draw_chart
from planbook.document.fill import fill, keep_together, placed_figures, placed_tables
from planbook.document.panels import shorten, with_anchor
from planbook.source import Door

from .readback import page_texts
from .tote import caution, state

DUST = caution("dust", "warning", "Wood dust", "It harms <em>the lungs. And</em> more. Extract it.")
RAGS = caution("rags", "caution", "Oily rags", "They burn.")


def test_a_caution_in_brief_keeps_its_word_its_name_and_its_first_sentence() -> None:
    brief = shorten(DUST + RAGS, {"dust"})
    assert "WARNING" in brief
    assert "Wood dust." in brief
    assert "It harms <em>the lungs. And</em> more. <a" in brief
    assert "Extract it." not in brief
    assert 'href="#caution.dust"' in brief
    assert RAGS in brief
    assert shorten(DUST, frozenset()) == DUST
    assert with_anchor(DUST).startswith('<aside id="caution.dust"')


def test_cautions_are_told_in_full_in_their_chapter_only(door: Door) -> None:
    stated = state()
    prose = tuple(
        replace(each, cautions_html=DUST if each.slot == "step" else "", html=each.html + DUST) for each in stated.prose
    )
    done, findings = compose(replace(stated, prose=prose, cautions_html={"dust": DUST}), door)
    assert findings == ()
    assert done is not None
    steps = sum(each.slot == "step" for each in prose)
    assert done.html.count("Extract it.") == 1
    assert done.html.count('href="#caution.dust"') == len(prose) + steps
    assert (
        f"Cautions, page {next(page for page, text in enumerate(page_texts(done.pdf), 1) if 'Extract it.' in text)}"
        in (" ".join(" ".join(page_texts(done.pdf)).split()))
    )


def test_measures_and_numbers_of_parts_stay_in_one_line() -> None:
    measure = '<span class="q" data-mark="parameter:a b">.125 in <span class="second">[.3 mm]</span></span>'
    kept = keep_together(f'up to {measure}; see <a class="ref" href="#part.x">ramp bar (part 11)</a>')
    assert kept == (
        'up to \u200b<span class="q" data-mark="parameter:a b">.\u2060125\xa0in\xa0<span class="second">'
        '[.\u20603\xa0mm]</span></span>; see <a class="ref" href="#part.x">ramp bar (part\xa011)</a>'
    )


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


def test_a_limit_far_over_the_curves_is_in_the_chart() -> None:
    chart = state().charts["room"]
    curve = replace(chart.curves[0], y=tuple(9.0 + at % 9 for at in range(len(chart.x))))
    limits = (replace(chart.limits[0], y=30.0),)
    svg = draw_chart(replace(chart, y_unit="N", curves=(curve,), limits=limits), 124.0).decode()
    assert ">30<" in svg


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
