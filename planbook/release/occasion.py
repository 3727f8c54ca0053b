"""What a compilation is for: a draft or a version, and what of the archive bears on it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from pathlib import Path

from planbook.design import Supposed
from planbook.release.archive.advisories import Advisory, read_advisories
from planbook.release.archive.reader import Release, read_latest
from planbook.source.content import Content
from planbook.source.findings import Finding


@dataclass(frozen=True)
class Occasion:
    """What a compilation is for: version text ("" for a draft), issue date, and the release that buyers have now.

    `supposed` stands in the place of what content says; nothing is where something is released.
    """

    version: str
    issued: date
    former: Release | None
    supposed: tuple[Supposed, ...] = ()
    advisories: tuple[Advisory, ...] = ()
    """Of all releases, oldest first."""
    pieces: int = 1
    """For how many of the piece lists and layouts are; one where something is released."""


def occasion_of(
    root: Path,
    content: Content,
    version: str = "",
    issued: date | None = None,
    supposed: tuple[Supposed, ...] = (),
    pieces: int = 1,
) -> tuple[Occasion, tuple[Finding, ...]]:
    """A draft, or a version issued on a day, after the newest release; and what is damaged of what bears on it."""
    former, altered = read_latest(root, content.key)
    advisories, spoiled = read_advisories(root, content.key)
    issued = issued or _working_day(content)
    return Occasion(version, issued, former, supposed, advisories, pieces), (*altered, *spoiled)


def _working_day(content: Content) -> date:
    """A draft's: that of the set, or of the last version that changes.yaml tells of, for it follows all of them."""
    return max((content.plan_set.issued, *(each.issued for each in content.changes.values())))
