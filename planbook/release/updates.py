"""PDFs for who holds an earlier version: a supplement to the one before, a catch-up from each that had the edition."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from planbook.document import catch_up_pdf, supplement_pdf
from planbook.release.catching_up import catch_up
from planbook.release.compilation import Compiled
from planbook.release.held import Held
from planbook.release.watching import Watcher
from planbook.source import Door
from planbook.source.findings import Finding
from planbook.statement.model import Statement

File = tuple[str, bytes | None, tuple[Finding, ...]]
"""Its name, what is in it, None where it could not be set, and what is to be told of that."""


def with_updates(
    door: Door,
    compiled: Mapping[str, Compiled],
    held: Sequence[Held],
    watcher: Watcher,
) -> tuple[Mapping[str, Compiled], tuple[Finding, ...]]:
    """The same editions with these files beside their PDFs. The sheets that were drawn for those are shown again."""
    done: dict[str, Compiled] = {}
    findings: tuple[Finding, ...] = ()
    for edition, one in compiled.items():
        watcher.tell(f"Setting the updates of the {edition} edition")
        files = dict(one.files)
        for name, data, found in (*supplement(door, one), *_catch_ups(door, edition, one, held)):
            findings += found
            files |= {name: data} if data is not None else {}
        done[edition] = replace(one, files=files)
    return done, tuple(dict.fromkeys(findings))


def update_name(statement: Statement, what: str) -> str:
    """`tool-tote-metric-2.0-supplement.pdf`, beside `tool-tote-metric-2.0.pdf`."""
    return f"{statement.plan_set.key}-{statement.edition.name}-{statement.issue}-{what}.pdf"


def supplement(door: Door, one: Compiled) -> Iterator[File]:
    """To the version before, where there is one."""
    if one.composed is not None and one.told.comparison is not None:
        yield (
            update_name(one.statement, "supplement"),
            *supplement_pdf(one.told.stated, one.composed, one.told.comparison, door),
        )


def _catch_ups(door: Door, edition: str, one: Compiled, held: Sequence[Held]) -> Iterator[File]:
    for each in held:
        if one.composed is not None and edition in each.sinces:
            pages = one.composed.drawn.unmarked
            told = catch_up(each.sinces[edition], each.guidance[edition], one.statement, pages)
            yield update_name(one.statement, f"from-{told.old}"), *catch_up_pdf(one.statement, told, door)
