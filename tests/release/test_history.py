"""What a version says of the versions before it, on the small plan set stated without pages."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from planbook.document.drawn import draw_all
from planbook.release import start_workspace
from planbook.release.archive.reader import Release
from planbook.release.archive.record import Record
from planbook.release.compilation import Told, prepare, state_all
from planbook.release.occasion import Occasion, occasion_of
from planbook.release.reasons import check_reasons
from planbook.release.standing import check_standing
from planbook.release.version import read_version
from planbook.source import Door
from planbook.source.findings import Finding, Severity

SET = "tool-tote"
PART = f"content/{SET}/parts/bottom.yaml"
HOLE = "features:\n  peephole: {opening: [1 in, 1 in], at: [2 in, 2 in]}\n"


@pytest.fixture
def root(tmp_path: Path) -> Path:
    start_workspace(tmp_path / "workshop")
    return tmp_path / "workshop"


def tell(root: Path, version: str, former: Release | None) -> tuple[Mapping[str, Told], tuple[Finding, ...]]:
    door = Door(root)
    prepared, findings = prepare(door, SET)
    assert prepared, findings
    return state_all(door, prepared, Occasion(version, date(2026, 5, 4), former), prepared.editions)


def freeze(root: Path, version: str, former: Release | None) -> Release:
    """A release in memory."""
    told, findings = tell(root, version, former)
    assert findings == ()
    record = Record(SET, version, "2026-05-04", tuple(told), {}, {}, {})
    number = read_version(version)
    assert number
    return Release(number, record, "", {name: one.statement for name, one in told.items()}, {})


def with_hole(root: Path, hole: str = HOLE) -> None:
    path = root / PART
    path.write_text(path.read_text(encoding="utf-8").rstrip() + "\n" + hole, encoding="utf-8")


def without_hole(root: Path) -> None:
    path = root / PART
    path.write_text(path.read_text(encoding="utf-8").partition("features:")[0], encoding="utf-8")


def note(root: Path, text: str) -> None:
    (root / "content" / SET / "changes.yaml").write_text(text, encoding="utf-8")


def test_a_first_version_has_no_history(root: Path) -> None:
    first = freeze(root, "1.0", None)
    for statement in first.statements.values():
        assert [row.id for row in statement.changes] == ["revision/1.0"]
        assert {sheet.changed_in for sheet in statement.sheets.values()} == {"1.0"}
        assert statement.retired == ()


def test_a_sheet_keeps_the_version_in_which_its_part_last_changed(root: Path) -> None:
    first = freeze(root, "1.0", None)
    with_hole(root)
    second = freeze(root, "2.0", first)
    for statement in second.statements.values():
        changed = {sheet.part: sheet.changed_in for sheet in statement.sheets.values()}
        assert changed.pop("bottom") == "2.0"
        assert set(changed.values()) == {"1.0"}


def test_a_name_that_was_given_up_is_not_used_again(root: Path) -> None:
    with_hole(root)
    first = freeze(root, "1.0", None)
    without_hole(root)
    second = freeze(root, "2.0", first)
    gone = {each for each in first.statements["metric"].dimensions if each.startswith("bottom/peephole/")}
    assert gone
    assert set(second.statements["metric"].retired) == gone
    with_hole(root)
    _, [finding] = tell(root, "3.0", second)
    assert finding.code == "name-retired"
    assert finding.edition == ""
    assert "`peephole` of `bottom`" in finding.message
    line = (
        (root / PART)
        .read_text(encoding="utf-8")
        .splitlines()
        .index("  peephole: {opening: [1 in, 1 in], at: [2 in, 2 in]}")
    )
    assert finding.place is not None
    assert (finding.place.file, finding.place.line, finding.place.column) == (PART, line + 1, 3)


def test_the_very_same_thing_may_come_back_when_its_author_says_so(root: Path) -> None:
    with_hole(root)
    first = freeze(root, "1.0", None)
    without_hole(root)
    second = freeze(root, "2.0", first)
    with_hole(root, HOLE.replace("at:", "was: [peephole], at:"))
    third = freeze(root, "3.0", second)
    assert third.statements["metric"].retired == ()


def test_retired_names_stay_retired_over_many_versions(root: Path) -> None:
    with_hole(root)
    first = freeze(root, "1.0", None)
    without_hole(root)
    second = freeze(root, "2.0", first)
    third = freeze(root, "2.1", second)
    assert third.statements["metric"].retired == second.statements["metric"].retired
    with_hole(root)
    _, [finding] = tell(root, "3.0", third)
    assert finding.code == "name-retired"


def test_a_name_that_another_thing_had_once_is_not_used_again(root: Path) -> None:
    with_hole(root)
    first = freeze(root, "1.0", None)
    without_hole(root)
    with_hole(root, HOLE.replace("peephole:", "window:").replace("at:", "was: [peephole], at:"))
    second = freeze(root, "1.1", first)
    assert second.statements["metric"].retired == ()
    with (root / PART).open("a", encoding="utf-8") as part:
        part.write("  peephole: {opening: [1 in, 1 in], at: [5 in, 2 in]}\n")
    _, [finding] = tell(root, "2.0", second)
    assert finding.code == "name-retired"
    assert "`peephole` of `bottom` was that of `bottom/window`" in finding.message
    assert finding.place is not None
    assert finding.place.file == PART


def test_a_parameter_s_former_name_is_not_used_again(root: Path) -> None:
    first = freeze(root, "1.0", None)
    path = root / "content" / SET / "parameters.yaml"
    text = path.read_text(encoding="utf-8")
    path.write_text(f"{text}\nold: {{name: {{is: 3 mm, was: [rack.pitch], means: a measure}}}}\n", encoding="utf-8")
    _, findings = tell(root, "2.0", first)
    [finding] = [each for each in findings if each.code == "name-retired"]
    assert "`rack.pitch` was that of `old.name`" in finding.message


def test_the_revision_table_ends_with_the_version_itself(root: Path) -> None:
    first = freeze(root, "1.0", None)
    notes = "".join(
        f'"{version}":\n  issued: 2026-0{month}-04\n  summary: Number {version}.\n'
        for month, version in enumerate(("1.0", "1.1", "2.0"), start=3)
    )
    note(root, notes)
    later = freeze(root, "1.1", first).statements["metric"]
    assert [row.cells["version"] for row in later.changes if row.id.startswith("revision/")] == ["1.0", "1.1"]
    draft, _ = tell(root, "", first)
    rows = draft["metric"].statement.changes
    assert [row.cells["version"] for row in rows if row.id.startswith("revision/")] == ["1.0", "draft"]
    assert rows[1].cells == {"version": "draft", "issued": "2026-05-04", "summary": "Not released. Number 2.0."}


def test_a_draft_bears_the_day_of_the_last_version_that_is_told_of(root: Path) -> None:
    for notes, day in (
        ('"1.0": {issued: 1999-03-04, summary: First.}\n', None),
        (
            '"1.0": {issued: 2036-03-04, summary: First.}\n"1.1": {issued: 2036-05-06, summary: Second.}\n',
            date(2036, 5, 6),
        ),
    ):
        note(root, notes)
        prepared, _ = prepare(Door(root), SET)
        assert prepared
        occasion, _ = occasion_of(root, prepared.content)
        assert occasion.issued == (day or prepared.content.plan_set.issued)


def test_a_draft_before_the_first_release_names_no_version(root: Path) -> None:
    draft, _ = tell(root, "", None)
    [row] = draft["metric"].statement.changes
    assert row.cells["version"] == "draft"
    assert row.cells["summary"].startswith("Not released. ")


def test_content_that_changed_since_the_last_release_wants_notes(root: Path) -> None:
    first = freeze(root, "1.0", None)
    assert warned(root, first) == ()
    with_hole(root)
    [finding] = warned(root, first)
    assert (finding.code, finding.severity) == ("notes-missing", Severity.WARN)
    assert '"2.0"' in finding.remedy
    assert finding.place is not None
    assert finding.place.file == f"content/{SET}/changes.yaml"
    note(root, '"2.0":\n  issued: 2026-05-04\n  summary: Two.\n')
    [finding] = warned(root, first)
    assert (finding.code, finding.severity) == ("reason-missing", Severity.WARN)
    assert finding.remedy.startswith("Add to the `reasons` of 2.0: `{about: ")
    reason = "    - {about: bottom, why: A peephole was asked for.}\n"
    note(root, f'"2.0":\n  issued: 2026-05-04\n  summary: Two.\n  reasons:\n{reason}')
    assert warned(root, first) == ()
    note(root, f'"2.0":\n  issued: 2026-05-03\n  summary: Two.\n  reasons:\n{reason}')
    [early] = warned(root, first)
    assert (early.code, early.severity) == ("issued-too-early", Severity.WARN)
    assert "2026-05-04 or a later one" in early.remedy


def warned(root: Path, former: Release) -> tuple[Finding, ...]:
    door = Door(root)
    prepared, _ = prepare(door, SET)
    assert prepared
    occasion = Occasion("", date(2026, 5, 4), former)
    return check_standing(root, prepared.content, occasion, tell(root, "", former)[0])


def test_a_crowded_sheet_is_reported_at_its_part(root: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    crowded = Finding("sheet-crowded", Severity.WARN, "No room.", "Make room.")
    monkeypatch.setattr("planbook.document.drawn.draw_sheet", lambda *_: ((), (crowded,)))
    told, _ = tell(root, "", None)
    findings = draw_all(told["metric"].stated, Door(root))[1]
    places = [each.place for each in findings if each.code == "sheet-crowded" and each.place]
    assert len(places) == len(told["metric"].statement.sheets)
    assert (places[-1].file, places[-1].line) == (f"content/{SET}/parts/handle.yaml", 2)


def test_a_reason_is_printed_beside_its_change_and_an_idle_one_is_said(root: Path) -> None:
    first = freeze(root, "1.0", None)
    with_hole(root)
    reasons = "    - {about: bottom, why: A peephole was asked for.}\n    - {about: handle, why: It was thin.}\n"
    note(root, f'"2.0":\n  issued: 2026-05-04\n  summary: Two.\n  reasons:\n{reasons}')
    told, findings = tell(root, "2.0", first)
    assert findings == ()
    [finding] = check_reasons(told)
    assert (finding.code, finding.severity, finding.edition) == ("idle-reason", Severity.WARN, "")
    assert "`bottom`" in finding.remedy
    assert finding.place is not None
    assert (finding.place.file, finding.place.line) == (f"content/{SET}/changes.yaml", 6)
    log = [row.cells for row in told["metric"].statement.changes if row.id.startswith("change/")]
    assert any(cells["why"] == "A peephole was asked for." for cells in log)
    assert all(cells["version"] == "2.0" for cells in log)


def test_a_misspelt_reason_stops_and_the_nearest_name_is_proposed(root: Path) -> None:
    first = freeze(root, "1.0", None)
    with_hole(root)
    note(
        root, '"2.0":\n  issued: 2026-05-04\n  summary: 2.\n  reasons:\n    - {about: botom, why: It was asked for.}\n'
    )
    [finding] = check_reasons(tell(root, "2.0", first)[0])
    assert (finding.code, finding.severity) == ("unknown-reason", Severity.STOP)
    assert finding.remedy.startswith("Did you mean `bottom`")
    assert finding.place is not None
    assert (finding.place.file, finding.place.line) == (f"content/{SET}/changes.yaml", 5)
    assert [each.code for each in warned(root, first)] == ["unknown-reason", "reason-missing"]


def test_a_reason_for_what_changed_in_one_edition_only_is_not_idle(root: Path) -> None:
    first = freeze(root, "1.0", None)
    path = root / "content" / SET / "parameters.yaml"
    text = path.read_text(encoding="utf-8")
    path.write_text(text.replace("europe: 290 mm}", "europe: 295 mm}", 1), encoding="utf-8")
    note(root, '"2.0":\n  issued: 2026-05-04\n  summary: 2.\n  reasons:\n    - {about: end.height, why: It was low.}\n')
    told, _ = tell(root, "2.0", first)
    assert told["imperial"].comparison is not None
    assert told["imperial"].comparison.told == ()
    assert check_reasons(told) == ()


def test_notes_under_another_number_than_the_one_due_are_said_early(root: Path) -> None:
    first = freeze(root, "1.0", None)
    with_hole(root)
    note(root, '"1.1":\n  issued: 2026-05-04\n  summary: A hole.\n')
    [finding] = warned(root, first)
    assert (finding.code, finding.severity) == ("version-dishonest", Severity.WARN)
    assert '"2.0"' in finding.remedy
    assert "part 3, Bottom" in finding.message
    assert finding.place is not None
    assert finding.place.line == 1


def test_reasons_of_another_version_are_not_looked_at(root: Path) -> None:
    first = freeze(root, "1.0", None)
    with_hole(root)
    note(root, '"3.0":\n  issued: 2026-05-04\n  summary: 3.\n  reasons:\n    - {about: handle, why: It was thin.}\n')
    told, findings = tell(root, "2.0", first)
    assert findings == ()
    assert check_reasons(told) == ()


def test_a_sheet_keeps_its_number_for_life(root: Path) -> None:
    first = freeze(root, "1.0", None)
    path = root / PART
    text = path.read_text(encoding="utf-8")
    path.write_text(f"{text.rstrip()}\nsheet: 9a\n", encoding="utf-8")
    _, findings = tell(root, "1.1", first)
    found = [each for each in findings if each.code == "sheet-renumbered"]
    number = next(sheet.number for sheet in first.statements["metric"].sheets.values() if sheet.part == "bottom")
    assert len(found) == 1
    assert found[0].severity is Severity.STOP
    assert f"`sheet: {number}`" in found[0].remedy
    assert found[0].place is not None
    assert (found[0].place.file, found[0].place.line) == (PART, text.rstrip().count("\n") + 2)


def test_a_number_of_a_sheet_that_is_gone_is_not_given_to_another_part(root: Path) -> None:
    now = freeze(root, "1.0", None)
    # As if an earlier version had had one more sheet, and the release before this one another part on sheet 1.
    statements = {name: replace(each, retired_sheets=("1", "40")) for name, each in now.statements.items()}
    gone = {name: replace(each, sheets={}) for name, each in statements.items()}
    told, findings = tell(root, "1.1", replace(now, statements=gone))
    found = [each for each in findings if each.code == "sheet-reused"]
    assert len(found) == 1
    assert "`sheet: 1a`" in found[0].remedy
    assert all(one.statement.retired_sheets == ("40",) for one in told.values())
    _, findings = tell(root, "1.1", now)
    assert not [each for each in findings if each.code.startswith("sheet-re")]
