"""The demo sets, each edition stated once."""

from __future__ import annotations

from datetime import date
from functools import lru_cache
from pathlib import Path

from planbook.design import plan_design
from planbook.source import Door, load
from planbook.statement import state_edition
from planbook.statement.stated import Stated

EDITIONS = [(key, edition) for key in ("sewing-desk", "tool-tote") for edition in ("imperial", "metric")]


@lru_cache
def as_stated(key: str, edition: str) -> Stated:
    door = Door(Path(__file__).parents[3])
    content, _ = load(door, key)
    assert content is not None
    plan, _ = plan_design(content)
    assert plan is not None
    found, findings = state_edition(content, edition, door, plan, "", date(2026, 1, 1))
    assert found is not None, findings
    return found
