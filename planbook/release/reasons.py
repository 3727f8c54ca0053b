"""The author's reasons in changes.yaml, held against what changed: each must speak of something, by its real name."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from planbook.release.compilation import Told
from planbook.source.findings import Finding, Severity
from planbook.source.names import in_row, listed, spelled_alike
from planbook.source.text import Text
from planbook.statement import SORTS, groups_of, reason_name, with_sort
from planbook.statement.model import Statement

_SHOWN = 8
"""So many names of what changed are listed where none is like the one that was given."""


def check_reasons(told: Mapping[str, Told]) -> tuple[Finding, ...]:
    """A finding for each reason that speaks of nothing in any edition: of what did not change, or of no real name; and
    for each whose name may mean several things that changed.
    """
    logs = [one.log for one in told.values() if one.log]
    if not logs:
        return ()
    idle = [about for about in logs[0].idle if all(about in log.idle for log in logs)]
    changed = dict.fromkeys(name for log in logs for name in log.names if ":" not in name)
    known = {name for one in told.values() for name in _names(one.statement)}
    meant = {about: sorts for log in logs for about, sorts in log.ambiguous.items()}
    return (
        *(_unchanged(each, changed) if _known(each, known) else _unknown(each, changed, known) for each in idle),
        *(_ambiguous(about, sorts) for about, sorts in meant.items()),
    )


def _known(about: Text, known: set[str]) -> bool:
    return reason_name(str(about)) in known


def _unchanged(about: Text, changed: Iterable[str]) -> Finding:
    message = f"A reason is given for `{about}`, and the change log tells of no change of that name; it is not printed."
    remedy = f"Take the reason out, or name what did change: {_some(changed)}."
    return Finding("idle-reason", Severity.WARN, message, remedy, about.place)


def _unknown(about: Text, changed: Iterable[str], known: set[str]) -> Finding:
    name = reason_name(str(about))
    near = spelled_alike(name, changed) or spelled_alike(name, known)
    message = f"A reason is given for `{about}`, and nothing has that name; nobody would read it."
    remedy = f"Did you mean {listed(near, 'or')}?" if near else f"Name what changed: {_some(changed)}."
    return Finding("unknown-reason", Severity.STOP, message, remedy, about.place)


def _ambiguous(about: Text, sorts: Iterable[str]) -> Finding:
    """Its reason is printed for all that the name may mean, whether it is true of it or not."""
    name, sorts = reason_name(str(about)), tuple(sorts)
    which = in_row([SORTS[sort] for sort in sorts], "and")
    message = f"A reason is given for `{about}`, which is the name of {which} that changed; it is printed with each."
    one, both = f"{sorts[0]}:{name}", ", ".join(f"{sort}:{name}" for sort in sorts)
    remedy = f"Say which is meant, as in `about: {one}`; if the reason is true of all, `about: [{both}]`."
    return Finding("reason-ambiguous", Severity.WARN, message, remedy, about.place)


def check_explained(told: Mapping[str, Told], version: Text, severity: Severity) -> tuple[Finding, ...]:
    """A finding for each heading of the change log under which something stands for which the author gave no reason.

    `version` is the key in changes.yaml under which the reasons stand.
    """
    wanting: dict[str, dict[str, None]] = {}
    for one in told.values():
        for heading, names in (one.log.unexplained if one.log else {}).items():
            wanting.setdefault(heading, {}).update(dict.fromkeys(names))
    return tuple(_unexplained(heading, [*names], version, severity) for heading, names in wanting.items())


def _unexplained(heading: str, names: list[str], version: Text, severity: Severity) -> Finding:
    rest = len(names) - _SHOWN
    more = f" and {rest} more" if rest > 0 else ""
    told = f"\u201c{heading}\u201d of the change log tells what changed and not why"
    about = names[0] if len(names) == 1 else f"[{', '.join(names[:2])}{', …' if len(names) > 2 else ''}]"
    return Finding(
        "reason-missing",
        severity,
        f"{told}: {', '.join(names[:_SHOWN])}{more}.",
        f"Add to the `reasons` of {version}: `{{about: {about}, why: ...}}`; it may name a whole part, page or list.",
        version.place,
    )


def _some(changed: Iterable[str]) -> str:
    """The plainest names of what changed: parameters, parts and pages before the ids of dimensions."""
    names = sorted(dict.fromkeys(changed), key=lambda name: name.count("/"))
    more = ", …" if len(names) > _SHOWN else ""
    return f"{listed(names[:_SHOWN], 'or')}{more}" if names else "nothing did"


def _names(statement: Statement) -> Iterator[str]:
    """All that a reason may be about in a statement, changed or not."""
    yield from statement.dimensions
    sorted_names = {"parameter": {**statement.parameters, **statement.rules}, "figure": statement.figures}
    sorted_names |= {"part": statement.parts, "step": {step.key: step for step in statement.steps}}
    for sort, those in sorted_names.items():
        for name in those:
            yield from (each for group in (name, *groups_of(name)) for each in with_sort(group, sort))
    yield from (f"{key}/{name}" for key, part in statement.parts.items() for name in part.features)
    yield from (name for block in statement.blocks for name in (*with_sort(block.page, "page"), block.id))
    rows = ((kind, row.id) for kind, each in statement.lists.items() for row in each)
    yield from (name for kind, row in rows for name in (*with_sort(row, "row"), f"{kind}/{row}"))
