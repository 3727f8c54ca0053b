"""Travels in a plan set: rules kept all along, components that run into one another, and what is wrong in a travel."""

from __future__ import annotations

from pathlib import Path

import pytest

from planbook.source import Door, load
from tests.statement.workspace import edited, state, write

POSITIONS = "content/tiny/positions.yaml"
ASSEMBLY = "content/tiny/assembly.yaml"
DRIVEN = """
driver: lift
positions: {low: 0 mm, high: 40 mm}
travels:
  up: {from: 0 mm, to: 40 mm, steps: 8}
"""
SHELF = """
components:
  board: {part: board, at: [0 mm, 0 mm, lift]}
  shelf: {part: board, at: [0 mm, 0 mm, 63 mm]}
"""


def stated(root: Path, positions: str = DRIVEN, assembly: str = SHELF, rules: str = "", edition: str = "metric"):  # type: ignore[no-untyped-def]
    ours = edited(
        "content/tiny/rules.yaml", "board.long:", f"{rules.strip()}\n        board.long:" if rules else "board.long:"
    )
    return state(write(root, positions=positions, assembly=assembly, rules=ours), edition)


def codes(findings):  # type: ignore[no-untyped-def]
    return [each.code for each in findings if each.code not in ("component-floats", "parameter-idle", "pinch-untold")]


def test_a_clearance_is_kept_or_broken_with_the_place_where_it_is_least(tmp_path: Path) -> None:
    rule = "board.passes: {clearance: {between: [board, shelf], least: 2 mm}, over: up, because: it must not rub}"
    one, found = stated(tmp_path, rules=rule)
    assert codes(found) == []
    assert one.statement.rules["board.passes"].stated == "3 mm >= 2 mm at lift 40 mm"
    one, found = stated(tmp_path, rules=rule.replace("2 mm", "5 mm"))
    (broken,) = (each for each in found if each.code == "rule-broken")
    assert broken.message == (
        "The rule board.passes does not hold: "
        "board and shelf come as near as 3 mm at lift 40 mm, 2 mm nearer than 5 mm."
    )


def test_a_rule_over_a_travel_is_judged_where_it_is_nearest_to_failing(tmp_path: Path) -> None:
    rule = "lift.least: {require: lift * lift / 1 mm - 20 * lift >= -99 mm, over: up, because: the lowest point counts}"
    _, found = stated(tmp_path, rules=rule)
    (broken,) = (each for each in found if each.code == "rule-broken")
    assert "at lift 10 mm" in broken.message
    one, found = stated(tmp_path, rules=rule.replace("-99", "-101"))
    assert codes(found) == []
    assert one.statement.rules["lift.least"].stated.endswith("at lift 10 mm")


def test_components_that_run_into_one_another_stop(tmp_path: Path) -> None:
    _, found = stated(tmp_path, assembly=SHELF.replace("63 mm", "55 mm"))
    (blocked,) = (each for each in found if each.code == "travel-blocked")
    assert "`board` and `shelf` run into one another: 5 mm" in blocked.message
    assert "with `lift` at 40 mm, step 8 of 8" in blocked.message


@pytest.mark.parametrize(
    ("require", "shown"),
    [
        ("min_clearance(board, shelf) >= 2 mm", "clearance: {between: [board, shelf], least: 2 mm}"),
        ("1 mm + 1 mm < distance(shelf, board)", "clearance: {between: [shelf, board], least: 1 mm + 1 mm}"),
    ],
)
def test_a_clearance_typed_as_a_function_is_told_with_what_to_paste(tmp_path: Path, require: str, shown: str) -> None:
    typed = f'require: "{require}"'
    rule = f"board.passes: {{{typed}, because: it must not rub}}"
    _, found = stated(tmp_path, rules=rule)
    (fault,) = (each for each in found if each.place is not None and each.place.file.endswith("rules.yaml"))
    assert fault.code == "unknown-function"
    assert f"write `{shown}` in the place of `require`, and beside it `over: up`." in fault.remedy
    one, found = stated(tmp_path, rules=rule.replace(typed, f"{shown}, over: up"))
    assert codes(found) == []
    assert one.statement.rules["board.passes"].holds


def test_what_bears_on_the_other_on_purpose_is_said(tmp_path: Path) -> None:
    bearing = "bearing: {soft: {between: [board, shelf], by: 6 mm, because: the felt gives}}"
    positions = DRIVEN.replace("steps: 8}", f"steps: 8, {bearing}}}")
    _, found = stated(tmp_path, positions=positions, assembly=SHELF.replace("63 mm", "55 mm"))
    assert "travel-blocked" not in codes(found)


def test_what_lies_in_one_another_by_design_does_so_along_the_travel_too(tmp_path: Path) -> None:
    assembly = SHELF.replace("63 mm", "55 mm") + (
        "overlaps:\n  let_in: {between: [board, shelf], because: the shelf is let in when it is fitted}\n"
    )
    _, found = stated(tmp_path, assembly=assembly)
    assert "travel-blocked" not in codes(found)


@pytest.mark.parametrize(
    ("positions", "code", "told"),
    [
        (DRIVEN.replace("to: 40 mm", "to: 0 mm"), "travel-range", "begins where it ends"),
        (DRIVEN.replace("high: 40 mm", "high: 50 mm"), "position-outside", "its travel goes from 0 mm to 40 mm"),
        (DRIVEN.replace("high: 40 mm", "high: {board.width: 90 mm, lift: 50 mm}"),
         "position-outside", "In the position high `lift` is 50 mm; its travel goes from 0 mm to 40 mm"),
        (DRIVEN.replace("from: 0 mm", "driver: board.half, from: 0 mm"), "travel-driver", "worked out by a formula"),
        (DRIVEN + "phases: {slide: {from: 0 mm, to: 20 mm}, rise: {from: 10 mm, to: 40 mm, after: slide}}",
         "phase-order", "begins at 10 mm, before slide has ended"),
        (DRIVEN + "phases: {slide: {from: 20 mm, to: 10 mm}}", "phase-order", "is not after it begins"),
        (DRIVEN + "phases: {slide: {from: 20 mm, to: 20 mm}}", "phase-order", "ends at 20 mm, which is not after"),
    ],
)  # fmt: skip
def test_what_is_wrong_in_a_travel_is_told(tmp_path: Path, positions: str, code: str, told: str) -> None:
    _, found = stated(tmp_path, positions=positions)
    (finding,) = (each for each in found if each.code == code)
    assert told in finding.message
    assert finding.place is not None
    assert finding.place.file == POSITIONS


def test_where_a_travel_ends_is_not_outside_it_for_the_noise_of_arithmetic(tmp_path: Path) -> None:
    """10.7 tan(arctan(13 / 10.7)) is two millionths of a picometre less than 13."""
    ends = "10.7 mm * tan(atan(13 mm / 10.7 mm))"
    positions = f"""
driver: lift
positions: {{high: 13 mm}}
travels: {{up: {{from: -5 mm, to: "{ends}", steps: 8}}}}
phases:
  first: {{from: -5 mm, to: 13 mm}}
  then: {{from: "{ends}", to: 14 mm, after: first}}
"""
    own = edited("content/tiny/parameters.yaml", "lift: 0 mm", "lift: 13 mm")
    _, found = state(write(tmp_path, positions=positions, assembly=SHELF, parameters=own), "metric")
    assert codes(found) == []


def test_a_driver_that_is_given_outside_its_travel_is_told_where_it_is_given(tmp_path: Path) -> None:
    own = edited("content/tiny/parameters.yaml", "lift: 0 mm", "lift: 41 mm")
    _, found = state(write(tmp_path, positions=DRIVEN, assembly=SHELF, parameters=own), "metric")
    (outside,) = (each for each in found if each.code == "position-outside")
    assert outside.message == "`lift` is 41 mm as it is given; its travel goes from 0 mm to 40 mm."
    assert outside.place is not None
    assert outside.place.file == "content/tiny/parameters.yaml"


def test_a_position_names_parameters_that_there_are(tmp_path: Path) -> None:
    root = write(tmp_path, positions=DRIVEN.replace("high: 40 mm", "high: {lifft: 40 mm}"))
    content, (finding,) = load(Door(root), "tiny")
    assert content is None
    assert (finding.code, finding.remedy) == ("parameter-unknown", "Did you mean `lift`?")


def test_a_position_may_set_several_parameters(tmp_path: Path) -> None:
    """The shelf hangs where the board would be, were only the one of the two parameters set."""
    positions = DRIVEN.replace("high: 40 mm", "high: {lift: 40 mm, hang: 20 mm}")
    assembly = SHELF.replace("63 mm", "55 mm + hang")
    own = edited(
        "content/tiny/parameters.yaml", "lift:", "hang: {is: 8 mm, means: how far the shelf hangs}\n        lift:"
    )
    _, found = state(write(tmp_path, positions=positions, assembly=assembly, parameters=own), "metric")
    assert codes(found) == []
    _, found = state(
        write(tmp_path, positions=positions.replace("20 mm", "2 mm"), assembly=assembly, parameters=own), "metric"
    )
    assert "`board` and `shelf` lie in one another in `high`" in " ".join(each.message for each in found)


def test_a_travel_stops_where_a_formula_has_no_value(tmp_path: Path) -> None:
    assembly = SHELF.replace("lift]", '"sqrt(1 mm * (25 mm - lift))"]')
    _, found = stated(tmp_path, assembly=assembly)
    (finding,) = (each for each in found if each.code == "travel-stuck")
    assert finding.message.startswith("At step 6 of 8, `lift` at 30 mm, the assembly has no place:")


def test_phases_run_one_after_the_other(tmp_path: Path) -> None:
    phases = "phases: {slide: {from: 0 mm, to: 10 mm}, rise: {from: phase.slide_to, to: 40 mm, after: slide}}"
    assembly = SHELF.replace("[0 mm, 0 mm, lift]", "[30 mm * phase.slide, 0 mm, 40 mm * phase.rise]")
    rule = "board.passes: {clearance: {between: [board, shelf], least: 2 mm}, over: up, because: it must not rub}"
    one, found = stated(tmp_path, positions=DRIVEN + phases, assembly=assembly, rules=rule)
    assert codes(found) == []
    assert one.statement.rules["board.passes"].stated == "3 mm >= 2 mm at lift 40 mm"


def test_names_lead_somewhere(tmp_path: Path) -> None:
    rule = "a.b: {clearance: {between: [board, shelve], least: 2 mm}, over: ip, because: so}"
    ours = edited("content/tiny/rules.yaml", "board.long:", f"{rule}\n        board.long:")
    root = write(tmp_path, positions=DRIVEN, assembly=SHELF, rules=ours)
    content, found = load(Door(root), "tiny")
    assert content is None
    assert {(each.code, each.remedy.split("`")[1]) for each in found} == {
        ("component-unknown", "shelf"),
        ("travel-unknown", "up"),
    }
