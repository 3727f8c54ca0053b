"""The author's reasons in changes.yaml, held against what changed: each must speak of something, by its real name."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from planbook.release.compilation import Told
from planbook.source.findings import Finding, Severity
from planbook.source.models.changes import ReasonModel
from planbook.source.names import listed, spelled_alike
from planbook.statement import reason_name
from planbook.statement.model import Statement

_SHOWN = 8
"""So many names of what changed are listed where none is like the one that was given."""


def check_reasons(told: Mapping[str, Told]) -> tuple[Finding, ...]:
    """A finding for each reason that speaks of nothing in any edition: of what did not change, or of no real name."""
    logs = [one.log for one in told.values() if one.log]
    if not logs:
        return ()
    idle = [reason for reason in logs[0].idle if all(reason in log.idle for log in logs)]
    changed = dict.fromkeys(name for log in logs for name in log.names)
    known = {name for one in told.values() for name in _names(one.statement)}
    return tuple(_unchanged(each, changed) if _known(each, known) else _unknown(each, changed, known) for each in idle)


def _known(reason: ReasonModel, known: set[str]) -> bool:
    return reason_name(str(reason.about)) in known


def _unchanged(reason: ReasonModel, changed: Iterable[str]) -> Finding:
    message = f"A reason is given for `{reason.about}`, and that did not change; it is not printed."
    remedy = f"Take the reason out, or name what did change: {_some(changed)}."
    return Finding("idle-reason", Severity.WARN, message, remedy, reason.about.place)


def _unknown(reason: ReasonModel, changed: Iterable[str], known: set[str]) -> Finding:
    name = reason_name(str(reason.about))
    near = spelled_alike(name, changed) or spelled_alike(name, known)
    message = f"A reason is given for `{reason.about}`, and nothing has that name; nobody would read it."
    remedy = f"Did you mean {listed(near, 'or')}?" if near else f"Name what changed: {_some(changed)}."
    return Finding("unknown-reason", Severity.STOP, message, remedy, reason.about.place)


def _some(changed: Iterable[str]) -> str:
    """The plainest names of what changed: parameters, parts and pages before the ids of dimensions."""
    names = sorted(dict.fromkeys(changed), key=lambda name: name.count("/"))
    more = ", …" if len(names) > _SHOWN else ""
    return f"{listed(names[:_SHOWN], 'or')}{more}" if names else "nothing did"


def _names(statement: Statement) -> Iterator[str]:
    """All that a reason may be about in a statement, changed or not."""
    yield from (*statement.parameters, *statement.parts, *statement.dimensions, *statement.figures, *statement.rules)
    yield from (f"{key}/{name}" for key, part in statement.parts.items() for name in part.features)
    yield from (step.key for step in statement.steps)
    yield from (name for block in statement.blocks for name in (block.page, block.id))
    yield from (name for kind, rows in statement.lists.items() for row in rows for name in (row.id, f"{kind}/{row.id}"))
