"""Version numbers: one spelling each, ordered by number, and as grave as what changed."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planbook.release.numbering import check_number
from planbook.release.version import Version, read_version
from planbook.statement import compare
from tests.statement.small import MM, STATEMENT, printed

NUMBERS = st.integers(0, 99999)
VERSIONS = st.builds(Version, NUMBERS, NUMBERS, NUMBERS)


@given(VERSIONS)
def test_a_version_reads_back_from_its_text(version: Version) -> None:
    assert read_version(str(version)) == version


@given(VERSIONS, VERSIONS)
def test_versions_are_ordered_by_number_and_not_by_letter(one: Version, other: Version) -> None:
    assert (one < other) == ((one.major, one.minor, one.patch) < (other.major, other.minor, other.patch))
    assert read_version("1.10") > read_version("1.9")


@pytest.mark.parametrize("text", ["", "1", "v1.0", "1.00", "01.0", "1.0.0", "1.0 ", "1.-1", "1.0\n", "١.٠", "../1.0"])
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


@pytest.mark.parametrize(
    ("wanted", "changed", "honest"),
    [
        (Version(2, 0), _changed_measure, True),
        (Version(3, 0), _changed_measure, True),
        (Version(1, 1), _changed_measure, False),
        (Version(1, 1), _changed_words, True),
        (Version(2, 0), _changed_words, False),
        (Version(1, 0), _changed_words, False),
        (Version(0, 9), _changed_words, False),
    ],
)
def test_a_number_must_be_as_grave_as_the_change(wanted, changed, honest) -> None:
    findings = check_number(wanted, Version(1, 0), {"metric": changed()})
    assert (findings == ()) == honest


def test_the_refusal_names_the_right_number_and_why() -> None:
    [finding] = check_number(Version(1, 1), Version(1, 0), {"metric": _changed_measure()})
    assert "2.0" in finding.remedy
    assert "handle/pivot/x" in finding.message
    assert "44 mm" in finding.message
    assert "45 mm" in finding.message


def test_one_edition_with_a_grave_change_makes_the_version_grave() -> None:
    compared = {"imperial": _changed_words(), "metric": _changed_measure()}
    [finding] = check_number(Version(1, 1), Version(1, 0), compared)
    assert "2.0" in finding.remedy
