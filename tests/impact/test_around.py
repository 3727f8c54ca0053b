"""What a version means beside the part itself: mates, hardware, stock and steps."""

from __future__ import annotations

from dataclasses import replace

import pytest

from planbook.impact import Impact, say_step, weigh
from planbook.statement import compare
from planbook.statement.model import BlockStated, FigureStated, FitStated, RowStated, Statement, StepStated
from tests.impact.making import MM, hole, plate, told


def two(size: str = "8 mm", width: str = "80 mm") -> Statement:
    """A plate and a rail that slides in it."""
    return told({"plate": plate(pivot=hole(size=size)), "rail": {**plate("300 mm", width), "number": 2}})


FIT = FitStated("rail.in_plate", ("plate/blank/width", "rail/blank/width"), 0.0, MM, "it slides")


def classes(old: Statement, new: Statement) -> dict[str, Impact]:
    return {each.key: each.impact for each in weigh(compare(old, new)).parts}


def test_a_part_whose_mate_is_not_as_it_was_is_checked() -> None:
    old, new = two(), two(width="78 mm")
    assert classes(old, new) == {"plate": Impact.UNCHANGED, "rail": Impact.REWORK}
    found = weigh(compare(old, replace(new, fits={FIT.name: FIT})))
    plate_impact = found.of("plate")
    assert plate_impact is not None
    assert (plate_impact.impact, plate_impact.mates) == (Impact.CHECK, ("rail",))
    assert plate_impact.because == "try it with part 2 (plate), which has changed"
    assert not plate_impact.asks


def test_a_fit_of_measures_that_are_as_they_were_asks_for_nothing() -> None:
    new = replace(two(size="10 mm"), fits={FIT.name: FIT})
    assert classes(two(), new) == {"plate": Impact.REWORK, "rail": Impact.UNCHANGED}


def test_what_is_drilled_together_is_checked_together() -> None:
    def drilled(statement: Statement) -> Statement:
        rail = statement.parts["rail"]
        bore = replace(statement.parts["plate"].features["pivot"], method="drilled with part 1", cuts=())
        return replace(statement, parts={**statement.parts, "rail": replace(rail, features={"pivot": bore})})

    assert classes(drilled(two()), drilled(two(size="10 mm"))) == {"plate": Impact.REWORK, "rail": Impact.CHECK}


def hardware(*rows: tuple[str, str, str, str]) -> Statement:
    listed = tuple(
        RowStated(key, {"Item": item, "Length, mm": length, "Length, in": "[3]", "Quantity": count})
        for key, item, length, count in rows
    )
    return replace(two(), lists={"hardware": listed})


def test_hardware_is_counted_by_item_and_length_over_all_its_uses() -> None:
    old = hardware(("frame", "M6 bolt", "80", "12"), ("yoke", "M6 bolt", "70", "4"), ("pin", "pin", "", "1"))
    new = hardware(("frame", "M6 bolt", "80", "10"), ("cross", "M6 bolt", "80", "4"), ("yoke", "M6 bolt", "75", "4"))
    said = [each.words for each in weigh(compare(old, new)).items]
    assert said == [
        "buy 2 more: M6 bolt × 80 mm",
        "buy 4: M6 bolt × 75 mm",
        "4 left over: M6 bolt × 70 mm",
        "1 left over: pin",
    ]
    assert weigh(compare(old, new)).asks
    assert not weigh(compare(old, hardware(("frame", "M6 bolt", "80", "11"), *(("yoke", "M6 bolt", "70", "4"),)))).asks


def test_stock_that_is_another_is_told() -> None:
    def of(**rows: str) -> Statement:
        listed = tuple(RowStated(key, {"Material": name, "Accepted, mm": "17 to 18"}) for key, name in rows.items())
        return replace(two(), lists={"materials": listed})

    found = weigh(compare(of(sheet="birch", strip="ash"), of(sheet="poplar", board="oak"))).items
    assert [(each.words, each.asks) for each in found] == [
        ("birch, accepted 17 to 18 mm → poplar, accepted 17 to 18 mm", False),
        ("buy: oak, accepted 17 to 18 mm", True),
        ("no longer needed: ash, accepted 17 to 18 mm", False),
    ]


def step(text: str, statement: Statement | None = None, **more: object) -> Statement:
    stated = StepStated("bore", 3, "Bore", ("plate",), "", **more)
    return replace(
        statement or two(), steps=(stated,), blocks=(BlockStated("bore/start/1", "bore", "paragraph", text),)
    )


def test_a_step_whose_parts_are_as_they_were_and_words_too_is_not_told() -> None:
    assert weigh(compare(step("Bore the hole."), step("Bore the hole."))).steps == ()


def test_a_step_is_told_for_its_parts_and_for_its_words() -> None:
    (found,) = weigh(compare(step("Bore."), step("Bore.", two(size="10 mm")))).steps
    assert (found.parts, found.reworded) == (("plate",), False)
    (found,) = weigh(compare(step("Bore."), step("Bore slowly."))).steps
    assert (found.parts, found.reworded, found.remeasured) == ((), True, False)
    (found,) = weigh(compare(step("Bore."), replace(two(), steps=()))).steps
    assert found.gone


def test_a_step_says_what_of_it_is_another() -> None:
    def said(old: Statement, new: Statement) -> list[str]:
        return [say_step(each, {}).removeprefix("Step 3, Bore: ") for each in weigh(compare(old, new)).steps]

    assert said(step("Bore."), step("Bore slowly.")) == ["read it again, for it reads differently"]
    assert said(step("Bore 8 mm."), step("Bore 8.5 mm.")) == ["a measure in it is another"]
    assert said(step("Bore 8 mm."), step("Bore 8.5 mm.", two(size="8.5 mm")))[0].endswith(
        "; a measure in it is another"
    )
    assert said(step("Bore 8 mm."), step("Now bore 9 mm.")) == [
        "read it again, for it reads differently and a measure in it is another"
    ]
    named = {"dust": "CAUTION. Fine dust. Wear a mask.", "chips": "WARNING. Flying chips. Shield your eyes."}
    lists = {"cautions": tuple(RowStated(key, {"Caution": text}) for key, text in named.items())}
    cautioned = replace(step("Bore.", cautions=("dust",)), lists=lists)
    assert said(step("Bore."), cautioned) == ["it has a new caution, “Fine dust”"]
    cautioned = replace(step("Bore.", cautions=("dust", "chips")), lists=lists)
    assert said(step("Bore."), cautioned) == ["it has new cautions, “Fine dust” and “Flying chips”"]
    assert said(step("Bore.", cautions=("dust",)), step("Bore.")) == []


def test_words_under_a_picture_are_no_reason_to_look_at_a_step() -> None:
    old, new = (
        replace(one, blocks=(*one.blocks, BlockStated("bore/start/2", "bore", "caption", text)))
        for one, text in ((step("Bore."), "From below."), (step("Bore."), "From below; the apron is left out."))
    )
    assert weigh(compare(old, new)).steps == ()


def test_a_step_that_refers_to_a_figure_by_its_new_number_is_not_told() -> None:
    old, new = (
        replace(step(f"Bore as in figure {number}."), figures={"bit": FigureStated("bit", "A bit.", "", "00", number)})
        for number in (1, 2)
    )
    assert weigh(compare(old, new)).steps == ()


@pytest.mark.parametrize(
    ("old", "new", "asks"),
    [
        ("Set the stop at 90 mm [3 1/2 in].", "Set the stop at 95 mm [3 3/4 in].", True),
        ("Set the stop.", "Set the stop at 90 mm.", False),
        ("Wait 30 minutes.", "Wait 45 minutes.", False),
        ("Set the stop at 90 mm [3 1/2 in].", "Set the stop at 90 mm [3 9/16 in].", False),
        ("Lean it by 7.5°.", "Lean it by 8°.", True),
    ],
)
def test_a_measure_in_the_words_of_a_step_may_have_been_worked_to(old: str, new: str, asks: bool) -> None:
    found = weigh(compare(step(old), step(new)))
    assert found.steps[0].remeasured is asks
    assert found.asks is asks


def test_a_number_of_a_dimension_is_judged_by_the_dimension() -> None:
    old, new = step("Bore 8 mm."), step("Bore 8.5 mm.", two(size="8.5 mm"))
    found = weigh(compare(old, new))
    assert found.steps[0].remeasured is False


def test_a_measure_in_the_notes_of_a_sheet_asks_for_a_check() -> None:
    def noted(text: str) -> Statement:
        statement = two()
        return replace(statement, parts={**statement.parts, "plate": replace(statement.parts["plate"], notes=(text,))})

    found = weigh(compare(noted("Break edges by 1 mm."), noted("Break edges by 2 mm."))).of("plate")
    assert found is not None
    assert (found.impact, found.asks, found.because) == (Impact.CHECK, True, "a measure in its notes is another")
    assert classes(noted("Break edges."), noted("Break all edges."))["plate"] is Impact.REPRINT
