"""The audit of whole plan sets: fits, rules and numbers, as their sheets print them."""

from __future__ import annotations

import textwrap
from pathlib import Path

import pytest

from planbook.measure import MILLIMETRE
from planbook.source.findings import Finding, Severity
from planbook.statement.stated import Stated
from tests.dimension.audit.demo import EDITIONS, as_stated
from tests.statement.workspace import FILES, state, write

FRAME = """
number: 8
title: Frame
stock: board
quantity: 1
size: [600 mm, 300 mm, stock.board.thickness]
features:
  well: {opening: [well.length, 200 mm], at: [90 mm, 50 mm]}
"""
FITS = """
platform.in_well:
  opening: dim.frame.well.length
  slider: dim.board.blank.length
  gap: [1.5 mm, 3 mm]
  because: it moves freely and does not rattle
"""


def parameters(well: str, board: str) -> str:
    """The tiny set's own, with other lengths of its board and of a well."""
    text = textwrap.dedent(FILES["content/tiny/parameters.yaml"])
    length = "length: {by_market: {here: 12 in, there: 300 mm}, means: length of the board, tolerance: 1 mm}"
    assert length in text
    return f"{text.replace(length, f'length: {board}')}well:\n  length: {well}\n"


def audited(root: Path, fits: str = FITS, **changed: str) -> tuple[Stated | None, tuple[Finding, ...]]:
    """The metric edition of the tiny set with a frame round its board."""
    write(root, **changed)
    (root / "content/tiny/parts/frame.yaml").write_text(FRAME)
    (root / "content/tiny/fits.yaml").write_text(fits)
    stated, findings = state(root, "metric")
    quiet = ("part-idle", "parameter-idle")
    return stated, tuple(each for each in findings if each.code not in quiet)


def test_a_fit_that_does_not_hold_as_printed_stops_and_is_given_numbers_that_do(tmp_path: Path) -> None:
    """An opening designed 412.4 mm, a platform of 410.6 mm, and a gap of 1.5 to 3.0 mm."""
    stated, (finding,) = audited(tmp_path, parameters=parameters("412.4 mm", "410.6 mm"))
    assert stated is None
    assert (finding.code, finding.severity) == ("fit-fails", Severity.STOP)
    assert "dim.frame.well.length 412.5 ±0.5 less dim.board.blank.length 410.5 ±0.5" in finding.message
    assert "a gap of 1 mm to 3 mm" in finding.message
    assert "`well.length` 412.5 mm with `tolerance: +0.5 mm/0`" in finding.remedy
    assert "`board.length` 410.5 mm with `tolerance: 0/-0.5 mm`" in finding.remedy
    assert "that leaves a gap of 2 mm to 3 mm" in finding.remedy
    assert finding.place is not None
    assert (finding.place.file, finding.place.line) == ("content/tiny/fits.yaml", 3)


def test_what_was_proposed_holds(tmp_path: Path) -> None:
    well, board = "{is: 412.5 mm, tolerance: +0.5 mm/0}", "{is: 410.5 mm, tolerance: 0/-0.5 mm}"
    stated, findings = audited(tmp_path, parameters=parameters(well, board))
    assert findings == ()
    assert stated is not None
    (fit,) = stated.audit.fits
    assert fit.holds
    assert (fit.gap.least, fit.gap.most) == (pytest.approx(2 * MILLIMETRE), pytest.approx(3 * MILLIMETRE))


def test_a_fit_of_another_market_is_passed_over(tmp_path: Path) -> None:
    elsewhere = FITS.replace("gap: [1.5 mm, 3 mm]", "by_market: {here: [1.5 mm, 3 mm]}")
    stated, findings = audited(tmp_path, elsewhere, parameters=parameters("412.4 mm", "410.6 mm"))
    assert findings == ()
    assert stated is not None
    assert stated.audit.fits == ()


def test_printing_that_takes_from_a_gap_is_told_although_it_holds(tmp_path: Path) -> None:
    wide = FITS.replace("[1.5 mm, 3 mm]", "[0 mm, 9 mm]")
    _, (finding,) = audited(tmp_path, wide, parameters=parameters("412.2 mm", "410.4 mm"))
    assert finding.code == "fit-rounded-against"
    assert "takes 0.3 mm" in finding.message


@pytest.mark.parametrize(
    ("old", "new", "code", "says"),
    [
        ("dim.board.blank.length", "dim.bord.blank.length", "fit-unknown-measure", "`dim.board.blank.length`"),
        ("dim.board.blank.length", "board.length", "fit-not-printed", "`dim.board.blank.length`"),
        ("dim.board.blank.length", "max(dim.board.blank.length, 2 mm)", "fit-not-a-sum", "Write a sum"),
        ("[1.5 mm, 3 mm]", "[3 mm, 1.5 mm]", "fit-gap", "`[1.5 mm, 3 mm]`"),
        ("[1.5 mm, 3 mm]", "[1.5 mm, gape.most]", "unknown-name", "make"),
        ("dim.frame.well.length", "hardware.bolt.diametre", "fit-unknown-measure", "in prose"),
    ],
)
def test_a_fit_that_cannot_be_read_stops_with_a_way_out(
    tmp_path: Path, old: str, new: str, code: str, says: str
) -> None:
    stated, findings = audited(tmp_path, FITS.replace(old, new), parameters=parameters("412.5 mm", "410.5 mm"))
    assert stated is None
    assert code in [each.code for each in findings]
    (finding,) = (each for each in findings if each.code == code)
    assert finding.severity is Severity.STOP
    assert code == "unknown-name" or says in finding.remedy


def test_a_bought_thing_is_as_it_is_sold_and_stock_as_it_is_accepted(tmp_path: Path) -> None:
    bought = FITS.replace("dim.frame.well.length", "stock.board.thickness + dim.board.blank.thickness - 30 mm")
    bought = bought.replace("dim.board.blank.length", "hardware.bolt.diameter").replace(
        "[1.5 mm, 3 mm]", "[3 mm, 5 mm]"
    )
    stated, findings = audited(tmp_path, bought, parameters=parameters("412.5 mm", "410.5 mm"))
    assert findings == ()
    assert stated is not None
    gap = stated.audit.fits[0].gap
    assert (gap.least, gap.most) == (pytest.approx(3 * MILLIMETRE), pytest.approx(5 * MILLIMETRE))


def test_a_rule_that_fails_on_printed_numbers_only_is_found(tmp_path: Path) -> None:
    rule = "well.wide: {require: well.length - board.length >= 1.8 mm, because: it must go in}"
    loose = FITS.replace("[1.5 mm, 3 mm]", "[0 mm, 9 mm]")
    stated, findings = audited(tmp_path, loose, parameters=parameters("412.2 mm", "410.4 mm"), rules=rule)
    assert stated is None
    (finding,) = (each for each in findings if each.code == "rule-broken-as-printed")
    assert finding.severity is Severity.STOP
    assert "fails by 0.3 mm" in finding.message


def test_a_woodwork_number_finer_than_a_rule_reads_is_found(tmp_path: Path) -> None:
    """A hole 0.2 mm deep is printed as it is, so that it does not vanish; nobody sets that by rule."""
    shallow = FILES["content/tiny/parts/board.yaml"].replace(
        "features:", "features:\n          mark: {hole: 6 mm, at: [20 mm, 20 mm], depth: 0.2 mm}"
    )
    _, findings = audited(tmp_path, FITS, board=shallow, parameters=parameters("412.5 mm", "410 mm"))
    assert "number-too-fine" in [each.code for each in findings]


def test_a_tolerance_that_printing_uses_up_is_found(tmp_path: Path) -> None:
    board = "{is: 410.4 mm, tolerance: +0.5 mm/0}"
    loose = FITS.replace("[1.5 mm, 3 mm]", "[0 mm, 9 mm]")
    _, findings = audited(tmp_path, loose, parameters=parameters("412.5 mm", board))
    assert "rounded-out" in [each.code for each in findings]


def test_one_rounding_is_one_finding_at_its_parameter(tmp_path: Path) -> None:
    """Two parts print the one measure; it is both too fine and rounded out of its limits."""
    both = "{is: 410.3 mm, tolerance: 0.1 mm}"
    loose = FITS.replace("[1.5 mm, 3 mm]", "[-9 mm, 9 mm]")
    well = parameters("412.5 mm", both).replace("412.5 mm", both)
    _, findings = audited(tmp_path, loose, parameters=well)
    wrong = [each for each in findings if each.code in ("number-too-fine", "rounded-out")]
    assert {each.code for each in wrong} == {"number-too-fine"}
    assert len({each.place for each in wrong}) == len(wrong)
    assert all(each.place and each.place.file.endswith("parameters.yaml") for each in wrong)


@pytest.mark.parametrize(("key", "edition"), EDITIONS)
def test_every_fit_of_the_demo_sets_holds_as_printed(key: str, edition: str) -> None:
    audit = as_stated(key, edition).audit
    assert audit.fits
    assert all(each.holds for each in audit.fits)
    assert audit.rules
    for part in audit.parts:
        assert part.worst is not None
        assert abs(part.worst.deviation) <= 0.5 * MILLIMETRE


def test_a_chain_of_rounded_numbers_that_leads_off_is_found(tmp_path: Path) -> None:
    """Nine holes 30.3 mm apart are printed 30.5 mm apart: the last one is 1.6 mm off, with 0.5 mm general tolerance."""
    row = FILES["content/tiny/parts/board.yaml"].replace(
        "at: [board.half, board.width / 2]", "at: [20 mm, board.width / 2], repeat: {count: 9, pitch: 30.3 mm}"
    )
    _, findings = audited(tmp_path, board=row, parameters=parameters("{is: 412.5 mm, tolerance: +0.5 mm/0}", "410 mm"))
    (finding,) = (each for each in findings if each.code == "rounding-drifts")
    assert "`middle` off by 1.6 mm along x" in finding.message
    assert "`board/middle/pitch`" in finding.remedy
