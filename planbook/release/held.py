"""Earlier versions that somebody may hold, and what their builders are told in each edition, worked out once."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import partial

from planbook.release.archive.advisories import Advisory
from planbook.release.archive.reader import Release
from planbook.release.compilation import Compiled
from planbook.release.guidance import Guidance, guide
from planbook.release.looks import compare_seen
from planbook.release.questions import newly_answered
from planbook.release.since import Since, Sinces


@dataclass(frozen=True)
class Held:
    """A release, and what each edition that it had tells since."""

    release: Release
    sinces: Sinces
    guidance: Mapping[str, Guidance]
    """What builders who have it are told, by edition."""


def held_versions(
    earlier: Iterable[Release], compiled: Mapping[str, Compiled], advisories: Sequence[Advisory]
) -> tuple[Held, ...]:
    """Oldest first. What was compared with the version before already is not compared again."""
    return tuple(_held(release, compiled, advisories) for release in earlier)


def _held(release: Release, compiled: Mapping[str, Compiled], advisories: Sequence[Advisory]) -> Held:
    """Each edition in the language that its author's words have there."""
    sinces = {name: _since(release, name, one) for name, one in compiled.items() if name in release.statements}
    now = {name: one.statement for name, one in compiled.items()}
    guidance: dict[str, Guidance] = {}
    for name, since in sinces.items():
        content = compiled[name].told.stated.content
        answered = newly_answered(release.statements, now, content.questions)
        asked = [str(question.head.question) for question in answered]
        guidance[name] = guide(since, str(release.version), content.changes, advisories, asked)
    return Held(release, sinces, guidance)


def _since(release: Release, edition: str, one: Compiled) -> Since:
    known = one.told.since
    if known is not None and known.comparison.old.version == str(release.version):
        return known
    before = partial(release.figure, edition)
    return Since(compare_seen(release.statements[edition], one.statement, before, one.told.figure))
