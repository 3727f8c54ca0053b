"""Which dimension is that? Every printed measure that reads so, with its sheet and page."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from pathlib import Path

from planbook.release.archive.advisories import Advisory, read_advisories
from planbook.release.editions import choose_edition, read_named, read_working
from planbook.release.history import DRAFT
from planbook.release.reading_measures import Reading, printed_text, read_measure, read_quote, reads_so
from planbook.release.reports import Found
from planbook.release.watching import UNWATCHED, Watcher
from planbook.source.findings import Finding, Severity, stops
from planbook.statement.model import Statement
from planbook.statement.places import PlaceOnPage, Places


def find(
    root: Path,
    set_key: str,
    text: str,
    *,
    version: str | None = None,
    edition: str | None = None,
    watcher: Watcher = UNWATCHED,
) -> tuple[tuple[Found, ...] | None, tuple[Finding, ...]]:
    """Every dimension and parameter whose printed text reads so, in a release or in the content as it stands.

    None when a finding stops it: no such version or edition, a text that is no measure, content that does not compile.
    """
    quote = read_quote(text)
    reading = read_measure(quote.measure)
    if reading is None:
        return None, (_not_a_measure(text),)
    statements, places, findings = _read(root, set_key, version or quote.version, watcher)
    findings += choose_edition(statements, edition) if statements else ()
    if stops(findings):
        return None, findings
    chosen = [edition] if edition else list(statements)
    found = (one for name in chosen for one in _search(statements[name], places[name], reading))
    advisories, damaged = read_advisories(root, set_key)
    there = (one for one in found if quote.page in (None, one.page) and quote.sheet in ("", one.sheet))
    return tuple(_advised(one, advisories) for one in there), (*findings, *damaged)


def _advised(found: Found, advisories: Iterable[Advisory]) -> Found:
    """With the advisories on its version that speak of its part, or of the whole version."""
    ours = (each for each in advisories if each.version == found.version and found.edition in each.editions)
    return replace(found, advisories=tuple(each.number for each in ours if each.part in (None, found.part)))


def _read(
    root: Path, set_key: str, version: str, watcher: Watcher
) -> tuple[Mapping[str, Statement], Mapping[str, Places], tuple[Finding, ...]]:
    if version:
        release, findings = read_named(root, set_key, version)
        return (release.statements, release.places, findings) if release else ({}, {}, findings)
    working, findings = read_working(root, set_key, watcher, with_pages=True)
    return (working.statements, working.places, findings) if working else ({}, {}, findings)


def _search(statement: Statement, places: Places, reading: Reading) -> Iterator[Found]:
    for name, dimension in statement.dimensions.items():
        if reads_so(dimension.printed, reading):
            yield from printed_places(statement, places, name)
    for name, parameter in statement.parameters.items():
        if reads_so(parameter.printed, reading):
            yield from printed_places(statement, places, name)


def printed_places(statement: Statement, places: Places, name: str) -> tuple[Found, ...]:
    """Each place where a dimension or parameter of the statement is printed; one without a page when it is nowhere."""
    version = statement.version or DRAFT
    edition = statement.edition.name
    if dimension := statement.dimensions.get(name):
        part = statement.parts[dimension.part]
        on_pages = places.dimensions.get(name, ())
        kind, number, sheet, text = "dimension", part.number, part.sheet, printed_text(dimension.printed)
    else:
        on_pages = places.parameters.get(name, ())
        kind, number, sheet, text = "parameter", None, None, printed_text(statement.parameters[name].printed)
    if not on_pages:
        return (Found(name, kind, number, sheet, None, text, edition, version),)
    return tuple(
        Found(name, kind, number, place.sheet or None, place.page, text, edition, version)
        for place in _first_on_each_page(on_pages)
    )


def _first_on_each_page(places: tuple[PlaceOnPage, ...]) -> list[PlaceOnPage]:
    pages: dict[int, PlaceOnPage] = {}
    for place in places:
        pages.setdefault(place.page, place)
    return [pages[page] for page in sorted(pages)]


def _not_a_measure(text: str) -> Finding:
    return Finding(
        code="unreadable-measure",
        severity=Severity.STOP,
        message=f"`{text}` does not read as a printed measure.",
        remedy='Type it as it stands on the page: "5 3/8", 5-3/8, 137 or "137 mm".',
    )
