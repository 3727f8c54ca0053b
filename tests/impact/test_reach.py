"""Whether a tool still gets there when a part is glued in its place."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from planbook.impact import Impact, PartImpact, Stage, say_stages, weigh
from planbook.impact.rays import free_way
from planbook.release.guidance import guide
from planbook.release.remedies import check_remedies, remedies_said
from planbook.release.since import Since
from planbook.source.findings import Place, Severity
from planbook.source.models.changes import ReasonModel, RemedyModel, VersionNotesModel
from planbook.source.text import Text, Words
from planbook.statement import compare
from planbook.statement.model import ComponentStated, Statement, StepStated
from tests.impact.making import MM, hole, plate, told

X, Y, Z = (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)


def glued(size: str, room: float, *, order: tuple[str, ...] = ("plate", "rail"), **bore: str) -> Statement:
    """A plate with a hole in its face, and a rail glued with it so many millimetres over that face."""
    parts = {"plate": plate(pivot=hole(size=size, **bore)), "rail": {**plate(), "number": 2}}
    over = (0.0, 0.0, (18 + room) * MM)
    assembly = (
        ComponentStated("plate", "plate", (0.0, 0.0, 0.0), X, Y, Z),
        ComponentStated("rail", "rail", over, X, Y, Z),
    )
    return replace(told(parts), assembly=assembly, steps=(StepStated("glue", 1, "Glue", order, "", glue_order=order),))


def found(old: Statement, new: Statement) -> PartImpact:
    impact = weigh(compare(old, new)).of("plate")
    assert impact is not None
    return impact


def test_thirty_millimetres_are_not_enough_for_a_drill_that_needs_ninety() -> None:
    impact = found(glued("8 mm", 30, depth="10 mm"), glued("10 mm", 30, depth="10 mm"))
    assert (impact.impact, impact.glued) == (Impact.REWORK, True)
    (reach,) = impact.out_of_reach
    assert (reach.feature, reach.words, reach.needs) == ("pivot", "hole pivot", 90.0)
    assert reach.free == pytest.approx(30, abs=1e-6)


@pytest.mark.parametrize("room", [0.0, 89.0, 91.0, 300.0])
def test_the_room_is_what_lies_between(room: float) -> None:
    impact = found(glued("8 mm", room, depth="10 mm"), glued("10 mm", room, depth="10 mm"))
    assert bool(impact.out_of_reach) is (room < 90)
    assert impact.reach
    assert impact.reach[0].free == pytest.approx(room, abs=1e-6)


def test_a_hole_that_goes_through_is_bored_from_its_free_side() -> None:
    assert found(glued("8 mm", 30), glued("10 mm", 30)).out_of_reach == ()


def test_what_is_not_glued_is_in_nobodys_way() -> None:
    old, new = (glued(size, 30, order=("plate",), depth="10 mm") for size in ("8 mm", "10 mm"))
    assert found(old, new).out_of_reach == ()
    loose = [replace(each, steps=()) for each in (old, new)]
    assert (found(*loose).glued, found(*loose).reach) == (False, ())


def test_glue_holds_together_what_several_steps_glue() -> None:
    def in_two_steps(statement: Statement) -> Statement:
        orders = (("plate", "post"), ("post", "rail"))
        return replace(
            statement,
            steps=tuple(StepStated(f"s{n}", n, "Glue", each, "", glue_order=each) for n, each in enumerate(orders)),
        )

    old, new = (in_two_steps(glued(size, 30, depth="10 mm")) for size in ("8 mm", "10 mm"))
    assert found(old, new).out_of_reach


def test_an_assembly_that_was_not_recorded_answers_nothing() -> None:
    old, new = glued("8 mm", 30, depth="10 mm"), replace(glued("10 mm", 30, depth="10 mm"), assembly=None)
    assert (found(old, new).reach, found(old, new).out_of_reach) == (None, ())


def test_a_mirrored_component_stands_mirrored() -> None:
    """The hole lies near the front, and so does the rail; a mirrored plate turns its hole to the rear."""
    narrow = {"plate": plate(pivot=hole(y="10 mm", depth="10 mm")), "rail": {**plate(width="40 mm"), "number": 2}}
    wide = {**narrow, "plate": plate(pivot=hole(y="10 mm", depth="10 mm", size="10 mm"))}
    for mirrored in (False, True):
        placed = glued("8 mm", 30)
        assembly = (replace(placed.assembly[0], mirrored=mirrored), placed.assembly[1])
        old, new = (replace(told(each), assembly=assembly, steps=placed.steps) for each in (narrow, wide))
        assert bool(found(old, new).out_of_reach) is not mirrored


def test_every_stage_is_told_what_to_do() -> None:
    stages = say_stages(found(glued("8 mm", 300, depth="10 mm"), glued("10 mm", 300, depth="10 mm")))
    enlarge = "enlarge hole pivot: Ø8 mm → Ø10 mm"
    assert stages == {
        Stage.UNCUT: "work from the new sheet",
        Stage.CUT: enlarge,
        Stage.GLUED: enlarge,
        Stage.FINISHED: f"{enlarge}; renew the finish where you cut",
    }
    close = say_stages(found(glued("8 mm", 30, depth="10 mm"), glued("10 mm", 30, depth="10 mm")))
    assert close[Stage.GLUED] == "once glued, 30 mm are free before hole pivot, and a right-angle drill needs 90 mm"
    recut = say_stages(found(glued("10 mm", 300), glued("8 mm", 300)))
    assert recut[Stage.GLUED] == "make it anew, with what it is glued to"
    forgotten = replace(glued("10 mm", 30), assembly=None)
    assert say_stages(found(glued("8 mm", 30), forgotten))[Stage.GLUED].endswith("its place is not recorded")
    assert say_stages(found(glued("8 mm", 30), glued("8 mm", 30))) == {}


def test_rays_meet_a_wall_squarely_and_aslant() -> None:
    wall = np.array([[[-9.0, -9.0, 5.0], [9.0, -9.0, 5.0], [0.0, 20.0, 5.0]]])
    start = np.zeros((1, 3))
    assert free_way(start, np.array([0.0, 0.0, 1.0]), wall) == pytest.approx(5)
    aslant = np.array([0.6, 0.0, 0.8])
    assert free_way(start, aslant, wall) == pytest.approx(5 / 0.8)
    assert free_way(start, np.array([0.0, 0.0, -1.0]), wall) == np.inf


def editions(old: Statement, new: Statement) -> Any:
    return {"metric": SimpleNamespace(since=Since(compare(old, new)))}


CONTENT: Any = SimpleNamespace(folder="content/stool")


def notes(*about: str) -> Any:
    """Those of a version with one remedy about all of these."""
    place = Place("changes.yaml", 9, 14)
    remedy = RemedyModel(about=tuple(Text(each, place) for each in about), glued=Text("fit a sleeve", place))
    return Text("2.0", place), SimpleNamespace(remedies=(remedy,))


def codes(change: Any, said: Any = None) -> list[tuple[str, Severity]]:
    return [(each.code, each.severity) for each in check_remedies(change, CONTENT, said, Severity.STOP)]


def test_a_release_waits_for_the_author_s_remedy() -> None:
    change = editions(glued("8 mm", 30, depth="10 mm"), glued("10 mm", 30, depth="10 mm"))
    (finding,) = check_remedies(change, CONTENT, None, Severity.STOP)
    assert (finding.code, finding.severity) == ("remedy-out-of-reach", Severity.STOP)
    assert finding.place == Place("content/stool/changes.yaml", 0, 0)
    assert "once glued, 30 mm are free before hole pivot, and a right-angle drill needs 90 mm" in finding.message
    assert "`{about: plate/pivot, glued: ...}`" in finding.remedy
    assert codes(change, notes("plate/pivot")) == []
    assert codes(change, notes("plate")) == []


def test_a_recut_of_a_glued_part_waits_for_the_author_s_remedy() -> None:
    change = editions(glued("10 mm", 300), glued("8 mm", 300))
    (finding,) = check_remedies(change, CONTENT, notes("rail"), Severity.STOP)[:1]
    assert (finding.code, finding.severity) == ("remedy-glued-in", Severity.STOP)
    assert "Part 1, Plate, is to be made anew, and a step glues it" in finding.message
    assert finding.place == Place("changes.yaml", 9, 14)
    assert "`{about: plate, glued: ...}`" in finding.remedy
    assert codes(change, notes("plate")) == []
    # A remedy about one of its features is none for the whole part.
    assert ("remedy-glued-in", Severity.STOP) in codes(change, notes("plate/pivot"))
    loose = editions(*(replace(glued(size, 300), steps=()) for size in ("10 mm", "8 mm")))
    assert codes(loose) == []


def test_one_remedy_speaks_of_several_parts() -> None:
    change = editions(glued("10 mm", 300), glued("8 mm", 300))
    assert codes(change, notes("plate", "rail")) == [("remedy-idle", Severity.WARN)]


def test_a_glued_part_that_is_no_longer_wanted_waits_for_a_remedy() -> None:
    old = glued("8 mm", 300)
    new = replace(old, parts={key: part for key, part in old.parts.items() if key != "rail"})
    assert codes(editions(old, new)) == [("remedy-glued-in", Severity.STOP)]


def test_a_glued_part_that_may_be_too_short_waits_for_a_remedy() -> None:
    old, new = glued("8 mm", 300), glued("8 mm", 300)
    shorter = new.dimensions["plate/blank/length"]
    longer = replace(shorter, printed=replace(shorter.printed, value=shorter.printed.value + 0.4 * MM))
    change = editions(old, replace(new, dimensions={**new.dimensions, longer.id: longer}))
    (finding,) = check_remedies(change, CONTENT, None, Severity.STOP)
    assert finding.code == "remedy-glued-in"
    assert "if it measures otherwise than it may now (measure length: " in finding.message


def test_what_the_author_says_of_glued_pieces_is_what_builders_read() -> None:
    impact = found(glued("10 mm", 300), glued("8 mm", 300))
    assert remedies_said(impact, notes("plate")[1].remedies) == ("Fit a sleeve",)
    assert remedies_said(impact, notes("rail")[1].remedies) == ()


def test_what_the_author_said_under_former_names_is_read_too() -> None:
    """Of a part and a feature that were renamed since the notes were written."""
    old, new = glued("8 mm", 30, depth="10 mm"), glued("10 mm", 30, depth="10 mm")
    new = replace(new, version="1.1", renamed={"part:board": "part:plate", "feature:plate/pin": "feature:plate/pivot"})
    impact = found(old, new)
    assert impact.was == ("board",)
    assert [reach.was for reach in impact.out_of_reach] == [("pin",)]
    for about in ("board/pin", "board", "plate/pin", "plate/pivot"):
        assert remedies_said(impact, notes(about)[1].remedies) == ("Fit a sleeve",)
    place = Place("changes.yaml", 3, 1)
    note = VersionNotesModel(
        issued=date(2026, 5, 4),
        summary=Words("A thicker pin."),
        reasons=(ReasonModel(about=Text("board", place), why=Words("It was misprinted.", place)),),
    )
    told = guide(Since(compare(old, new)), "1.0", {Text("1.1", place): note})
    assert [point.why for group in told.groups for point in group.points if point.part.key == "plate"] == [
        ("It was misprinted.",)
    ]


def test_a_remedy_for_what_is_within_reach_is_idle() -> None:
    change = editions(glued("8 mm", 300, depth="10 mm"), glued("10 mm", 300, depth="10 mm"))
    assert codes(change, notes("plate/pivot")) == [("remedy-idle", Severity.WARN)]
