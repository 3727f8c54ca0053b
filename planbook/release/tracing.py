"""Where a quantity comes from, what hangs on it, where it is printed, and what it was in each release."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from pathlib import Path

from planbook.design import Parameter, dependents, nearest
from planbook.measure import print_quantity
from planbook.measure.systems import Units
from planbook.release.archive.reader import Release, read_all
from planbook.release.compilation import Told
from planbook.release.editions import Working, read_working
from planbook.release.lookup import printed_places
from planbook.release.reading_measures import printed_text
from planbook.release.reports.traced import Found, Source, Traced
from planbook.release.watching import UNWATCHED, Watcher
from planbook.source import Door
from planbook.source.findings import Finding, Severity
from planbook.source.names import listed, spelled_alike
from planbook.statement.model import Statement

_NEAR = 4
"""So many names are proposed for one that is not known."""


def trace(
    root: Path, set_key: str, name: str, watcher: Watcher = UNWATCHED
) -> tuple[tuple[Traced, ...] | None, tuple[Finding, ...]]:
    """A parameter, or a dimension by its id, in every edition that has it; also by a name that it had once.

    None when a finding stops it: content that does not compile, a name that no edition knows.
    """
    working, findings = read_working(root, set_key, watcher, with_pages=True)
    if working is None:
        return None, findings
    name = _called_now(name, working)
    having = [edition for edition, told in working.told.items() if name in _known(told)]
    if not having:
        return None, (*findings, _unknown(name, working))
    releases, damaged = read_all(root, set_key)
    return tuple(_trace(working, edition, name, releases) for edition in having), findings + damaged


def _known(told: Told) -> set[str]:
    return {*told.stated.design.parameters, *told.statement.dimensions}


def _called_now(name: str, working: Working) -> str:
    """The name of today of what was renamed."""
    if not any(name in _known(told) for told in working.told.values()):
        for told in working.told.values():
            renamed = told.statement.renamed
            if new := renamed.get(f"parameter:{name}") or renamed.get(name):
                return new.removeprefix("parameter:")
    return name


def _names_ever(name: str, statement: Statement) -> tuple[str, ...]:
    """The name of today, and those that it had in earlier versions."""
    ours = (name, f"parameter:{name}")
    return (name, *(old.removeprefix("parameter:") for old, new in statement.renamed.items() if new in ours))


def _trace(working: Working, edition: str, name: str, releases: tuple[Release, ...]) -> Traced:
    told = working.told[edition]
    statement = told.statement
    dimension = statement.dimensions.get(name)
    part = statement.parts[dimension.part] if dimension else None
    names = _names_ever(name, statement)
    return Traced(
        source=_source(working.door, told, name, set()),
        kind="dimension" if dimension else "parameter",
        part=part.number if part else None,
        edition=edition,
        dependents=() if dimension else tuple(_dependents(working, edition, name)),
        printed=_printed(working, edition, name),
        history=tuple(
            (str(release.version), _text_then(release.statements.get(edition), names)) for release in releases
        ),
    )


def _source(door: Door, told: Told, name: str, seen: set[str]) -> Source:
    """The tree of what a quantity comes from. What was shown once is named again without its own inputs."""
    dimension = told.statement.dimensions.get(name)
    packaged = False
    if dimension:
        text, formula, place, inputs = printed_text(dimension.printed), dimension.formula, "", dimension.inputs
    else:
        parameter = told.stated.design.parameters[name]
        value = parameter.value
        text, formula, place, inputs = _text(told, parameter), value.formula, str(value.place), value.inputs
        packaged = door.is_packaged(value.place.file)
    if name in seen:
        return Source(name, text, formula, place, packaged, ())
    seen.add(name)
    below = tuple(_source(door, told, each, seen) for each in inputs)
    return Source(name, text, formula, place, packaged, below)


def _text(told: Told, parameter: Parameter) -> str:
    """As stated where it is stated; stock and hardware measures are printed in the same way."""
    stated = told.statement.parameters.get(parameter.name)
    if stated:
        return printed_text(stated.printed)
    units = Units(told.statement.edition.units)
    return print_quantity(parameter.value.quantity, units, parameter.value.precision).full


def _dependents(working: Working, edition: str, name: str) -> Iterator[Found]:
    """Parameters first, then dimensions, each where it is first printed."""
    statement = working.told[edition].statement
    users = {name, *dependents(working.prepared.plan, name)}
    hanging = [user for user in statement.parameters if user in users and user != name]
    hanging += [each.id for each in statement.dimensions.values() if not users.isdisjoint(each.inputs)]
    return (printed_places(statement, working.places[edition], each)[0] for each in hanging)


def _printed(working: Working, edition: str, name: str) -> tuple[Found, ...]:
    statement = working.told[edition].statement
    if name not in statement.dimensions and name not in statement.parameters:
        return ()
    return tuple(found for found in printed_places(statement, working.places[edition], name) if found.page)


def _text_then(statement: Statement | None, names: tuple[str, ...]) -> str:
    if statement is None:
        return ""
    told = (statement.dimensions.get(name) or statement.parameters.get(name) for name in names)
    return next((printed_text(each.printed) for each in told if each), "")


def _unknown(name: str, working: Working) -> Finding:
    known = sorted({each for told in working.told.values() for each in _known(told)})
    near = dict.fromkeys(nearest(name, known) + _in_group_alike(name, known))
    return Finding(
        code="unknown-name",
        severity=Severity.STOP,
        message=f"No edition has a parameter or a dimension `{name}`.",
        remedy=f"Did you mean {listed(tuple(near)[:_NEAR], 'or')}?"
        if near
        else "`planbook find` gives the names of what is printed: look for a measure that you know.",
    )


def _in_group_alike(name: str, known: Sequence[str]) -> tuple[str, ...]:
    """Names under a first word that is spelled like this one's: `handle.width` for `handel`."""
    first = re.split("[./]", name)[0]
    groups = {re.split("[./]", each)[0] for each in known}
    return tuple(near for group in spelled_alike(first, groups, 1) for near in nearest(group, known))
