"""Signs at numbers: drawn in the place of words, told apart by form, and explained where a sheet has them."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import combinations

import pytest
import shapely

from planbook.drawing import draw_sheet, to_svg
from planbook.drawing.frame import page_of
from planbook.drawing.ink import around, label_box
from planbook.drawing.lines import LETTER, letter, lettering_box, line_width
from planbook.drawing.recording import Anchor, Drawing, Label, Pt, Stroke
from planbook.drawing.signs import Sign, draw_sign, sign_width
from planbook.drawing.wording import Line, dimension_line, dimension_text
from planbook.statement.model import StandingStated, Statement
from tests.drawing import samples


def shape(sign: Sign) -> shapely.Geometry:
    """What a sign inks, from its start at (0, 0)."""
    drawn = draw_sign(sign, Pt)
    paths = [(each, [each.start, *(step.end for step in each.steps)]) for each in drawn]
    inked = [shapely.Polygon(p) if s.closed else shapely.LineString(p).buffer(0.125) for s, p in paths]
    return shapely.union_all(inked)


def marked(**standing: str) -> Statement:
    """The button with a standing for dimensions by feature and measure."""
    statement = samples.statement(samples.button())
    changed = {
        name: replace(each, standing=StandingStated(standing.get(name.partition("/")[2].replace("/", "_"), "")))
        for name, each in statement.dimensions.items()
    }
    return replace(statement, dimensions=changed)


def sheet(statement: Statement) -> Drawing:
    (drawing, *_), findings = draw_sheet(statement, "1")
    assert not findings
    return drawing


def words(drawing: Drawing) -> set[str]:
    return {each.text for each in drawing.primitives if isinstance(each, Label)}


def signs(drawing: Drawing) -> list[str]:
    return [each.words for each in drawing.primitives if isinstance(each, Stroke) and each.words]


@pytest.mark.parametrize("sign", Sign)
def test_a_sign_is_as_wide_as_it_says_and_no_higher_than_capitals_with_their_room(sign: Sign) -> None:
    box = around([p for each in draw_sign(sign, Pt) for p in (each.start, *(step.end for step in each.steps))])
    assert (box.left, box.right) == pytest.approx((0.0, sign_width(sign)))
    assert box.bottom - box.top <= LETTER + 1e-9


def test_signs_differ_by_form_alone() -> None:
    for one, two in combinations(Sign, 2):
        a, b = shape(one), shape(two)
        assert a.symmetric_difference(b).area > 0.25 * max(a.area, b.area), (one, two)


@pytest.mark.parametrize("anchor", Anchor)
@pytest.mark.parametrize("angle", [0.0, 90.0])
def test_lettering_with_signs_takes_the_room_that_it_asked_for(anchor: Anchor, angle: float) -> None:
    line = Line("Ø15", signs=(Sign.CALIPER, Sign.CRITICAL), before=(Sign.COUNTERBORE,))
    box = lettering_box(letter(line, Pt(0.0, 0.0), anchor, angle))
    length = box.bottom - box.top if angle else box.right - box.left
    assert length == pytest.approx(line_width(line), abs=0.3)


def test_signs_stand_for_the_words_that_the_statement_keeps() -> None:
    statement = samples.statement(samples.button())
    sink = statement.dimensions["button/screw/countersink_diameter"]
    assert (dimension_text(sink), dimension_line(sink).text) == ("countersink Ø10", "Ø10")
    assert dimension_line(sink).before == (Sign.COUNTERSINK,)
    deep = replace(sink, prefix="", suffix="deep along its axis")
    assert (dimension_line(deep).text, dimension_line(deep).before) == ("10 along its axis", (Sign.DEPTH,))
    pocket = replace(sink, prefix="pocket", suffix="deep")
    assert (dimension_line(pocket).text, dimension_line(pocket).before) == ("pocket 10 deep", ())


def test_who_does_not_see_a_sign_hears_its_word() -> None:
    assert re.search(r"<path [^>]*><title>countersink</title></path>", to_svg(sheet(marked()), "x"))


def test_the_notes_say_what_a_sign_means_where_the_sheet_has_it() -> None:
    plain = sheet(marked())
    assert not {"critical", "free"} & set(signs(plain))
    assert not any("critical" in text or "yours" in text for text in words(plain))
    both = sheet(marked(blank_length="critical", blank_width="free"))
    assert sorted(sign for sign in signs(both) if sign in ("critical", "free")) == ["critical"] * 2 + ["free"] * 2
    assert "critical to the fit: keep to it" in words(both)
    assert "yours to change: see “What you may change”" in words(both)


@pytest.mark.parametrize("inch", [False, True])
def test_what_signs_mean_stays_in_the_field_of_the_notes(inch: bool) -> None:
    """On Letter that is narrower, and the words go over two lines."""
    both = samples.statement(samples.button(inch))
    free = {name: replace(each, standing=StandingStated("free", "")) for name, each in both.dimensions.items()}
    drawing = sheet(replace(both, dimensions=free))
    page = page_of(both.edition.paper)
    meaning = [each for each in drawing.primitives if isinstance(each, Label) and "change" in each.text]
    assert meaning
    assert all(label_box(each).right < page.notes.right for each in meaning)
