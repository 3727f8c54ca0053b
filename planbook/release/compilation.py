"""From content to finished editions: the whole flow for one plan set, with the findings of all editions as one list."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import date

from planbook.design import Plan, plan_design
from planbook.document import compose
from planbook.release.gathering import gather
from planbook.source import Door, load
from planbook.source.content import Content
from planbook.source.findings import Finding, stops
from planbook.statement import Changes, Places, Stated, Statement, state_edition

Tell = Callable[[str], None]
"""Told, in a few words, what is being done now."""


def untold(_: str) -> None:
    """For callers that nobody watches."""


@dataclass(frozen=True)
class Prepared:
    """A set's content, read and planned; nothing of it depends on an edition yet."""

    content: Content
    plan: Plan

    @property
    def editions(self) -> tuple[str, ...]:
        return tuple(str(name) for name in self.content.plan_set.editions)


@dataclass(frozen=True)
class Label:
    """What a compilation is called: version text ("" for a draft), issue date, and the changes printed by edition."""

    version: str
    issued: date
    changes: Mapping[str, Changes] = field(default_factory=dict)


@dataclass(frozen=True)
class Compiled:
    """One finished edition."""

    stated: Stated
    pdf: bytes
    places: Places

    @property
    def statement(self) -> Statement:
        return self.stated.statement


def prepare(door: Door, set_key: str, tell: Tell = untold) -> tuple[Prepared | None, tuple[Finding, ...]]:
    """Read a set's content and plan its design."""
    tell(f"Reading {set_key}")
    content, findings = load(door, set_key)
    if content is None:
        return None, findings
    plan, more = plan_design(content)
    return (Prepared(content, plan) if plan else None), (*findings, *more)


def state(
    door: Door, prepared: Prepared, label: Label, tell: Tell = untold
) -> tuple[Mapping[str, Stated], tuple[Finding, ...]]:
    """What each edition states, by edition name; an edition that cannot be stated is missing from it."""
    stated: dict[str, Stated] = {}
    findings: dict[str, tuple[Finding, ...]] = {}
    for edition in prepared.editions:
        tell(f"Working out the {edition} edition")
        one, findings[edition] = state_edition(
            prepared.content, edition, door, prepared.plan, label.version, label.issued, label.changes.get(edition)
        )
        if one:
            stated[edition] = one
    return stated, gather(findings)


def compose_all(
    door: Door, stated: Mapping[str, Stated], tell: Tell = untold
) -> tuple[Mapping[str, Compiled], tuple[Finding, ...]]:
    """The PDF of each stated edition."""
    compiled: dict[str, Compiled] = {}
    findings: dict[str, tuple[Finding, ...]] = {}
    for edition, one in stated.items():
        tell(f"Setting the pages of the {edition} edition")
        composed, findings[edition] = compose(one, door)
        if composed and not stops(findings[edition]):
            compiled[edition] = Compiled(one, composed.pdf, composed.places)
    return compiled, gather(findings)
