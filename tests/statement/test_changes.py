"""What is printed of a comparison: the change log part by part with reasons, and honest version numbers."""

from dataclasses import replace
from types import SimpleNamespace

import pytest

from planbook.release.reasons import check_reasons
from planbook.source.findings import Place, Severity
from planbook.source.models.changes import ReasonModel
from planbook.source.text import Text
from planbook.statement.changes import Changes, Revision, changed_in, print_changes
from planbook.statement.changes_log import log_changes, log_text, tell_changes
from planbook.statement.changes_words import row_title
from planbook.statement.compare import compare
from planbook.statement.model import BlockStated, RowStated, SegmentStated, StepStated

from .small import MM, STATEMENT, dimension, hole, parameter, part


def reasons(**about):
    return [ReasonModel(about=Text(name.replace("__", "/")), why=Text(why)) for name, why in about.items()]


def log(new, why=(), old=STATEMENT):
    return log_changes("2.0", compare(old, new), why)


def texts(new, why=(), old=STATEMENT):
    return [log_text(row) for row in log(new, why, old).rows]


def with_(group, key, **changes):
    """STATEMENT with fields of one of its things changed."""
    things = getattr(STATEMENT, group)
    return replace(STATEMENT, **{group: {**things, key: replace(things[key], **changes)}})


def square(width, height):
    corners = [(0.0, 0.0), (width * MM, 0.0), (width * MM, height * MM), (0.0, height * MM)]
    return tuple(SegmentStated(a, b) for a, b in zip(corners, corners[1:] + corners[:1], strict=True))


WIDER = replace(STATEMENT, dimensions={**STATEMENT.dimensions, "handle/pivot/x": dimension("handle/pivot/x", 45)})


def test_a_row_says_where_what_and_why():
    (row,) = log(WIDER, reasons(handle__pivot__x="It pinched.")).rows
    assert row.cells["where"] == "Part 9, Handle"
    assert log_text(row) == "Pivot, position along x: 44 mm → 45 mm. Why: It pinched."


def test_a_measure_that_moves_with_a_driver_is_not_told():
    def lifted(mm, *, moving):
        return replace(STATEMENT, parameters={"lift": parameter("lift", mm, moving=moving)})

    assert texts(lifted(8, moving=True), old=lifted(5, moving=True)) == []
    assert len(texts(lifted(8, moving=False), old=lifted(5, moving=False))) == 1


@pytest.mark.parametrize("about", ["handle__pivot", "handle__pivot__x"])
def test_a_reason_may_name_the_feature_or_the_dimension(about):
    (row,) = log(WIDER, reasons(**{about: "It pinched."})).rows
    assert row.cells["why"] == "It pinched."


def test_a_reason_for_a_whole_part_opens_its_heading():
    both = {**WIDER.dimensions, "handle/blank/length": dimension("handle/blank/length", 310)}
    rows = log(replace(WIDER, dimensions=both), reasons(handle="It pinched.")).rows
    assert [(row.cells["what"][:5], row.cells["why"]) for row in rows] == [
        ("", "It pinched."),
        ("Lengt", ""),
        ("Pivot", ""),
    ]


def test_a_reason_for_a_feature_is_given_once():
    both = {**WIDER.dimensions, "handle/pivot/diameter": dimension("handle/pivot/diameter", 9)}
    rows = log(replace(WIDER, dimensions=both), reasons(handle__pivot="It pinched.")).rows
    assert [row.cells["why"] for row in rows] == ["It pinched.", ""]


def test_a_reason_that_speaks_of_nothing_is_handed_back():
    why = reasons(handle="It pinched.", end="Nothing happened.")
    assert [*map(str, log(WIDER, why).idle)] == ["end"]


@pytest.mark.parametrize("about", ["how_to", "how-to", "pages/01-how-to.md", "01-how-to.md"])
def test_a_page_is_named_by_key_or_file(about):
    new = replace(STATEMENT, blocks=STATEMENT.blocks[:-1])
    why, what = log(new, [ReasonModel(about=Text(about), why=Text("It was said twice."))]).rows
    assert why.cells == {"version": "2.0", "where": "How to", "what": "", "why": "It was said twice."}
    assert what.cells["what"] == "Taken out: “Sheets are thinner than they are called.”"


def test_parts_come_first_by_number_then_the_rest():
    dimensions = {**WIDER.dimensions, "end/blank/length": dimension("end/blank/length", 310)}
    new = replace(
        WIDER,
        dimensions=dimensions,
        parameters={**STATEMENT.parameters, "tote.length": parameter("tote.length", 310)},
        blocks=STATEMENT.blocks[:-1],
    )
    assert [row.cells["where"] for row in log(new).rows] == [
        "Part 2, End", "Part 9, Handle", "Named dimensions", "How to"
    ]  # fmt: skip


def test_parts_stand_by_number_and_not_by_name():
    parts = {key: replace(each, number=20 - each.number, notes=("New.",)) for key, each in STATEMENT.parts.items()}
    where = [row.cells["where"] for row in log(replace(STATEMENT, parts=parts)).rows]
    assert list(dict.fromkeys(where)) == ["Part 11, Handle", "Part 18, End"]


def test_numbers_that_follow_inside_the_text_are_told_once_for_the_page():
    def telling(*lengths):
        blocks = (
            BlockStated(f"a/start/{i}", "a", "paragraph", f"It is {mm} mm long.") for i, mm in enumerate(lengths, 1)
        )
        return replace(STATEMENT, blocks=tuple(blocks))

    longer = dimension("handle/blank/length", 310)
    new = replace(telling(310, 320), dimensions={**STATEMENT.dimensions, longer.id: longer})
    assert texts(new, old=telling(300, 315))[1:] == ["Numbers in the text follow the changes above."]
    assert texts(telling(300, 320), old=telling(300, 315)) == ["“It is 315 mm long.” → “It is 320 mm long.”"]


def test_a_page_that_is_written_anew_is_told_in_one_line():
    def saying(what, count):
        ours = (BlockStated(f"a/start/{i}", "a", "paragraph", f"{what} {'again ' * i}") for i in range(1, count + 1))
        kept = (BlockStated(f"a/end/{i}", "a", "paragraph", f"As it was, {'so ' * i}") for i in range(8))
        return replace(STATEMENT, blocks=(*ours, *kept))

    old = saying("Saw it", 12)
    assert texts(saying("Glue it", 12), old=old) == ["Written anew; please read it again."]
    (why,) = texts(saying("Glue it", 12), reasons(a="It was muddled."), old=old)[:1]
    assert why == "It was muddled."
    assert len(texts(replace(old, blocks=old.blocks[8:]), old=old)) == 8
    told = texts(saying("Glue it", 12), reasons(a__start__3="Nobody understood it."), old=old)
    assert len(told) == 2
    assert told[1].endswith("Why: Nobody understood it.")


def test_what_no_builder_sees_is_not_logged():
    finer = replace(STATEMENT.parameters["tote.width"], formula="tote.length - 100 mm")
    assert texts(replace(STATEMENT, parameters={**STATEMENT.parameters, "tote.width": finer})) == []


def test_printing_puts_revisions_before_the_log_and_dates_the_sheets():
    rows = log(WIDER).rows
    revisions = (Revision("1.0", "2026-03-02", "First."), Revision("2.0", "2026-05-01", "Wider."))
    printed = print_changes(WIDER, Changes(revisions, rows, {"9": "2.0"}, ("handle/old/x",)))
    assert [row.id for row in printed.changes] == [
        "revision/1.0",
        "revision/2.0",
        "change/2.0/dimension/handle/pivot/x",
    ]
    assert printed.changes[1] == RowStated(
        "revision/2.0", {"version": "2.0", "issued": "2026-05-01", "summary": "Wider."}
    )
    assert {number: sheet.changed_in for number, sheet in printed.sheets.items()} == {"9": "2.0", "2": "1.0"}
    assert printed.retired == ("handle/old/x",)
    assert compare(WIDER, printed).changes == ()


def test_a_sheet_keeps_its_version_while_its_part_is_as_it_was():
    assert changed_in(STATEMENT, WIDER, compare(STATEMENT, WIDER), "2.0") == {"9": "2.0", "2": "1.0"}


def test_a_picture_is_redrawn_and_no_hash_is_shown():
    assert texts(with_("figures", "tote", content="f" * 64)) == ["The picture “The tote.” is redrawn."]
    numbered = with_("figures", "tote", number=3)
    assert texts(with_("figures", "tote", number=3, content="f" * 64), old=numbered) == ["Figure 3 is redrawn."]


def test_figures_that_are_redrawn_are_told_in_one_breath_but_for_one_with_a_reason():
    (figure,) = STATEMENT.figures.values()
    names = {"front": 4, "back": 2, "side": 9, "cover": 0}

    def drawn(content):
        figures = {name: replace(figure, name=name, number=number, content=content) for name, number in names.items()}
        return replace(STATEMENT, figures=figures)

    old, new = drawn("0" * 64), drawn("f" * 64)
    assert texts(new, old=old) == ["Figures 2, 4 and 9 and the picture “The tote.” are redrawn."]
    told = texts(new, reasons(side="It showed the left hand."), old=old)
    assert told == [
        "Figure 9 is redrawn. Why: It showed the left hand.",
        "Figures 2 and 4 and the picture “The tote.” are redrawn.",
    ]


def test_how_a_measure_is_got_is_told_after_its_name():
    marked = with_("dimensions", "handle/blank/length", method="marked from part 2")
    assert texts(marked) == ["Length, method: new, marked from part 2."]
    drilled = with_("dimensions", "handle/blank/length", method="drilled with part 2")
    assert texts(drilled, old=marked) == ["Length, method: marked from part 2 → drilled with part 2."]


def test_figures_that_have_other_numbers_are_told_in_one_breath():
    (figure,) = STATEMENT.figures.values()

    def shown(**numbers):
        figures = {name: replace(figure, name=name, number=number) for name, number in numbers.items()}
        return replace(STATEMENT, figures=figures)

    old = shown(lift=1, fold=2, stop=3, end=4)
    assert texts(shown(pin=1, lift=2, fold=3, stop=4, end=5), old=old) == [
        "Figure 1 is new.",
        "Figures 2 to 5 were figures 1 to 4.",
    ]
    assert texts(shown(lift=1, fold=2, stop=4, end=3), old=old) == ["Figures 3 and 4 were figures 4 and 3."]
    assert texts(shown(lift=1, fold=2, stop=3, end=5), old=old) == ["Figure 5 was figure 4."]


def test_a_text_whose_figures_have_other_numbers_reads_as_before():
    """A figure that comes in before others moves their numbers; the words that refer to them say nothing new."""
    (figure,) = STATEMENT.figures.values()
    places = ("how_to/start/4", "how_to/start/5")

    def shown(numbers, *words):
        figures = {name: replace(figure, name=name, number=number) for name, number in numbers.items()}
        blocks = (BlockStated(name, "how_to", "paragraph", text) for name, text in zip(places, words, strict=True))
        return replace(STATEMENT, figures=figures, blocks=(*STATEMENT.blocks, *blocks))

    old = shown({"lift": 1, "fold": 2}, "It lifts as in figure 1.", "Figure 2 shows the fold.")
    followed = shown({"lift": 2, "fold": 3, "pin": 1}, "It lifts as in figure 2.", "Figure 3 shows the fold.")
    other = shown({"lift": 2, "fold": 3, "pin": 1}, "It lifts as in figure 3.", "Figure 3 shows the fold.")
    assert not [text for text in texts(followed, old=old) if "as in" in text or "the fold" in text]
    assert [text for text in texts(other, old=old) if "as in" in text] == [
        "“… lifts as in figure 1.” → “… lifts as in figure 3.”"
    ]


@pytest.mark.parametrize(
    ("cells", "name"),
    [
        ({"Assumes": "small sag", "Calculation": "Sag of the shelf", "Result": "1 mm"}, "Sag of the shelf"),
        ({"Accepted, mm": "17 to 18", "Material": "18 mm birch", "Thickness, mm": "17.5"}, "18 mm birch"),
        ({"Buy": "1", "Group": "Boards", "Item": "Ash"}, "Ash"),
        ({"From": "25 mm", "One": "lid", "Other": "box", "To": "2 mm"}, "lid and box"),
        ({"Caution": "WARNING. Moving parts pinch. Keep your hands away."}, "Moving parts pinch"),
    ],
)
def test_a_row_is_called_what_it_is_about_whatever_column_a_file_has_first(cells, name):
    assert row_title(cells) == name


def test_of_the_notes_of_a_part_only_those_that_changed_are_quoted():
    notes = ("Break edges.", "Cut both together.", "Square the ends with a chisel.")
    old = with_("parts", "end", notes=notes)
    new = with_("parts", "end", notes=(*notes[:2], "Square the ends with a sharp chisel."))
    assert texts(new, old=old) == ["Notes: “… the ends with a chisel.” → “… the ends with a sharp chisel.”"]
    assert texts(with_("parts", "end", notes=notes[:2]), old=old) == [
        "Notes: taken out: “Square the ends with a chisel.”"
    ]


def test_a_caption_is_told_with_its_figure_and_not_again_with_the_page():
    (name,) = STATEMENT.figures
    caption = STATEMENT.figures[name].caption
    block = BlockStated("how_to/start/9", "how_to", "caption", caption)
    old = replace(STATEMENT, blocks=(*STATEMENT.blocks, block))
    new = with_("figures", name, caption=f"{caption} Again.")
    new = replace(new, blocks=(*STATEMENT.blocks, replace(block, text=f"{caption} Again.")))
    (only,) = texts(new, old=old)
    assert "caption: “" in only


@pytest.mark.parametrize(
    ("units", "text"),
    [
        ("inch", "Outline: 4 sides, 12 × 8 in overall → 5 sides, 12 × 7 in overall."),
        ("millimetre", "Outline: 4 sides, 305 × 203 mm overall → 5 sides, 305 × 178 mm overall."),
    ],
)
def test_a_shape_is_told_in_the_unit_of_the_edition(units, text):
    before, after = square(304.8, 203.2), square(304.8, 177.8)
    after = (*after[:-1], SegmentStated(after[-1].start, (0.0, 10 * MM)), SegmentStated((0.0, 10 * MM), (0.0, 0.0)))
    old, new = (
        replace(with_("parts", "end", outline=each), edition=replace(STATEMENT.edition, units=units))
        for each in (before, after)
    )
    assert texts(new, old=old) == [text]


def test_a_shape_that_follows_a_told_dimension_goes_without_saying():
    handle = replace(STATEMENT.parts["handle"], features={"pivot": hole("pivot", 41 * MM)})
    moved = replace(WIDER, parts={**STATEMENT.parts, "handle": handle})
    assert texts(moved) == ["Pivot, position along x: 44 mm → 45 mm."]
    assert texts(replace(moved, dimensions=STATEMENT.dimensions))[0].startswith(
        "Pivot: hole in the face, 8 × 8 × 18 mm, at"
    )


def test_a_shape_that_changes_less_than_is_printed_says_so():
    finer = square(200.00001, 200)
    (text,) = texts(with_("parts", "end", outline=finer))
    assert text == "Outline: drawn anew, by less than its printed numbers show."


def test_an_outline_of_the_same_extents_is_drawn_anew():
    """A corner that is rounded otherwise: nobody may read that it changed less than is printed."""
    outline = square(200, 200)
    dented = (*outline[:-1], replace(outline[-1], start=(5 * MM, 200 * MM)))
    bent = (replace(dented[0]), replace(dented[1]), replace(dented[2], end=(5 * MM, 200 * MM)), dented[3])
    (text,) = texts(with_("parts", "end", outline=bent))
    assert text == "Outline: drawn anew; still 4 sides, 200 × 200 mm overall."


def test_a_new_part_says_what_to_make_and_a_new_feature_what_it_is():
    rack = replace(part("rack", 12, "Rack"), as_drawn=1, mirrored=1)
    assert texts(replace(STATEMENT, parts={**STATEMENT.parts, "rack": rack})) == [
        "New part: make 1 as drawn, 1 mirrored of Plywood 18 mm; see sheet 12."
    ]
    features = {**STATEMENT.parts["handle"].features, "slot": hole("slot", 60 * MM)}
    new = with_("parts", "handle", features=features)
    slot = dimension("handle/slot/x", 60)
    assert texts(replace(new, dimensions={**new.dimensions, slot.id: slot})) == ["Slot: new hole."]


def test_a_new_name_is_told_because_earlier_logs_use_the_old_one():
    handle = STATEMENT.parts["handle"]
    axle = {"axle": replace(handle.features["pivot"], name="axle")}
    dimensions = {
        each.id.replace("/pivot/", "/axle/"): replace(
            each, id=each.id.replace("/pivot/", "/axle/"), feature=each.feature.replace("pivot", "axle"),
            callout=each.callout.replace("/pivot", "/axle"),
        )
        for each in STATEMENT.dimensions.values()
    }  # fmt: skip
    new = replace(with_("parts", "handle", features=axle), dimensions=dimensions)
    assert texts(replace(new, renamed={"feature:handle/pivot": "feature:handle/axle"})) == [
        "“pivot” is now called “axle”."
    ]


@pytest.mark.parametrize("about", ["screw", "hardware__screw"])
def test_a_row_of_a_list_is_told_by_what_it_opens_with_and_may_have_a_reason(about):
    lists = {"hardware": (RowStated("screw", {"item": "Screw 4 x 30", "quantity": "12"}),)}
    (row,) = log(replace(STATEMENT, lists=lists), reasons(**{about: "They tore out."})).rows
    assert (row.cells["where"], row.cells["what"]) == ("Hardware", "Screw 4 x 30, quantity: 8 → 12")
    assert row.cells["why"] == "They tore out."


def test_what_is_bought_in_several_sizes_is_told_with_its_size():
    def boards(*sizes):
        rows = [
            RowStated(f"stock/board/{size}", {"Item": "32 mm beech", "Size, in": "[x]", "Size, mm": size, "Buy": "1"})
            for size in sizes
        ]
        return replace(STATEMENT, lists={"shopping": tuple(rows)})

    assert texts(boards("2400 × 150"), old=boards("2400 × 150", "2000 × 200")) == [
        "“32 mm beech, 2000 × 200 mm” is taken out."
    ]


def test_a_rule_is_told_by_its_reason_and_its_values_alone_are_not_told():
    (name,) = STATEMENT.rules
    because = STATEMENT.rules[name].because
    changed = with_("rules", name, require="a >= 2 mm", stated="5 mm >= 2 mm")
    (text,) = texts(changed)
    assert text.startswith(f"“{because}”: ")
    assert text.endswith("→ 5 mm ≥ 2 mm.")
    assert texts(with_("rules", name, stated="6 mm >= 1 mm")) == []


def test_a_step_names_its_parts_by_their_titles():
    (step,) = STATEMENT.steps
    (text,) = texts(replace(STATEMENT, steps=(replace(step, parts=("end",)),)))
    assert text == f"Parts: {', '.join(STATEMENT.parts[key].title for key in step.parts)} → End."


def test_a_text_is_quoted_where_it_differs():
    text = "one two three four five six seven eight nine ten eleven twelve thirteen"
    old, new = (
        replace(STATEMENT, blocks=(BlockStated("a/start/1", "a", "paragraph", each),))
        for each in (text, text.replace("seven", "NEW"))
    )
    assert texts(new, old=old) == [
        "“… three four five six seven eight nine ten eleven …” → “… three four five six NEW eight nine ten eleven …”"
    ]


def unexplained(new, why=(), old=STATEMENT):
    return log(new, why, old).unexplained


def derived(mm, **inputs):
    """A measure that is worked out from the tote's length."""
    return replace(parameter("side.length", mm), given=False, inputs=("tote.length",), **inputs)


def test_a_change_without_a_reason_is_handed_back_by_its_heading():
    assert unexplained(WIDER) == {"Part 9, Handle": ("handle/pivot/x",)}
    assert unexplained(WIDER, reasons(handle="It pinched.")) == {}


def test_what_is_worked_out_goes_by_the_reason_for_what_it_is_worked_out_from():
    old = replace(STATEMENT, parameters={"tote.length": parameter("tote.length", 300), "side.length": derived(280)})
    longer = {"tote.length": parameter("tote.length", 310), "side.length": derived(290)}
    follows = replace(dimension("handle/blank/length", 310), inputs=("side.length",))
    new = replace(old, parameters=longer, dimensions={**old.dimensions, follows.id: follows})
    assert unexplained(new, reasons(**{"tote.length": "A level would not go in."}), old) == {}
    assert unexplained(new, old=old) == {"Named dimensions": ("tote.length",)}


def test_a_formula_that_shows_nowhere_can_be_the_reason_of_what_does():
    old = replace(STATEMENT, parameters={"side.length": derived(280, formula="tote.length - 20 mm")})
    new = replace(STATEMENT, parameters={"side.length": derived(280, formula="tote.length - 2 * 10 mm")})
    follows = replace(dimension("handle/blank/length", 310), inputs=("side.length",))
    new = replace(new, dimensions={**new.dimensions, follows.id: follows})
    told = log(new, reasons(**{"side.length": "It is said by its parts."}), old)
    assert (told.unexplained, told.idle) == ({}, ())


def test_one_reason_may_be_about_several_things():
    both = {**WIDER.dimensions, "end/blank/length": dimension("end/blank/length", 310)}
    reason = ReasonModel(about=(Text("handle"), Text("end/blank")), why=Text("They pinched."))
    told = log(replace(WIDER, dimensions=both), [reason])
    assert (told.unexplained, told.idle) == ({}, ())
    assert [row.cells["why"] for row in told.rows] == ["They pinched.", "They pinched.", ""]


@pytest.mark.parametrize("about", ["wood", "wood.maple", "wood.maple.along"])
def test_a_reason_may_name_a_group_within_a_group(about):
    old, new = (
        replace(STATEMENT, parameters={"wood.maple.along": parameter("wood.maple.along", mm)}) for mm in (11, 12)
    )
    told = log(new, [ReasonModel(about=Text(about), why=Text("It was weighed."))], old)
    assert [row.cells["why"] for row in told.rows] == ["It was weighed."]
    assert (told.idle, told.unexplained) == ((), {})


def test_what_pinches_is_not_the_part_of_which_a_reason_speaks():
    def pinching(to):
        return replace(STATEMENT, lists={"pinch_points": (RowStated("lift/end/handle", {"One": "end", "To": to}),)})

    told = log(pinching("3 mm"), reasons(handle="It was bored."), pinching("2 mm"))
    assert [row.cells["why"] for row in told.rows] == [""]


def test_new_measures_are_told_together_by_the_group_that_a_reason_names():
    coming = ("leaf.angle", "leaf.reach", "saw.kerf", "saw.set")
    new = replace(STATEMENT, parameters={**STATEMENT.parameters, **{name: parameter(name, 3) for name in coming}})
    assert texts(new, reasons(leaf="The leaf is computed.")) == [
        "New in the table of dimensions: leaf.angle and leaf.reach. Why: The leaf is computed.",
        "New in the table of dimensions: saw.kerf and saw.set.",
    ]
    assert unexplained(new, reasons(leaf="It is.")) == {"Named dimensions": ("saw.kerf", "saw.set")}


def calculated(mm, working, **cells):
    row = RowStated("sag", {"Calculation": "Sag of the side", "Formula": "L / 100", "With": working, **cells})
    parameters = {**STATEMENT.parameters, "sag": replace(parameter("sag", mm), given=False, inputs=("tote.length",))}
    return replace(STATEMENT, lists={**STATEMENT.lists, "calculations": (row,)}, parameters=parameters)


def test_a_calculation_is_told_once_by_its_result():
    old, new = calculated(3, "300 mm / 100", Result="3 mm"), calculated(4, "400 mm / 100", Result="4 mm")
    assert texts(new, old=old) == ["Sag of the side, result: 3 mm → 4 mm."]
    assert unexplained(new, old=old) == {}


def test_a_calculation_with_the_same_result_is_worked_again():
    old, new = calculated(3, "300 mm / 100", Result="3 mm"), calculated(3, "301 mm / 100", Result="3 mm")
    assert texts(new, old=old) == ["Worked again with the changed numbers: Sag of the side."]


def test_a_new_calculation_wants_a_reason():
    assert unexplained(calculated(3, "300 mm / 100", Result="3 mm")) == {"Calculations": ("calculations/sag",)}


def test_two_columns_of_a_row_are_two_lines():
    row = RowStated("screws", {"Item": "Screws", "Quantity": "4", "Use": "for the feet"})
    more = RowStated("screws", {"Item": "Screws", "Quantity": "6", "Use": "for feet and stops"})
    old, new = (replace(STATEMENT, lists={"hardware": (each,)}) for each in (row, more))
    ids = [line.id for heading in tell_changes(compare(old, new)) for line in heading.lines]
    assert ids == ["list/hardware/screws/Quantity", "list/hardware/screws/Use"]


FORKED = {
    name: replace(
        STATEMENT,
        parameters={"fork.gap": parameter("fork.gap", mm)},
        steps=(StepStated("fork", 1, title, (), ""),),
    )
    for name, mm, title in (("old", 3, "Make the fork"), ("new", 4, "Make the fork and lay it in"))
}


def forked(about):
    told = log(FORKED["new"], [ReasonModel(about=Text(about), why=Text("It pinched."))], FORKED["old"])
    return {row.cells["where"] for row in told.rows if row.cells["why"]}, dict(told.ambiguous)


def test_a_reason_under_a_name_of_several_things_is_printed_with_each_and_found():
    step, measures = "Step 1, Make the fork and lay it in", "Named dimensions"
    assert forked("fork") == ({step, measures}, {"fork": ("parameter", "step")})
    assert forked("step:fork") == ({step}, {})
    assert forked("parameter:fork") == ({measures}, {})
    assert forked("steps/08-fork.md") == ({step}, {})
    assert forked("part:fork") == (set(), {})


def test_the_finding_says_what_a_name_may_mean_and_how_to_say_which():
    about = Text("fork", Place("content/desk/changes.yaml", 3, 14))
    told = log(FORKED["new"], [ReasonModel(about=about, why=Text("It pinched."))], FORKED["old"])
    (found,) = check_reasons({"metric": SimpleNamespace(log=told, statement=FORKED["new"])})
    assert (found.code, found.severity, found.place) == ("reason-ambiguous", Severity.WARN, about.place)
    assert "a group of named dimensions and rules and a step" in found.message
    assert "`about: [parameter:fork, step:fork]`" in found.remedy


def hanging(**values):
    """A given measure and those that are worked out from it, in mm by name; its own is `rise.of`."""
    derived = {
        name: replace(parameter(name.replace("__", "."), mm), given=False, formula="2 * rise.of", inputs=("rise.of",))
        for name, mm in values.items()
        if name != "rise__of"
    }
    parameters = [parameter("rise.of", values["rise__of"]), *derived.values()]
    return replace(STATEMENT, parameters={each.name: each for each in parameters})


BEFORE = hanging(rise__of=70, bar__z=600, leaf__post=50, stop__up=30, knee__clear=590)
AFTER = hanging(rise__of=76, bar__z=606, leaf__post=44, stop__up=33, knee__clear=597)


def test_measures_that_follow_from_one_are_told_in_one_line_with_those_that_moved_most():
    assert texts(AFTER, reasons(rise="Beds are higher."), BEFORE) == [
        "A measure (rise.of): 70 mm → 76 mm. Why: Beds are higher.",
        "4 named dimensions follow from “A measure (rise.of)”, most of all: "
        "A measure (leaf.post): 50 mm → 44 mm; A measure (stop.up): 30 mm → 33 mm; "
        "A measure (knee.clear): 590 mm → 597 mm.",
    ]
    assert unexplained(AFTER, reasons(rise="Beds are higher."), BEFORE) == {}
    assert unexplained(AFTER, old=BEFORE) == {"Named dimensions": ("rise.of",)}


def test_what_has_a_reason_of_its_own_is_told_alone():
    told = texts(AFTER, reasons(rise="Beds are higher.", leaf="The post was too long."), BEFORE)
    assert "A measure (leaf.post): 50 mm → 44 mm. Why: The post was too long." in told
    assert any(each.startswith("3 named dimensions follow from") for each in told)


def test_a_comparison_tells_each_of_what_follows():
    lines = [line for heading in tell_changes(compare(BEFORE, AFTER)) for line in heading.lines]
    assert len(lines) == len(AFTER.parameters)


def test_what_is_worked_out_by_another_formula_does_not_merely_follow():
    other = replace(AFTER.parameters["bar.z"], formula="3 * rise.of")
    told = texts(replace(AFTER, parameters={**AFTER.parameters, "bar.z": other}), reasons(rise="So."), BEFORE)
    assert any(each.startswith("A measure (bar.z): 600 mm → 606 mm") for each in told)


def test_what_is_weighed_follows_from_the_parts_and_asks_for_no_reason():
    def weighed(*masses):
        names = ("mass.desk", "mass.fork")
        return replace(STATEMENT, parameters={n: parameter(n, mm) for n, mm in zip(names, masses, strict=True)})

    (told,) = texts(weighed(40, 9), old=weighed(38, 8))
    assert told.startswith("2 named dimensions follow from the parts above: ")
    assert "mass." not in told, "names that no table has are not told"
    assert unexplained(weighed(40, 9), old=weighed(38, 8)) == {}
    assert unexplained(weighed(40, 8), old=weighed(38, 8)) == {}


@pytest.mark.parametrize("name", ["handbook.maple.along", "tally.part.bearer", "stock.sheet_19.thickness"])
def test_a_number_that_a_formula_began_to_use_comes_into_no_table(name):
    assert texts(replace(STATEMENT, parameters={**STATEMENT.parameters, name: parameter(name, 3)})) == []


def test_pieces_of_the_cut_list_follow_from_the_parts():
    def cut(*sizes):
        rows = (
            RowStated(f"rail_{n}", {"Description": f"Rail {n}", "Finished, mm": f"{mm} × 40"})
            for n, mm in enumerate(sizes)
        )
        return replace(STATEMENT, lists={**STATEMENT.lists, "cutting": tuple(rows)})

    assert texts(cut(610, 500, 450), reasons(rail_1="It sagged."), cut(600, 400, 450)) == [
        "2 pieces of the cut list follow from the parts above: "
        "Rail 1, finished, mm: 400 × 40 → 500 × 40; Rail 0, finished, mm: 600 × 40 → 610 × 40.",
    ]


def test_places_that_pinch_elsewhere_are_counted_and_a_new_one_is_told():
    def pinching(*gaps, more=()):
        named = (*enumerate(gaps), *more)
        rows = (
            RowStated(f"lift/{n}/top", {"One": f"rail {n}", "Other": "top", "To": to, "While": f"angle {to}"})
            for n, to in named
        )
        return replace(STATEMENT, lists={**STATEMENT.lists, "pinch_points": tuple(rows)})

    told = texts(pinching("2 mm", "3 mm", more=((7, "9 mm"),)), old=pinching("4 mm", "5 mm"))
    assert told == [
        "“rail 7 and top” is new.",
        "2 places pinch at other positions or to other gaps, as the movement is worked out now: "
        "Rail 0 and top, to: 4 mm → 2 mm; Rail 1 and top, to: 5 mm → 3 mm.",
    ]


def test_pages_in_which_only_numbers_follow_are_named_in_one_line():
    def paged(mm):
        blocks = [
            BlockStated(f"{page}/start/{n}", page, "paragraph", text)
            for page in ("use", "care")
            for n, text in enumerate((page.capitalize(), f"It is {mm} mm wide."))
        ]
        return replace(STATEMENT, blocks=tuple(blocks), parameters={"width": parameter("width", mm)})

    rows = log(paged(4), old=paged(3)).rows
    assert [(row.cells["where"], log_text(row)) for row in rows if row.cells["where"] != "Named dimensions"] == [
        ("In the text", "Numbers follow the changes above: Use; Care.")
    ]
