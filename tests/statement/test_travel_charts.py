"""Charts over a travel: the swept numbers, in the edition's units, with the limits of the rules."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from planbook.source import Door, load
from tests.motion.test_travels import DRIVEN, SHELF
from tests.statement.workspace import edited, state, write

CHART = """
        room:
          travel: up
          curves:
            - {value: 2 * lift, label: twice}
            - {clearance: [board, shelf], label: gap}
          limits: [{value: board.width, label: width}]
          x_label: lift
          y_label: length
          caption: Half of it.
          alt: Two lines.
"""
RULES = """
        board.passes: {clearance: {between: [shelf, board], least: 2 mm}, over: up, because: it must not rub}
        board.low: {require: 2*lift <= board.length, over: up, because: it is low}
        board.idle: {require: 3 * lift <= board.length, over: up, because: no curve shows it}
        board.long: {require: board.length >= 2 * board.width, because: a square board is dull}
"""


def chart(root: Path, edition: str = "metric", drawn: str = CHART):  # type: ignore[no-untyped-def]
    figures = edited("content/tiny/figures.yaml", old_chart(), drawn.lstrip("\n"))
    one, found = state(write(root, positions=DRIVEN, assembly=SHELF, figures=figures, rules=RULES), edition)
    assert one is not None, found
    return one.charts["room"]


def old_chart() -> str:
    from tests.statement.workspace import FILES  # noqa: PLC0415

    text = FILES["content/tiny/figures.yaml"]
    return text[text.index("        room:") :].rstrip(" ")


def test_curves_stand_at_the_places_of_the_sweep(tmp_path: Path) -> None:
    drawn = chart(tmp_path)
    assert drawn.x == tuple(5.0 * step for step in range(9))
    twice, gap = drawn.curves
    assert twice.y == pytest.approx([10.0 * step for step in range(9)])
    # 63 mm less the board of 20 mm less the lift; over 25 mm the sweep does not look.
    assert [each for each in gap.y if not math.isnan(each)] == pytest.approx([23, 18, 13, 8, 3])
    assert all(math.isnan(each) for each in gap.y[:4])


def test_clearances_far_over_their_limits_end(tmp_path: Path) -> None:
    """23, 18, 13, 8 and 3 mm, of which a limit of 2 mm leaves those up to 12."""
    alone = CHART.replace("            - {value: 2 * lift, label: twice}\n", "")
    drawn = chart(tmp_path, drawn=alone.replace("          limits: [{value: board.width, label: width}]\n", ""))
    assert [each for each in drawn.curves[0].y if not math.isnan(each)] == pytest.approx([8, 3])


def test_limits_of_rules_that_bear_on_a_curve_are_drawn_in(tmp_path: Path) -> None:
    assert [(each.label, each.y) for each in chart(tmp_path).limits] == [
        ("width", 100), ("at least 2 mm", 2), ("at most 300 mm", 300),
    ]  # fmt: skip


def test_it_is_drawn_in_the_editions_units(tmp_path: Path) -> None:
    drawn = chart(tmp_path, "imperial")
    assert (drawn.x_unit, drawn.y_unit) == ("in", "in")
    assert drawn.x[-1] == pytest.approx(40 / 25.4)
    assert [each.y for each in drawn.limits] == pytest.approx([4, 2 / 25.4, 12])


def test_what_it_names_must_be_there(tmp_path: Path) -> None:
    figures = edited("content/tiny/figures.yaml", old_chart(), CHART.lstrip("\n").replace("travel: up", "travel: upp"))
    content, found = load(Door(write(tmp_path, positions=DRIVEN, assembly=SHELF, figures=figures)), "tiny")
    assert content is None
    assert [each.code for each in found] == ["travel-unknown"]


def test_a_curve_is_one_thing(tmp_path: Path) -> None:
    both = CHART.lstrip("\n").replace("value: 2 * lift", "value: lift, clearance: [board, shelf]")
    figures = edited("content/tiny/figures.yaml", old_chart(), both)
    content, found = load(Door(write(tmp_path, positions=DRIVEN, assembly=SHELF, figures=figures)), "tiny")
    assert content is None
    assert "either a value or a clearance" in found[0].message


def test_kinds_agree(tmp_path: Path) -> None:
    figures = edited("content/tiny/figures.yaml", old_chart(), CHART.lstrip("\n").replace("2 * lift", "lift * lift"))
    one, found = state(write(tmp_path, positions=DRIVEN, assembly=SHELF, figures=figures), "metric")
    assert one is None
    assert [each.code for each in found if each.severity == "stop"] == ["wrong-kind"]
