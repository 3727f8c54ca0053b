"""What is stated: the plan set, its edition, and what is changed for one builder."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class EditionStated:
    """The edition's own choices (source.models.plan_set.EditionModel), as words."""

    name: str
    title: str
    units: str
    paper: str
    projection: str
    market: str
    market_title: str
    language: str
    built: bool


@dataclass(frozen=True, slots=True)
class SetStated:
    """The plan set as its title block and cover state it."""

    key: str
    code: str
    title: str
    subtitle: str
    summary: str
    workshop: str
    workshop_place: str
    rights: str
    drawn_by: str
    approved_by: str
    general_tolerance: tuple[str, ...]
    """Lines of the general tolerance note, printed on every sheet."""
    caliper_tolerance: str = ""
    """What holds for caliper work without a tolerance of its own: "±0.1 mm". "" where an older release said nothing."""
    overall: str = ""
    """Length, depth and height where the author gives them: "1500 × 600 × 760 mm"."""


@dataclass(frozen=True, slots=True)
class OneOffStated:
    """A measure of one builder in the place of the plan's own: what it is, as printed, and as it was.

    `derived`: the plan works it out by a formula, which does not count here.
    """

    name: str
    what: str
    text: str
    was: str
    derived: bool = False
