"""Clearances along a travel with every measure at its adverse end, and with the numbers as printed.

The stock is sold from 19.5 to 20.5 mm, and the general tolerance on lengths is 0.5 mm.
"""

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
    stated, findings = found(tmp_path, at="shelf.low", measures="shelf: {low: {is: 63 mm, tolerance: 0.4 mm}}")
    assert findings == {}
    assert stated.statement.rules["board.passes"].holds


def test_the_sum_of_adverse_ends_breaks_the_rule_and_each_is_told(tmp_path):
    measures = "shelf: {low: {is: 63 mm, tolerance: 0.3 mm}, rise: {is: 0 mm, tolerance: +0.4 mm/0}}"
    assert found(tmp_path, at="shelf.low", measures=measures)[1] == {}
    _, findings = found(tmp_path, at="shelf.low", stands="lift + shelf.rise", measures=measures)
    finding = findings["clearance-at-limits"]
    assert finding.message == (
        "The rule board.passes holds as drawn, and not with every measure at its adverse end: "
        "board and shelf come as near as 1.8 mm at lift 40 mm, and 2 mm is wanted; "
        "`stock.board.thickness` takes 0.5 mm, `shelf.rise` takes 0.4 mm, `shelf.low` takes 0.3 mm."
    )
    assert finding.remedy == "It must not rub: make room, accept a narrower range of `stock.board.thickness`."
    assert (finding.severity, finding.place.file) == ("stop", RULES)


THICK = edited("content/tiny/parts/board.yaml", "stock.board.thickness]", "thick]")


def test_what_has_no_tolerance_of_its_own_has_the_general_one(tmp_path):
    rule = RULE.replace("2 mm", "2.6 mm")
    _, findings = found(tmp_path, board=THICK, measures="thick: 20 mm", rule=rule)
    assert "as near as 2.5 mm" in findings["clearance-at-limits"].message
    assert "`thick` takes 0.5 mm" in findings["clearance-at-limits"].message
    assert "fitted: true" in findings["clearance-at-limits"].remedy
    _, findings = found(tmp_path, board=THICK, measures="thick: 20 mm", rule=rule.replace("2.6 mm", "2.4 mm"))
    assert findings == {}


def test_general_tolerances_do_not_count_where_one_is_made_to_the_other(tmp_path):
    fitted = RULE.replace("least: 2 mm", "least: 2.6 mm, fitted: true")
    assert found(tmp_path, board=THICK, measures="thick: 20 mm", rule=fitted)[1] == {}
    _, findings = found(tmp_path, board=THICK, measures="thick: {is: 20 mm, tolerance: 0.5 mm}", rule=fitted)
    assert "`thick` takes 0.5 mm" in findings["clearance-at-limits"].message


def test_another_name_for_the_stock_counts_once_with_the_range_that_is_sold(tmp_path):
    """It is not held to the general tolerance besides: the thickness comes with the stock."""
    _, findings = found(
        tmp_path, board=THICK, measures="thick: stock.board.thickness", rule=RULE.replace("2 mm", "2.6 mm")
    )
    told = findings["clearance-at-limits"].message.partition("wanted; ")[2]
    assert told == "`stock.board.thickness` takes 0.5 mm."


WINDOW = """
number: 8
title: Window
stock: board
quantity: 1
size: [400 mm, 200 mm, stock.board.thickness]
features:
  way: {opening: [310 mm, window.wide], at: [45 mm, 50 mm]}
"""
THROUGH = """
components:
  board: {part: board, at: [50 mm, 52 mm, lift]}
  shelf: {part: window, at: [0 mm, 0 mm, 10 mm]}
"""


def test_the_side_that_is_not_the_nearest_may_be_the_worst(tmp_path):
    """The board rises through a window with 2 mm to spare in front, where nothing moves it, and 2.5 mm behind, where
    its own width and that of the window count.
    """
    root = write(
        tmp_path,
        positions=DRIVEN,
        assembly=THROUGH,
        rules=edited(RULES, "board.long:", f"{RULE.replace('2 mm', '1.6 mm')}\n        board.long:"),
        parameters=edited(PARAMETERS, "lift: 0 mm", "lift: 0 mm\n        window: {wide: 104.5 mm}"),
    )
    (root / "content/tiny/parts/window.yaml").write_text(WINDOW, encoding="utf-8")
    stated, findings = weigh(root, "metric")
    assert stated.statement.rules["board.passes"].stated.startswith("2 mm >= 1.6 mm")
    (finding,) = (each for each in findings if each.code == "clearance-at-limits")
    assert "as near as 1.5 mm" in finding.message
    assert "`window.wide` takes 0.5 mm" in finding.message
    assert "`board.width` takes 0.5 mm" in finding.message


def test_the_shape_of_a_part_counts_as_its_place_does(tmp_path):
    """The board is made as thick as a measure of its own says."""
    _, findings = found(tmp_path, board=THICK, measures="thick: {is: 20 mm, tolerance: +1.2 mm/0}")
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
    assert ("rule-broken-as-printed" in findings) == broken
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
