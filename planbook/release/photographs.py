"""Photographs: one that shows a part as it was in an earlier version, and is no longer, is told to its author."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path

from planbook.release.archive.reader import list_versions, read_release
from planbook.release.compilation import Told
from planbook.release.version import Version, read_version
from planbook.source.content import Content
from planbook.source.findings import Finding, Severity
from planbook.source.models.figures import PictureModel, ShowsModel
from planbook.source.names import listed
from planbook.statement import compare
from planbook.statement.comparison import Verdict

_AS_THEY_WERE = frozenset({Verdict.UNCHANGED, Verdict.REPRINT})


def check_photographs(root: Path, content: Content, told: Mapping[str, Told]) -> tuple[Finding, ...]:
    """A warning for each photograph whose parts changed since the version that it shows, or whose version never was.

    A version after the last release is the one in work: nothing can have changed since.
    """
    released = list_versions(root, content.key)
    return tuple(
        finding
        for model in content.figures.values()
        if isinstance(model, PictureModel) and model.shows is not None
        for finding in _check(root, content, told, model, model.shows, released)
    )


def _check(
    root: Path,
    content: Content,
    told: Mapping[str, Told],
    model: PictureModel,
    shows: ShowsModel,
    released: tuple[Version, ...],
) -> Iterator[Finding]:
    version = read_version(shows.version)
    if version is None or not released or version > released[-1]:
        return
    if version not in released:
        remedy = f"Name the version that was built: {listed(map(str, released), 'or')}."
        message = f"The picture {model.picture} shows version {version}, and that was never released."
        yield Finding("picture-version-unknown", Severity.WARN, message, remedy, shows.version.place)
        return
    changed = _changed(root, content.key, version, told)
    seen = [f"`{part}`" for part in shows.parts if part in changed]
    if seen:
        message = f"The picture {model.picture} shows version {version}; since then changed: {', '.join(seen)}."
        remedy = "Take a new photograph, or say with `shows` that the change is not seen in it."
        yield Finding("picture-outdated", Severity.WARN, message, remedy, model.picture.place)


def _changed(root: Path, set_key: str, version: Version, told: Mapping[str, Told]) -> frozenset[str]:
    """Parts that are not as they were in that version, in any edition. A damaged archive is reported elsewhere."""
    release, _ = read_release(root, set_key, version)
    if release is None:
        return frozenset()
    comparisons = (
        compare(release.statements[name], one.statement) for name, one in told.items() if name in release.statements
    )
    return frozenset(part.key for each in comparisons for part in each.parts if part.verdict not in _AS_THEY_WERE)
