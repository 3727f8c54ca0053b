"""Notices to buyers: by the version that they have, short, and nothing in them that they cannot act on."""

from dataclasses import replace
from datetime import date

import pytest

from planbook.release.archive.advisories import Advisory
from planbook.release.guidance import guide
from planbook.release.notices import plain_notice
from planbook.release.since import Since
from planbook.source.models.changes import ReasonModel, VersionNotesModel
from planbook.source.text import Text
from planbook.statement import compare
from tests.statement.small import MM, STATEMENT, dimension

NOTES = {
    Text(key): VersionNotesModel(issued=date(2026, month, 1), summary=Text(summary), lifts=lifts)
    for key, month, summary, lifts in (
        ("1.0", 3, "The first.", ()),
        ("1.1", 4, "A clearer step.", ()),
        ("2.0", 5, "A wider handle.", (1, 2)),
    )
}
BEFORE = replace(STATEMENT, version="1.1")
SAME = replace(STATEMENT, version="2.0", issued="2026-05-01")
WIDER = replace(
    SAME,
    parts={**STATEMENT.parts, "handle": replace(STATEMENT.parts["handle"], size=(310 * MM, 200 * MM, 18 * MM))},
    dimensions={**STATEMENT.dimensions, "handle/blank/length": dimension("handle/blank/length", 310)},
)


def guidance(new, old="1.1", **more):
    return guide(Since(compare(BEFORE, new)), old, NOTES, **more)


def test_who_has_to_do_nothing_reads_so():
    text = plain_notice(guidance(SAME))
    assert "Nothing: all that you have cut, glued or bought is as it should be." in text
    assert "put the old version away" not in text
    assert "2 parts are as before." in text


def test_a_recut_part_stands_under_its_class_with_what_to_do():
    told = guidance(WIDER)
    assert [(group.title, [point.name for point in group.points]) for group in told.groups] == [
        ("Recut", ["Part 9, Handle"])
    ]
    assert (told.as_before, told.sheets) == (1, ("9",))
    assert "put the old version away and work from the new one" in " ".join(plain_notice(told).split())


@pytest.mark.parametrize(("old", "versions"), [("1.0", ["1.1", "2.0"]), ("1.1", ["2.0"])])
def test_only_what_came_after_the_buyer_s_version_is_summed_up(old, versions):
    assert [each.version for each in guidance(SAME, old).versions] == versions


def test_an_advisory_is_lifted_for_those_whom_it_warned():
    def advisory(number, version, editions):
        return Advisory(number, version, 9, editions, "2026-04-20", "Do not cut the handle.", "")

    edition = STATEMENT.edition.name
    told = (advisory(1, "1.1", (edition,)), advisory(2, "1.1", ("another",)), advisory(3, "1.1", (edition,)))
    assert [each.number for each in guidance(SAME, advisories=told).lifted] == [1]
    assert guidance(SAME, "1.0", advisories=told).lifted == ()


def test_what_the_author_says_of_a_part_stands_beside_it():
    reason = ReasonModel(about=(Text("handle"), Text("end")), why=Text("It was short for two hands."))
    notes = {**NOTES, Text("2.0"): NOTES[Text("2.0")].model_copy(update={"reasons": (reason,)})}
    told = guide(Since(compare(BEFORE, WIDER)), "1.1", notes)
    assert [point.why for group in told.groups for point in group.points] == [("It was short for two hands.",)]
    assert "    It was short for two hands." in plain_notice(told).splitlines()


def test_lines_fit_a_mail_and_say_who_they_are_for():
    text = plain_notice(guidance(WIDER, answered=["Is the handle meant to be as wide as that, or is it a misprint?"]))
    assert max(map(len, text.splitlines())) <= 76
    assert text.startswith("Tote, metric edition: version 2.0, for builders who have 1.1\n")
    assert "Questions that are answered now" in text
