"""Calculations: parameters that print their working, in the edition's units, with what rules ask of them."""

import io

import pytest
from pypdf import PdfReader

from planbook.document import compose
from planbook.source import Door, load
from planbook.source.text import Formula
from planbook.statement import compare
from planbook.statement.comparison import Kind, Touch

from .workspace import edited, state, write

CALCULATIONS = """
board.sag:
  title: Sag of the board
  is: beam_sag_middle(200 N, board.length, 11 GPa, rectangle_inertia(board.width, stock.board.thickness))
  assumes: it lies on two battens
board.slack: {title: A sum, is: 2 * (board.length - board.half) / board.width}
"""
RULES = """
board.long: {require: board.length >= 2 * board.width, because: a square board is dull}
board.stiff: {require: board.sag <= 1 mm, because: a soft board rocks}
"""


@pytest.fixture
def workspace(tmp_path):
    root = write(tmp_path, rules=RULES)
    (root / "content/tiny/calculations.yaml").write_text(CALCULATIONS)
    return root


def rows(root, edition):
    stated, found = state(root, edition)
    assert [finding for finding in found if finding.code != "parameter-idle"] == []
    return {row.id: row.cells for row in stated.statement.lists["calculations"]}


def test_a_calculation_prints_formula_values_result_source_and_demand(workspace):
    sag = rows(workspace, "metric")["board.sag"]
    assert sag["Formula"] == "f = P · L³ / (48 · E · I)"
    assert sag["With"].startswith("P = 200 N, force; L = 300 mm, span; E = 11000 MPa, modulus of elasticity; I = ")
    # 200 N * (300 mm)^3 / (48 * 11000 MPa * 100 mm * (20 mm)^3 / 12)
    assert sag["Result"].startswith("f = 0.153 mm [.006")
    assert sag["Source"] == "American Wood Council, Design Aid No. 6: Beam Formulas"
    assert sag["Assumes"].startswith("The ends lie free")
    assert sag["Assumes"].endswith("it lies on two battens")
    assert sag["Must"] == "0.153 mm ≤ 1 mm: a soft board rocks"


def test_what_bears_a_load_prints_the_factor_that_is_left(workspace):
    """200 N in the middle of 300 mm: 15 N m, over a section of 100 by 20 mm squared by 6, is 2.25 MPa. Rounded down."""
    stress = """
board.stress:
  title: Stress
  is: bending_stress(beam_moment_middle(200 N, board.length), rectangle_section(board.width, stock.board.thickness))
"""
    (workspace / "content/tiny/calculations.yaml").write_text(CALCULATIONS + stress)
    rules = RULES + "board.strong: {require: board.stress <= 6 MPa, because: it must not break}\n"
    (workspace / "content/tiny/rules.yaml").write_text(rules)
    told = rows(workspace, "metric")
    assert told["board.stress"]["Must"] == "2.25 MPa ≤ 6 MPa, a factor of 2.66: it must not break"
    assert "factor" not in told["board.sag"]["Must"]


def test_nothing_goes_into_a_limit_no_number_of_times(workspace):
    (workspace / "content/tiny/calculations.yaml").write_text(CALCULATIONS + "board.free: {title: F, is: 5 N - 5 N}\n")
    rules = RULES + "board.unloaded: {require: board.free <= 6 N, because: nothing hangs on it}\n"
    (workspace / "content/tiny/rules.yaml").write_text(rules)
    assert rows(workspace, "metric")["board.free"]["Must"] == "0 N ≤ 6 N: nothing hangs on it"


def test_a_calculator_in_another_is_told_by_its_value_and_how_that_comes_about(workspace):
    """30.59 kg weigh 300 N; in the middle of 300 mm they bend with 300 * 0.3 / 4 = 22.5 N m."""
    calculations = """
board.moment: {title: Moment, is: "beam_moment_middle(weight_of(30.591486 kg), board.length)"}
board.twice: {title: Twice, is: "2 * beam_moment_middle(300 N, board.length)"}
board.apart: {title: Apart, is: "where(board.length > 1 mm, weight_of(1 kg), ramp_push(9 N, 80 deg, 0.5))"}
"""
    (workspace / "content/tiny/calculations.yaml").write_text(CALCULATIONS + calculations)
    told = rows(workspace, "metric")
    moment, twice = told["board.moment"], told["board.twice"]
    assert moment["With"].startswith("P = 300 N, ")
    assert moment["With"].endswith("span. W = m · 9.80665 m/s²: m = 30.6 kg, mass")
    assert moment["Result"] == "M = 22.5 N·m [16.6 lbf·ft]"
    assert twice["Formula"] == "2 · M"
    assert twice["With"].startswith("2 · 22.5 N·m. M = P · L / 4: P = 300 N, ")
    assert "beam" not in twice["With"] + twice["Formula"]
    assert told["board.apart"]["With"].startswith("where(300 mm > 1 mm; 9.81 N; ")
    imperial = rows(workspace, "imperial")["board.moment"]
    assert imperial["With"].startswith("P = 67.4 lbf, ")


def test_each_edition_prints_its_own_units(workspace):
    assert "L = 12.000 in, span" in rows(workspace, "imperial")["board.sag"]["With"]


def test_a_formula_without_a_calculator_prints_as_arithmetic(workspace):
    slack = rows(workspace, "metric")["board.slack"]
    assert slack["Formula"] == "2 · (board.length − board.half) / board.width"
    assert slack["With"] == "2 · (300 mm − 150 mm) / 100 mm"
    assert slack["Result"] == "3"
    assert "Source" not in slack


@pytest.mark.parametrize(
    ("formula", "told"),
    [
        ("board.length^2 / 1 mm", "(300 mm)^2 / 1 mm"),
        ("(2 * board.length)^2 / 1 mm", "(2 · 300 mm)^2 / 1 mm"),
        ("(3^2)^2 * 1 mm", "(3^2)^2 · 1 mm"),
        ("2^(3^2) * 1 mm", "2^(3^2) · 1 mm"),
        ("2^(-1) * 1 mm", "2^(−1) · 1 mm"),
        ("board.under^2 / 1 mm", "(−20 mm)^2 / 1 mm"),
        ("board.length - board.under", "300 mm − (−20 mm)"),
        ("board.under - (board.length - board.width)", "−20 mm − (300 mm − 100 mm)"),
        ("board.under - board.length - board.width", "−20 mm − 300 mm − 100 mm"),
        ("-board.under", "−(−20 mm)"),
        ("-(board.under + board.length)", "−(−20 mm + 300 mm)"),
        ("board.length / (board.width / board.under)", "300 mm / (100 mm / (−20 mm))"),
        ("board.length / board.width / 2 * 1 mm", "300 mm / 100 mm / 2 · 1 mm"),
        ("board.length * (1 / 2)", "300 mm · 1 / 2"),
    ],
)
def test_what_is_printed_with_values_inserted_comes_to_the_same(tmp_path, formula, told):
    root = write(
        tmp_path,
        parameters=edited("content/tiny/parameters.yaml", "lift: 0 mm", "lift: 0 mm\n        board.under: -20 mm"),
    )
    (root / "content/tiny/calculations.yaml").write_text(f'board.some: {{title: Some, is: "{formula}"}}\n')
    stated, _ = state(root, "metric")
    (row,) = stated.statement.lists["calculations"]
    assert row.cells["With"] == told
    typed = told.replace("−", "-").replace("·", "*")
    again, _ = stated.design.solve(Formula(typed))
    assert again.number == pytest.approx(stated.design.parameters["board.some"].value.number)


def test_where_the_least_of_several_counts_each_is_printed_and_the_one_that_governs_named(workspace):
    """Technical Report 12, example 3.1: 900, 900, 414, 550, 550 and 663 lbf; twice one bolt is two of them."""
    joint = "single_shear_value(4800 psi, 1.5 in, 4800 psi, 1.5 in, 0.5 in, 45000 psi, 0 in, 0 deg)"
    (workspace / "content/tiny/calculations.yaml").write_text(
        f"{CALCULATIONS}\nboard.bolts: {{title: Two bolts, is: '2 * {joint}'}}\n"
    )
    imperial = rows(workspace, "imperial")["board.bolts"]
    assert imperial["Ways"] == (
        "I (main member) 900 lbf; I (side member) 900 lbf; II 414 lbf; III (main member) 550 lbf; "
        "III (side member) 550 lbf; IV 663 lbf. "
        "II governs: the fastener stays straight, leans, and crushes the wood of both members."
    )
    assert imperial["Result"].startswith("828 lbf")
    assert "II 1840 N" in rows(workspace, "metric")["board.bolts"]["Ways"]
    assert "Ways" not in rows(workspace, "metric")["board.sag"]
    stated, _ = state(workspace, "imperial")
    composed, _ = compose(stated, Door(workspace))
    read = " ".join(" ".join(page.extract_text() for page in PdfReader(io.BytesIO(composed.pdf)).pages).split())
    assert "II governs: the fastener stays straight" in read


@pytest.mark.parametrize("bad", ["0 mm", "1 mm / 0"])
def test_a_joint_that_is_not_reached_tells_no_ways(workspace, bad):
    """A branch of where() that is not taken may have no value."""
    joint = f"single_shear_yield(30 MPa, 20 mm, 30 MPa, 20 mm, {bad}, 310 MPa, 0 mm)"
    (workspace / "content/tiny/calculations.yaml").write_text(
        f"{CALCULATIONS}\nboard.bolt: {{title: A bolt, is: 'where(board.length > 1 m, {joint}, 5 N)'}}\n"
    )
    bolt = rows(workspace, "metric")["board.bolt"]
    assert bolt["Result"].startswith("5 N")
    assert "Ways" not in bolt


def test_the_chapter_stands_in_the_pdf(workspace):
    stated, _ = state(workspace, "metric")
    composed, findings = compose(stated, Door(workspace))
    assert composed is not None, findings
    pages = [page.extract_text() for page in PdfReader(io.BytesIO(composed.pdf)).pages]
    (page,) = (text for text in pages if "Sag of the board" in text and "48" in text)
    assert "a soft board rocks" in page
    assert "board.sag" in composed.places.parameters


def test_a_name_of_both_files_is_told(workspace):
    (workspace / "content/tiny/parameters.yaml").write_text(
        edited("content/tiny/parameters.yaml", "lift: 0 mm", "lift: 0 mm\n        board.sag: 1 mm")
    )
    content, findings = load(Door(workspace), "tiny")
    assert content is None
    assert "calculation-twice" in {finding.code for finding in findings}


def test_a_calculation_that_changes_touches_words_alone(workspace):
    old, _ = state(workspace, "metric")
    (workspace / "content/tiny/calculations.yaml").write_text(CALCULATIONS.replace("200 N", "300 N"))
    new, _ = state(workspace, "metric")
    listed = [each for each in compare(old.statement, new.statement).changes if each.kind is Kind.LIST]
    assert listed
    assert {each.touch for each in listed} == {Touch.TEXT}
