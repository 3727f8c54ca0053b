"""What is told in words and pictures: prose, rows of lists, sheets, figures, rules, build steps."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class BlockStated:
    """A block of prose: paragraph, list item, heading, caution, table row, caption. `page` is the page or step key."""

    id: str
    page: str
    kind: str
    text: str


@dataclass(frozen=True, slots=True)
class RowStated:
    """A row of a list; `cells` are printed texts by column name, in column order."""

    id: str
    cells: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class SheetStated:
    """A drawing sheet."""

    number: str
    part: str
    title: str
    changed_in: str
    """The version in which the sheet last changed."""


@dataclass(frozen=True, slots=True)
class FigureStated:
    """A picture, chart or drawing that a page shows."""

    name: str
    caption: str
    alt: str
    content: str
    """SHA-256 of what is drawn, so that a changed picture shows as a change."""
    number: int = 0
    """In the order of reading; 0 when no page shows it (a cover's picture)."""
    shows_version: str = ""
    """The version that a photograph shows as built; "" where its author does not say, or it is no photograph."""


@dataclass(frozen=True, slots=True)
class RuleStated:
    """A requirement as checked in this edition."""

    name: str
    require: str
    because: str
    stated: str
    """The two sides as printed values: `23 21/32 in >= 23 1/2 in`."""
    holds: bool
    weight: str


@dataclass(frozen=True, slots=True)
class StepStated:
    """A build step. `parts` and `cautions` are keys; `hold` is what must be checked before going on.

    `glue_order` are the keys of parts as they are glued, while the glue stays open for `open_time` ("5 to 10 min").
    """

    key: str
    number: int
    title: str
    parts: tuple[str, ...]
    hold: str
    tools: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    dry_fit: str = ""
    glue_order: tuple[str, ...] = ()
    open_time: str = ""
