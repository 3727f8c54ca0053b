"""Whether the design lies within the limits that a sheet prints, lengths and angles each by their own tolerance."""

from __future__ import annotations

import pytest

from planbook.dimension.audit import Limits, Number, is_rounded_out, limits_of
from planbook.dimension.audit.record import Lettering
from planbook.source.findings import Severity
from tests.shape.making import MM
from tests.statement.workspace import edited, state, write

BOARD = "content/tiny/parts/board.yaml"
SET = "content/tiny/set.yaml"


def angle(nominal: float, printed: float, limit: float | None = None) -> Number:
    low = None if limit is None else -limit
    return Number("it", "note", "lean_x", nominal, Lettering(f"{printed}°", printed, "°"), limit, low)


def length(nominal: float, printed: float) -> Number:
    return Number("it", "linear", "x", nominal * MM, Lettering(f"{printed}", printed * MM, "mm"))


@pytest.mark.parametrize(
    ("nominal", "out"), [(12.2, False), (12.25, False), (12.26, True), (11.75, False), (11.7, True)]
)
def test_an_angle_is_held_against_degrees(nominal: float, out: bool) -> None:
    assert is_rounded_out(angle(nominal, 12.0), limits_of(angle(nominal, 12.0), 0.25)) is out
    assert is_rounded_out(angle(nominal, 12.0, 0.25), Limits(0.25, -0.25)) is out


@pytest.mark.parametrize(("nominal", "out"), [(410.4, False), (410.0, False), (409.99, True), (411.01, True)])
def test_a_length_is_held_against_its_own(nominal: float, out: bool) -> None:
    assert is_rounded_out(length(nominal, 410.5), Limits(0.5 * MM, -0.5 * MM)) is out


@pytest.mark.parametrize(("tolerance", "found"), [("0.5 deg", 0), ("0.1 deg", 1)])
def test_an_angle_printed_out_of_the_general_tolerance_on_angles_is_found(tmp_path, tolerance: str, found: int) -> None:  # type: ignore[no-untyped-def]
    leaning = edited(BOARD, "board.width / 2]}", "board.width / 2], lean: {x: 12.2 deg}}")
    general = edited(SET, "angle: make.angle", f"angle: {tolerance}")
    _, findings = state(write(tmp_path, board=leaning, set=general), "metric")
    out = [each for each in findings if each.code == "rounded-out"]
    assert [each.severity for each in out] == [Severity.WARN] * found
    assert all("lean_x" in each.message for each in out)
