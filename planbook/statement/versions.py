"""Honest version numbers: `2.0` when a builder may have to rework something, `1.1` when only the paper changed."""

from __future__ import annotations

from planbook.statement.comparison import Comparison


def least_version(comparison: Comparison, old_version: str) -> str:
    """The lowest version that may follow `old_version` ("1.0") with these changes.

    Until impact by geometry exists, any change of a shape or a printed number asks for a new first number. Raises
    ValueError when `old_version` is not two numbers with a point between.
    """
    major, minor = map(int, old_version.split("."))
    return f"{major + 1}.0" if comparison.major else f"{major}.{minor + 1}"
