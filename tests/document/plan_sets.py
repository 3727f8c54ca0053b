"""The plan sets of the workspace, each edition stated once for all tests that look at it."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from planbook.design import plan_design
from planbook.source import Door, load
from planbook.statement import state_edition
from planbook.statement.stated import Stated

WORKSPACE = Path(__file__).parents[2]
EDITIONS = ("metric", "imperial")


@cache
def stated(key: str, edition: str) -> Stated:
    content, _ = load(Door(WORKSPACE), key)
    assert content is not None
    plan, _ = plan_design(content)
    assert plan is not None
    found, _ = state_edition(content, edition, Door(WORKSPACE), plan, "", content.plan_set.issued)
    assert found is not None
    return found
