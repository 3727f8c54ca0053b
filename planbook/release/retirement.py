"""Retired ids: a name that an older release told builders about is never given to another thing."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from string import ascii_lowercase

from planbook.source.content import Content
from planbook.source.findings import Finding, Place, Severity
from planbook.source.names import sheet_order
from planbook.statement.model import Statement
from planbook.statement.renaming import in_new_names


def retire(former: Statement, statement: Statement) -> tuple[str, ...]:
    """All dimension ids that this statement's forerunners used and it does not, sorted."""
    used = {*former.retired, *former.dimensions} - set(statement.renamed)
    return tuple(sorted(used - set(statement.dimensions)))


def retire_sheets(former: Statement, statement: Statement) -> tuple[str, ...]:
    """All sheet numbers that this statement's forerunners used and it does not, in the order of sheets."""
    return tuple(sorted({*former.retired_sheets, *former.sheets} - set(statement.sheets), key=sheet_order))


def check_sheets(former: Statement, statement: Statement, content: Content) -> tuple[Finding, ...]:
    """A finding for each part on another sheet than in the former release, and for each sheet number used again."""
    before = {sheet.part: number for number, sheet in in_new_names(former, statement.renamed).sheets.items()}
    findings: list[Finding] = []
    for number, sheet in statement.sheets.items():
        was = before.get(sheet.part)
        if was is not None and was != number:
            message = f"`{sheet.part}` was on sheet {was} in {former.version} and is now on sheet {number}."
            remedy = f"A sheet keeps its number for life: say `sheet: {was}`."
            findings.append(_of_sheet("sheet-renumbered", message, remedy, sheet.part, content))
        elif was is None and number in {*before.values(), *former.retired_sheets}:
            free = _free_sheet(number, {*former.sheets, *former.retired_sheets, *statement.sheets})
            message = f"Sheet {number} was that of another part in a release up to {former.version}."
            remedy = f"Give `{sheet.part}` a sheet of its own, for example `sheet: {free}`."
            findings.append(_of_sheet("sheet-reused", message, remedy, sheet.part, content))
    return tuple(findings)


def _free_sheet(number: str, taken: set[str]) -> str:
    """The first inserted sheet after this one that no version had, else the next whole number that is free."""
    whole = str(sheet_order(number)[0])
    inserted = (f"{whole}{letter}" for letter in ascii_lowercase)
    last = max(sheet_order(each)[0] for each in taken)
    return next((each for each in inserted if each not in taken), str(last + 1))


def _of_sheet(code: str, message: str, remedy: str, part: str, content: Content) -> Finding:
    sheet = content.parts[part].sheet
    place = Place(content.part_files[part], 1, 1) if sheet is None else sheet.place
    return Finding(code, Severity.STOP, message, remedy, place)


def check_retired(former: Statement, statement: Statement, content: Content) -> tuple[Finding, ...]:
    """A finding for each feature that takes the name of one that was gone in the former release.

    A characteristic that comes back to a feature which was there all the time (a hole that is blind again) is the same
    one as before. An author who brings the very same feature back says so with `was:`.
    """
    there = _features(former.dimensions)
    back = _features(set(former.retired) & set(statement.dimensions)) - there
    new_again = sorted(feature for feature in back if not _claimed(feature, content))
    return (
        *(_taken_again(part, feature, former.version, content) for part, feature in new_again),
        *_taken_over(statement, content),
    )


def _taken_over(statement: Statement, content: Content) -> Iterator[Finding]:
    """A name that another thing had once, as its `was:` says: of parameters, and of parts and features."""
    old = {was: now for was, now in statement.renamed.items() if was != now}
    for name in statement.parameters:
        if now := old.get(f"parameter:{name}"):
            place = next(key.place for key in content.parameters if key == name)
            yield _other_s(name, f"`{name}`", now.partition(":")[2], place)
    again = _features(set(old) & set(statement.dimensions))
    for part, feature in sorted(again):
        if feature != "blank" and (part, "blank") in again:
            continue
        given = old.get(f"feature:{part}/{feature}", old.get(f"part:{part}", ""))
        name, what, place = _named(part, feature, content)
        yield _other_s(name, what, given.partition(":")[2], place)


def _other_s(name: str, what: str, now: str, place: Place) -> Finding:
    message = f"The name {what} was that of `{now}` in an earlier version, as its `was:` says; buyers know it as that."
    return Finding("name-retired", Severity.STOP, message, f"Choose another name, such as `{name}_2`.", place)


def _named(part: str, feature: str, content: Content) -> tuple[str, str, Place]:
    """The last of its name, the whole of it in words, and where it stands."""
    model = content.parts[part]
    place = next((key.place for key in model.features if key == feature), Place(content.part_files[part], 1, 1))
    if feature == "blank":
        return part, f"`{part}`", place
    return feature, f"`{feature}` of `{part}`", place


def _features(ids: Iterable[str]) -> set[tuple[str, str]]:
    return {(part, feature) for part, feature, *_ in (each.split("/") for each in ids)}


def _claimed(name: tuple[str, str], content: Content) -> bool:
    part, feature = name
    model = content.parts[part]
    return part in model.was or any(key == feature and key in told.was for key, told in model.features.items())


def _taken_again(part: str, feature: str, former: str, content: Content) -> Finding:
    name, what, place = _named(part, feature, content)
    return Finding(
        code="name-retired",
        severity=Severity.STOP,
        message=f"The name {what} was used in a release before {former} and given up since; buyers know it as that.",
        remedy=f"Choose another name, such as `{name}_2`; if it is the very same one come back, say `was: [{name}]`.",
        place=place,
    )
