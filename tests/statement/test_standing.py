"""Measures that are critical to the fit and measures that a builder may change: said, inherited, put to the test."""

import json
from dataclasses import replace

import pytest

from planbook.source.findings import Severity
from planbook.statement import compare, read_statement, write_statement
from planbook.statement.comparison import Kind, Touch

from .workspace import edited, state, write

PARAMETERS = "content/tiny/parameters.yaml"
BOARD = "content/tiny/parts/board.yaml"
RULES = "content/tiny/rules.yaml"
WIDTH = "width: {by_market: {here: 4 in, there: 100 mm}}"
HALF = "half: board.length / 2"
LENGTH = "means: length of the board, tolerance: 1 mm"


def parameters(old, new):
    return edited(PARAMETERS, old, new)


def board(lines):
    return edited(BOARD, "number: 7", f"number: 7\n        dimensions:\n{lines}")


def stated(root, edition="metric", **changed):
    found, findings = state(write(root, **changed), edition)
    assert found is not None, findings
    return found.statement


def only(root, edition="metric", **changed):
    _, findings = state(write(root, **changed), edition)
    (finding,) = findings
    return finding


def test_a_parameter_says_it_and_the_dimension_that_is_its_name_is_so_too(tmp_path):
    width = "width: {by_market: {here: 4 in, there: 100 mm}, critical: 'the lid, {{ board.length }} long, runs on it'}"
    statement = stated(tmp_path, parameters=parameters(WIDTH, width))
    said = statement.parameters["board.width"].standing
    assert (said.kind, said.because) == ("critical", "the lid, 300 mm [11 13/16 in] long, runs on it")
    assert statement.dimensions["board/blank/width"].standing == said
    assert statement.dimensions["board/middle/y"].standing.kind == "", "half of it is another measure"
    assert statement.parameters["board.length"].standing.kind == ""


@pytest.mark.parametrize(("edition", "limits"), [("imperial", ("11", "15")), ("metric", ("280", "400"))])
def test_what_is_free_prints_its_limits_in_each_market(tmp_path, edition, limits):
    free = "free: {because: to your room, by_market: {here: [11 in, 15 in], there: [280 mm, 400 mm]}}"
    statement = stated(tmp_path, edition, parameters=parameters(LENGTH, f"{LENGTH}, {free}"))
    said = statement.parameters["board.length"].standing
    assert (said.kind, said.least.text, said.most.text) == ("free", *limits)
    assert statement.dimensions["board/blank/length"].standing == said


def test_a_part_says_it_of_one_dimension(tmp_path):
    statement = stated(tmp_path, board=board("          middle/diameter: {critical: the bolt turns in it}"))
    assert statement.dimensions["board/middle/diameter"].standing.because == "the bolt turns in it"
    assert statement.dimensions["board/blank/width"].standing.kind == ""


def test_a_dimension_that_a_fit_is_judged_by_is_critical(tmp_path):
    root = write(tmp_path)
    fit = "{opening: dim.board.middle.diameter, slider: hardware.bolt.diameter, gap: [0 mm, 2 mm], because: it turns}"
    (root / "content/tiny/fits.yaml").write_text(f"bolt.turns: {fit}\n")
    found, findings = state(root, "metric")
    assert findings == ()
    assert found.statement.dimensions["board/middle/diameter"].standing.because == "it turns"
    fitted = fit.replace("because", "fitted: true, because")
    (root / "content/tiny/fits.yaml").write_text(f"bolt.turns: {fitted}\n")
    found, _ = state(root, "metric")
    assert found.statement.dimensions["board/middle/diameter"].standing.kind == "", "made to the other in hand"


def test_a_fit_at_one_of_two_equal_features_is_a_fit_at_both(tmp_path):
    hole = "hole: hardware.bolt.clearance, at: [board.half, board.width / 2]"
    other = "other: {hole: hardware.bolt.clearance, at: [40 mm, 30 mm], note: for the other bolt}"
    root = write(tmp_path, board=edited(BOARD, f"middle: {{{hole}}}", f"middle: {{{hole}}}\n          {other}"))
    fit = "{opening: dim.board.middle.diameter, slider: hardware.bolt.diameter, gap: [0 mm, 2 mm], because: it turns}"
    (root / "content/tiny/fits.yaml").write_text(f"bolt.turns: {fit}\n")
    found, findings = state(root, "metric")
    assert findings == ()
    kinds = {name: each.standing.kind for name, each in found.statement.dimensions.items() if name.endswith("diameter")}
    assert kinds == {"board/middle/diameter": "critical", "board/other/diameter": "critical"}


def test_a_dimension_that_the_sheet_has_not_is_found_with_the_nearest(tmp_path):
    finding = only(tmp_path, board=board("          middle/diametre: {critical: the bolt turns in it}"))
    assert finding.code == "dimension-unknown"
    assert "`middle/diameter`" in finding.remedy
    assert finding.place.line == 3


def test_a_critical_measure_on_the_way_of_a_free_one_is_found_with_the_way(tmp_path):
    half = "half: {is: board.length / 2, critical: the hinge sits there}"
    body = parameters(LENGTH, f"{LENGTH}, free: {{because: to your room, between: [280 mm, 310 mm]}}")
    finding = only(tmp_path, parameters=body.replace(HALF, half))
    assert (finding.code, finding.severity) == ("free-and-critical", Severity.STOP)
    assert "`board.length` → `board.half`" in finding.message
    assert [str(each.place).split(":")[1] for each in finding.related] == [
        str(body.split("\n").index(next(line for line in body.split("\n") if HALF in line)))
    ]


def test_a_critical_dimension_on_the_way_is_found_too(tmp_path):
    free = f"{LENGTH}, free: {{because: to your room, between: [280 mm, 310 mm]}}"
    critical = board("          middle/x: {critical: the hinge sits there}")
    finding = only(tmp_path, parameters=parameters(LENGTH, free), board=critical)
    assert "`board.length` → `board.half` → `dim.board.middle.x`" in finding.message


def test_a_rule_that_breaks_at_a_limit_is_found_with_the_limit_and_the_way(tmp_path):
    free = f"{LENGTH}, free: {{because: to your room, between: [150 mm, 310 mm]}}"
    finding = only(tmp_path, parameters=parameters(LENGTH, free))
    assert (finding.code, finding.severity) == ("free-breaks-rule", Severity.STOP)
    assert finding.message.startswith(
        "At 150 mm [5 29/32 in], the least that `board.length` may be, the rule board.long"
    )
    assert "`board.length` → `rule board.long`" in finding.message


def test_a_rule_within_the_limits_is_no_finding(tmp_path):
    free = f"{LENGTH}, free: {{because: to your room, between: [200 mm, 310 mm]}}"
    assert stated(tmp_path, parameters=parameters(LENGTH, free)).parameters["board.length"].standing.kind == "free"


def test_what_a_rule_has_a_say_in_needs_limits(tmp_path):
    finding = only(tmp_path, parameters=parameters(LENGTH, f"{LENGTH}, free: to your room"))
    assert (finding.code, finding.severity) == ("free-without-limits", Severity.WARN)
    assert "`board.length` → `rule board.long`" in finding.message


def test_without_a_rule_it_may_be_anything(tmp_path):
    free, rules = parameters(LENGTH, f"{LENGTH}, free: to your room"), "lift.low: {require: lift <= 1 mm, because: so}"
    assert stated(tmp_path, parameters=free, rules=rules).parameters["board.length"].standing.least is None


@pytest.mark.parametrize(("limits", "said"), [("[310 mm, 280 mm]", "not under"), ("[310 mm, 400 mm]", "outside")])
def test_limits_have_the_design_between_them(tmp_path, limits, said):
    free = f"{LENGTH}, free: {{because: to your room, between: {limits}}}"
    codes = {each.code: each for each in state(write(tmp_path, parameters=parameters(LENGTH, free)), "metric")[1]}
    assert said in codes["free-limits"].message


def test_a_limit_without_a_value_for_the_market_is_found(tmp_path):
    free = f"{LENGTH}, free: {{because: to your room, by_market: {{here: [11 in, 12 in]}}}}"
    assert "market-missing" in {
        each.code for each in state(write(tmp_path, parameters=parameters(LENGTH, free)), "metric")[1]
    }


def test_a_limit_at_which_a_formula_has_no_value_is_found(tmp_path):
    free = f"{LENGTH}, free: {{because: to your room, between: [200 mm, 310 mm]}}"
    half = f"{HALF}\n          root: sqrt(board.length * board.length - 62500 mm * 1 mm)"
    body = parameters(LENGTH, free).replace(HALF, half)
    _, findings = state(write(tmp_path, parameters=body), "metric")
    assert {each.code for each in findings if each.severity is Severity.STOP} == {"free-breaks-formula"}


def test_a_dimension_is_not_free_alone_when_another_comes_from_its_parameter(tmp_path):
    finding = only(tmp_path, board=board("          blank/length: {free: a matter of taste}"))
    assert finding.code == "free-not-alone"
    assert "`board/middle/x`" in finding.message
    assert "`board.length`" in finding.remedy


def test_a_dimension_that_a_fit_is_judged_by_is_not_free(tmp_path):
    root = write(tmp_path, board=board("          middle/diameter: {free: a matter of taste}"))
    fit = "{opening: dim.board.middle.diameter, slider: hardware.bolt.diameter, gap: [0 mm, 2 mm], because: it turns}"
    (root / "content/tiny/fits.yaml").write_text(f"bolt.turns: {fit}\n")
    assert [each.code for each in state(root, "metric")[1]] == ["free-and-critical"]


def test_it_is_kept_in_the_file_and_an_older_file_has_none(tmp_path):
    width = f"{WIDTH[:-1]}, critical: the lid runs on it}}"
    statement = stated(tmp_path, parameters=parameters(WIDTH, width))
    assert read_statement(write_statement(statement)) == statement
    older = json.loads(write_statement(statement))
    for each in (*older["parameters"].values(), *older["dimensions"].values()):
        del each["standing"]
    read = read_statement(json.dumps(older).encode())
    assert {each.standing for each in (*read.parameters.values(), *read.dimensions.values())} == {None}
    changes = {(each.kind, each.id): each for each in compare(read, statement).changes}
    told = changes[Kind.DIMENSION, "board/blank/width"]
    assert (told.old, told.new, told.touch) == ("not recorded", "critical: the lid runs on it", Touch.TEXT)
    assert changes[Kind.DIMENSION, "board/blank/length"].touch is Touch.RECORD, "neither, and never told otherwise"


def test_limits_that_change_are_numbers_that_change(tmp_path):
    free = f"{LENGTH}, free: {{because: to your room, between: [200 mm, 310 mm]}}"
    new = stated(tmp_path, parameters=parameters(LENGTH, free))
    length = new.parameters["board.length"]
    wider = replace(length, standing=replace(length.standing, most=replace(length.standing.most, text="350")))
    old = replace(new, parameters={**new.parameters, "board.length": wider})
    (change,) = compare(old, new).changes
    assert (change.side, change.touch) == ("standing", Touch.NUMBER)
