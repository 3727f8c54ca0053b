"""Stating an edition from content, through the rooms below: what comes out, and what is found on the way."""

import math

import pytest

from planbook.source.findings import Severity, stops
from planbook.statement import (
    Changes,
    Revision,
    compare,
    missing_cautions,
    print_changes,
    read_statement,
    write_statement,
)
from planbook.statement.model import RowStated
from planbook.statement.vocabulary import spoken

from .workspace import edited, state, write

MM, INCH = 1e6, 25.4e6
SET = "content/tiny/set.yaml"
PARAMETERS = "content/tiny/parameters.yaml"
FIGURES = "content/tiny/figures.yaml"
RULES = "content/tiny/rules.yaml"
STEP = "content/tiny/steps/01-cut.md"
INTRO = "content/tiny/pages/01-intro.md"
CAUTIONS = "content/tiny/cautions.yaml"
ASSEMBLY = "content/tiny/assembly.yaml"
HERE = "shared/markets/here.yaml"
BOARD = "content/tiny/parts/board.yaml"


@pytest.fixture(scope="module")
def stated(tmp_path_factory):
    """The tiny set in both editions."""
    root = write(tmp_path_factory.mktemp("tiny"))
    editions = {}
    for name in ("imperial", "metric", "mixed"):
        editions[name], findings = state(root, name)
        assert findings == ()
    return editions


def found(root, edition="imperial", **changed):
    return state(write(root, **changed), edition)[1]


def only(findings):
    (finding,) = findings
    return finding


def test_each_edition_prints_its_own_system_and_market(stated):
    inch, metric = stated["imperial"].statement, stated["metric"].statement
    assert inch.parameters["board.length"].printed.text == "12"
    assert metric.parameters["board.length"].printed.text == "300"
    assert inch.parameters["hardware.bolt.clearance"].printed.text == "9/32"
    assert metric.parameters["hardware.bolt.clearance"].printed.text == "6.6"
    assert inch.plan_set.summary == "A board, 12 in [305 mm] long."
    assert metric.plan_set.summary == "A board, 300 mm [11 13/16 in] long."
    assert inch.edition.market_title == "Here"


def test_units_and_market_are_chosen_apart(stated):
    mixed = stated["mixed"].statement
    length, drill = mixed.parameters["board.length"].printed, mixed.parameters["hardware.bolt.clearance"].printed
    assert (length.text, length.unit) == ("305", "mm")
    assert (drill.text, drill.unit) == ("9/32", "in"), "a drill keeps the name that it is sold by"


def test_a_parameter_is_stated_with_where_it_comes_from(stated):
    half = stated["metric"].statement.parameters["board.half"]
    assert (half.value, half.formula, half.inputs, half.given) == (
        150 * MM,
        "board.length / 2",
        ("board.length",),
        False,
    )
    length = stated["metric"].statement.parameters["board.length"]
    assert (length.tolerance, length.means, length.given) == ("±1", "length of the board", True)


def test_the_shape_is_stated_in_nanometres(stated):
    board = stated["imperial"].statement.parts["board"]
    assert board.size == (12 * INCH, 4 * INCH, 0.75 * INCH)
    assert [segment.start for segment in board.outline] == [
        (0, 0),
        (12 * INCH, 0),
        (12 * INCH, 4 * INCH),
        (0, 4 * INCH),
    ]
    (cut,) = board.features["middle"].cuts
    assert {segment.centre for segment in cut.loop} == {(6 * INCH, 2 * INCH)}
    assert math.dist(cut.loop[0].start, (6 * INCH, 2 * INCH)) == pytest.approx(9 / 64 * INCH)


def test_notes_steps_and_tools_have_their_values_filled_in(stated):
    statement = stated["metric"].statement
    assert statement.parts["board"].notes == ("Drill 6.6 mm [1/4 in] as on sheet 7.",)
    assert statement.steps[0].hold == "It is 150 mm [5 29/32 in] to the hole."
    assert statement.lists["tools"] == (
        RowStated("A drill of 6.6 mm [1/4 in]", {"Tool": "A drill of 6.6 mm [1/4 in]"}),
    )
    assert statement.figures["high"].caption == "Raised, part board (part 7)."


def test_accepted_stock_and_general_tolerances_are_printed(stated):
    inch, metric = stated["imperial"].statement, stated["metric"].statement
    assert inch.parts["board"].stock_note == "accepted .735 to .765 in"
    assert metric.parts["board"].stock_note == "accepted 19.5 to 20.5 mm"
    assert metric.plan_set.general_tolerance == (
        "Lengths ±0.5 mm, angles ±0.5°, unless a tolerance is stated.",
        "Square: the two diagonals of a rectangle differ by at most 1 mm.",
        "Wood at 6 to 9 % moisture content.",
    )


def test_prose_comes_in_reading_order_with_figures_numbered(stated):
    prose = stated["imperial"].prose
    assert [(each.target, each.slot) for each in prose] == [
        ("page.intro", "front"),
        ("step.cut", "step"),
        ("page.end", "back"),
    ]
    numbers = {name: figure.number for name, figure in stated["imperial"].statement.figures.items()}
    assert numbers == {"front": 0, "high": 1, "room": 2}
    assert ">figure 1</a>" in prose[0].html
    assert prose[1].hold_html.startswith("It is ")
    assert '<aside class="caution caution-warning" data-caution="saws">' in prose[1].cautions_html


def test_a_figure_shows_the_assembly_in_its_position(stated):
    edition = stated["metric"]
    (high,), (front,) = edition.assemblies["high"], edition.assemblies["front"]
    assert high.placement.origin.z - front.placement.origin.z == 40 * MM
    assert edition.components == (front,)
    assert edition.statement.figures["high"].content != edition.statement.figures["front"].content


def test_a_chart_is_sampled_in_the_units_of_the_edition(stated):
    metric, inch = (stated[name].charts["room"] for name in ("metric", "imperial"))
    assert (metric.x_unit, metric.y_unit, inch.x_unit) == ("mm", "mm", "in")
    assert metric.x == (100, 150, 200, 250, 300)
    assert metric.curves[0].y == (50, 75, 100, 125, 150)
    assert metric.limits[0].y == 100
    assert inch.limits[0].y == 4
    assert inch.x == pytest.approx([x / 25.4 for x in metric.x])


def test_a_rule_that_holds_is_stated(stated):
    rule = stated["imperial"].statement.rules["board.long"]
    assert (rule.stated, rule.holds, rule.because) == ("12 in >= 8 in", True, "a square board is dull")


def test_the_statement_is_written_and_read_back(stated):
    for edition in stated.values():
        assert read_statement(write_statement(edition.statement)) == edition.statement


@pytest.mark.parametrize(("weight", "severity"), [("stop", Severity.STOP), ("warn", Severity.WARN)])
def test_a_rule_that_fails_says_by_how_much_and_what_it_hangs_on(tmp_path, weight, severity):
    rules = edited(RULES, "2 * board.width, because", f"3 * board.width + 1/8 in, weight: {weight}, because")
    finding = only(found(tmp_path, rules=rules))
    assert (finding.code, finding.severity) == ("rule-broken", severity)
    assert "12 in >= 12 1/8 in fails by .125 in" in finding.message
    assert "change `board.length` from 12 in to 12 1/8 in, or `board.width` from 4 in to 3 15/16 in" in finding.remedy
    assert (finding.place.file, finding.place.line) == (RULES, 1)


def test_a_chain_tells_the_relation_that_fails(tmp_path):
    rules = edited(RULES, "board.length >= 2 * board.width", "1 in <= board.length <= 11 in")
    assert "12 in <= 11 in fails by 1" in only(found(tmp_path, rules=rules)).message


def test_sides_that_would_read_alike_are_printed_apart(tmp_path):
    rules = edited(RULES, "2 * board.width", "3 * board.width + 0.002 mm")
    finding = only(found(tmp_path, rules=rules))
    assert "12 in >= 12.0000787 in fails by .0000787 in" in finding.message


def test_a_side_is_printed_as_finely_as_tells_it_within_half_a_per_cent(tmp_path):
    """2.02 mm are 1 % off 2 mm, the nearest that a rule shows."""
    rules = edited(RULES, "board.length >= 2 * board.width", "2.02 mm <= board.width / 2")
    stated, _ = state(write(tmp_path, rules=rules), "metric")
    assert stated.statement.rules["board.long"].stated.startswith("2.02 mm <= 50 mm")


def test_a_wrong_name_on_a_page_stops_with_its_place(tmp_path):
    stated, findings = state(write(tmp_path, intro=edited(INTRO, "{{ board.length }}", "{{ board.lenth }}")), "metric")
    finding = only(findings)
    assert stated is None
    assert (finding.code, finding.place.file, finding.place.line) == ("unknown-name", INTRO, 4)
    assert "board.length" in finding.remedy


def test_a_bare_measure_in_a_note_stops(tmp_path):
    finding = only(found(tmp_path, board=edited(BOARD, "Drill {{", "Drill 10 mm deep, {{")))
    assert (finding.code, finding.place.file) == ("bare-measure", BOARD)


def test_hardware_that_the_set_does_not_use_is_not_proposed_for_a_bare_measure(tmp_path):
    screw = "screw: {title: Screw, measures: {length: 10 mm}}\n          bolt: {title: 1/4-20"
    markets = {
        "here": edited(HERE, "bolt: {title: 1/4-20", screw),
        "board": edited(BOARD, "Drill {{", "10 mm deep, {{"),
    }
    assert "parameters.yaml" in only(found(tmp_path / "idle", **markets)).remedy
    used = edited("content/tiny/hardware.yaml", "item: bolt", "item: screw")
    there = edited("shared/markets/there.yaml", "bolt: {title: M6", screw.replace("1/4-20", "M6"))
    findings = found(tmp_path / "used", **markets, hardware=used, there=there)
    assert "{{ hardware.screw.length }}" in only(findings).remedy


def test_a_parameter_without_value_is_no_unknown_name(tmp_path):
    parameters = edited(
        PARAMETERS, "half: board.length / 2", "half: board.length * board.length / (board.width - board.width)"
    )
    assert {finding.code for finding in found(tmp_path, parameters=parameters)} == {"division-by-zero"}


def test_what_nothing_uses_is_found(tmp_path):
    parameters = edited(PARAMETERS, "lift: 0 mm", "lift: 0 mm\n        idle: 1 mm")
    step = edited(STEP, "parts: [board]", "parts: []")
    figures = FIGURE_MORE
    findings = found(tmp_path, parameters=parameters, cut=step, figures=figures)
    assert {(finding.code, finding.severity) for finding in findings} == {
        ("parameter-idle", Severity.NOTE),
        ("part-idle", Severity.WARN),
        ("figure-idle", Severity.NOTE),
    }
    assert not stops(findings)


FIGURE_MORE = edited(FIGURES, "front: {", "unseen: {part: board, caption: Unseen., alt: A board.}\n        front: {")


def test_a_chart_that_has_no_value_on_its_way_is_found(tmp_path):
    figures = edited(FIGURES, "value: board.half,", 'value: "board.half / (board.length - 200 mm) * 1 mm",')
    finding = only(found(tmp_path, figures=figures))
    assert finding.severity is Severity.STOP
    assert finding.place.file == FIGURES


def test_a_fault_elsewhere_is_no_gap_in_a_chart(tmp_path):
    broken = edited(PARAMETERS, "lift: 0 mm", "lift: 0 mm\n        odd: 1 mm / (lift / 1 mm)")
    assert {each.code for each in found(tmp_path, parameters=broken)} == {"division-by-zero", "parameter-idle"}


def test_a_curve_that_rests_on_a_fault_is_passed_over(tmp_path):
    broken = edited(PARAMETERS, "lift: 0 mm", "lift: 0 mm\n        odd: 1 mm / (lift / 1 mm)")
    figures = edited(FIGURES, "value: board.half,", "value: odd,")
    assert only(found(tmp_path, parameters=broken, figures=figures)).code == "division-by-zero"


@pytest.mark.parametrize("end", ["100 mm", "90 mm"])
def test_a_chart_runs_upwards(tmp_path, end):
    assert only(found(tmp_path, figures=edited(FIGURES, "end: 300 mm", f"end: {end}"))).code == "chart-range"


def test_a_feature_without_a_callout_has_its_note_among_those_of_the_part(tmp_path):
    housing = 'left_housing: {groove: 5 mm, along: x, at: 9 mm, depth: 5 mm, note: "try it with {{ part.board }}"}'
    board = edited(BOARD, "features:", f"features:\n          {housing}")
    stated, _ = state(write(tmp_path, board=board), "metric")
    part = stated.statement.parts["board"]
    assert part.notes[-1] == "Left housing: try it with board (part 7)."
    assert part.features["left_housing"].note == "try it with board (part 7)"


def test_a_note_that_is_a_sentence_stands_without_the_name_of_its_feature(tmp_path):
    housing = 'left_housing: {groove: 5 mm, along: x, at: 9 mm, depth: 5 mm, note: "The groove is for a shelf"}'
    board = edited(BOARD, "features:", f"features:\n          {housing}")
    stated, _ = state(write(tmp_path, board=board), "metric")
    assert stated.statement.parts["board"].notes[-1] == "The groove is for a shelf."


def test_a_note_in_a_shared_callout_is_not_repeated_among_the_notes(tmp_path):
    pegs = "".join(
        f"\n          {side}: {{hole: 6 mm, on: {side}_end, at: [10 mm, 5 mm], depth: 20 mm, note: for a peg}}"
        for side in ("left", "right")
    )
    stated, _ = state(write(tmp_path, board=edited(BOARD, "features:", f"features:{pegs}")), "metric")
    assert not any("peg" in note for note in stated.statement.parts["board"].notes)


def test_the_size_over_all_is_what_the_author_gives(tmp_path):
    sized = edited(SET, "cover: ", "overall: [board.length, 100 mm, 20 mm]\n        cover: ")
    stated, _ = state(write(tmp_path, set=sized), "metric")
    assert stated.statement.plan_set.overall == "300 × 100 × 20 mm"


def test_a_callout_keeps_its_note(tmp_path):
    board = edited(BOARD, "middle: {", "middle: {note: from both sides, ")
    stated, _ = state(write(tmp_path, board=board), "metric")
    assert len(stated.statement.parts["board"].notes) == 1
    assert stated.statement.parts["board"].features["middle"].note == "from both sides"


def test_curves_and_limits_measure_the_same(tmp_path):
    findings = found(tmp_path, figures=edited(FIGURES, "value: board.width,", "value: 3 deg,"))
    assert findings
    assert {finding.place.file for finding in findings} == {FIGURES}


def test_a_page_and_a_step_need_names_of_their_own(tmp_path):
    root = write(tmp_path)
    (root / "content/tiny/pages/03-cut.md").write_text("---\ntitle: Cut\n---\nText.\n", encoding="utf-8")
    assert "key-twice" in {finding.code for finding in state(root, "metric")[1]}


def test_a_shared_caution_is_read_only_where_it_is_used(tmp_path):
    cautions = edited(CAUTIONS, "{{ page.intro }}", "{{ page.nowhere }}")
    assert found(tmp_path, cautions=cautions) == ()
    intro = edited(INTRO, "{{ figure.high }}", "{{ figure.high }}\n\n        {{ caution.glue }}")
    finding = only(found(tmp_path, cautions=cautions, intro=intro))
    assert (finding.code, finding.place.file) == ("unknown-name", CAUTIONS)


def test_a_set_without_cautions_is_told_before_a_release(tmp_path):
    stated, findings = state(write(tmp_path, set=edited(SET, "cautions: [saws]", "cautions: []")), "metric")
    assert findings == ()
    assert only(missing_cautions(stated.content)).severity is Severity.STOP


def test_changes_are_printed(tmp_path):
    changes = Changes((Revision("1.0", "2026-03-02", "First."),), (), {"7": "0.9"}, ("board/old/x",))
    statement = print_changes(state(write(tmp_path), "metric")[0].statement, changes)
    assert [row.id for row in statement.changes] == ["revision/1.0"]
    assert statement.sheets["7"].changed_in == "0.9"
    assert statement.retired == ("board/old/x",)


def test_a_rename_compares_as_the_same_thing(tmp_path, stated):
    board = edited(BOARD, "middle: {hole", "centre: {was: [middle], hole").replace("board.middle", "board.centre")
    root = write(tmp_path, board=board)
    renamed = state(root, "metric")[0].statement
    assert compare(stated["metric"].statement, renamed).changes == ()
    assert renamed.renamed["board/middle/x"] == "board/centre/x"


def test_one_given_number_changes_what_hangs_on_it_and_nothing_else(tmp_path, stated):
    changed = state(write(tmp_path, parameters=edited(PARAMETERS, "there: 300 mm", "there: 320 mm")), "metric")[
        0
    ].statement
    ids = {change.id for change in compare(stated["metric"].statement, changed).told}
    assert {"board.length", "board.half", "board/blank/length", "board/middle/x", "board"} <= ids
    assert not ids & {"board.width", "board/blank/width", "board/middle/y", "board/middle/diameter"}
    other = state(tmp_path, "imperial")[0].statement
    assert compare(stated["imperial"].statement, other).changes == ()


def test_a_figure_seen_from_elsewhere_has_changed(tmp_path):
    def content(view):
        figures = edited(FIGURES, "front: {elevation: front,", f"front: {{{view},")
        return state(write(tmp_path, figures=figures), "metric")[0].statement.figures["front"].content

    views = ("elevation: front", "elevation: left", "isometric: front_left", "isometric: front_right")
    assert len({content(view) for view in views}) == len(views)


def test_a_figure_changes_only_with_what_it_shows(tmp_path):
    figures = edited(FIGURES, "front: {elevation: front,", "front: {elevation: front, show: [board],")

    def content(x):
        other = edited(ASSEMBLY, "board: {", f"other: {{part: board, at: [{x} mm, 0 mm, 0 mm]}}\n          board: {{")
        shown = state(write(tmp_path, figures=figures, assembly=other), "metric")[0].statement.figures
        return shown["front"].content, shown["high"].content

    (front, high), (front_after, high_after) = content(500), content(600)
    assert front == front_after
    assert high != high_after


def test_arcs_keep_their_sense(tmp_path):
    outline = """
        outline:
          a: [0 mm, 0 mm]
          b: [board.length, 0 mm]
          c: {at: [board.length, board.width]}
          d: {at: [0 mm, board.width], through: [board.half, 0.8 * board.width]}
        features:
        """
    board = edited(BOARD, "\n        features:\n", outline.rstrip(" "))
    arc = state(write(tmp_path, board=board), "metric")[0].statement.parts["board"].outline[2]
    assert arc.centre is not None
    assert not arc.ccw
    assert arc.vertex == "c"


@pytest.mark.parametrize(
    ("title", "words"),
    [("Ramp bar", "ramp bar"), ("T-nut", "T-nut"), ("MDF shim", "MDF shim"), ("X", "X"), ("Über", "über")],
)
def test_a_title_inside_a_sentence(title, words):
    assert spoken(title) == words


def test_caliper_work_without_a_tolerance_is_held_to_its_fineness(stated):
    """The floors of caliper work: 0.1 mm, .005 in."""
    caliper = {name: each.statement.plan_set.caliper_tolerance for name, each in stated.items()}
    assert (caliper["metric"], caliper["imperial"]) == ("±0.1 mm", "±.005 in")


@pytest.mark.parametrize("nothing", ["0 mm", "-0.5 mm"])
def test_a_general_tolerance_of_nothing_or_less_is_a_finding(tmp_path, nothing):
    text = edited(SET, "length: make.length, angle", f"length: {nothing}, angle")
    _, findings = state(write(tmp_path, set=text), "metric")
    (finding,) = [each for each in findings if each.code == "bad-tolerance"]
    assert finding.severity is Severity.STOP
    assert f"`length`, `{nothing}`" in finding.message
    assert finding.place.file == SET
