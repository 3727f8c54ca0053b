"""The lists: parts by ISO 7573's columns, materials by stock, hardware by use."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planbook.measure import Units
from planbook.shape import shape_parts
from planbook.takeoff import ListRow, take_off
from tests.shape.making import MARKET, content_of, design_of, plate


def lists(
    parts: dict[str, Any],
    units: Units = Units.MILLIMETRE,
    hardware: dict[str, Any] | None = None,
    market: Any = MARKET,
) -> dict[str, tuple[ListRow, ...]]:
    content = content_of(parts, hardware=hardware, market=market)
    design = design_of(content)
    shaped, findings = shape_parts(content, design)
    assert findings == ()
    taken, _ = take_off(content, design, shaped, units)
    return dict(taken.lists)


def test_a_row_of_the_parts_list() -> None:
    part = plate(number=7, title="Leg", stock="board", quantity={"as_drawn": 2, "mirrored": 2}, sheet="7a")
    (row,) = lists({"leg": part})["parts"]
    assert row.id == "leg"
    assert row.cells == {
        "Part": "7",
        "Description": "Leg",
        "Quantity": "4",
        "Material": "27 mm beech",
        "Length × width × thickness, mm": "400 × 200 × 18",
        "Length × width × thickness, in": "[15 3/4 × 7 7/8 × 23/32]",
        "Sheet": "7a",
        "Remarks": "2 as drawn, 2 mirrored",
    }


def test_the_editions_own_unit_comes_first() -> None:
    (row,) = lists({"plate": plate()}, Units.INCH)["parts"]
    sizes = [(column, cell) for column, cell in row.cells.items() if column.startswith("Length")]
    assert sizes == [
        ("Length × width × thickness, in", "15 3/4 × 7 7/8 × 23/32"),
        ("Length × width × thickness, mm", "[400 × 200 × 18]"),
    ]


@pytest.mark.parametrize(
    ("rest", "remark"),
    [
        ({}, ""),
        ({"kind": "jig"}, "jig"),
        ({"kind": "test_piece", "quantity": {"as_drawn": 1, "mirrored": 1}}, "test piece, 1 as drawn, 1 mirrored"),
        ({"quantity": {"as_drawn": 0, "mirrored": 2}}, "all mirrored"),
    ],
)
def test_remarks(rest: dict[str, Any], remark: str) -> None:
    (row,) = lists({"plate": plate(**rest)})["parts"]
    assert row.cells["Remarks"] == remark


def test_materials_are_by_stock_with_the_accepted_range() -> None:
    parts = {
        "top": plate(number=1, quantity={"as_drawn": 2}),
        "rail": plate(number=2, length="1 m", stock="board", quantity={"as_drawn": 3}),
        "lid": plate(number=3, length="1000 mm"),
    }
    sheet, board = lists(parts)["materials"]
    # 2 x 0.400 m x 0.200 m + 1.000 m x 0.200 m = 0.36 m2; / 0.3048^2 = 3.875 ft2, rounded up.
    assert sheet.cells == {
        "Material": "18 mm plywood",
        "Thickness, mm": "18",
        "Thickness, in": "[23/32]",
        "Accepted, mm": "17.6 to 18.4",
        "Net amount": "0.36 m²",
        "For reference": "[3.9 ft²]",
        "Parts": "1, 3",
    }
    # 3 x 1 m; / 0.3048 = 9.843 ft, rounded up.
    assert (board.id, board.cells["Net amount"], board.cells["For reference"]) == ("board", "3.0 m", "[9.9 ft]")
    assert board.cells["Accepted, mm"] == ""


@given(st.lists(st.tuples(st.integers(20, 3000), st.integers(20, 1500), st.integers(1, 9)), min_size=1, max_size=5))
def test_the_net_amount_is_never_too_little(sizes: list[tuple[int, int, int]]) -> None:
    parts = {
        f"p{i}": plate(f"{length} mm", f"{width} mm", number=i + 1, quantity={"as_drawn": count})
        for i, (length, width, count) in enumerate(sizes)
    }
    (row,) = lists(parts)["materials"]
    needed = sum(length * width * count for length, width, count in sizes) / 1e6
    stated = float(row.cells["Net amount"].removesuffix(" m²"))
    assert needed - 1e-6 <= stated < needed + 0.010001


def test_hardware() -> None:
    uses = {
        "bolts": {"item": "bolt", "quantity": "4", "length": "70 mm", "use": "legs to rails", "parts": ("top", "lid")},
        "spare": {"item": "bolt", "quantity": "1", "use": "to lose"},
    }
    parts = {"lid": plate(number=3), "top": plate(number=1)}
    bolts, spare = lists(parts, hardware=uses)["hardware"]
    assert bolts.id == "bolts"
    assert bolts.cells == {
        "Item": "M6 bolt",
        "Length, mm": "70",
        "Length, in": "[2 3/4]",
        "Quantity": "4",
        "Use": "legs to rails",
        "Parts": "1, 3",
    }
    assert (spare.cells["Length, mm"], spare.cells["Length, in"], spare.cells["Parts"]) == ("", "", "")
    assert tuple(spare.cells) == tuple(bolts.cells)


@pytest.mark.parametrize(
    ("length", "said"), [("0 mm", "The length of `bolts` in the hardware list is `0 mm`"), ("no.such", "no.such")]
)
def test_faulty_lengths_of_hardware_are_found(length: str, said: str) -> None:
    content = content_of(
        {"plate": plate()}, hardware={"bolts": {"item": "bolt", "quantity": "4", "length": length, "use": "legs"}}
    )
    design = design_of(content)
    _, (finding,) = take_off(content, design, shape_parts(content, design)[0], Units.MILLIMETRE)
    assert said in finding.message
    assert finding.place is not None


def test_the_lists_have_names() -> None:
    assert list(lists({"plate": plate()})) == ["parts", "materials", "hardware", "shopping", "cutting"]


def test_a_part_wider_than_a_board_takes_several_side_by_side() -> None:
    stock: Any = MARKET["stock"]
    market = {**MARKET, "stock": {**stock, "board": {**stock["board"], "sizes": (("2 m", "150 mm"),)}}}
    parts = {
        "seat": plate(number=1, length="1 m", width="290 mm", stock="board"),
        "rail": plate(number=2, length="1 m", width="150 mm", stock="board"),
    }
    (row,) = lists(parts, market=market)["materials"]
    assert row.cells["Net amount"] == "3.0 m"
