"""Version numbers: one spelling each, ordered by number, and as grave as what changed."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planbook.release.conditions import read_wanted
from planbook.release.numbering import check_number, number_due
from planbook.release.since import Since
from planbook.release.version import Version, read_version
from planbook.statement import compare
from tests.impact.making import hole, plate, told
from tests.statement.small import MM, STATEMENT, printed

NUMBERS = st.integers(0, 99999)
VERSIONS = st.builds(Version, NUMBERS, NUMBERS)


@given(VERSIONS)
def test_a_version_reads_back_from_its_text(version: Version) -> None:
    assert read_version(str(version)) == version


@given(VERSIONS, VERSIONS)
def test_versions_are_ordered_by_number_and_not_by_letter(one: Version, other: Version) -> None:
    assert (one < other) == ((one.major, one.minor) < (other.major, other.minor))
    assert read_version("1.10") > read_version("1.9")


@pytest.mark.parametrize(
    "text", ["", "1", "v1.0", "1.00", "01.0", "1.0.0", "1.0.1", "1.0 ", "1.-1", "1.0\n", "١.٠", "../1.0"]
)
def test_what_is_no_version_is_refused(text: str) -> None:
    assert read_version(text) is None


def _changed_measure():
    """The pivot printed at 45 instead of 44."""
    old = STATEMENT.dimensions["handle/pivot/x"]
    new = replace(old, nominal=45 * MM, printed=printed(45))
    return Since(compare(STATEMENT, replace(STATEMENT, dimensions={**STATEMENT.dimensions, old.id: new})))


def _changed_words():
    block = STATEMENT.blocks[1]
    blocks = (STATEMENT.blocks[0], replace(block, text="Each part has a sheet of its own."), *STATEMENT.blocks[2:])
    return Since(compare(STATEMENT, replace(STATEMENT, blocks=blocks)))


def _nothing():
    return Since(compare(STATEMENT, STATEMENT))


def _due(*changed, same_look=True):
    compared = dict(zip(("imperial", "metric"), changed, strict=False))
    return number_due(Version(1, 0), compared, same_look=same_look)


@pytest.mark.parametrize(
    ("changed", "honest"),
    [
        (_changed_measure, Version(2, 0)),
        (_changed_words, Version(1, 1)),
    ],
)
@pytest.mark.parametrize("wanted", [*map(read_version, ("0.9", "1.0", "1.1", "1.2", "2.0", "2.1", "3.0"))])
def test_of_all_numbers_only_the_least_honest_one_passes(changed, honest, wanted) -> None:
    due = _due(changed())
    assert due.version == honest
    findings = check_number("tote", wanted, Version(1, 0), due)
    assert [each.code for each in findings] == ([] if wanted == honest else ["version-dishonest"])
    assert all(f"`planbook release tote {honest}`" in each.remedy for each in findings)


def test_after_many_small_versions_the_numbers_are_still_whole_numbers() -> None:
    assert number_due(Version(1, 9), {"metric": _changed_words()}, same_look=True).version == Version(1, 10)
    assert number_due(Version(9, 3), {"metric": _changed_measure()}, same_look=True).version == Version(10, 0)


def test_a_release_in_which_nothing_changed_is_refused_under_any_number() -> None:
    due = _due(_nothing())
    assert due.version is None
    for wanted in (Version(1, 0), Version(1, 1), Version(2, 0)):
        [finding] = check_number("tote", wanted, Version(1, 0), due)
        assert finding.code == "nothing-changed"


def test_another_look_or_another_choice_of_editions_is_a_change_of_the_paper_only() -> None:
    same = _nothing()
    assert _due(same, same_look=False).version == Version(1, 1)
    assert _due(same, None).version == Version(1, 1)
    assert _due(None, _changed_measure()).version == Version(2, 0)


def test_the_refusal_names_the_right_number_and_why() -> None:
    [finding] = check_number("tote", Version(1, 1), Version(1, 0), _due(_changed_words(), _changed_measure()))
    assert finding.message == (
        "This cannot be version 1.1. It is 2.0: builders of 1.0 may have to measure part 9, Handle "
        "(metric edition, part 9: pivot, position along x: 44 mm → 45 mm)."
    )


def test_the_reason_tells_what_is_to_be_done_with_which_parts() -> None:
    old = {f"piece_{n}": {**plate(pivot=hole()), "number": n} for n in range(1, 7)}
    new = {key: {**part, **plate(pivot=hole(size="10 mm"))} for key, part in old.items()}
    new["piece_6"] = {**old["piece_6"], **plate("420 mm", pivot=hole())}
    changed = Since(compare(told(old), told(new)))
    assert _due(changed, changed).why == (
        "builders of 1.0 may have to recut part 6, Plate; rework part 1, Plate; part 2, Plate; part 3, Plate; "
        "2 more parts (imperial edition, part 6: length: 400 mm → 420 mm)"
    )


def test_numbers_that_leave_the_wood_as_it_is_are_a_change_of_the_paper_only() -> None:
    """A measure that no part hangs on, and a hole that moved by less than is printed."""
    old, new = told({"plate": plate(pivot=hole("173.1 mm"))}), told({"plate": plate(pivot=hole("173.05 mm"))})
    assert _due(Since(compare(old, new))).version == Version(1, 1)
    length = STATEMENT.parameters["tote.length"]
    parameters = {**STATEMENT.parameters, "tote.length": replace(length, value=310 * MM, printed=printed(310))}
    assert _due(Since(compare(STATEMENT, replace(STATEMENT, parameters=parameters)))).version == Version(1, 1)


def test_what_is_to_be_bought_is_a_reason_too() -> None:
    (row,) = STATEMENT.lists["hardware"]
    more = replace(row, cells={"Item": "Screw 4 x 30", "Quantity": "10"})
    old = replace(row, cells={"Item": "Screw 4 x 30", "Quantity": "8"})
    before, after = (replace(STATEMENT, lists={"hardware": (each,)}) for each in (old, more))
    due = _due(Since(compare(before, after)))
    assert (due.version, due.why) == (Version(2, 0), "builders of 1.0 may have to buy 2 more: Screw 4 x 30")
    assert _due(Since(compare(after, before))).version == Version(1, 1)


@pytest.mark.parametrize(
    ("typed", "meant"), [("1", "1.0"), ("v2", "2.0"), ("1.00", "1.0"), ("2.1.0", "2.1"), ("first", "")]
)
def test_a_number_in_another_spelling_is_refused_with_the_one_that_is_meant(typed, meant) -> None:
    version, [finding] = read_wanted(typed)
    assert version is None
    assert finding.code == "version-malformed"
    assert finding.remedy == (f"Did you mean `{meant}`?" if meant else "Give one such as 1.0 or 2.1.")
