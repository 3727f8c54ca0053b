"""An edition that is made no longer: its builders are told so, and promised nothing."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from planbook.release import add_advisory, compare_set, find, release_set, start_workspace, verify_set
from planbook.release.dropped import Farewell
from planbook.release.reports.issued import Issued

SET = "tool-tote"
NOTES = '"1.1":\n  issued: 2026-12-01\n  summary: The inch edition is made no longer.\n'


@pytest.fixture(scope="module")
def dropped(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Issued]:
    """1.0 in two editions, with an advisory; 1.1 in one."""
    root = tmp_path_factory.mktemp("dropped") / "workshop"
    start_workspace(root)
    assert release_set(root, SET, "1.0").editions
    advised, findings = add_advisory(root, SET, "1.0", 4, (), "2026-11-02", "Do not cut part 4.")
    assert advised is not None, findings
    advised, findings = add_advisory(root, SET, "1.0", 4, ("metric",), "2026-11-03", "Metric sheets only.")
    assert advised is not None, findings
    settings = root / "content" / SET / "set.yaml"
    text = settings.read_text(encoding="utf-8")
    settings.write_text(re.sub(r"  imperial:\n(    .*\n)+", "", text), encoding="utf-8")
    with (root / "content" / SET / "changes.yaml").open("a", encoding="utf-8") as notes:
        notes.write(NOTES)
    return root, release_set(root, SET, "1.1")


def test_its_builders_have_a_notice_that_says_so(dropped: tuple[Path, Issued]) -> None:
    root, issued = dropped
    home = root / "versions" / SET / "1.1"
    letter = (home / "imperial/notices/from-1.0.txt").read_text(encoding="utf-8")
    told = " ".join(letter.split())
    assert told.startswith("Bench Tote, imperial edition: made no longer; for builders who have 1.0")
    assert "Version 1.1 has no imperial edition. The last version with one is 1.0." in told
    assert "Build from version 1.0 as you have it." in told
    assert "Version 1.1 is made as Metric edition" in told
    assert "Advisories on your version, which hold on Do not cut part 4. (2026-11-02)" in told
    assert "Metric sheets only" not in told
    # Who holds the last one has nothing to catch up on.
    assert "What changed from" not in told
    # No word of what a release promises to those whose edition goes on.
    assert not re.search("no charge|as it should be|print anew|as before", told)
    page = (home / "imperial/notices/from-1.0.html").read_text(encoding="utf-8")
    assert "The last version with one is 1.0." in page
    assert [Path(each).relative_to(home).as_posix() for each in issued.dropped] == [
        "imperial/notices/from-1.0.txt", "imperial/notices/from-1.0.html",
    ]  # fmt: skip


def test_who_holds_an_older_one_is_sent_to_the_notice_of_the_last() -> None:
    farewell = Farewell("Tote", "imperial", "1.0", "3.0", "2.0", "2026-12-01", ("Metric edition",), ())
    assert "What changed from 1.0 to 2.0, the notice of 2.0 tells." in farewell.said


def test_the_release_has_nothing_else_of_it(dropped: tuple[Path, Issued]) -> None:
    root, issued = dropped
    assert [each.name for each in issued.editions] == ["metric"]
    files = {path.name for path in (root / "versions" / SET / "1.1/imperial").rglob("*") if path.is_file()}
    assert files == {"from-1.0.txt", "from-1.0.html"}


def test_the_change_log_and_a_comparison_tell_of_it(dropped: tuple[Path, Issued]) -> None:
    root, _ = dropped
    log = (root / "versions" / SET / "1.1/CHANGES.md").read_text(encoding="utf-8")
    assert "- The imperial edition is made no longer; 1.0 is the last version with one." in log
    compared, _ = compare_set(root, SET, "1.0", "1.1")
    assert compared is not None
    by_name = {edition.name: edition for edition in compared.editions}
    assert by_name["imperial"].impact is None
    assert by_name["metric"].changes == ()


def test_what_was_printed_in_it_is_found_and_the_archive_is_whole(dropped: tuple[Path, Issued]) -> None:
    root, _ = dropped
    found, _ = find(root, SET, "18 in", version="1.0", edition="imperial")
    assert found
    nothing, findings = find(root, SET, "18 in", version="1.1", edition="imperial")
    assert nothing is None
    assert [each.code for each in findings] == ["unknown-edition"]
    verified = verify_set(root, SET)
    assert verified.findings == ()
    assert [each.version for each in verified.releases] == ["1.0", "1.1"]
