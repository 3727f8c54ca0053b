"""The market tables against the standards that they cite."""

from __future__ import annotations

from math import sqrt

import pytest

from planbook.source.content import Content
from planbook.source.models.market import SignalWord

from .sets import INCH, MARKETS, MILLIMETRE, SETS, Piece, content, piece

# ISO 273:1979, clearance holes for bolts, medium series (H13), millimetres. Read in a reprint.
ISO_273_MEDIUM = {6: 6.6, 8: 9.0, 10: 11.0, 12: 13.5}
# ASME B18.2.8-1999 (R2017) table 1a, normal fit, inches. Read in Machinery's Handbook 31, page 1741.
ASME_B18_2_8_NORMAL = {1 / 4: 9 / 32, 3 / 8: 13 / 32}
# ASME B18.6.1, shank of a wood screw: 0.060 in + 0.013 in x number. From memory.
SCREW_SHANK = {6: 0.138, 8: 0.164, 10: 0.190}
# PS 1, thickness by performance category, inches (plus and minus 1/32 in up to 13/16 in). Read.
PS_1 = {"sheet_19": (0.688, 0.750), "sheet_12": (0.438, 0.500)}


@pytest.fixture(scope="module")
def tote() -> dict[str, Piece]:
    return {market: piece("tool-tote", market) for market in MARKETS}


@pytest.fixture(scope="module")
def markets() -> Content:
    return content("sewing-desk")


def test_every_market_has_the_same_keys(markets: Content) -> None:
    one, other = (markets.markets[market] for market in MARKETS)
    assert set(one.stock) == set(other.stock)
    assert {key: set(item.measures) for key, item in one.hardware.items()} == {
        key: set(item.measures) for key, item in other.hardware.items()
    }
    assert {key: stock.kind for key, stock in one.stock.items()} == {
        key: stock.kind for key, stock in other.stock.items()
    }


@pytest.mark.parametrize("market", MARKETS)
def test_every_entry_says_where_its_numbers_are_from(markets: Content, market: str) -> None:
    table = markets.markets[market]
    assert all(stock.source for stock in table.stock.values())
    assert all(item.source for item in table.hardware.values())


@pytest.mark.parametrize("bolt", ["bolt_6", "bolt_10"])
def test_metric_clearance_holes_are_those_of_iso_273(tote: dict[str, Piece], bolt: str) -> None:
    design = tote["europe"]
    assert design.mm(f"hardware.{bolt}.clearance") == pytest.approx(
        ISO_273_MEDIUM[round(design.mm(f"hardware.{bolt}.diameter"))], abs=1e-9
    )


@pytest.mark.parametrize("bolt", ["bolt_6", "bolt_10"])
def test_inch_clearance_holes_are_those_of_asme_b18_2_8(tote: dict[str, Piece], bolt: str) -> None:
    design = tote["north_america"]
    assert (
        design.inches(f"hardware.{bolt}.clearance") == ASME_B18_2_8_NORMAL[design.inches(f"hardware.{bolt}.diameter")]
    )


@pytest.mark.parametrize("number", SCREW_SHANK)
def test_inch_wood_screws_have_the_standard_shank(tote: dict[str, Piece], number: int) -> None:
    assert tote["north_america"].inches(f"hardware.screw_{number}.diameter") == pytest.approx(SCREW_SHANK[number])


@pytest.mark.parametrize("market", MARKETS)
@pytest.mark.parametrize("number", SCREW_SHANK)
def test_pilot_holes_suit_hardwood(tote: dict[str, Piece], market: str, number: int) -> None:
    # Wood Handbook FPL-GTR-190, chapter 8: root about 2/3 of the shank; NDS: lead hole 0.9 of the root in dense wood.
    shank = tote[market].mm(f"hardware.screw_{number}.diameter")
    pilot = tote[market].mm(f"hardware.screw_{number}.pilot")
    assert pilot / (shank * 2 / 3) == pytest.approx(0.9, abs=0.07)


@pytest.mark.parametrize("key", PS_1)
def test_inch_sheets_lie_within_ps_1(tote: dict[str, Piece], key: str) -> None:
    stock = tote["north_america"].design.stock[key]
    least, greatest = PS_1[key]
    assert stock.accepted is not None
    assert least <= stock.accepted[0] / INCH < stock.thickness / INCH < stock.accepted[1] / INCH <= greatest


@pytest.mark.parametrize("key", ["sheet_19", "sheet_12"])
def test_metric_sheets_lie_within_en_315(tote: dict[str, Piece], key: str) -> None:
    # EN 315:2000, sanded: +(0.2 + 0.03 t) / -(0.4 + 0.03 t), cut to 0.1 mm. Read; the formula fits the printed rows.
    stock = tote["europe"].design.stock[key]
    nominal = stock.thickness / MILLIMETRE
    assert stock.accepted is not None
    assert stock.accepted[0] / MILLIMETRE >= nominal - (0.4 + 0.03 * nominal)
    assert stock.accepted[1] / MILLIMETRE <= nominal + (0.2 + 0.03 * nominal)


def test_fibreboard_lies_within_its_standards(tote: dict[str, Piece]) -> None:
    # EN 622-1, MDF up to 19 mm: +/-0.2 mm. ANSI A208.2: +/-0.005 in. Both from memory.
    for market, limit in (("europe", 0.2 * MILLIMETRE), ("north_america", 0.005 * INCH)):
        stock = tote[market].design.stock["fibre_19"]
        assert stock.accepted is not None
        assert max(abs(each - stock.thickness) for each in stock.accepted) <= limit * 1.000001


@pytest.mark.parametrize("market", MARKETS)
def test_rough_boards_are_thick_enough_to_plane(markets: Content, market: str) -> None:
    # Common practice, no source: planing both faces takes 1/8 in (3 mm) and more; a resawn board loses a kerf besides.
    design = piece("sewing-desk", market).design
    for key, stock in markets.markets[market].stock.items():
        if stock.rough is not None:
            rough, _ = design.solve(stock.rough)
            assert rough is not None
            assert rough.number - stock.yields * design.stock[str(key)].thickness >= 3 * MILLIMETRE


@pytest.mark.parametrize("market", MARKETS)
def test_every_accepted_range_holds_the_thickness_drawn(tote: dict[str, Piece], market: str) -> None:
    ranges = [(stock.accepted, stock.thickness) for stock in tote[market].design.stock.values() if stock.accepted]
    assert ranges
    assert all(accepted[0] < thickness < accepted[1] for accepted, thickness in ranges)


@pytest.mark.parametrize("market", MARKETS)
def test_clearances_and_pilots_are_drills_that_are_sold(tote: dict[str, Piece], market: str) -> None:
    design = tote[market].design
    sold = sorted(design.drills)
    assert sold == list(design.drills)
    bored = {
        f"{key}.{measure}": item.measures[measure].value
        for key, item in design.hardware.items()
        for measure in ("clearance", "pilot", "hole")
        if measure in item.measures
    }
    assert {name for name, value in bored.items() if min(abs(value - drill) for drill in sold) > 1} == set()


@pytest.mark.parametrize("market", MARKETS)
def test_bores_slide_on_the_rod_that_they_are_for(tote: dict[str, Piece], market: str) -> None:
    design = tote[market]
    assert 0.05 <= design.mm("hardware.bush_12.bore - hardware.pin_12.diameter") <= 0.15
    assert design.mm("hardware.roller_32.bore - hardware.pin_12.diameter") == 0
    assert design.mm("hardware.barrel_6.diameter / hardware.bolt_6.diameter * 1 mm") > sqrt(2)


def test_the_signal_words_are_those_of_ansi_z535(markets: Content) -> None:
    # ANSI Z535.4-2007, 4.14: four words; NOTICE is about things and not about people. Read.
    assert {word.value for word in SignalWord} == {"danger", "warning", "caution", "notice"}
    words = {str(name): caution.word for name, caution in markets.cautions.items()}
    assert {name for name, word in words.items() if word is SignalWord.NOTICE} == {
        "local_rules",
        "measure_first",
        "no_glue",
    }


@pytest.mark.parametrize("key", SETS)
def test_a_plan_set_warns_of_machines_dust_loads_and_local_rules(key: str) -> None:
    assert {"machines", "dust", "finishes", "loads", "children", "local_rules"} <= set(content(key).plan_set.cautions)
