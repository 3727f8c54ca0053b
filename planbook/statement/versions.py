"""Honest version numbers: `2.0` when a builder may have to rework something, `1.1` when only the paper changed."""

from __future__ import annotations

from planbook.statement.comparison import Comparison


def version_key(version: str) -> tuple[int, ...]:
    """A version text as numbers, to sort by: `1.10` comes after `1.9`. Raises ValueError for anything else."""
    return tuple(int(number) for number in version.split("."))


def least_version(comparison: Comparison, old_version: str) -> str:
    """The lowest version that may follow `old_version` ("1.0") with these changes.

    Until impact by geometry exists, any change of a shape or a printed number asks for a new first number. For several
    editions take the highest by `version_key`.
    """
    major, minor = version_key(old_version)
    return f"{major + 1}.0" if comparison.major else f"{major}.{minor + 1}"
