"""The audit's chapter in the document."""

from __future__ import annotations

from dataclasses import replace

import pytest

from planbook.dimension.audit import Audit, FitAudit, gap_of, holds
from planbook.document.audit import audit_lead, audit_tables
from planbook.document.tables import Table
from planbook.statement.stated import Stated
from tests.dimension.audit.demo import EDITIONS, as_stated
from tests.dimension.audit.test_fits import platform_in_well


def rows(table: Table) -> list[list[str]]:
    return [[cell.html.striptags() for cell in row.cells] for group in table.groups for row in group.rows]


def with_fit(printed: tuple[float, float]) -> Stated:
    fit = platform_in_well(printed)
    audit = Audit(fits=(FitAudit(fit, gap_of(fit), holds(fit, gap_of(fit))),))
    return replace(as_stated("tool-tote", "metric"), audit=audit)


def test_a_fit_says_what_is_left_and_what_is_wanted() -> None:
    (table,) = audit_tables(with_fit((412.5, 410.5)))
    assert rows(table) == [["Platform in well", "1.8", "2", "2", "1.5 to 3", "yes"]]


def test_a_fit_that_does_not_hold_says_so() -> None:
    (table,) = audit_tables(with_fit((412, 411)))
    assert rows(table) == [["Platform in well", "1.8", "1", "1", "1.5 to 3", "no"]]


def test_without_an_audit_there_is_no_table() -> None:
    assert audit_tables(replace(as_stated("tool-tote", "metric"), audit=Audit())) == ()


@pytest.mark.parametrize(("key", "edition"), EDITIONS)
def test_every_part_and_every_fit_has_a_row(key: str, edition: str) -> None:
    edition_stated = as_stated(key, edition)
    parts, fits = audit_tables(edition_stated)
    assert [row[0] for row in rows(parts)] == [part.title for part in edition_stated.statement.parts.values()]
    assert len(rows(fits)) == len(edition_stated.content.fits)
    told = [each for each in edition_stated.statement.dimensions.values() if not each.reference]
    assert sum(int(row[2]) for row in rows(parts)) == len(told)
    assert f"All {len(edition_stated.statement.rules)} rules" in audit_lead(edition_stated)
