"""Comparing with open eyes: of figures that show something else, those that look as they did are not told."""

from __future__ import annotations

from collections.abc import Callable

from planbook.drawing import look_alike
from planbook.statement import Comparison, as_seen, compare
from planbook.statement.model import Statement

Pictures = Callable[[str], bytes | None]
"""A figure of one side by name, as SVG; None for one that is no drawing, was not kept, or stands nowhere."""


def compare_seen(old: Statement, new: Statement, before: Pictures, after: Pictures) -> Comparison:
    """The comparison of two statements, with the pictures of each. Only figures whose hashes differ are looked at."""

    def alike(name: str) -> bool:
        was = before(name)
        now = after(name) if was is not None else None
        return was is not None and now is not None and look_alike(was, now)

    return as_seen(compare(old, new), alike)
