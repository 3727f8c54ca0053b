"""What a part's file wishes of single dimensions: hidden, added, moved, given a side and a row."""

from __future__ import annotations

from pathlib import Path

import pytest

from planbook.dimension.wishes import _sides as sides
from planbook.drawing import draw_sheet
from planbook.drawing.facing import FACINGS
from planbook.drawing.lettering import text_width
from planbook.drawing.recording import Label
from planbook.shape import FACES
from planbook.source.findings import Finding
from planbook.source.models.part import FaceName
from planbook.statement.model import Statement
from tests.statement.workspace import edited, state, write

BOARD = "content/tiny/parts/board.yaml"
PARAMETERS = "content/tiny/parameters.yaml"
MIDDLE = "middle: {hole: hardware.bolt.clearance, at: [board.half, board.width / 2]}"
MORE = """other: {hole: hardware.bolt.clearance, at: [40 mm, 30 mm]}
          post: {mortise: [30 mm, 10 mm], at: [220 mm, 60 mm], depth: 8 mm}
          peg: {hole: hardware.bolt.clearance, on: front_edge, at: [70 mm, 10 mm], depth: 20 mm}"""
WHOLE = edited(BOARD, MIDDLE, f"{MIDDLE}\n          {MORE}")


def wish(*lines: str) -> str:
    """The board's file with wishes for dimensions."""
    return WHOLE.replace(
        "number: 7", "number: 7\n        dimensions:\n" + "".join(f"          {line}\n" for line in lines)
    )


def stated(root: Path, *lines: str) -> Statement:
    found, findings = state(write(root, board=wish(*lines)), "metric")
    assert found is not None, findings
    assert findings == ()
    return found.statement  # type: ignore[no-any-return]


def found(root: Path, *lines: str) -> list[Finding]:
    return list(state(write(root, board=wish(*lines)), "metric")[1])


def label(statement: Statement, name: str) -> Label:
    drawings, findings = draw_sheet(statement, "7")
    assert not findings
    labels = [each for drawing in drawings for each in drawing.primitives if isinstance(each, Label)]
    return next(each for each in labels if each.mark == f"dimension:board/{name}")


def test_nothing_wished_is_nothing_changed(tmp_path: Path) -> None:
    assert {each.side for each in stated(tmp_path, "blank/length: {critical: it hangs there}").dimensions.values()} == {
        ""
    }


def test_a_hidden_dimension_that_nothing_else_says_leaves_the_sheet_incomplete(tmp_path: Path) -> None:
    (finding,) = found(tmp_path, "other/x: {hide: true}")
    assert finding.code == "sheet-incomplete"
    assert "`other`" in finding.message


def test_a_hidden_dimension_that_others_imply_is_fine(tmp_path: Path) -> None:
    statement = stated(tmp_path, "other/x: {hide: true}", "other/x/middle: {add: dimension}")
    assert "board/other/x" not in statement.dimensions
    added = statement.dimensions["board/other/x/middle"]
    assert (added.printed.text, added.reference, added.view, added.axis) == ("110", False, "face", "x")
    assert set(added.inputs) == {"board.half"}


def test_an_added_reference_stands_in_brackets_and_replaces_nothing(tmp_path: Path) -> None:
    statement = stated(tmp_path, "other/x/middle: {add: reference}")
    assert statement.dimensions["board/other/x/middle"].reference
    assert label(statement, "other/x/middle").text.startswith("(110")
    assert not statement.dimensions["board/other/x"].reference


def test_a_place_may_be_told_from_the_far_border(tmp_path: Path) -> None:
    statement = stated(tmp_path, "post/x: {hide: true}", "post/x/blank: {add: dimension}")
    assert statement.dimensions["board/post/x/blank"].printed.text == "80"


def test_an_added_dimension_that_is_a_parameter_says_so(tmp_path: Path) -> None:
    statement = stated(tmp_path, "middle/x: {hide: true}", "middle/x/blank: {add: dimension}")
    told = statement.dimensions["board/middle/x/blank"]
    assert told.formula == "board.length - (board.half)"
    assert set(told.inputs) == {"board.length", "board.half"}
    from_end = "board.length - board.margin"
    parameters = edited(PARAMETERS, "half: board.length / 2", "half: board.length / 2\n          margin: 40 mm")
    board = wish("right/x: {hide: true}", "right/x/blank: {add: dimension}").replace(
        MIDDLE, f"{MIDDLE}\n          right: {{hole: hardware.bolt.clearance, at: [{from_end}, 20 mm]}}"
    )
    found, findings = state(write(tmp_path / "b", board=board, parameters=parameters), "metric")
    assert findings == ()
    assert found.statement.dimensions["board/right/x/blank"].formula == "board.margin"


@pytest.mark.parametrize("side", ["above", "below"])
def test_a_line_stands_on_the_side_that_is_wished(tmp_path: Path, side: str) -> None:
    statement = stated(tmp_path, f"blank/length: {{side: {side}}}", "other/x: {side: below, row: 1}")
    length, middle = label(statement, "blank/length"), label(statement, "other/x")
    assert (length.at.y > middle.at.y) == (side == "below")


def test_the_row_is_counted_from_the_view(tmp_path: Path) -> None:
    apart = {}
    for row in (1, 4):
        statement = stated(
            tmp_path / str(row), f"other/x: {{side: above, row: {row}}}", "blank/length: {side: below, row: 1}"
        )
        apart[row] = label(statement, "blank/length").at.y - label(statement, "other/x").at.y
    assert apart[4] - apart[1] == pytest.approx(3 * 7.0)


def test_a_dimension_moves_to_a_view_that_shows_it(tmp_path: Path) -> None:
    moved = stated(tmp_path, "blank/length: {view: back}").dimensions["board/blank/length"]
    assert moved.view == "back"
    assert {point[2] for point in moved.points} == {0.0}, "in the plane of that view"
    assert label(stated(tmp_path, "blank/length: {view: back}"), "blank/length").text.startswith("300")


@pytest.mark.parametrize(
    ("line", "code", "said"),
    [
        ("other/xx: {side: above}", "dimension-unknown", "`other/x`"),
        ("othre/x: {hide: true}", "dimension-unknown", "`other/x`"),
        ("other/x: {side: left}", "dimension-not-possible", "`above` or `below`"),
        ("other/x: {view: left_end}", "dimension-not-possible", "`face`"),
        ("middle/diameter: {row: 2}", "dimension-not-possible", "leader"),
        ("other/x: {add: dimension}", "dimension-not-possible", "Delete `add`"),
        ("other/z/middle: {add: dimension}", "dimension-not-possible", "`middle`"),
        ("other/x/peg/more: {hide: true}", "value-form", "pivot/x"),
    ],
)
def test_what_cannot_be_had_is_found_with_what_can(tmp_path: Path, line: str, code: str, said: str) -> None:
    if code == "value-form":
        with pytest.raises(AssertionError, match="is not a dimension of this part"):
            found(tmp_path, line)
        return
    (finding,) = found(tmp_path, line)
    assert finding.code == code
    assert said in finding.remedy
    assert finding.place is not None
    assert finding.place.line == 3


def test_a_size_that_another_counts_has_no_line_to_place(tmp_path: Path) -> None:
    body = WHOLE.replace(
        "depth: 8 mm}", "depth: 8 mm}\n          stub: {mortise: [30 mm, 10 mm], at: [100 mm, 10 mm], depth: 8 mm}"
    )
    holder = state(write(tmp_path / "a", board=body), "metric")[0].statement
    counted = next(each for each in holder.dimensions.values() if each.kind == "linear" and each.also)
    other = counted.also[0].id.partition("/")[2]
    board = body.replace("number: 7", f"number: 7\n        dimensions:\n          {other}: {{row: 2}}")
    _, findings = state(write(tmp_path / "b", board=board), "metric")
    assert [each.code for each in findings] == ["dimension-not-possible"]
    assert counted.id.partition("/")[2] in findings[0].remedy


@pytest.mark.parametrize("view", FaceName)
def test_sides_are_those_along_which_a_line_runs_in_the_view(view: FaceName) -> None:
    facing, axes = FACINGS[view], FACES[view]
    for axis in (axes.u, axes.v):
        level = abs(facing.right[axis]) > 0.5
        assert {str(side) for side in sides(view, axis)} == ({"above", "below"} if level else {"left", "right"})


@pytest.mark.parametrize(("way", "angle", "lines"), [("running", 90.0, 1), ("parallel", 0.0, 3)])
def test_measures_from_one_datum_stand_as_is_wished(tmp_path: Path, way: str, angle: float, lines: int) -> None:
    body = WHOLE.replace("number: 7", f"number: 7\n        dimensioning: {{face/x: {way}}}")
    found, findings = state(write(tmp_path, board=body), "metric")
    assert findings == ()
    labels = [label(found.statement, name) for name in ("other/x", "middle/x", "post/x")]
    assert {each.angle for each in labels} == {angle}
    # Lettering at the ends of extension lines ends at one level; over dimension lines each has its own.
    ends = {round(each.at.y - (text_width(each.text, each.height) if angle else 0.0)) for each in labels}
    assert len(ends) == lines


def test_a_size_of_the_blank_may_have_a_method_and_the_parts_list_tells_it(tmp_path: Path) -> None:
    method = "blank/length: {method: {how: oversize_then_trim}}"
    statement = stated(tmp_path, method, "other/x: {method: {how: marked_from, part: board}}")
    assert statement.dimensions["board/blank/length"].method == "cut oversize, then trim"
    assert statement.dimensions["board/other/x"].method == "marked from part 7"
    (row,) = statement.lists["parts"]
    assert row.cells["Remarks"] == "length cut oversize, then trim"
    drawings, _ = draw_sheet(statement, "7")
    words = {each.text for drawing in drawings for each in drawing.primitives if isinstance(each, Label)}
    assert {"cut oversize, then trim", "marked from part 7"} <= words


def test_a_method_names_a_part_that_there_is(tmp_path: Path) -> None:
    with pytest.raises(AssertionError, match="There is no part `lid`"):
        found(tmp_path, "blank/length: {method: {how: marked_from, part: lid}}")
