"""The lines that the desk's set.yaml offers in a comment make a third edition: metric units on American paper."""

from __future__ import annotations

import re
import shutil
from datetime import date
from pathlib import Path

from planbook.design import plan_design
from planbook.source import Door, load
from planbook.statement import state_edition

from .sets import WORKSPACE


def _with_offered_edition(folder: Path) -> Door:
    """A copy of the workspace's desk in which the comment is no comment any more."""
    for name in ("shared", "content/sewing-desk"):
        shutil.copytree(WORKSPACE / name, folder / name)
    file = folder / "content/sewing-desk/set.yaml"
    text = file.read_text(encoding="utf-8")
    offered = re.findall(r"^#   (.+)\n", text, re.MULTILINE)
    assert len(offered) == 2
    file.write_text(text.replace("editions:\n", f"editions:\n  {offered[0]}\n  {offered[1]}\n"), encoding="utf-8")
    return Door(folder)


def test_metric_units_on_letter_paper_for_north_american_stock(tmp_path: Path) -> None:
    door = _with_offered_edition(tmp_path)
    content, findings = load(door, "sewing-desk")
    assert content is not None, findings
    plan, findings = plan_design(content)
    assert plan is not None, findings
    stated, findings = state_edition(content, "metric_letter", door, plan, "", date(2026, 3, 16))
    assert stated is not None, findings
    # Inches printed in millimetres are rounded now and then to the builder's disadvantage, and the tool says where.
    assert {finding.code for finding in findings} <= {"fit-rounded-against", "rounding-drifts"}
    edition = stated.statement.edition
    assert (edition.units, edition.paper, edition.market) == ("millimetre", "letter", "north_america")
    # The North American desk is a design of its own: 59 in, stated in millimetres, not 1500 mm.
    assert stated.statement.parameters["top.length"].printed.text == "1498.5"
    assert stated.statement.parameters["top.length"].printed.other == "59"
    assert stated.statement.parts["top"].stock_title == "3/4 in hardwood plywood"
