"""The releases that are kept with the program: whatever the form of a statement becomes, these are read, and those of
the small plan set are told from one another."""

from __future__ import annotations

from pathlib import Path

import pytest

from planbook.release.archive.reader import check_chain, list_versions, read_release
from planbook.release.version import Version
from planbook.statement import compare

WORKSPACE = Path(__file__).parents[2]
SET = "tool-tote"
FIRST, CLARIFIED, CHANGED = Version(1, 0), Version(1, 1), Version(2, 0)


def test_the_history_is_whole() -> None:
    assert list_versions(WORKSPACE, SET) == (FIRST, CLARIFIED, CHANGED)
    assert check_chain(WORKSPACE, SET) == ()


@pytest.mark.parametrize(("key", "parts"), [("sewing-desk", 29), ("splayed-stool", 6)])
def test_the_first_releases_of_the_larger_sets_are_read(key: str, parts: int) -> None:
    assert list_versions(WORKSPACE, key)[0] == FIRST
    assert check_chain(WORKSPACE, key) == ()
    release, findings = read_release(WORKSPACE, key, FIRST)
    assert findings == ()
    assert release is not None
    assert set(release.statements) == {"imperial", "metric"}
    assert all(len(statement.parts) == parts for statement in release.statements.values())


@pytest.mark.parametrize("version", [FIRST, CLARIFIED, CHANGED], ids=str)
def test_each_is_read_with_all_that_it_told(version: Version) -> None:
    release, findings = read_release(WORKSPACE, SET, version)
    assert findings == ()
    assert release is not None
    assert set(release.statements) == {"imperial", "metric"}
    for statement in release.statements.values():
        assert statement.version == str(version)
        assert len(statement.parts) == 6


@pytest.mark.parametrize("edition", ["imperial", "metric"])
def test_a_clarification_changes_words_alone(edition: str) -> None:
    changes = changed(FIRST, CLARIFIED, edition)
    assert {kind for kind, _ in changes} == {"prose"}
    assert {name.split("/")[0] for _, name in changes} == {"grooves_in_the_sides"}


@pytest.mark.parametrize("edition", ["imperial", "metric"])
def test_a_changed_part_is_told_by_its_dimension(edition: str) -> None:
    changes = changed(CLARIFIED, CHANGED, edition)
    assert ("dimension", "tool_rack/tools/diameter") in changes
    assert ("parameter", "rack.hole") in changes
    assert {name.split("/")[0] for kind, name in changes if kind in ("dimension", "feature")} == {"tool_rack"}


def changed(old: Version, new: Version, edition: str) -> set[tuple[str, str]]:
    """Kind and id of all that differs between two releases."""
    found = []
    for version in (old, new):
        release, findings = read_release(WORKSPACE, SET, version)
        assert release is not None, findings
        found.append(release.statements[edition])
    return {(str(change.kind), change.id) for change in compare(*found).changes}
