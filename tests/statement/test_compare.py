"""Comparing statements: nothing that one tells otherwise is missed, and nothing else is reported."""

from dataclasses import fields, is_dataclass, replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planbook.statement.compare import compare
from planbook.statement.comparison import Change, Kind, PartVerdict, Touch, Verdict
from planbook.statement.model import BlockStated, RowStated
from planbook.statement.renaming import Renaming

from .random_statements import statements
from .small import MM, STATEMENT, dimension, hole, parameter, part, printed

# What belongs to the release, and ids that only say where a thing stands.
BOOKKEEPING = {
    *("form", "version", "issued", "changes", "retired", "retired_sheets", "renamed", "changed_in", "one_off"),
    *("layouts", "pieces"),
}
KINDS = {
    "parameters": {Kind.PARAMETER},
    "parts": {Kind.PART, Kind.FEATURE},
    "dimensions": {Kind.DIMENSION},
    "blocks": {Kind.PROSE},
    "lists": {Kind.LIST},
    "sheets": {Kind.SHEET},
    "figures": {Kind.FIGURE},
    "rules": {Kind.RULE},
    "fits": {Kind.FIT},
    "assembly": {Kind.COMPONENT},
    "steps": {Kind.STEP},
    "edition": {Kind.EDITION},
    "plan_set": {Kind.SET},
}
# Records that may be absent: what is compared then has tests of its own, in test_standing and below.
ABSENT = {"standing", "least", "most", "climbs", "fits", "assembly"}
NAMES = {
    "parameters": "name",
    "parts": "key",
    "figures": "name",
    "rules": "name",
    "fits": "name",
    "sheets": "number",
    "dimensions": "id",
}


def leaves(value, path=()):
    """The paths to everything in a statement that can be changed by itself."""
    if is_dataclass(value):
        for field in fields(value):
            if field.name not in BOOKKEEPING:
                yield from leaves(getattr(value, field.name), (*path, field.name))
    elif isinstance(value, dict):
        for name, inner in value.items():
            yield from leaves(inner, (*path, name))
        yield (*path, "+")
    elif isinstance(value, tuple):
        for index, inner in enumerate(value):
            yield from leaves(inner, (*path, index))
        if not value or not isinstance(value[0], int | float):
            yield (*path, "+")
    elif value is not None or path[-1] not in ABSENT:
        yield path


def identity(path):
    """Whether a path leads to the name of a thing, which says nothing by itself: its key does."""
    group, last = path[0], path[-1]
    if group == "assembly":
        return last == "name"
    if group == "blocks":
        return last == "id"
    if group == "lists":
        return path[-1] in ("id", "+") and len(path) <= 4
    return (
        (len(path) == 3 and NAMES.get(group) == last)
        or path[-2:-1] == ("features",)
        or (path[-3:-2] == ("features",) and last == "name")
    )


def mutated(value, path):
    """The same with the value at a path changed."""
    if not path:
        return other(value)
    first, rest = path[0], path[1:]
    if first == "+":
        return grown(value)
    if is_dataclass(value):
        return replace(value, **{first: mutated(getattr(value, first), rest)})
    if isinstance(value, dict):
        return {**value, first: mutated(value[first], rest)}
    return (*value[:first], mutated(value[first], rest), *value[first + 1 :])


def other(value):
    if isinstance(value, bool):
        return not value
    if isinstance(value, int | float):
        return value + 1 if value + 1 != value else value / 2
    return "other" if value is None else f"{value}x"


def grown(value):
    """One more, or one fewer, of what a group holds."""
    if isinstance(value, dict):
        return dict(list(value.items())[:-1])
    return value[:-1]


@st.composite
def mutations(draw):
    statement = draw(statements())
    paths = [path for path in leaves(statement) if not identity(path)]
    path = draw(st.sampled_from(paths))
    return statement, mutated(statement, path), path


@given(mutations())
@settings(max_examples=200, deadline=None)
def test_any_single_change_shows_in_the_right_kind(mutation):
    old, new, path = mutation
    if old == new:
        return
    changes = compare(old, new).changes
    assert changes, path
    assert {change.kind for change in changes} <= KINDS[path[0]], path
    assert all(change.old != change.new or not change.old for change in changes)


def small_paths():
    return [path for path in leaves(STATEMENT) if not identity(path)]


@pytest.mark.parametrize("path", small_paths(), ids=lambda path: ".".join(map(str, path)))
def test_every_field_of_a_statement_is_compared(path):
    new = mutated(STATEMENT, path)
    if new == STATEMENT:
        return
    changes = compare(STATEMENT, new).changes
    assert changes
    assert {change.kind for change in changes} <= KINDS[path[0]]


@given(statements())
@settings(max_examples=60, deadline=None)
def test_a_statement_does_not_differ_from_itself(statement):
    comparison = compare(statement, statement)
    assert comparison.changes == ()
    assert {verdict.verdict for verdict in comparison.parts} <= {Verdict.UNCHANGED}


def backwards(statement):
    return replace(
        statement,
        **{
            name: dict(reversed(getattr(statement, name).items()))
            for name in ("parameters", "parts", "dimensions", "sheets", "figures", "rules", "lists")
        },
        steps=statement.steps[::-1],
    )


@given(statements())
@settings(max_examples=60, deadline=None)
def test_order_does_not_matter(statement):
    lists = {name: rows[::-1] for name, rows in statement.lists.items()}
    assert compare(statement, replace(backwards(statement), lists=lists)).changes == ()


@given(statements(), statements())
@settings(max_examples=40, deadline=None)
def test_what_comes_one_way_goes_the_other(one, two):
    there, back = compare(one, two), compare(two, one)
    gone = {(change.kind, change.id) for change in there.changes if not change.new and change.kind is not Kind.PROSE}
    come = {(change.kind, change.id) for change in back.changes if not change.old and change.kind is not Kind.PROSE}
    assert gone == come


def verdicts(comparison):
    return {verdict.key: verdict.verdict for verdict in comparison.parts}


def with_dimension(changed):
    return replace(STATEMENT, dimensions={**STATEMENT.dimensions, changed.id: changed})


def test_a_changed_dimension_changes_its_part_and_no_other():
    comparison = compare(STATEMENT, with_dimension(dimension("handle/pivot/x", 45)))
    assert comparison.told == (
        Change(Kind.DIMENSION, "handle/pivot/x", "handle", "44 mm [1.732 in]", "45 mm [1.772 in]", Touch.NUMBER),
    )
    assert comparison.parts == (PartVerdict(2, "end", Verdict.UNCHANGED), PartVerdict(9, "handle", Verdict.CHANGED))
    assert comparison.major


def test_a_tolerance_is_a_number_that_is_told():
    tight = replace(STATEMENT.dimensions["handle/pivot/diameter"], tolerance="±0.05", upper=0.05 * MM, lower=-0.05 * MM)
    (change,) = compare(STATEMENT, with_dimension(tight)).changes
    assert (change.old, change.new) == ("8 mm [0.315 in] ±0.1", "8 mm [0.315 in] ±0.05")
    assert change.touch is Touch.NUMBER


def test_words_on_a_sheet_ask_for_a_reprint():
    new = replace(STATEMENT, parts={**STATEMENT.parts, "end": replace(STATEMENT.parts["end"], title="End board")})
    comparison = compare(STATEMENT, new)
    assert verdicts(comparison) == {"end": Verdict.REPRINT, "handle": Verdict.UNCHANGED}
    assert not comparison.major


def test_a_number_in_a_note_is_no_mere_wording():
    notes = ("Break edges 2 mm.",)
    new = replace(STATEMENT, parts={**STATEMENT.parts, "end": replace(STATEMENT.parts["end"], notes=notes)})
    assert verdicts(compare(STATEMENT, new))["end"] is Verdict.CHANGED


def test_the_general_tolerance_stands_on_every_sheet():
    def toleranced(line):
        return replace(STATEMENT, plan_set=replace(STATEMENT.plan_set, general_tolerance=(line,)))

    assert set(verdicts(compare(STATEMENT, toleranced("Lengths ±0.3 mm."))).values()) == {Verdict.CHANGED}
    assert set(verdicts(compare(STATEMENT, toleranced("A length: ±0.5 mm."))).values()) == {Verdict.REPRINT}
    summary = replace(STATEMENT, plan_set=replace(STATEMENT.plan_set, summary="A small tote."))
    assert set(verdicts(compare(STATEMENT, summary)).values()) == {Verdict.UNCHANGED}


@pytest.mark.parametrize(
    "changes", [{"as_drawn": 2}, {"mirrored": 1}, {"stock": "sheet_12"}, {"size": (300 * MM, 201 * MM, 18 * MM)}]
)
def test_shape_stock_and_quantity_change_a_part(changes):
    new = replace(STATEMENT, parts={**STATEMENT.parts, "end": replace(STATEMENT.parts["end"], **changes)})
    comparison = compare(STATEMENT, new)
    assert verdicts(comparison)["end"] is Verdict.CHANGED
    assert comparison.major


def test_a_floor_that_climbs_otherwise_is_another_shape():
    """Between the same angles and as deep at its deepest: only where it ends is another level."""
    plain = hole("climb", 40 * MM)
    old, new, level = (
        replace(STATEMENT, parts={"handle": part("handle", 9, "Handle", (replace(plain, kind="arc_ramp", cuts=cuts),))})
        for climbs in ((18 * MM, 0.0), (18 * MM, 1 * MM), None)
        for cuts in ((replace(plain.cuts[0], climbs=climbs),),)
    )
    for one, other_one in ((old, new), (old, level)):
        assert [change.kind for change in compare(one, other_one).changes] == [Kind.FEATURE]


def test_new_and_withdrawn_parts_are_told_once():
    rack = part("rack", 12, "Rack", (hole("slot", 3 * MM),))
    parts = {"rack": rack, "end": STATEMENT.parts["end"]}
    dimensions = {"rack/slot/x": dimension("rack/slot/x", 7), "end/blank/length": dimension("end/blank/length", 300)}
    comparison = compare(STATEMENT, replace(STATEMENT, parts=parts, dimensions=dimensions))
    assert verdicts(comparison) == {
        "end": Verdict.UNCHANGED,
        "handle": Verdict.WITHDRAWN,
        "rack": Verdict.NEW,
    }
    assert [(change.id, change.old, change.new) for change in comparison.changes] == [
        ("handle", "part 9, Handle", ""),
        ("rack", "", "part 12, Rack"),
    ]


def blocks(*texts, page="how_to"):
    return tuple(BlockStated(f"{page}/start/{i}", page, "paragraph", text) for i, text in enumerate(texts))


def prose(old, new):
    changes = compare(replace(STATEMENT, blocks=blocks(*old)), replace(STATEMENT, blocks=blocks(*new))).changes
    return [(change.id.rpartition("/")[2], change.old, change.new) for change in changes]


PARAGRAPHS = [
    "Every part has a sheet with its own number.",
    "Work from the printed numbers and never from the drawing.",
    "Sheets are thinner than they are called, so measure yours.",
    "Clamp both panels face to face before drilling.",
]


@pytest.mark.parametrize("at", range(5))
def test_an_inserted_paragraph_leaves_the_rest_alone(at):
    inserted = [*PARAGRAPHS[:at], "Read this first.", *PARAGRAPHS[at:]]
    assert prose(PARAGRAPHS, inserted) == [(str(at), "", "Read this first.")]
    assert prose(inserted, PARAGRAPHS) == [(str(at), "Read this first.", "")]


def test_a_rewritten_paragraph_is_paired_with_its_old_text_beside_an_insertion():
    rewritten = "Sheets are often thinner than they are called, so measure yours first."
    new = [*PARAGRAPHS[:2], "Read this first.", rewritten, PARAGRAPHS[3]]
    assert prose(PARAGRAPHS, new) == [("2", "", "Read this first."), ("3", PARAGRAPHS[2], rewritten)]


@settings(deadline=None)
@given(
    st.lists(st.sampled_from(["a b c", "a b d", "x y", "z"]), max_size=7),
    st.lists(st.sampled_from(["a b c", "x y", "q"]), max_size=7),
)
def test_prose_accounts_for_every_block(old, new):
    told = prose(old, new)
    assert len([1 for _, before, _ in told if before]) - len([1 for _, _, after in told if after]) == len(old) - len(
        new
    )


def test_a_paragraph_does_not_become_a_heading():
    paragraph = BlockStated("how_to/start/1", "how_to", "paragraph", "Set up the saw")
    old, new = (replace(STATEMENT, blocks=(each,)) for each in (paragraph, replace(paragraph, kind="heading")))
    assert [(each.old, each.new) for each in compare(old, new).changes] == [
        ("Set up the saw", ""),
        ("", "Set up the saw"),
    ]


def test_a_list_is_compared_by_row_and_column():
    lists = {"hardware": (RowStated("screw", {"item": "Screw 4 x 30", "quantity": "12"}),)}
    (change,) = compare(STATEMENT, replace(STATEMENT, lists=lists)).changes
    assert (change.kind, change.id, change.side) == ("list", "hardware/screw", "quantity")
    assert (change.old, change.new) == ("8", "12")


def test_a_renamed_part_feature_and_parameter_are_compared_with_themselves():
    grip = part("grip", 9, "Handle", (hole("axle", 40 * MM),))
    dimensions = [
        replace(dimension("grip/blank/length", 300)),
        dimension("grip/axle/x", 45),
        replace(STATEMENT.dimensions["handle/pivot/diameter"], id="grip/axle/diameter", part="grip", feature="axle"),
        dimension("end/blank/length", 300),
    ]
    old = replace(STATEMENT, parameters={**STATEMENT.parameters, "half": parameter("half", 150, "tote.length / 2")})
    new = replace(
        old,
        parts={"grip": grip, "end": old.parts["end"]},
        dimensions={each.id: each for each in dimensions},
        parameters={
            "tote.overall": parameter("tote.overall", 300),
            "tote.width": parameter("tote.width", 200),
            "half": parameter("half", 150, "tote.overall / 2"),
        },
        sheets={**old.sheets, "9": replace(old.sheets["9"], part="grip")},
        steps=(replace(old.steps[0], parts=("grip", "end")),),
        renamed={
            "part:handle": "part:grip",
            "feature:grip/pivot": "feature:grip/axle",
            "parameter:tote.length": "parameter:tote.overall",
        },
    )
    assert [(change.id, change.old, change.new) for change in compare(old, new).changes] == [
        ("grip/axle/x", "44 mm [1.732 in]", "45 mm [1.772 in]")
    ]


def test_a_characteristic_is_no_feature_even_when_it_is_called_like_one():
    renaming = Renaming({"part:bar": "part:rail", "feature:rail/x": "feature:rail/notch"})
    assert renaming.dimension("bar/x/x/x") == "rail/notch/x/notch"


def test_what_prints_alike_is_kept_on_record_and_not_told():
    finer = replace(STATEMENT.parameters["tote.width"], value=200.01 * MM)
    comparison = compare(STATEMENT, replace(STATEMENT, parameters={**STATEMENT.parameters, "tote.width": finer}))
    assert comparison.told == ()
    (change,) = comparison.changes
    assert "200010000.0" in change.new


def test_a_printed_value_speaks_for_the_exact_one():
    wider = replace(STATEMENT.parameters["tote.width"], value=210 * MM, printed=printed(210))
    (change,) = compare(STATEMENT, replace(STATEMENT, parameters={**STATEMENT.parameters, "tote.width": wider})).changes
    assert (change.old, change.new) == ("200 mm [7.874 in]", "210 mm [8.268 in]")
