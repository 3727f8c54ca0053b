"""What hangs on what, by the formulas of all markets together."""

from __future__ import annotations

from collections import deque
from collections.abc import Mapping

from planbook.design.plan import Plan


def inputs(plan: Plan, name: str) -> tuple[str, ...]:
    """The names that the formula of `name` mentions, in any market."""
    found = (used for market in plan.markets.values() for used in market.inputs.get(name, ()))
    return tuple(dict.fromkeys(found))


def dependents(plan: Plan, name: str) -> tuple[str, ...]:
    """All names whose value hangs on `name`, directly or not, in any market, in the order of the content."""
    return tuple(routes(plan, name))


def routes(plan: Plan, name: str) -> Mapping[str, tuple[str, ...]]:
    """Every name that hangs on `name`, in the order of the content, with the shortest way to it, both ends included."""
    users: dict[str, list[str]] = {}
    for market in plan.markets.values():
        for user, used in market.inputs.items():
            for each in used:
                users.setdefault(each, []).append(user)
    reached: dict[str, tuple[str, ...]] = {name: (name,)}
    waiting = deque([name])
    while waiting:
        way = reached[waiting.popleft()]
        for user in users.get(way[-1], ()):
            if user not in reached:
                reached[user] = (*way, user)
                waiting.append(user)
    return {each: reached[each] for each in plan.names if each in reached and each != name}
