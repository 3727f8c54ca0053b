"""The class of a part, from the shapes that were told of it."""

from __future__ import annotations

from dataclasses import replace

import pytest

from planbook.impact import Impact, weigh
from planbook.statement import compare
from planbook.statement.model import Statement
from tests.impact.making import hole, impact, plate, printed_as, told


def test_what_is_told_as_before_is_unchanged() -> None:
    one = told({"plate": plate(pivot=hole())})
    found = impact(one, replace(one, version="1.1"))
    assert found.impact is Impact.UNCHANGED
    assert not found.asks


def test_a_misprint_counts_although_the_model_never_moved() -> None:
    """1.0 printed 173, 1.1 misprinted 137, and 1.2 prints 173 again."""
    right = told({"plate": plate("173 mm")}, "1.0")
    wrong = replace(printed_as(right, "plate/blank/length", 137), version="1.1")
    mended = replace(right, version="1.2")
    short = impact(wrong, mended)
    assert short.impact is Impact.RECUT
    (lack,) = short.lacks
    assert (lack.feature, lack.low[0], lack.high[0]) == ("blank", pytest.approx(137), pytest.approx(173))
    assert lack.volume == pytest.approx(36 * 80 * 18)
    assert short.asks
    assert impact(right, mended).impact is Impact.UNCHANGED
    assert impact(right, wrong).impact is Impact.REWORK


def test_a_misprinted_place_is_a_hole_in_the_wrong_place() -> None:
    right = told({"plate": plate(pivot=hole("173 mm"))})
    found = impact(printed_as(right, "plate/pivot/x", 137), right)
    assert found.impact is Impact.RECUT
    assert found.lacks[0].feature == "pivot"
    assert found.because.startswith("pivot, position along x: 137 mm → 173 mm; the old pivot hole lies where")


def test_a_model_that_moves_by_less_than_is_printed_leaves_the_part() -> None:
    found = impact(told({"plate": plate(pivot=hole("173.1 mm"))}), told({"plate": plate(pivot=hole("173.05 mm"))}))
    assert found.impact in (Impact.UNCHANGED, Impact.REPRINT)
    assert not found.asks


def test_a_larger_hole_is_reworked() -> None:
    found = impact(told({"plate": plate(pivot=hole(size="8 mm"))}), told({"plate": plate(pivot=hole(size="10 mm"))}))
    assert found.impact is Impact.REWORK
    assert [work.words for work in found.works] == ["enlarge hole pivot: Ø8 mm → Ø10 mm"]
    assert sum(spot.volume for spot in found.goes) == pytest.approx(3.14159 * (5**2 - 4**2) * 18, rel=0.02)
    assert found.lacks == ()


def test_a_smaller_hole_wants_wood() -> None:
    found = impact(told({"plate": plate(pivot=hole(size="10 mm"))}), told({"plate": plate(pivot=hole(size="8 mm"))}))
    assert found.impact is Impact.RECUT
    assert "pivot" in {spot.feature for spot in found.lacks}


def test_a_hole_that_moves_within_tolerance_stays() -> None:
    """The general tolerance is ±0.5 mm: 173 lies within 172.8 to 173.8, and 172.5 does not."""
    found = impact(told({"plate": plate(pivot=hole("173 mm"))}), told({"plate": plate(pivot=hole("173.5 mm"))}))
    assert found.impact is Impact.CHECK
    assert str(found.measures[0]) == ("measure pivot, position along x: 173 to 173.5 mm: keep, under 173 mm: recut")


def test_tolerances_decide_with_numbers() -> None:
    def rail(length: str) -> dict[str, object]:
        return {"rail.length": {"is": length, "tolerance": "0.8 mm"}}

    part = {"plate": {"size": ("rail.length", "80 mm", "18 mm")}}
    longer = impact(told(part, **rail("600 mm")), told(part, **rail("600.5 mm")))
    assert longer.impact is Impact.CHECK
    assert [str(each) for each in longer.measures] == ["measure length: 599.7 to 600.8 mm: keep, under 599.7 mm: recut"]
    assert longer.asks
    shorter = impact(told(part, **rail("600.5 mm")), told(part, **rail("600 mm")))
    assert [str(each) for each in shorter.measures] == [
        "measure length: 599.7 to 600.8 mm: keep, over 600.8 mm: rework"
    ]


def test_wider_limits_ask_for_nothing_and_narrower_ones_for_a_measure() -> None:
    def rail(tolerance: str) -> dict[str, object]:
        return {"rail.length": {"is": "600 mm", "tolerance": tolerance}}

    part = {"plate": {"size": ("rail.length", "80 mm", "18 mm")}}
    wider = impact(told(part, **rail("0.2 mm")), told(part, **rail("0.5 mm")))
    assert (wider.impact, wider.asks) == (Impact.REPRINT, False)
    narrower = impact(told(part, **rail("0.5 mm")), told(part, **rail("0.2 mm")))
    assert (narrower.impact, narrower.asks) == (Impact.CHECK, True)
    assert str(narrower.measures[0]) == (
        "measure length: 599.8 to 600.2 mm: keep, under 599.8 mm: recut, over 600.2 mm: rework"
    )


def test_a_shorter_part_is_trimmed_and_a_longer_one_recut() -> None:
    long, short = told({"plate": plate("400 mm")}), told({"plate": plate("380 mm")})
    trimmed = impact(long, short)
    assert (trimmed.impact, [work.words for work in trimmed.works]) == (
        Impact.REWORK, ["trim the length: 400 mm → 380 mm"],
    )  # fmt: skip
    assert impact(short, long).impact is Impact.RECUT


def test_a_part_moved_as_a_whole_is_compared_where_it_lies_best() -> None:
    """20 mm come off at the datum end: every hole is 20 mm nearer to it, and no wood is wanted."""
    old = told({"plate": plate("400 mm", pivot=hole("173 mm"), stop=hole("300 mm", size="5 mm"))})
    new = told({"plate": plate("380 mm", pivot=hole("153 mm"), stop=hole("280 mm", size="5 mm"))})
    found = impact(old, new)
    assert found.impact is Impact.REWORK
    assert found.moved == (-20.0, 0.0, 0.0)
    assert [work.words for work in found.works] == ["trim the length: 400 mm → 380 mm, at the left end"]
    assert sum(spot.volume for spot in found.goes) == pytest.approx(20 * 80 * 18)


def test_a_part_that_is_longer_by_less_than_the_general_tolerance_was_not_moved() -> None:
    """By calipers 0.4 mm are lacking, wherever the old piece is laid."""
    short, long = (_by_calipers(told({"plate": plate("400 mm", size)})) for size in ("56.6 mm", "57 mm"))
    found = impact(short, long)
    assert (found.impact, found.moved) == (Impact.RECUT, (0.0, 0.0, 0.0))


def test_what_is_marked_from_the_work_is_looked_at_where_its_number_moves_a_little() -> None:
    marked = {"method": "marked from part 2"}
    short, longer, far = (
        _by_calipers(told({"plate": plate("400 mm", size)}), **marked) for size in ("56.6 mm", "57 mm", "58.2 mm")
    )
    assert impact(short, longer).impact is Impact.CHECK
    assert impact(short, far).impact is Impact.RECUT


def _by_calipers(statement: Statement, **fields: str) -> Statement:
    width = replace(statement.dimensions["plate/blank/width"], caliper=True, **fields)
    return replace(statement, dimensions={**statement.dimensions, width.id: width})


def outlined(*places: tuple[int, int]) -> Statement:
    """A plate with these corners; the first ones keep their names whatever their places."""
    outline = {f"corner_{n}": {"at": (f"{x} mm", f"{y} mm")} for n, (x, y) in enumerate(places)}
    width = max(y for _, y in places)
    return told({"plate": {"size": ("400 mm", f"{width} mm", "18 mm"), "outline": outline}})


def works_between(old: Statement, new: Statement) -> list[str]:
    found = impact(old, new)
    assert found.impact is Impact.REWORK
    return [work.words for work in found.works]


def test_seats_let_into_an_edge_are_counted_though_no_number_of_the_old_sheet_speaks_of_them() -> None:
    old = outlined((0, 0), (400, 0), (400, 80), (0, 80))
    one = outlined((0, 0), (400, 0), (400, 80), (100, 80), (100, 78), (0, 78))
    two = outlined((0, 0), (400, 0), (400, 78), (300, 78), (300, 80), (100, 80), (100, 78), (0, 78))
    sheet = one.parts["plate"].sheet
    assert works_between(old, one)[-1] == f"cut the outline as on sheet {sheet}"
    assert works_between(old, two)[-1] == f"cut the outline as on sheet {sheet}: at 2 places, 2 mm deep"


def test_an_outline_that_is_lower_by_more_than_the_trim_is_cut_anew() -> None:
    """Both seats sink with the edge: the numbers of one corner would leave the rest standing."""
    old = outlined((0, 0), (400, 0), (400, 78), (300, 78), (300, 80), (100, 80), (100, 78), (0, 78))
    low = outlined((0, 0), (400, 0), (400, 72), (300, 72), (300, 74), (100, 74), (100, 72), (0, 72))
    sheet = low.parts["plate"].sheet
    assert works_between(old, low) == [
        "trim the width: 80 mm → 74 mm, at the rear edge",
        f"cut the outline as on sheet {sheet}",
    ]


def test_a_trim_that_takes_no_corner_with_it_is_no_new_outline() -> None:
    tall, low = (outlined((0, 0), (400, 0), (400, y), (0, y)) for y in (80, 74))
    assert works_between(tall, low) == ["trim the width: 80 mm → 74 mm"]


def test_what_comes_with_a_trim_is_no_job_and_what_goes_deeper_is_one() -> None:
    """3 mm off the front edge: the bolt's hole goes through as before, and the blind one has to be bored deeper."""
    bolt = {"hole": "8 mm", "at": ("100 mm", "9 mm"), "on": "front_edge"}
    catch = {"hole": "10 mm", "at": ("200 mm", "9 mm"), "on": "front_edge", "depth": "5 mm"}

    def of(width: str, at: str) -> Statement:
        features = {"pin": hole("60 mm", at), "stop": hole("300 mm", at), "pivot": hole("340 mm", at)}
        return told({"plate": plate("400 mm", width, bolt=bolt, catch=catch, **features)})

    new = of("77 mm", "37 mm")
    assert works_between(of("80 mm", "40 mm"), new) == [
        "trim the width: 80 mm → 77 mm, at the front edge",
        f"deepen hole catch by 3 mm, to its depth on sheet {new.parts['plate'].sheet}",
    ]
    assert impact(of("80 mm", "40 mm"), new).moved_words == (
        "leave all else that is cut as it is: it lies 3 mm nearer to the trimmed front edge"
    )


def test_what_is_in_the_way_of_new_wood_is_named_once() -> None:
    old = told({"plate": plate(pivot=hole("60 mm"), pin=hole("200 mm"), stop=hole("300 mm"))})
    new = told({"plate": plate(pivot=hole("80 mm"), pin=hole("230 mm"), stop=hole("300 mm"))})
    said = impact(old, new).because.split("; ")[-1]
    first, second = sorted(("the old pivot hole", "the old pin hole"), key=said.index)
    assert said == f"{first} lies where the new part needs wood, and so does {second}"
    longer = impact(told({"plate": plate("400 mm")}), told({"plate": plate("420 mm")}))
    assert longer.because.endswith("the new part reaches beyond the old right end")


def test_a_new_hole_is_cut_and_one_taken_out_wants_wood() -> None:
    without, with_it = told({"plate": plate(pivot=hole())}), told({"plate": plate(pivot=hole(), stop=hole("60 mm"))})
    added = impact(without, with_it)
    assert (added.impact, [work.words for work in added.works]) == (Impact.REWORK, ["cut hole stop as on sheet 1"])
    assert impact(with_it, without).impact is Impact.RECUT


def test_other_stock_is_a_recut_and_another_key_alone_is_not() -> None:
    old = told({"plate": plate()})
    part = old.parts["plate"]

    def of(**changes: str) -> Impact:
        return impact(old, replace(old, parts={"plate": replace(part, **changes)})).impact

    assert of(stock="board", stock_title="27 mm beech", material="Beech") is Impact.RECUT
    assert of(stock="sheet_18") is Impact.REPRINT


def test_stock_of_another_thickness_is_judged_by_what_is_accepted() -> None:
    old = told({"plate": {"size": ("400 mm", "80 mm", "stock.sheet.thickness")}})
    part, name = old.parts["plate"], "plate/blank/thickness"
    moved = printed_as(old, name, 18.2)
    wider = replace(moved, parts={"plate": replace(part, stock_note="accepted 17.4 to 18.6 mm")})
    assert impact(old, wider).impact is Impact.REPRINT
    other = replace(moved, parts={"plate": replace(part, stock_note="accepted 18 to 18.6 mm")})
    found = impact(old, other)
    assert found.impact is Impact.CHECK
    assert str(found.measures[0]) == "measure thickness: 18 to 18.4 mm: keep, under 18 mm: recut"


def test_more_pieces_are_told_beside_the_class() -> None:
    old = told({"plate": plate()})
    part = old.parts["plate"]
    found = impact(old, replace(old, parts={"plate": replace(part, as_drawn=1, mirrored=2)}))
    assert (found.impact, found.more, found.left, found.asks) == (Impact.REPRINT, (0, 2), (0, 0), True)


def test_parts_come_and_go() -> None:
    old, new = told({"plate": plate(), "rail": plate("300 mm")}), told({"plate": plate(), "post": plate("90 mm")})
    found = {each.key: each.impact for each in weigh(compare(old, new)).parts}
    assert found == {"plate": Impact.UNCHANGED, "rail": Impact.WITHDRAWN, "post": Impact.NEW}


def test_a_renamed_part_and_feature_are_compared_with_themselves() -> None:
    old = told({"bar": plate(pin=hole())})
    new = told({"plate": {**plate(pivot={**hole(size="10 mm")})}})
    names = {"part:bar": "part:plate", "feature:plate/pin": "feature:plate/pivot"}
    found = impact(old, replace(new, renamed=names))
    assert (found.impact, [work.words for work in found.works]) == (
        Impact.REWORK, ["enlarge hole pivot: Ø8 mm → Ø10 mm"],
    )  # fmt: skip


def test_every_pair_of_versions_is_compared_directly() -> None:
    """From 1.0 to 1.2, not by adding up: 8 to 10 and back again leaves builders of 1.0 nothing to do."""
    first, second = told({"plate": plate(pivot=hole())}), told({"plate": plate(pivot=hole(size="10 mm"))})
    assert impact(first, second).impact is Impact.REWORK
    assert impact(second, first).impact is Impact.RECUT
    assert impact(first, first).impact is Impact.UNCHANGED


def test_an_angle_with_other_limits_is_checked_but_has_no_range_of_lengths() -> None:
    """Limits of 29.5 to 30.5 and of 29.8 to 30.8 degrees share some: no caliper tells which piece is within."""
    old, new = (
        told({"plate": plate(cut={"end_cut": "right", "mitre": f"{degrees} deg"})}) for degrees in ("30", "30.3")
    )
    found = impact(old, new)
    assert found.measures == ()
    assert found.because == "cut, mitre: mitre 30° → mitre 30.5°"
    assert "plate/cut/mitre" in found.dimensions
