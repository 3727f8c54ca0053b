"""Pages: names print as values and references, what is wrong is found at its line and column."""

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planbook.statement.naming import spoken
from planbook.statement.prose import Names, Written, number_figures, read_line, read_pages

from .names import NAMES, text


def read(*written):
    """Read pages as an edition does: figures are numbered first."""
    return read_pages(written, NAMES.numbered(number_figures(written, NAMES)))


def page(body):
    (only_page,), findings = read(Written("how_to", "How to", text(body)))
    return only_page, findings


def clean(body):
    read, findings = page(body)
    assert findings == ()
    return read


def only(body):
    """The single finding of a page."""
    (finding,) = page(body)[1]
    return finding


def test_a_value_is_marked_in_both_units_with_a_real_fraction():
    read = clean("Run it {{ ramp.run }} long.")
    assert read.html == (
        '<p data-block="how_to/start/1">Run it <span class="q" data-mark="parameter:ramp.run">12 <span class="f">1/2'
        '</span> in <span class="second">[318 mm]</span></span> long.</p>'
    )
    assert read.blocks[1].text == "Run it 12 1/2 in [318 mm] long."


@pytest.mark.parametrize(
    ("name", "html"),
    [
        ("ramp.slope", '<span class="q" data-mark="parameter:ramp.slope">13.5°</span>'),
        (
            "dim.ramp_bar.pivot.diameter",
            '<span class="q" data-mark="dimension:ramp_bar/pivot/diameter"><span class="f">1/4</span> in '
            '<span class="second">[6 mm]</span></span>',
        ),
        ("hardware.bolt_6.title", "1/4-20 hex bolt"),
        ("part.ramp_bar", '<a class="ref" href="#part.ramp_bar">ramp bar (part 11)</a>'),
        ("sheet.ramp_bar", '<a class="ref paged" href="#sheet.11">sheet 11</a>'),
        ("page.how_to", '<a class="ref paged" href="#page.how_to">How to use the plans</a>'),
        ("step.frames", '<a class="ref paged" href="#step.frames">step 3</a>'),
        ("see.hardware", '<a class="ref paged" href="#table.hardware">hardware list</a>'),
        ("edition.units", "inch"),
    ],
)
def test_each_sort_of_name_is_printed_as_the_contract_says(name, html):
    assert f"see {html}," in clean(f"Now see {{{{ {name} }}}}, please.").html


def test_an_outline_vertex_is_named_through_its_outline():
    assert 'data-mark="dimension:ramp_bar/outline.heel/x"' in clean("{{ dim.ramp_bar.outline.heel.x }}").html


def test_a_reference_opens_a_sentence_with_a_capital():
    read = clean("{{ part.ramp_bar }} first. {{ sheet.ramp_bar }} shows it, {{ part.ramp_bar }}.")
    assert read.blocks[1].text == "Ramp bar (part 11) first. Sheet 11 shows it, ramp bar (part 11)."
    assert re.findall(r">([^<>]+)</a>", read.html) == ["Ramp bar (part 11)", "Sheet 11", "ramp bar (part 11)"]


def test_figures_are_numbered_in_order_of_placement_over_all_pages():
    written = [
        Written("a", "A", text("See {{ see.stowed }}.\n\n{{ figure.lift }}")),
        Written("b", "B", text("{{ figure.stowed }}\n\nBack to {{ see.lift }}.")),
    ]
    pages, findings = read(*written)
    assert findings == ()
    assert number_figures(written, NAMES) == {"lift": 1, "stowed": 2}
    assert '<a class="ref paged" href="#figure.stowed">figure 2</a>' in pages[0].html
    assert '<figure data-block="a/start/2" data-figure="lift" id="figure.lift"></figure>' in pages[0].html
    assert pages[1].blocks[2].text == "Back to figure 1."
    assert [block.text for block in pages[0].blocks if block.kind == "caption"] == ["The lift."]


def test_a_table_and_a_caution_take_a_paragraph():
    read = clean("Before.\n\n{{ table.hardware }}\n\n{{ caution.pinch }}\n")
    assert '<div data-block="how_to/start/2" data-table="hardware" id="table.hardware"></div>' in read.html
    assert (
        '<aside class="caution caution-warning" data-block="how_to/start/3" data-caution="pinch">'
        '<p class="caution-word">WARNING</p><p class="caution-title">Pinch</p>'
        '<p class="caution-text">Keep fingers out.</p></aside>'
    ) in read.html
    assert read.blocks[-1].text == "WARNING. Pinch. Keep fingers out."
    assert read.blocks[-1].kind == "caution"


def test_blocks_are_named_by_page_heading_and_count():
    read = clean("First.\n\n## Set up\n\n- one\n- two\n    1. deep\n\n## Set up\n\n| a | b |\n|---|---|\n| 1 | 2 |\n")
    assert [(block.id, block.kind, block.text) for block in read.blocks] == [
        ("how_to/start/0", "heading", "How to"),
        ("how_to/start/1", "paragraph", "First."),
        ("how_to/set-up/0", "heading", "Set up"),
        ("how_to/set-up/1", "item", "one"),
        ("how_to/set-up/2", "item", "two"),
        ("how_to/set-up/3", "item", "deep"),
        ("how_to/set-up-2/0", "heading", "Set up"),
        ("how_to/set-up-2/1", "row", "a | b"),
        ("how_to/set-up-2/2", "row", "1 | 2"),
    ]
    assert re.findall(r'data-block="([^"]*)"', read.html) == [block.id for block in read.blocks[1:]]


def test_definition_lists_and_loose_items_are_blocks():
    read = clean("Kerf\n:   What the blade eats.\n\n- one\n\n    more\n\n- two\n")
    assert [(block.kind, block.text) for block in read.blocks[1:]] == [
        ("term", "Kerf"),
        ("definition", "What the blade eats."),
        ("paragraph", "one"),
        ("paragraph", "more"),
        ("paragraph", "two"),
    ]


def test_rewrapping_a_paragraph_says_the_same():
    assert clean("One\ntwo  three").blocks == clean("One two\nthree").blocks


def test_raw_html_is_shown_as_text():
    read = clean('<script>alert(1)</script>\n\n<div onclick="x()">\n\n`<b>` &amp; a < b\n')
    assert "<script" not in read.html
    assert "<div" not in read.html
    assert read.blocks[1].text == "<script>alert(1)</script>"
    assert read.blocks[-1].text == "<b> & a < b"


def test_attribute_lists_leave_a_class_and_nothing_else():
    read = clean('Small print.\n{: .small #sheet.11 onclick="x()" style="position:fixed" }\n')
    assert read.html == '<p class="small" data-block="how_to/start/1">Small print.</p>'


def test_a_condition_asks_for_the_edition():
    body = '{% if edition.units == "inch" %}Inch bits.{% else %}Metric bits.{% endif %}'
    assert clean(body).blocks[1].text == "Inch bits."


def test_an_unknown_name_is_found_in_every_branch():
    finding = only('Fine.\n\n{% if edition.units == "inch" %}ok{% else %}the {{ ramp.rize }}{% endif %}\n')
    assert (finding.code, finding.place.line, finding.place.column) == ("unknown-name", 3, 52)
    assert "ramp.rise" in finding.remedy


@pytest.mark.parametrize(
    ("body", "code", "column", "words"),
    [
        ("It is {{ ramp.rize }}.", "unknown-name", 10, "ramp.rise"),
        ("It is {{ ramp }}.", "unknown-name", 10, "ramp.rise, ramp.run, ramp.slope"),
        ("See {{ sheet.ramp_baar }}.", "unknown-name", 8, "sheet.ramp_bar"),
        ("{{ ramp.rise * 2 }}", "arithmetic-in-prose", 4, "parameters.yaml"),
        ("{{ 2 * ramp.rise }}", "arithmetic-in-prose", 4, "parameters.yaml"),
        ("{{ -ramp.rise }}", "arithmetic-in-prose", 4, "parameters.yaml"),
        ("x {{ ''.__class__ }}", "forbidden", 6, "name of a parameter"),
        ("{{ ramp.rise.__init__ }}", "forbidden", 4, "name of a parameter"),
        ("{{ ramp['__class__'] }}", "forbidden", 4, "name of a parameter"),
        ("{{ ramp.rise|attr('__class__') }}", "not-in-prose", 4, "plain words"),
        ("{{ ''.__class__.__mro__[1].__subclasses__() }}", "forbidden", 4, "name of a parameter"),
        ("{% for i in range(10**9) %}x{% endfor %}", "not-in-prose", 4, "plain words"),
        ("{% include '/etc/passwd' %}", "not-in-prose", 4, "plain words"),
        ("{% import 'os' as os %}", "not-in-prose", 4, "plain words"),
        ("{% set a = 1 %}", "not-in-prose", 4, "plain words"),
        ("{{ cycler('a') }}", "not-in-prose", 4, "plain words"),
        ("{{ 3 }}", "not-in-prose", 4, "plain words"),
        ("{% if ramp.rise %}a{% endif %}", "not-in-prose", 7, "edition.units"),
        ("{{ ramp.rise", "template-syntax", 9, "{{ }}"),
        ("a {{ ramp. }}", "template-syntax", 12, "{{ }}"),
        ("{% endif %}", "template-syntax", 4, "{{ }}"),
        ("{% iff x %}", "template-syntax", 4, "{{ }}"),
        ("a {{ ramp.rise } b", "template-syntax", 16, "{{ }}"),
        ("Then {{ figure.lift }} follows.", "not-alone", 9, "{{ figure.lift }}"),
        ("See {{ see.lift }}.", "figure-not-shown", 8, "{{ figure.lift }}"),
        ("{{ figure.lift }}\n\n{{ figure.lift }}", "figure-twice", 4, "{{ see.lift }}"),
        ("See [this](https://example.org/a).", "link-in-prose", 5, "page.how_to"),
        ("See <https://example.org>.", "link-in-prose", 5, "page.how_to"),
        ("See [this][a].\n\n", "link-in-prose", 5, "page.how_to"),
        ("[a]: https://example.org", "link-in-prose", 1, "page.how_to"),
        ("![x](file:///etc/passwd)", "link-in-prose", 1, "figures.yaml"),
        ("![x](pictures/My clamp.png)", "picture-in-prose", 1, "figures.yaml"),
        ("![x](pictures/clamp.png)", "picture-in-prose", 1, "{{ figure.clamp }}"),
        ("odd \ue000 sign", "private-character", 5, "U+E000"),
    ],
)
def test_what_is_wrong_is_found_with_its_place_and_a_remedy(body, code, column, words):
    finding = only(body)
    assert finding.code == code
    assert finding.place.column == column
    assert finding.place.file == "pages/test.md"
    assert words in finding.remedy + finding.message


@pytest.mark.parametrize(
    ("name", "remedy"),
    [
        ("page.zzz", "Names there are: page.how_to; another needs a file in pages/."),
        (
            "dim.ramp_bar.zzz",
            "Names there are: dim.ramp_bar.pivot, dim.ramp_bar.outline; another needs a feature of a part.",
        ),
        ("stop.zzz", "Name it in parameters.yaml first."),
        ("ramp.zzz", "Name it in parameters.yaml first, or take one of ramp.rise, ramp.run, ramp.slope."),
        ("table.zzz", "Names there are: table.hardware."),
    ],
)
def test_a_name_like_none_is_told_which_there_are(name, remedy):
    (finding,) = read_line(text(f"See {{{{ {name} }}}}."), NAMES)[1]
    assert (finding.code, finding.remedy) == ("unknown-name", remedy)


def test_where_a_group_has_no_names_yet_it_is_told_what_makes_one():
    (finding,) = read_line(text("See {{ step.zzz }}."), Names({}))[1]
    assert finding.remedy == "There is none yet; one needs a file in steps/."


def test_all_that_is_wrong_on_a_page_is_found_at_once():
    body = "{{ a.b }} and {{ ramp.rise + 1 }}\n\n![x](y.png) 10 mm\n"
    assert [finding.code for finding in page(body)[1]] == [
        "unknown-name",
        "arithmetic-in-prose",
        "picture-in-prose",
        "bare-measure",
    ]


def test_the_place_counts_from_where_the_body_starts():
    _, findings = read(Written("a", "A", text("ok\n\n{{ nope }}\n", line=7)))
    assert (findings[0].place.line, findings[0].place.column) == (9, 4)


def test_deep_nesting_is_a_finding():
    assert only("{{ " + "(" * 5000 + "a" + ")" * 5000 + " }}").code == "template-syntax"
    assert only("1. " * 3000).code == "page-too-long"
    assert only("{{ " + "a." * 3000 + "a }}").code == "unknown-name"
    assert only("{% if " + "not " * 3000 + "edition.units %}{% endif %}").code == "template-syntax"
    nested = "{% if edition.units == 'inch' %}" * 9 + "{% endif %}" * 9
    assert only(nested).code == "not-in-prose"


@pytest.mark.parametrize("body", ["a" * 100_001, "=\n" * 401])
def test_what_would_take_too_long_is_not_read(body):
    assert only(body).code == "page-too-long"


def test_a_line_prints_names_and_loses_its_marks():
    line, findings = read_line(text("1. Drill *both* bars at {{ ramp.run }}, see {{ sheet.ramp_bar }}."), NAMES)
    assert findings == ()
    assert line.plain == "1. Drill both bars at 12 1/2 in [318 mm], see sheet 11."
    assert "<em>both</em>" in line.html
    assert "<ol" not in line.html
    assert line.paths == {"ramp.run", "sheet.ramp_bar"}


def test_a_figure_has_no_place_in_a_line():
    assert [finding.code for finding in read_line(text("x {{ figure.lift }}"), NAMES)[1]] == ["not-alone"]


@settings(deadline=None)
@given(st.text(alphabet="ab{}%#*_`[]()!<>|:-=.\\\n \"'1/0&", max_size=60))
def test_any_text_ends_in_html_or_findings_and_never_in_markup_of_its_own(body):
    read, _ = page(body)
    assert not re.search(
        r"<(?!/?(?:p|h[1-6]|ul|ol|li|dl|dt|dd|blockquote|pre|code|em|strong|table|thead|tbody|tr|th|td|hr|br)\b)",
        read.html,
    )
    for block in read.blocks:
        assert "\ue000" not in block.text


@pytest.mark.parametrize(
    ("title", "inside"),
    [("Ramp bar", "ramp bar"), ("Leaf, free half", "leaf, free half"), ("T-nut", "T-nut"), ("MDF shim", "MDF shim")],
)
def test_a_title_begins_small_inside_a_sentence(title: str, inside: str) -> None:
    assert spoken(title) == inside
