"""Version numbers: one spelling each, ordered by number, and as grave as what changed."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planbook.release.conditions import read_wanted
from planbook.release.numbering import check_number, number_due
from planbook.release.version import Version, read_version
from planbook.statement import compare
from tests.statement.small import MM, STATEMENT, part, printed

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
    return compare(STATEMENT, replace(STATEMENT, dimensions={**STATEMENT.dimensions, old.id: new}))


def _changed_words():
    block = STATEMENT.blocks[1]
    blocks = (STATEMENT.blocks[0], replace(block, text="Each part has a sheet of its own."), *STATEMENT.blocks[2:])
    return compare(STATEMENT, replace(STATEMENT, blocks=blocks))


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
    due = _due(compare(STATEMENT, STATEMENT))
    assert due.version is None
    for wanted in (Version(1, 0), Version(1, 1), Version(2, 0)):
        [finding] = check_number("tote", wanted, Version(1, 0), due)
        assert finding.code == "nothing-changed"


def test_another_look_or_another_choice_of_editions_is_a_change_of_the_paper_only() -> None:
    same = compare(STATEMENT, STATEMENT)
    assert _due(same, same_look=False).version == Version(1, 1)
    assert _due(same, None).version == Version(1, 1)
    assert _due(None, _changed_measure()).version == Version(2, 0)


def test_the_refusal_names_the_right_number_and_why() -> None:
    [finding] = check_number("tote", Version(1, 1), Version(1, 0), _due(_changed_words(), _changed_measure()))
    assert finding.message == (
        "This cannot be version 1.1. It is 2.0: builders of 1.0 may have to rework part 9, Handle "
        "(metric edition: Pivot, position along x: 44 mm → 45 mm)."
    )


def test_the_reason_counts_a_change_once_and_names_a_few_parts() -> None:
    parts = {str(n): part(str(n), n, f"Piece {n}") for n in range(1, 6)}
    wider = {key: replace(each, as_drawn=2) for key, each in parts.items()}
    changed = compare(replace(STATEMENT, parts=parts), replace(STATEMENT, parts=wider))
    why = _due(changed, changed).why
    assert "rework part 1, Piece 1; part 2, Piece 2; part 3, Piece 3; 2 more parts" in why
    assert "and 4 more changes of shape or number" in why


@pytest.mark.parametrize(
    ("typed", "meant"), [("1", "1.0"), ("v2", "2.0"), ("1.00", "1.0"), ("2.1.0", "2.1"), ("first", "")]
)
def test_a_number_in_another_spelling_is_refused_with_the_one_that_is_meant(typed, meant) -> None:
    version, [finding] = read_wanted(typed)
    assert version is None
    assert finding.code == "version-malformed"
    assert finding.remedy == (f"Did you mean `{meant}`?" if meant else "Give one such as 1.0 or 2.1.")
