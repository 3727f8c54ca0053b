"""Notices to buyers, as text and as HTML: one for each version that somebody may hold, in each edition."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from planbook.document import render
from planbook.release.compilation import Compiled
from planbook.release.guidance import Guidance, Point
from planbook.release.held import Held
from planbook.release.letters import section, wrapped
from planbook.release.reports.issued import NOTICES
from planbook.source import Door
from planbook.source.findings import Finding


def with_notices(
    door: Door, compiled: Mapping[str, Compiled], held: Sequence[Held]
) -> tuple[Mapping[str, Compiled], tuple[Finding, ...]]:
    """The same editions with a notice from each version that had the edition: `notices/from-1.0.txt` and `.html`.

    A finding when the template of the page cannot be filled in.
    """
    files: dict[str, dict[str, bytes]] = {edition: dict(one.files) for edition, one in compiled.items()}
    for each in held:
        for edition, guidance in each.guidance.items():
            page, findings = render(door, "notice.html", {"notice": guidance})
            if page is None:
                return {}, findings
            path = f"{NOTICES}/from-{each.release.version}"
            files[edition] |= {f"{path}.txt": plain_notice(guidance).encode(), f"{path}.html": page.encode()}
    return {edition: replace(one, files=files[edition]) for edition, one in compiled.items()}, ()


def plain_notice(notice: Guidance) -> str:
    """The notice as a letter that any mail program shows."""
    lines = [
        *wrapped(f"{notice.title}, {notice.edition} edition: version {notice.new}, for builders who have {notice.old}"),
        "",
        *wrapped(f"Issued {notice.issued}. Whoever bought an earlier version receives this one at no charge."),
        "",
    ]
    for each in notice.versions:
        lines += wrapped(f"{each.version}: {each.summary}", hang=5)
    lines += ["", *_todo(notice)]
    return "\n".join(lines).rstrip() + "\n"


def _todo(notice: Guidance) -> Iterator[str]:
    if notice.lifted:
        yield from section("No longer in force", (f"“{each.text}” ({each.dated})" for each in notice.lifted))
    yield "WHAT TO DO WITH WHAT YOU HAVE"
    yield ""
    if not notice.asks:
        yield from wrapped("Nothing: all that you have cut, glued or bought is as it should be.")
    elif notice.groups:
        yield from wrapped("If you have cut nothing yet, put the old version away and work from the new one.")
    yield ""
    for group in notice.groups:
        yield from (group.title, *(line for point in group.points for line in _point(point)), "")
    if notice.as_before:
        same = notice.as_before
        yield from (f"{'One part is' if same == 1 else f'{same} parts are'} as before.", "")
    for title, told in notice.others.items():
        yield from section(title, told)
    if notice.sheets:
        yield from (*wrapped(f"Sheets to print anew: {', '.join(notice.sheets)}."), "")
    yield from section("Questions that are answered now", notice.answered)
    yield from wrapped("The chapter “Versions and changes” of the plan set tells all that changed, and why.")


def _point(point: Point) -> Iterator[str]:
    yield from wrapped(f"{point.name}{f': {point.said}' if point.said else ''}", lead="  ", hang=4)
    for each in point.glued:
        yield from wrapped(f"Once it is glued: {each}", lead="    ", hang=6)
    for each in point.why:
        yield from wrapped(each, lead="    ", hang=4)
