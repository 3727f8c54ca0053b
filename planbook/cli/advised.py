"""Advisories for people."""

from __future__ import annotations

from collections.abc import Iterator

from planbook.release import Advised, advisory_subject


def advised_lines(advised: Advised) -> Iterator[str]:
    """Each in two lines: what it is about and whether it stands; what it says."""
    for each in advised.advisories:
        lifted = f": lifted by {advised.lifted[each.number]}" if each.number in advised.lifted else ""
        yield f"Advisory {each.number}, {each.dated}, on {advisory_subject(each)}{lifted}"
        yield f"  {each.text}"
