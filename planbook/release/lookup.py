"""Which dimension is that? Every printed measure that reads so, with its sheet and page."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from pathlib import Path

from planbook.release.archive.advisories import Advisory, read_advisories
from planbook.release.archive.prints import Print, Prints, find_prints, print_of, prints_of
from planbook.release.archive.reader import list_versions
from planbook.release.editions import choose_edition, read_working, released_version
from planbook.release.history import DRAFT
from planbook.release.reading_measures import Reading, printed_text, read_measure, read_quote, reads_so
from planbook.release.reports.traced import Found
from planbook.release.version import Version
from planbook.release.watching import UNWATCHED, Watcher
from planbook.source.findings import Finding, Severity, stops
from planbook.statement.model import Statement
from planbook.statement.places import Places


def find(
    root: Path,
    set_key: str,
    text: str,
    *,
    version: str | None = None,
    released: bool = False,
    edition: str | None = None,
    watcher: Watcher = UNWATCHED,
) -> tuple[tuple[Found, ...] | None, tuple[Finding, ...]]:
    """Every dimension and parameter whose printed text reads so, in a release or in the content as it stands.

    With `released`, in all releases, oldest first, unless a version is named. What stands elsewhere than where the
    text says is told with a finding: a buyer's page may be that of another printing. None when a finding stops it:
    no such version or edition, a text that is no measure, content that does not compile.
    """
    quote = read_quote(text)
    reading = read_measure(quote.measure)
    if reading is None:
        return None, (_not_a_measure(text),)
    named = version or quote.version
    if named:
        prints, findings = _of_version(root, set_key, named, reading)
    elif released:
        prints, findings = _of_all(root, set_key, reading)
    else:
        prints, findings = _of_content(root, set_key, reading, watcher)
    editions = dict.fromkeys(name for one in prints.values() for name in one)
    findings += choose_edition(editions, edition) if editions else ()
    if stops(findings):
        return None, findings
    advisories, damaged = read_advisories(root, set_key)
    found = tuple(_advised(one, advisories) for one in _found(prints, edition))
    there = tuple(one for one in found if quote.page in (None, one.page) and quote.sheet in ("", one.sheet))
    if found and not there:
        return found, (*findings, *damaged, _elsewhere(text))
    return there, (*findings, *damaged)


_ByVersion = dict[str, Prints]


def _of_version(root: Path, set_key: str, version: str, reading: Reading) -> tuple[_ByVersion, tuple[Finding, ...]]:
    known, findings = released_version(root, set_key, version)
    if known is None:
        return {}, findings
    return _of_versions(root, set_key, (known,), reading)


def _of_all(root: Path, set_key: str, reading: Reading) -> tuple[_ByVersion, tuple[Finding, ...]]:
    versions = list_versions(root, set_key)
    if not versions:
        return {}, released_version(root, set_key, "")[1]
    return _of_versions(root, set_key, versions, reading)


def _of_versions(
    root: Path, set_key: str, versions: Iterable[Version], reading: Reading
) -> tuple[_ByVersion, tuple[Finding, ...]]:
    read = {str(each): find_prints(root, set_key, each, reading) for each in versions}
    return {each: prints for each, (prints, _) in read.items()}, tuple(
        one for _, found in read.values() for one in found
    )


def _of_content(root: Path, set_key: str, reading: Reading, watcher: Watcher) -> tuple[_ByVersion, tuple[Finding, ...]]:
    working, findings = read_working(root, set_key, watcher, with_pages=True)
    if working is None:
        return {}, findings
    prints = {
        name: tuple(each for each in prints_of(one, working.places[name]) if reads_so(each.printed, reading))
        for name, one in working.statements.items()
    }
    return {DRAFT: prints}, findings


def _found(by_version: _ByVersion, edition: str | None) -> Iterator[Found]:
    for version, prints in by_version.items():
        for name, those in prints.items():
            if edition in (None, name):
                yield from (one for each in those for one in _places(each, name, version))


def printed_places(statement: Statement, places: Places, name: str) -> tuple[Found, ...]:
    """Each place where a dimension or parameter of the statement is printed; one without a page when it is nowhere."""
    return tuple(_places(print_of(statement, places, name), statement.edition.name, statement.version or DRAFT))


def _places(each: Print, edition: str, version: str) -> Iterator[Found]:
    text = printed_text(each.printed)
    for page, sheet in each.pages:
        yield Found(each.id, each.kind, each.part, sheet or None, page, text, edition, version)
    if not each.pages:
        yield Found(each.id, each.kind, each.part, each.sheet, None, text, edition, version)


def _advised(found: Found, advisories: Iterable[Advisory]) -> Found:
    """With the advisories on its version that speak of its part, or of the whole version."""
    ours = (each for each in advisories if each.version == found.version and found.edition in each.editions)
    return replace(found, advisories=tuple(each.number for each in ours if each.part in (None, found.part)))


def _elsewhere(text: str) -> Finding:
    return Finding(
        code="quoted-elsewhere",
        severity=Severity.WARN,
        message=f"“{text}”: nothing reads so in that place; where it stands is told instead.",
        remedy="Ask the buyer for version and edition, which stand at the foot of each page.",
    )


def _not_a_measure(text: str) -> Finding:
    return Finding(
        code="unreadable-measure",
        severity=Severity.STOP,
        message=f"`{text}` does not read as a printed measure.",
        remedy='Type it as it stands on the page: "5 3/8", 5-3/8, 137 or "137 mm".',
    )
