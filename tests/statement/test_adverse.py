"""Clearances along a travel at both ends of each tolerance, and with the numbers as printed."""

import pytest

from tests.motion.test_travels import DRIVEN, SHELF
from tests.statement.workspace import edited, weigh, write

RULES = "content/tiny/rules.yaml"
PARAMETERS = "content/tiny/parameters.yaml"
RULE = "board.passes: {clearance: {between: [board, shelf], least: 2 mm}, over: up, because: it must not rub}"


def found(root, *, at="63 mm", stands="lift", measures="", rule=RULE, **changed):
    """The board, 20 mm thick, rises by 40 mm under a shelf, so that 3 mm are left."""
    write(
        root,
        positions=DRIVEN,
        assembly=SHELF.replace("63 mm", at).replace("lift]", f"{stands}]"),
        rules=edited(RULES, "board.long:", f"{rule}\n        board.long:"),
        parameters=edited(PARAMETERS, "lift: 0 mm", f"lift: 0 mm\n        {measures}"),
        **changed,
    )
    stated, findings = weigh(root, "metric")
    return stated, {each.code: each for each in findings if "clearance" in each.code or each.code.startswith("rule-")}


def test_tolerances_that_leave_enough_are_no_finding(tmp_path):
    stated, findings = found(tmp_path, at="shelf.low", measures="shelf: {low: {is: 63 mm, tolerance: 0.9 mm}}")
    assert findings == {}
    assert stated.statement.rules["board.passes"].holds


def test_the_sum_of_adverse_ends_breaks_the_rule_and_each_is_told(tmp_path):
    measures = "shelf: {low: {is: 63 mm, tolerance: 0.7 mm}, rise: {is: 0 mm, tolerance: +0.4 mm/0}}"
    assert found(tmp_path, at="shelf.low", measures=measures)[1] == {}
    _, findings = found(tmp_path, at="shelf.low", stands="lift + shelf.rise", measures=measures)
    finding = findings["clearance-at-limits"]
    assert finding.message == (
        "The rule board.passes holds as drawn, and not with every tolerance at its adverse end: "
        "board and shelf come as near as 1.9 mm at lift 40 mm, and 2 mm is wanted; "
        "`shelf.low` takes 0.7 mm, `shelf.rise` takes 0.4 mm."
    )
    assert finding.remedy == "It must not rub: make room, or hold `shelf.low` closer."
    assert (finding.severity, finding.place.file) == ("stop", RULES)


def test_the_shape_of_a_part_counts_as_its_place_does(tmp_path):
    """The board is made as thick as a measure of its own says."""
    board = edited("content/tiny/parts/board.yaml", "stock.board.thickness]", "thick]")
    _, findings = found(tmp_path, board=board, measures="thick: {is: 20 mm, tolerance: +1.2 mm/0}")
    assert "as near as 1.8 mm" in findings["clearance-at-limits"].message
    assert "`thick` takes 1.2 mm" in findings["clearance-at-limits"].message


def test_weight_of_the_rule_is_that_of_the_finding(tmp_path):
    rule = RULE.replace("because", "weight: warn, because")
    measures = "shelf: {low: {is: 63 mm, tolerance: 1.5 mm}}"
    _, findings = found(tmp_path, at="shelf.low", measures=measures, rule=rule)
    assert findings["clearance-at-limits"].severity == "warn"


@pytest.mark.parametrize(("thick", "broken"), [("20.2 mm", True), ("20.4 mm", False)])
def test_the_clearance_holds_with_the_printed_numbers_or_is_told(tmp_path, thick, broken):
    """The hole stands `thick` from the end, printed 20 or 20.5, and the shelf 43 mm over that."""
    board = edited("content/tiny/parts/board.yaml", "[board.half, board.width / 2]", "[thick, board.width / 2]")
    rule = RULE.replace("2 mm", "3.1 mm")
    _, findings = found(tmp_path, at="thick + 43 mm", measures=f"thick: {thick}", board=board, rule=rule)
    assert list(findings) == (["rule-broken-as-printed"] if broken else [])
    if broken:
        told = "board and shelf come as near as 3 mm at lift 40 mm, and 3.1 mm is wanted"
        assert told in findings["rule-broken-as-printed"].message


def test_a_clearance_that_fails_as_drawn_is_mended_by_what_it_hangs_on(tmp_path):
    measures = "shelf: {low: {is: 63 mm, tolerance: 5 mm}}"
    _, findings = found(tmp_path, at="shelf.low", measures=measures, rule=RULE.replace("2 mm", "4 mm"))
    assert list(findings) == ["rule-broken"]
    assert findings["rule-broken"].remedy == (
        "It must not rub: change `shelf.low` from 63 mm to 64 mm, or `stock.board.thickness` from 20 mm to 19 mm."
    )
