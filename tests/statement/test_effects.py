"""What a supposed change moves in an edition, and how a set for one builder says that it is one."""

from pathlib import Path

from planbook.source.findings import stops
from planbook.statement import read_statement, write_statement
from planbook.statement.effects import Kind, Turn, effects
from planbook.statement.one_off import one_off_notes
from tests.motion.test_travels import DRIVEN, SHELF
from tests.statement.workspace import edited, weigh, write

RULES = "content/tiny/rules.yaml"


def moved(root: Path, *supposed: str, edition: str = "metric"):
    before, _ = weigh(root, edition)
    now, found = weigh(root, edition, *supposed)
    return effects(before, now), found


def test_dimensions_move_as_printed_in_each_edition(tmp_path):
    write(tmp_path)
    found, _ = moved(tmp_path, "board.length = 310 mm")
    assert [(each.id, each.old, each.new, each.part) for each in found] == [
        ("board.long", "300 mm >= 200 mm", "310 mm >= 200 mm", ""),
        ("board/blank/length", "300 mm ±1", "310 mm ±1", "board"),
        ("board/middle/x", "150 mm", "155 mm", "board"),
    ]
    found, _ = moved(tmp_path, "board.length = 13 in", edition="imperial")
    assert ("board/middle/x", "6 in", "6 1/2 in") in [(each.id, each.old, each.new) for each in found]
    assert moved(tmp_path, "board.length = 300 mm") == moved(tmp_path, "board.length = board.length")


def test_a_rule_that_breaks_is_told_and_stops_and_one_that_mends(tmp_path):
    write(tmp_path)
    (rule, *_), findings = moved(tmp_path, "board.length = 190 mm")
    assert (rule.kind, rule.id, rule.turn) == (Kind.RULE, "board.long", Turn.BROKEN)
    assert (rule.old, rule.new) == ("300 mm >= 200 mm", "190 mm >= 200 mm")
    assert stops(findings)
    write(tmp_path, rules=edited(RULES, "2 * board.width", "3.5 * board.width"))
    (rule, *_), findings = moved(tmp_path, "board.width = 80 mm")
    assert (rule.id, rule.turn) == ("board.long", Turn.MENDED)
    assert not stops(findings)


def test_a_rule_that_holds_by_another_margin_is_told_after_those_that_turn(tmp_path):
    write(
        tmp_path,
        rules=edited(
            RULES, "board.long:", "board.wide: {require: board.length <= 320 mm, because: it fits}\n        board.long:"
        ),
    )
    found, _ = moved(tmp_path, "board.length = 190 mm")
    assert [(each.id, each.old, each.new, each.turn) for each in found if each.kind is Kind.RULE] == [
        ("board.long", "300 mm >= 200 mm", "190 mm >= 200 mm", Turn.BROKEN),
        ("board.wide", "300 mm <= 320 mm", "190 mm <= 320 mm", Turn.MOVED),
    ]


def test_clearances_along_a_travel_move(tmp_path):
    write(tmp_path, positions=DRIVEN, assembly=SHELF)
    found, _ = moved(tmp_path, "stock.board.thickness = 21.5 mm")
    (gap,) = (each for each in found if each.kind is Kind.CLEARANCE)
    assert (gap.id, gap.old, gap.new) == ("up: board, shelf", "3 mm", "1.5 mm")
    found, findings = moved(tmp_path, "stock.board.thickness = 25 mm")
    (gap,) = (each for each in found if each.kind is Kind.CLEARANCE)
    assert gap.new == "2 mm into one another"
    assert "travel-blocked" in [each.code for each in findings]


def test_a_clearance_that_changes_by_less_than_a_caliper_shows_is_not_told_unless_it_turns_a_rule(tmp_path):
    """0.1 mm or .005 in, as the general tolerance of caliper work."""
    write(tmp_path, positions=DRIVEN, assembly=SHELF)
    for thickness, gap in (("20.09 mm", []), ("20.1 mm", ["2.9 mm"]), ("19.93 mm", []), ("19.8 mm", ["3.2 mm"])):
        found, _ = moved(tmp_path, f"stock.board.thickness = {thickness}")
        assert [each.new for each in found if each.kind is Kind.CLEARANCE] == gap
    # What comes from just out of reach, 25 mm, comes no nearer than it does.
    write(tmp_path, positions=DRIVEN, assembly=SHELF.replace("63 mm", "85.02 mm"))
    found, _ = moved(tmp_path, "stock.board.thickness = 20.08 mm")
    assert [each for each in found if each.kind is Kind.CLEARANCE] == []
    passes = "board.passes: {clearance: {between: [shelf, board], least: 2.95 mm}, over: up, because: it rubs}"
    rules = edited(RULES, "board.long:", f"{passes}\n        board.long:")
    write(tmp_path, positions=DRIVEN, assembly=SHELF, rules=rules)
    found, _ = moved(tmp_path, "stock.board.thickness = 20.08 mm")
    (gap,) = (each for each in found if each.kind is Kind.CLEARANCE)
    assert (gap.old, gap.new, found[0].turn) == ("3 mm", "2.9 mm", Turn.BROKEN)


def test_fits_move(tmp_path):
    write(tmp_path)
    fits = "board.pair: {opening: 303 mm, slider: dim.board.blank.length, gap: [1 mm, 5 mm], because: it slides}\n"
    (tmp_path / "content/tiny/fits.yaml").write_text(fits)
    (_, fit, *_), _ = moved(tmp_path, "board.length = 301 mm")
    assert (fit.kind, fit.id, fit.old, fit.new) == (
        Kind.FIT, "board.pair", "a gap of 2 mm to 4 mm", "a gap of 1 mm to 3 mm",
    )  # fmt: skip
    (_, fit, *_), _ = moved(tmp_path, "board.length = 302 mm")
    assert (fit.new, fit.turn) == ("a gap of 0 mm to 2 mm", Turn.BROKEN)


def test_a_set_for_one_builder_says_what_is_changed_and_from_what(tmp_path):
    write(tmp_path)
    stated, _ = weigh(tmp_path, "metric", "stock.board.thickness = 19.2 mm", "board.half = 140 mm")
    statement = stated.statement
    assert statement.issue == "one-off"
    assert [each.derived for each in statement.one_off] == [False, True]
    (note,) = one_off_notes(statement)
    assert "thickness of 20 mm board is 19.2 mm, not 20 mm; board.half is 140 mm" in note
    assert note.endswith("not the 150 mm that follows from the rest.")
    assert statement.parts["board"].stock_note == "drawn for 19.2 mm, as measured"
    assert statement.dimensions["board/blank/thickness"].printed.text == "19.2"
    assert read_statement(write_statement(statement), "statement.json") == statement


def test_a_set_for_all_says_nothing_of_it(tmp_path):
    stated, _ = weigh(write(tmp_path), "metric")
    assert (stated.statement.issue, stated.statement.one_off, one_off_notes(stated.statement)) == ("draft", (), ())
