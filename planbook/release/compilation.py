"""From content to finished editions: the whole flow for one plan set, with the findings of all editions as one list."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property, partial

from planbook.design import Plan, check_markets, plan_design, suppose
from planbook.document import Composed, Gallery, compose
from planbook.release.collector import collector_paused
from planbook.release.gathering import gather
from planbook.release.history import own_notes, write_history
from planbook.release.looks import compare_seen
from planbook.release.occasion import Occasion
from planbook.release.retirement import check_retired, check_sheets
from planbook.release.shop_files import shop_files
from planbook.release.since import Since
from planbook.release.stock_sizes import check_stock_sizes
from planbook.release.watching import UNWATCHED, Watcher
from planbook.source import Door, load
from planbook.source.content import Content
from planbook.source.findings import Finding, stops
from planbook.source.models.changes import ReasonModel
from planbook.source.text import Text
from planbook.statement import ChangeLog, Comparison, Marks, mark_changes, print_changes, state_edition
from planbook.statement.model import Statement
from planbook.statement.places import Places
from planbook.statement.stated import Stated


@dataclass(frozen=True)
class Prepared:
    """A set's content, read and planned; nothing of it depends on an edition yet."""

    content: Content
    plan: Plan

    @property
    def editions(self) -> tuple[str, ...]:
        """Names, in the order of set.yaml."""
        return tuple(str(name) for name in self.content.plan_set.editions)


@dataclass(frozen=True)
class Told:
    """What one edition tells, and how that differs from the former release; no pages yet."""

    stated: Stated
    comparison: Comparison | None
    seconds: float
    log: ChangeLog | None = None
    """The change log as it is written into the statement; None for a first version."""
    gallery: Gallery | None = None
    """Its figures, of which those are drawn already that had to be looked at to compare them."""

    @property
    def statement(self) -> Statement:
        """The statement, with its history written in."""
        return self.stated.statement

    def figure(self, name: str) -> bytes | None:
        """A figure as it is drawn, as SVG; None for a photograph, and for what no page shows."""
        return self.gallery.picture(name) if self.gallery else None

    @cached_property
    def since(self) -> Since | None:
        """The comparison with its impact."""
        return None if self.comparison is None else Since(self.comparison)


@dataclass(frozen=True)
class Compiled:
    """One finished edition."""

    told: Told
    pdf: bytes
    places: Places
    seconds: float
    """For stating and composing it."""
    files: Mapping[str, bytes] = field(default_factory=dict)
    """What is published beside the PDF, by posix path; empty where nobody asked for it."""
    composed: Composed | None = None
    """What the PDF was set from, so that parts of it can be set again."""

    @property
    def statement(self) -> Statement:
        """What it tells."""
        return self.told.statement


@collector_paused()
def prepare(door: Door, set_key: str, watcher: Watcher = UNWATCHED) -> tuple[Prepared | None, tuple[Finding, ...]]:
    """Read a set's content and plan its design."""
    watcher.tell(f"Reading {set_key}")
    content, findings = load(door, set_key)
    if content is None:
        return None, findings
    plan, more = plan_design(content)
    if plan is None:
        return None, (*findings, *more)
    return Prepared(content, plan), (*findings, *more, *check_markets(content, plan))


@collector_paused()
def state_all(
    door: Door, prepared: Prepared, occasion: Occasion, editions: tuple[str, ...], watcher: Watcher = UNWATCHED
) -> tuple[Mapping[str, Told], tuple[Finding, ...]]:
    """What each of these editions tells, by name; an edition that cannot be stated is missing from it."""
    told: dict[str, Told] = {}
    findings: dict[str, tuple[Finding, ...]] = {}
    for edition in editions:
        watcher.tell(f"Working out the {edition} edition")
        start = watcher.clock()
        stated, found = state_one(door, prepared, occasion, edition)
        if stated and not stops(found):
            one, more = _set_against_former(stated, edition, occasion, Gallery(stated, door))
            told[edition] = replace(one, seconds=watcher.clock() - start)
            found += (*more, *check_stock_sizes(stated))
        findings[edition] = found
    return told, gather(findings)


def state_one(
    door: Door, prepared: Prepared, occasion: Occasion, edition: str
) -> tuple[Stated | None, tuple[Finding, ...]]:
    """One edition by itself; also where what the findings tell stops it."""
    content, plan = prepared.content, prepared.plan
    market = str(content.plan_set.editions[Text(edition)].market)
    values, found = suppose(plan, market, occasion.supposed)
    stated, more = state_edition(
        content, edition, door, plan, occasion.version, occasion.issued, values, occasion.pieces
    )
    return stated, (*found, *more)


def compose_all(
    door: Door, told: Mapping[str, Told], watcher: Watcher = UNWATCHED, *, with_files: bool
) -> tuple[Mapping[str, Compiled], tuple[Finding, ...]]:
    """The PDF of each stated edition, and on demand the files for the shop."""
    compiled: dict[str, Compiled | None] = {}
    findings: dict[str, tuple[Finding, ...]] = {}
    for edition, one in told.items():
        watcher.tell(f"Setting the pages of the {edition} edition")
        compiled[edition], findings[edition] = _compose(door, one, watcher, with_files=with_files)
    return {name: one for name, one in compiled.items() if one}, gather(findings)


@collector_paused()
def _compose(
    door: Door, told: Told, watcher: Watcher, *, with_files: bool
) -> tuple[Compiled | None, tuple[Finding, ...]]:
    start = watcher.clock()
    composed, findings = compose(told.stated, door, told.gallery)
    files: Mapping[str, bytes] = {}
    if composed and with_files:
        files, more = shop_files(told.stated, composed.drawn, door)
        findings += more
    if composed is None or stops(findings):
        return None, findings
    seconds = told.seconds + watcher.clock() - start
    return Compiled(told, composed.pdf, composed.places, seconds, files, composed), findings


def _set_against_former(
    stated: Stated, edition: str, occasion: Occasion, gallery: Gallery
) -> tuple[Told, tuple[Finding, ...]]:
    statement, release = stated.statement, occasion.former
    former = release.statements.get(edition) if release else None
    comparison = None
    if former and release:
        comparison = compare_seen(former, statement, partial(release.figure, edition), gallery.picture)
    changes, log = write_history(statement, former, comparison, stated.content.changes, occasion.advisories)
    findings: tuple[Finding, ...] = ()
    if former:
        findings = check_retired(former, statement, stated.content) + check_sheets(former, statement, stated.content)
    printed = print_changes(statement, changes)
    marks = mark_changes(comparison, printed, _reasons(stated.content, comparison)) if comparison else Marks()
    return Told(replace(stated, statement=printed, marks=marks), comparison, 0.0, log, gallery), findings


def _reasons(content: Content, comparison: Comparison) -> tuple[ReasonModel, ...]:
    """What the author says of the version; nothing of a set for one builder, in which other things changed."""
    if comparison.new.one_off:
        return ()
    own = own_notes(content.changes, comparison.new.version, comparison.old.version)
    return own.reasons if own else ()
