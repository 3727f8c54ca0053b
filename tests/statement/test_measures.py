"""Bare measures in prose are found, ordinary numbers are left alone, and the remedy names what prints the same."""

import re
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planbook.statement.prose import Named, Names, Sort, read_line
from planbook.statement.prose.measures import bare_measures

from .names import NAMES, inches, text

MM, INCH = 1e6, 25.4e6


@pytest.mark.parametrize(
    ("words", "typed", "value"),
    [
        ("drill 10 mm deep", "10 mm", 10 * MM),
        ("drill 10mm deep", "10mm", 10 * MM),
        ("a 10-mm hole", "10-mm", 10 * MM),
        ("set 1/4 in.", "1/4 in", INCH / 4),
        ("23 5/8 inches long", "23 5/8 inches", 23.625 * INCH),
        ("23-5/8 in long", "23-5/8 in", 23.625 * INCH),
        ('a 3" gap', '3"', 3 * INCH),
        ("a 3″ gap", "3″", 3 * INCH),
        (".005 in of play", ".005 in", 0.005 * INCH),
        ("12 in long", "12 in", 12 * INCH),
        ("tilt it 7.5° to the left", "7.5°", 7.5),
        ("tilt it 7.5 degrees", "7.5 degrees", 7.5),
        ("lift 15 kg", "15 kg", 15.0),
        ("pull with 40 N", "40 N", 40e9),
        ("3 feet away", "3 feet", 36 * INCH),
        ("a 1/4-20 bolt", "1/4-20", None),
        ("an M6 bolt", "M6", None),
        ("an M6 x 40 bolt", "M6 x 40", None),
        ("1/0 in", "1/0 in", INCH),
        ("10x20 mm", "20 mm", 20 * MM),
        ("10 x 20 mm", "20 mm", 20 * MM),
    ],
)
def test_a_measure_is_found(words, typed, value):
    found = [(measure.text, measure.value) for measure in bare_measures(words)]
    assert found[0] == (typed, value if value is None else pytest.approx(value))
    assert words[next(bare_measures(words)).offset :].startswith(typed)


@pytest.mark.parametrize(
    "words",
    [
        "9" * 400 + " mm",
        "1." + "0" * 5000 + " in",
        "cut part 9 and part 11",
        "go back to step 3",
        "step 3 in the order of work, part 9 in figure 2",
        "wait 30 minutes, better 24 hours",
        "not for children under 8 years",
        "put 4 in each corner and 2 in the holes",
        "sand with 180 grit",
        "moisture of 6 to 9 %",
        "glue at 20 °C",
        "two of 3/4 of the sheets",
        "version 1.0, edition 2",
        'as "the table on page 3" says',
        "4 screws, 26 parts",
        "No. 8 in the list",
        "at 12:30 in the shop",
        "3 names and 5 nails",
    ],
)
def test_a_number_that_measures_nothing_is_left_alone(words):
    assert list(bare_measures(words)) == []


@pytest.mark.parametrize(
    ("words", "remedy"),
    [
        ("rises 3 in", "Write {{ ramp.rise }} (3 in [76 mm])."),
        ("rises 76.2 mm", "Write {{ ramp.rise }} (3 in [76 mm])."),
        ("at 13.5°", "Write {{ ramp.slope }} (13.5°)."),
        ("a 9/32 in hole", "Write {{ hardware.bolt_6.clearance }} (9/32 in [7 mm])."),
        ("a 1/4 in hole", "Write {{ dim.ramp_bar.pivot.diameter }} (1/4 in [6 mm])."),
        ("a 1/4-20 bolt", "Write {{ hardware.bolt_6.title }} (1/4-20 hex bolt)."),
        ("a 99 in hole", "Name it in parameters.yaml (some.name: 99 in) and write {{ some.name }} here."),
    ],
)
def test_the_remedy_proposes_what_prints_the_same(words, remedy):
    (finding,) = read_line(text(words), NAMES)[1]
    assert (finding.code, finding.severity) == ("bare-measure", "stop")
    assert finding.remedy == remedy


def test_a_parameter_is_proposed_before_a_dimension_and_that_before_hardware():
    same = [inches(path, "3", "76", 3) for path in ("hardware.a.b", "dim.a.b.x", "zone.end")]
    (finding,) = read_line(text("rises 3 in"), Names({each.path: each for each in same}))[1]
    assert re.findall(r"{{ (\S+) }}", finding.remedy) == ["zone.end", "dim.a.b.x", "hardware.a.b"]


def test_what_the_plan_set_has_no_use_for_is_not_proposed():
    same = [inches(path, "3", "76", 3) for path in ("hardware.bolt.length", "stock.sheet.thickness")]
    titled = [Named(f"hardware.{key}.title", Sort.WORDS, plain="1/4-20 bolt") for key in ("bolt", "long_bolt")]
    named = {each.path: each for each in (*same, *titled)}
    idle = frozenset({"hardware.bolt.length", "hardware.bolt.title"})
    (measure, thread) = read_line(text("rises 3 in on a 1/4-20"), Names(named, idle=idle))[1]
    assert re.findall(r"{{ (\S+) }}", measure.remedy) == ["stock.sheet.thickness"]
    assert re.findall(r"{{ (\S+) }}", thread.remedy) == ["hardware.long_bolt.title"]
    # Of a thread that only idle hardware has, it is said how to have it.
    (unused,) = read_line(text("on a 1/4-20"), Names(named, idle=frozenset(named)))[1]
    assert unused.remedy == "Ask for it in hardware.yaml (item: bolt) and write {{ hardware.bolt.title }} here."
    (unknown,) = read_line(text("on an M99"), Names(named))[1]
    assert "market's table" in unknown.remedy


def test_what_stands_in_a_name_or_a_comment_is_not_prose():
    assert read_line(text("{{ ramp.rise }} {# was 10 mm #} {{ ramp.run }} in all"), NAMES)[1] == ()


@settings(deadline=None)
@given(st.integers(0, 99), st.integers(1, 63), st.sampled_from((2, 4, 8, 16, 32, 64)))
def test_mixed_fractions_are_read_exactly(whole, above, below):
    (measure,) = bare_measures(f"cut {whole} {above}/{below} in wide")
    assert measure.value == float((whole + Fraction(above, below)) * 25_400_000)


@settings(deadline=None)
@given(st.text(alphabet='0123456789 ./-#Mxm"in°CkgN', max_size=40))
def test_any_text_is_searched_without_fault(words):
    for measure in bare_measures(words):
        assert words[measure.offset :].startswith(measure.text)
