"""What a catch-up tells: by part, by how far the builder got, with the drawings and sheets that belong to it."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from functools import cache
from pathlib import Path

from planbook.drawing import draw_sheet
from planbook.drawing.recording import Label
from planbook.impact import EditionImpact, Impact, PartImpact, Reach
from planbook.release.catching_up import catch_up
from planbook.release.guidance import guide
from planbook.release.since import Since
from planbook.source.models.changes import ReasonModel, RemedyModel, VersionNotesModel
from planbook.source.text import Text
from planbook.statement import compare, read_statement
from planbook.statement.model import Statement

VERSIONS = Path(__file__).parents[2] / "versions" / "tool-tote"
NOTES = {
    Text(version): VersionNotesModel(issued=date(2026, 9, 1), summary=Text(f"Of {version}."), **more)
    for version, more in {
        "1.0": {},
        "1.1": {},
        "2.0": {
            "reasons": (ReasonModel(about=Text("rack.hole"), why=Text("Tools fell through.")),),
            "remedies": (RemedyModel(about=Text("tool_rack"), glued=Text("Sleeve the holes.")),),
        },
    }.items()
}


@cache
def told(version: str) -> Statement:
    path = VERSIONS / version / "metric" / "statement.json"
    return read_statement(path.read_bytes(), str(path))


class Weighed(Since):
    """A comparison whose impact is given."""

    def __init__(self, old: str, *parts: PartImpact) -> None:
        super().__init__(compare(told(old), told("2.0")))
        self.__dict__["impact"] = EditionImpact(old, "2.0", parts)


def caught_up(since: Since, old: str = "1.1"):
    pages = {number: draw_sheet(told("2.0"), number)[0] for number in ("5",)}
    return catch_up(since, guide(since, old, NOTES), told("2.0"), pages)


def tasks(since: Since, old: str = "1.1") -> dict[str, tuple[str, ...]]:
    """The four columns of each part, by class and number."""
    return {
        f"{group.title} {task.number}": (task.uncut, task.cut, task.glued, task.finished)
        for group in caught_up(since, old).groups
        for task in group.tasks
    }


def part(impact: Impact, **more: object) -> PartImpact:
    return replace(PartImpact(5, "tool_rack", "Tool rack", impact), **more)  # type: ignore[arg-type]


def test_a_catch_up_of_two_kept_releases_has_the_part_its_picture_and_its_sheet() -> None:
    found = caught_up(Since(compare(told("1.0"), told("2.0"))), "1.0")
    assert [each.version for each in found.versions] == ["1.1", "2.0"]
    assert [(group.title, [task.number for task in group.tasks]) for group in found.groups] == [("Recut", [5])]
    assert found.groups[0].tasks[0].cut == "Make it anew, for tools, diameter: Ø19 mm → Ø16 mm"
    assert [each.title for each in found.reworks] == ["Part 5, Tool rack"]
    assert list(found.sheets) == ["5"]
    words = {each.text for page in found.sheets["5"] for each in page.primitives if isinstance(each, Label)}
    assert {"WAS IN VERSION 1.0", "6x Ø19 mm through", "Tools fell through."} <= words
    assert found.as_before == 5


def test_nothing_to_do_has_no_groups_and_no_sheets() -> None:
    since = Since(compare(told("1.0"), told("1.1")))
    found = catch_up(since, guide(since, "1.0", NOTES), told("1.1"), {})
    assert (found.groups, dict(found.sheets), found.as_before) == ((), {}, 6)


def test_each_stage_says_what_it_asks_for_once() -> None:
    plain = part(Impact.REWORK, because="enlarge the holes")
    assert tasks(Weighed("1.1", plain)) == {
        "Rework 5": (
            "Work from the new sheet 5",
            "Enlarge the holes",
            "",
            "As when cut; renew the finish where you cut",
        )
    }
    glued = replace(plain, glued=True, reach=())
    assert tasks(Weighed("1.1", glued))["Rework 5"][2:] == (
        "as when cut",
        "As when glued; renew the finish where you cut",
    )


def test_out_of_reach_the_author_s_remedy_stands_for_glued_pieces() -> None:
    reach = Reach("tools", "hole tools", 30.0, 90.0, "a drill")
    glued = part(Impact.REWORK, because="enlarge the holes", glued=True, reach=(reach,))
    assert tasks(Weighed("1.1", glued))["Rework 5"][2:] == ("Sleeve the holes.", "as when glued")


def test_new_and_withdrawn_parts_say_so_to_who_has_cut_nothing() -> None:
    fresh = part(Impact.NEW, more=(2, 0))
    assert tasks(Weighed("1.1", fresh)) == {"New 5": ("Make 2, from sheet 5", "", "", "")}
    gone = PartImpact(9, "shelf", "Shelf", Impact.WITHDRAWN)
    assert tasks(Weighed("1.1", gone)) == {"No longer made 9": ("Leave it out", "It is wanted no longer", "", "")}


def test_a_part_whose_sheet_holds_is_worked_from_that_sheet() -> None:
    mate = PartImpact(6, "handle", "Handle", Impact.CHECK, because="its mate is not as it was")
    assert tasks(Weighed("1.1", mate))["Check the fit 6"][0] == "Work from sheet 6 as you have it"


def test_a_sheet_that_only_reads_otherwise_is_named_and_has_no_row() -> None:
    found = caught_up(Weighed("1.1", part(Impact.REPRINT)))
    assert (found.groups, found.reprinted) == ((), (5,))
