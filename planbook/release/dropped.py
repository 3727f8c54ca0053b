"""What builders are told whose edition is made no longer: that it is so, and what their version is worth without it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from planbook.document import render
from planbook.release.archive.advisories import Advisory
from planbook.release.compilation import Compiled
from planbook.release.held import Held
from planbook.release.letters import section, wrapped
from planbook.release.reports.issued import NOTICES
from planbook.source import Door
from planbook.source.findings import Finding
from planbook.source.names import in_row
from planbook.statement.model import Statement

_STAYS = (
    "Build from version {last} as you have it. What later versions change was never worked out for your edition: "
    "nothing of it is told here, and none of their sheets belongs to yours."
)
_OTHERS = (
    "Version {new} is made as {editions}, drawn for other stock or in other measures. Begin anew with one of those, or "
    "not at all: never mix its sheets and pieces with yours."
)


@dataclass(frozen=True, slots=True)
class Farewell:
    """The notice to builders who hold version `old` of an edition that `last` was the last to have."""

    title: str
    edition: str
    old: str
    new: str
    last: str
    issued: str
    editions: tuple[str, ...]
    """Those that the new version has, by their titles."""
    advisories: tuple[Advisory, ...]
    """On `old`. They hold on: no version of this edition mends what they are about."""

    @property
    def said(self) -> Iterator[str]:
        """What it means, in paragraphs."""
        yield f"Version {self.new} has no {self.edition} edition. The last version with one is {self.last}."
        if self.old != self.last:
            yield f"What changed from {self.old} to {self.last}, the notice of {self.last} tells."
        yield _STAYS.format(last=self.last)
        yield _OTHERS.format(new=self.new, editions=in_row(self.editions, "and"))


def dropped_notices(
    door: Door, held: Sequence[Held], compiled: Mapping[str, Compiled], advisories: Sequence[Advisory]
) -> tuple[Mapping[str, bytes], tuple[Finding, ...]]:
    """By path in the release: `imperial/notices/from-1.0.txt` and `.html`, from each version that had the edition."""
    now = {name: one.statement for name, one in compiled.items()}
    files: dict[str, bytes] = {}
    for edition in dict.fromkeys(name for each in held for name in each.release.statements if name not in now):
        having = [each.release for each in held if edition in each.release.statements]
        last = str(having[-1].version)
        for release in having:
            farewell = _farewell(release.statements[edition], last, now, advisories)
            page, findings = render(door, "dropped.html", {"notice": farewell})
            if page is None:
                return {}, findings
            path = f"{edition}/{NOTICES}/from-{release.version}"
            files |= {f"{path}.txt": _plain(farewell).encode(), f"{path}.html": page.encode()}
    return files, ()


def _farewell(held: Statement, last: str, now: Mapping[str, Statement], advisories: Sequence[Advisory]) -> Farewell:
    new = next(iter(now.values()))
    edition = held.edition.name
    ours = (each for each in advisories if each.version == held.version and edition in each.editions)
    titles = tuple(each.edition.title for each in now.values())
    return Farewell(held.plan_set.title, edition, held.version, new.version, last, new.issued, titles, tuple(ours))


def _plain(notice: Farewell) -> str:
    lines = [
        *wrapped(f"{notice.title}, {notice.edition} edition: made no longer; for builders who have {notice.old}"),
        "",
        *wrapped(f"Issued {notice.issued}, with version {notice.new}."),
        "",
    ]
    for paragraph in notice.said:
        lines += [*wrapped(paragraph), ""]
    stand = (f"{each.text} ({each.dated})" for each in notice.advisories)
    lines += section("Advisories on your version, which hold on", stand)
    return "\n".join(lines).rstrip() + "\n"
