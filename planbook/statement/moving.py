"""Moving the piece: its travels, the rules judged over them, what comes near, and where fingers are caught."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from planbook.design import Plan
from planbook.motion import Travel, check_travels, travels_of
from planbook.source.content import Content
from planbook.source.findings import Finding
from planbook.statement.clearances import Clearance, clearances
from planbook.statement.judging import judge_rules
from planbook.statement.model import RuleStated
from planbook.statement.pinch_points import PinchPoint, check_pinch_points, pinch_points
from planbook.statement.working import Worked


@dataclass(frozen=True)
class Moved:
    """What the motion of an edition shows."""

    travels: Mapping[str, Travel]
    """By name, those that can be run."""
    rules: Mapping[str, RuleStated]
    near: tuple[Clearance, ...]
    pinching: tuple[PinchPoint, ...]
    judged: tuple[Finding, ...]
    """Rules that do not hold, what is in the way, and pinch points that no caution lists."""


def move(content: Content, worked: Worked, plan: Plan, because: Mapping[str, str]) -> tuple[Moved, tuple[Finding, ...]]:
    """What the motion shows, and why a travel cannot be run. `because` are the reasons of rules, as printed."""
    travels, found = travels_of(content, plan, worked.design, worked.parts)
    rules, broken = judge_rules(content, worked.design, plan, worked.units, because, travels)
    near = tuple(clearances(content, plan, worked.design, travels, rules))
    pinching = pinch_points(content, travels)
    judged = (*broken, *check_travels(content, travels), *check_pinch_points(pinching, content))
    return Moved(travels, rules, near, pinching, judged), found
