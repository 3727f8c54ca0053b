"""Figures are told as redrawn when a reader sees it: kept releases with the pictures that they froze, and drafts."""

from __future__ import annotations

from functools import partial
from pathlib import Path

import pytest

from planbook.release.archive.reader import Release, read_release
from planbook.release.looks import compare_seen
from planbook.release.version import read_version
from planbook.statement import Change, Comparison, Kind, compare
from planbook.statement.things import PICTURE

ROOT = Path(__file__).parents[2]


def kept(set_key: str, version: str) -> Release:
    number = read_version(version)
    assert number
    release, _ = read_release(ROOT, set_key, number)
    assert release
    return release


def redrawn(comparison: Comparison) -> set[str]:
    return {each.id for each in comparison.told if is_picture(each)}


def is_picture(change: Change) -> bool:
    return change.kind is Kind.FIGURE and change.side == PICTURE


def test_of_kept_releases_only_what_is_seen_to_be_another_is_redrawn() -> None:
    """From 4.0 to 5.0 the desk's rods and lever changed: in most pictures others stand before them."""
    old, new = kept("sewing-desk", "4.0"), kept("sewing-desk", "5.0")
    before, after = old.statements["metric"], new.statements["metric"]
    hashed = compare(before, after)
    comparison = compare_seen(before, after, partial(old.figure, "metric"), partial(new.figure, "metric"))
    assert {"stowed", "above"} <= redrawn(hashed) - redrawn(comparison)
    assert {"step_fork", "travel"} <= redrawn(comparison)
    assert [each.id for each in comparison.changes] == [each.id for each in hashed.changes], "nothing is lost"


def test_where_a_release_kept_no_picture_its_hash_decides() -> None:
    old, new = kept("tool-tote", "1.1"), kept("tool-tote", "2.0")
    before, after = old.statements["metric"], new.statements["metric"]
    comparison = compare_seen(before, after, partial(old.figure, "metric"), partial(new.figure, "metric"))
    assert old.figure("metric", "tote") is None
    assert "tote" in redrawn(comparison)


@pytest.mark.parametrize("damage", ["altered", "gone"])
def test_a_picture_that_was_altered_is_no_evidence(damage: str, tmp_path: Path) -> None:
    old = kept("tool-tote", "2.0")
    path = "metric/figures/tote-above.svg"
    copy = Release(old.version, old.record, old.record_hash, old.statements, old.places, tmp_path)
    if damage == "altered":
        (tmp_path / path).parent.mkdir(parents=True)
        (tmp_path / path).write_bytes(b"<svg/>")
    assert copy.figure("metric", "tote_above") is None
    assert old.figure("metric", "tote_above")
