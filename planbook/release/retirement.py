"""Retired ids: a name that an older release told builders about is never given to another thing."""

from __future__ import annotations

from collections.abc import Iterable

from planbook.source.content import Content
from planbook.source.findings import Finding, Place, Severity
from planbook.statement.model import Statement


def retire(former: Statement, statement: Statement) -> tuple[str, ...]:
    """All dimension ids that this statement's forerunners used and it does not, sorted."""
    used = {*former.retired, *former.dimensions} - set(statement.renamed)
    return tuple(sorted(used - set(statement.dimensions)))


def check_retired(former: Statement, statement: Statement, content: Content) -> tuple[Finding, ...]:
    """A finding for each feature that takes the name of one that was gone in the former release.

    A characteristic that comes back to a feature which was there all the time (a hole that is blind again) is the same
    one as before. An author who brings the very same feature back says so with `was:`.
    """
    there = _features(former.dimensions)
    back = _features(set(former.retired) & set(statement.dimensions)) - there
    new_again = sorted(feature for feature in back if not _claimed(feature, content))
    return tuple(_taken_again(part, feature, former.version, content) for part, feature in new_again)


def _features(ids: Iterable[str]) -> set[tuple[str, str]]:
    return {(part, feature) for part, feature, *_ in (each.split("/") for each in ids)}


def _claimed(name: tuple[str, str], content: Content) -> bool:
    part, feature = name
    model = content.parts[part]
    return part in model.was or any(key == feature and key in told.was for key, told in model.features.items())


def _taken_again(part: str, feature: str, former: str, content: Content) -> Finding:
    model = content.parts[part]
    place = next((key.place for key in model.features if key == feature), Place(content.part_files[part], 1, 1))
    what = f"`{part}`" if feature == "blank" else f"`{feature}` of `{part}`"
    name = part if feature == "blank" else feature
    return Finding(
        code="name-retired",
        severity=Severity.STOP,
        message=f"The name {what} was used in a release before {former} and given up since; buyers know it as that.",
        remedy=f"Choose another name, such as `{name}_2`; if it is the very same one come back, say `was: [{name}]`.",
        place=place,
    )
