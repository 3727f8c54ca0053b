"""Earlier versions that somebody may hold, and how each edition differs from them now: compared once for all."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import partial

from planbook.release.archive.reader import Release
from planbook.release.compilation import Compiled
from planbook.release.looks import compare_seen
from planbook.release.since import Since, Sinces


@dataclass(frozen=True)
class Held:
    """A release, and what each edition that it had tells since."""

    release: Release
    sinces: Sinces


def held_versions(earlier: Iterable[Release], compiled: Mapping[str, Compiled]) -> tuple[Held, ...]:
    """Oldest first. What was compared with the version before already is not compared again."""
    return tuple(
        Held(
            release, {name: _since(release, name, one) for name, one in compiled.items() if name in release.statements}
        )
        for release in earlier
    )


def _since(release: Release, edition: str, one: Compiled) -> Since:
    known = one.told.since
    if known is not None and known.comparison.old.version == str(release.version):
        return known
    before = partial(release.figure, edition)
    return Since(compare_seen(release.statements[edition], one.statement, before, one.told.figure))
