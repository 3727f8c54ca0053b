"""Every sheet of every plan set, proved from its own file; and the proof proved by taking, doubling and exchanging."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache

import pytest

from planbook.dimension.completeness import (
    Implied,
    SheetRecord,
    Unfixed,
    check_sheet,
    read_sheet_record,
)
from planbook.dimension.completeness.record import Told
from planbook.statement.proving import write_sheet
from tests.content.sets import EDITIONS, statement


@lru_cache
def sheets(key: str, edition: str) -> dict[str, SheetRecord]:
    """By number, as they read back from their files."""
    told = statement(key, edition)
    return {number: read_sheet_record(write_sheet(told, number)) for number in told.sheets}


@pytest.mark.parametrize(("key", "edition"), EDITIONS)
def test_every_sheet_says_enough_and_nothing_twice(key: str, edition: str) -> None:
    faults = {number: check_sheet(record) for number, record in sheets(key, edition).items()}
    assert {number: found for number, found in faults.items() if found} == {}


@pytest.mark.parametrize(("key", "edition"), EDITIONS)
def test_any_dimension_taken_from_any_sheet_is_missed(key: str, edition: str) -> None:
    for record in sheets(key, edition).values():
        for gone in counting(record):
            rest = tuple(each for each in record.dimensions if each is not gone)
            faults = check_sheet(replace(record, dimensions=rest))
            assert any(isinstance(fault, Unfixed) for fault in faults), gone.id


@pytest.mark.parametrize(("key", "edition"), EDITIONS)
def test_any_dimension_printed_twice_on_any_sheet_is_found(key: str, edition: str) -> None:
    for record in sheets(key, edition).values():
        for again in counting(record):
            twice = (*record.dimensions, replace(again, id=f"{again.id}/again"))
            faults = check_sheet(replace(record, dimensions=twice))
            assert faults == (Implied(f"{again.id}/again", (again.id,)),), again.id


@pytest.mark.parametrize(("key", "edition"), EDITIONS)
def test_a_position_from_the_far_border_will_do_as_well(key: str, edition: str) -> None:
    """Another, independent dimension that fixes the same thing: the checker is content."""
    exchanged = 0
    for record in sheets(key, edition).values():
        for old in counting(record):
            new = from_far_border(old, record)
            if new is not None:
                told = tuple(new if each is old else each for each in record.dimensions)
                assert check_sheet(replace(record, dimensions=told)) == (), old.id
                exchanged += 1
    assert exchanged


def counting(record: SheetRecord) -> tuple[Told, ...]:
    """Dimensions that are more than a reference."""
    return tuple(each for each in record.dimensions if not each.reference)


def from_far_border(told: Told, record: SheetRecord) -> Told | None:
    """The same place measured from the border opposite to the datum; None for what is no position from the datum."""
    if told.kind != "linear" or told.feature == "blank" or told.count > 1 or told.characteristic == "pitch":
        return None
    axis = "xyz".index(told.axis)
    near, far = told.points
    whole = record.part.size[axis]
    if abs(near[axis]) > 1 or whole - far[axis] < 1:
        return None
    border = tuple(whole if i == axis else value for i, value in enumerate(far))
    return replace(told, points=(far, (border[0], border[1], border[2])), nominal=whole - far[axis])
