"""Stacks in a plan set: whether they hold, which sheets they take, and what the engineering pages print."""

import io

import pytest
from pypdf import PdfReader

from planbook.document import compose
from planbook.drawing import draw_sheet
from planbook.drawing.recording import Label
from planbook.source import Door
from planbook.statement import compare
from planbook.statement.comparison import Kind

from .workspace import FILES, edited, state, weigh, write

MARKET = "shared/markets/there.yaml"
PARAMETERS = "content/tiny/parameters.yaml"
RISE = "rise: {title: Rise of the platform, stack: rise, within: [152.65 mm, 154.25 mm], keep: 50 %}\n"


def tiny(root, stacks=RISE, accepted="17.6 mm, 18.4 mm", extra="", **changed):
    """The tiny set with `rise = 171.45 mm - sheet`, 18 mm thick."""
    there = FILES[MARKET].replace(
        "thickness: 20 mm, accepted: [19.5 mm, 20.5 mm]", f"thickness: 18 mm, accepted: [{accepted}]"
    )
    rise = f"lift: 0 mm\n        rise: 171.45 mm - stock.board.thickness\n        {extra}"
    write(root, there=there, parameters=edited(PARAMETERS, "lift: 0 mm", rise), **changed)
    (root / "content/tiny/calculations.yaml").write_text(stacks)
    return root


def found(root, edition="metric"):
    _, findings = state(root, edition)
    return {each.code: each for each in findings if each.code.startswith(("stack", "sheet-not", "range"))}


def test_sheets_of_17_6_to_18_4_are_taken(tmp_path):
    assert found(tiny(tmp_path)) == {}
    stated, _ = state(tmp_path, "metric")
    row = next(row for row in stated.statement.lists["calculations"] if row.id == "rise")
    told = "20 mm board: any of 17.6 to 18.4 mm does, which leaves 50 % of the tolerance for the making"
    assert row.cells["Sheets"] == told
    assert row.cells["With"] == "As drawn 153.45 mm; it may be 152.65 mm to 154.25 mm"


def test_a_sheet_that_the_market_sells_and_the_design_does_not_take_is_told(tmp_path):
    finding = found(tiny(tmp_path, accepted="17.3 mm, 18.5 mm"))["sheet-not-accepted"]
    stated, _ = state(tmp_path, "metric")
    (row,) = (row for row in stated.statement.lists["calculations"] if row.id == "rise")
    assert "measure it; 17.6 to 18.4 mm does" in row.cells["Sheets"]
    assert "outside that stop, and have the set made for your sheet" in row.cells["Sheets"]
    assert "takes 20 mm board of 17.6 to 18.4 mm, and it is sold from 17.3 to 18.5 mm" in finding.message
    assert "at 17.3 mm `rise` is 0.7 mm more than drawn" in finding.message
    assert '`planbook draft tiny --with "stock.board.thickness = 17.3 mm"`' in finding.remedy
    assert finding.severity == "warn"


def test_the_range_that_the_design_takes_is_on_sheet_and_lists_with_what_to_do_outside(tmp_path):
    """The market accepts 17.3 to 18.5 mm, the rise takes 17.6 to 18.4 mm."""
    stated, _ = state(tiny(tmp_path, accepted="17.3 mm, 18.5 mm"), "metric")
    statement = stated.statement
    assert statement.parts["board"].stock_note == (
        "accepted 17.6 to 18.4 mm; outside it stop, and have the set made for your sheet"
    )
    assert [row.cells["Accepted, mm"] for row in statement.lists["materials"]] == ["17.6 to 18.4"]
    drawn, _ = draw_sheet(statement, "7")
    told = " ".join(each.text for each in drawn[0].primitives if isinstance(each, Label))
    assert "accepted 17.6 to 18.4 mm; outside it stop, and have" in told
    assert "Measured" in told


def test_what_the_design_takes_anyway_is_what_the_market_accepts(tmp_path):
    stated, _ = state(tiny(tmp_path, accepted="17.7 mm, 18.4 mm"), "metric")
    assert stated.statement.parts["board"].stock_note == "accepted 17.7 to 18.4 mm"


def test_a_sheet_of_17_fails_the_stack_as_it_is_1_mm_too_long(tmp_path):
    finding = found(tiny(tmp_path, accepted="17 mm, 18.4 mm"))["stack-fails"]
    assert (
        "153.05 mm to 154.45 mm at worst, and 152.65 mm to 154.25 mm is wanted; 20 mm board takes most"
        in finding.message
    )
    stated, findings = weigh(tmp_path, "metric", "stock.board.thickness = 17 mm")
    assert stated.statement.parameters["rise"].value / 1e6 == pytest.approx(154.45)
    (finding,) = (each for each in findings if each.code.startswith("stack"))
    assert finding.code == "stack-fails"
    assert "it is 154.45 mm, and 152.65 mm to 154.25 mm is wanted." in finding.message


def test_a_set_for_a_sheet_at_hand_has_nothing_left_to_add_up(tmp_path):
    stated, findings = weigh(tiny(tmp_path), "metric", "stock.board.thickness = 17.5 mm")
    assert [each for each in findings if each.code.startswith(("stack", "sheet"))] == []
    (row,) = (row for row in stated.statement.lists["calculations"] if row.id == "rise")
    assert (row.cells["Result"], "Sheets" in row.cells) == ("153.95 mm", False)


def test_layers_are_told_with_the_largest_share_first(tmp_path):
    peg = "peg: {is: 2 mm, tolerance: +0.2 mm/0, means: the peg}"
    extra = f"shelf: {{is: 3 * stock.board.thickness + peg, means: shelf}}\n        {peg}"
    stack = "shelf.stack: {title: Shelf, stack: shelf, within: [54 mm, 59 mm]}\n"
    stated, _ = state(tiny(tmp_path, stack, extra=extra), "metric")
    rows = [row.cells for row in stated.statement.lists["stacks"]]
    assert [(row["Layer"], row["Limits"], row["Adds"], row["Share"]) for row in rows] == [
        ("20 mm board", "±0.4 mm", "±1.2 mm", "92 %"),
        ("the peg", "+0.2 mm / \N{MINUS SIGN}0 mm", "+0.2 mm / \N{MINUS SIGN}0 mm", "8 %"),
    ]
    (row,) = (row for row in stated.statement.lists["calculations"] if row.id == "shelf.stack")
    assert row.cells["Result"] == "At worst 54.8 mm to 57.4 mm; root-sum-square 54.9 mm to 57.3 mm"


def test_what_a_sheet_prints_without_a_tolerance_counts_with_the_general_one(tmp_path):
    """Half a millimetre, of caliper work a tenth; with a tolerance of its own only that counts."""
    stack = "beside: {title: Beside, stack: 200 mm - board.width, within: [99 mm, 101 mm]}\n"
    plain = "{by_market: {here: 4 in, there: 100 mm}}"
    for said, limits in (("", "±0.5 mm"), (", precision: caliper", "±0.1 mm"), (", tolerance: 0.2 mm", "±0.2 mm")):
        root = tiny(tmp_path / limits, stack)
        parameters = root / PARAMETERS
        parameters.write_text(parameters.read_text().replace(plain, f"{plain[:-1]}{said}}}"))
        stated, _ = state(root, "metric")
        (row,) = stated.statement.lists["stacks"]
        assert (row.id, row.cells["Limits"], row.cells["Adds"]) == ("beside/board.width", limits, limits)
    assert found(tiny(tmp_path / "tight", stack.replace("99 mm, 101 mm", "99.6 mm, 100.4 mm"))).keys() == {
        "stack-fails"
    }


def test_what_is_fitted_closes_a_stack_or_cannot(tmp_path):
    tight = RISE.replace("152.65 mm, 154.25 mm", "153.35 mm, 153.55 mm")
    assert list(found(tiny(tmp_path, tight))) == ["stack-fails"]
    closed = tight.replace("keep:", "closes_on: {name: the shim, by: [-0.7 mm, 0.7 mm]}, keep:")
    assert found(tiny(tmp_path, closed)) == {}
    finding = found(tiny(tmp_path, closed.replace("0.7", "0.2")))["stack-open"]
    assert finding.message.startswith("The shim cannot close the stack rise: 153.05 mm to 153.85 mm at worst")


@pytest.mark.parametrize(
    ("old", "new", "code"),
    [
        ("stack: rise", "stack: lift + 153 mm", "stack-empty"),
        ("keep: 50 %", "keep: 120 %", "stack-keep"),
        ("152.65 mm, 154.25 mm", "154.25 mm, 152.65 mm", "range-reversed"),
    ],
)
def test_what_is_wrong_in_a_stack_is_told(tmp_path, old, new, code):
    stacks = RISE.replace(old, new).replace("rise: {title", "one: {title")
    if code == "stack-empty":
        stacks = stacks.replace("[152.65 mm", "[150 mm")
    rise = "lift: 0 mm\n        rise: 171.45 mm - stock.board.thickness"
    write(tmp_path, parameters=edited(PARAMETERS, "lift: 0 mm", rise))
    (tmp_path / "content/tiny/calculations.yaml").write_text(stacks)
    assert code in found(tmp_path)


def test_a_name_that_is_not_there_is_told_where_it_stands(tmp_path):
    _, findings = state(tiny(tmp_path, RISE.replace("stack: rise", "stack: risse")), "metric")
    (finding,) = (each for each in findings if each.code == "unknown-name")
    assert (finding.place.file, finding.place.line) == ("content/tiny/calculations.yaml", 1)


def test_the_stack_stands_in_the_pdf_with_its_layers(tmp_path):
    stated, _ = state(tiny(tmp_path), "imperial")
    assert stated is None
    stated, _ = state(tmp_path, "metric")
    composed, findings = compose(stated, Door(tmp_path))
    assert composed is not None, findings
    pages = [page.extract_text() for page in PdfReader(io.BytesIO(composed.pdf)).pages]
    (page,) = (text for text in pages if "Rise of the platform" in text and "Layer" in text)
    read = " ".join(page.split())
    assert "100 %" in read
    assert "17.6 to 18.4 mm does" in read


def test_a_new_stack_is_told_once_and_not_by_each_layer(tmp_path):
    bare, _ = state(tiny(tmp_path, "board.slack: {title: A sum, is: 2 * board.length}\n"), "metric")
    stacked, _ = state(tiny(tmp_path), "metric")
    ids = [each.id for each in compare(bare.statement, stacked.statement).changes if each.kind is Kind.LIST]
    assert "calculations/rise" in ids
    assert not [each for each in ids if each.startswith("stacks/")]
