"""Impact on kept releases: what buyers of the tote and of the desk have to be told."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import pytest
from click.testing import CliRunner

from planbook.cli import main
from planbook.impact import EditionImpact, Impact, weigh
from planbook.statement import compare, read_statement
from planbook.statement.model import Statement
from tests.impact.making import printed_as

ROOT = Path(__file__).parents[2]
EDITIONS = ("imperial", "metric")


def kept(key: str, version: str, edition: str) -> Statement:
    return read_statement((ROOT / "versions" / key / version / edition / "statement.json").read_bytes())


def between(old: Statement, new: Statement) -> EditionImpact:
    return weigh(compare(old, new))


@pytest.mark.parametrize("edition", EDITIONS)
def test_a_clarification_leaves_every_part_of_the_tote(edition: str) -> None:
    impact = between(kept("tool-tote", "1.0", edition), kept("tool-tote", "1.1", edition))
    assert {each.impact for each in impact.parts} == {Impact.UNCHANGED}
    assert [(step.number, step.reworded, step.remeasured) for step in impact.steps] == [(3, True, False)]
    assert not impact.asks


@pytest.mark.parametrize("edition", EDITIONS)
@pytest.mark.parametrize("old", ["1.0", "1.1"])
def test_smaller_holes_are_a_new_rack_for_buyers_of_both_versions(edition: str, old: str) -> None:
    impact = between(kept("tool-tote", old, edition), kept("tool-tote", "2.0", edition))
    classes = {each.number: each.impact for each in impact.parts}
    assert classes.pop(5) is Impact.RECUT
    assert set(classes.values()) == {Impact.UNCHANGED}
    rack = impact.of("tool_rack")
    assert rack is not None
    assert len(rack.lacks) == 6
    assert {spot.feature for spot in rack.lacks} == {"tools"}


@pytest.mark.parametrize("edition", EDITIONS)
def test_the_other_way_round_the_holes_are_enlarged(edition: str) -> None:
    rack = between(kept("tool-tote", "2.0", edition), kept("tool-tote", "1.1", edition)).of("tool_rack")
    assert rack is not None
    assert rack.impact is Impact.REWORK
    assert rack.works[0].words.startswith("enlarge hole tools: Ø")


def test_a_link_that_was_misprinted_in_one_edition_is_recut_in_that_one() -> None:
    """The metric sheet said 449 where the model always had 494: 45 mm short; the imperial builders do nothing."""
    right = kept("sewing-desk", "1.0", "metric")
    wrong = printed_as(right, "link/link_pin/x/drive_pin", 449)
    impact = between(wrong, right)
    classes = {each.key: each.impact for each in impact.parts}
    assert classes.pop("link") is Impact.RECUT
    assert set(classes.values()) == {Impact.UNCHANGED}
    link = impact.of("link")
    assert link is not None
    assert "449 mm → 494 mm" in link.because
    assert between(right, right).asks is False


def test_a_sheet_of_another_accepted_range_is_measured_and_nothing_else() -> None:
    """A market's sheet goes from 17.6 to 18.4 mm to 17.7 to 18.3 mm: whoever bought one at the edge looks again."""
    old = kept("sewing-desk", "1.0", "metric")
    of_sheet = {key for key, part in old.parts.items() if part.stock == "sheet_19"}
    narrower = {
        key: replace(part, stock_note="accepted 17.7 to 18.3 mm") if key in of_sheet else part
        for key, part in old.parts.items()
    }
    impact = between(old, replace(old, parts=narrower))
    checked = {each.key for each in impact.parts if each.impact is Impact.CHECK}
    assert checked == {key for key in of_sheet if f"{key}/blank/thickness" in old.dimensions}
    assert {each.impact for each in impact.parts} == {Impact.CHECK, Impact.UNCHANGED}


def test_compare_tells_programs_and_draws_for_people(tmp_path: Path) -> None:
    arguments = ["compare", "tool-tote", "1.1", "2.0", "--json", "--out", str(tmp_path), "--workspace", str(ROOT)]
    outcome = CliRunner().invoke(main, arguments)
    assert outcome.exit_code == 0, outcome.output
    metric = next(each for each in json.loads(outcome.stdout)["editions"] if each["name"] == "metric")
    (rack,) = (each for each in metric["parts"] if each["number"] == 5)
    assert rack["impact"] == "recut"
    assert len(rack["lacks"]) == 6
    assert set(rack["stages"]) == {"uncut", "cut", "glued", "finished"}
    assert [part for part in metric["parts"] if part["number"] == 1] == [{"number": 1, "impact": "unchanged"}]
    printed = {path.name for path in tmp_path.glob("*.pdf")}
    assert printed == {f"tool-tote-{edition}-2.0-from-1.1.pdf" for edition in ("imperial", "metric")}
    drawn = {path.relative_to(tmp_path).as_posix() for path in tmp_path.rglob("*.svg")}
    assert drawn == {"imperial/5-tool-rack.svg", "metric/5-tool-rack.svg"}


def test_compare_says_where_it_has_drawn(tmp_path: Path) -> None:
    arguments = ["compare", "tool-tote", "1.1", "2.0", "--workspace", str(ROOT)]
    told = CliRunner().invoke(main, arguments).stdout
    assert CliRunner().invoke(main, [*arguments, "--out", str(tmp_path)]).stdout == (
        f"{told}\nWhat is to print and to look at is in {tmp_path}.\n"
    )
