"""References to figures and steps, which have other numbers when one comes in before them."""

from __future__ import annotations

import re
from collections.abc import Mapping

from planbook.statement.model import Statement

_REFERENCE = re.compile(r"\b(?P<kind>[Ff]igure|[Ss]tep) (?P<number>\d+)\b")


class NewNumbers:
    """Texts of an older statement with the numbers that what they refer to has in a newer one."""

    def __init__(self, old: Statement, new: Statement) -> None:
        self._numbers = {"figure": _moved(_figures(old), _figures(new)), "step": _moved(_steps(old), _steps(new))}

    def of(self, text: str) -> str:
        """`as in figure 20` of the older statement is `as in figure 21` where the newer one has that figure there."""
        return _REFERENCE.sub(self._renumbered, text)

    def _renumbered(self, found: re.Match[str]) -> str:
        kind, number = found["kind"], int(found["number"])
        return f"{kind} {self._numbers[kind.lower()].get(number, number)}"


def _moved(old: Mapping[str, int], new: Mapping[str, int]) -> dict[int, int]:
    return {number: new[name] for name, number in old.items() if number and new.get(name)}


def _figures(statement: Statement) -> dict[str, int]:
    return {name: each.number for name, each in statement.figures.items()}


def _steps(statement: Statement) -> dict[str, int]:
    return {step.key: step.number for step in statement.steps}
