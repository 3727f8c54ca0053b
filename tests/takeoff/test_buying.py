"""What is bought: pieces, counts with their bound, hardware by the design, finish by surface, cost by price."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import box

from planbook.cutting import faults_of
from planbook.measure import Units
from tests.shape.making import MM, content_of, plate

from .taken import SOLD, small_set, take, taken

FAST = settings(max_examples=25, deadline=None)


def rows(found: Any, name: str) -> dict[str, dict[str, str]]:
    return {row.id: dict(row.cells) for row in found.lists[name]}


def test_a_row_of_the_cut_list() -> None:
    part = plate("560 mm", "70 mm", "27 mm", stock="board", quantity={"as_drawn": 2, "mirrored": 1}, number=3)
    row = rows(taken(small_set({"rail": part})), "cutting")["rail"]
    assert row == {
        "Stock": "27 mm beech",
        "Part": "3",
        "Description": "Plate",
        "Quantity": "3",
        "Finished, mm": "560 × 70 × 27",
        "Finished, in": "[22 1/16 × 2 3/4 × 1 1/16]",
        "Rough, mm": "580 × 76 × 32",
        "Rough, in": "[22 27/32 × 3 × 1 1/4]",
        "Grain": "length",
        "Remarks": "2 as drawn, 1 mirrored",
    }


def test_sheets_are_cut_to_size_unless_the_sheet_says_oversize() -> None:
    parts = {
        "lid": plate("400 mm", "200 mm", number=1),
        "side": plate(
            "400 mm", "200 mm", number=2, dimensions={"blank/length": {"method": {"how": "oversize_then_trim"}}}
        ),
    }
    found = rows(taken(small_set(parts)), "cutting")
    assert found["lid"]["Rough, mm"] == "400 × 200 × 18"
    assert found["side"]["Rough, mm"] == "420 × 200 × 18"
    assert found["side"]["Remarks"] == "length cut oversize, then trim"


def test_what_cutting_says_counts_before_what_is_usual() -> None:
    text = "boards: {oversize: [30 mm, 10 mm]}\nstock: {board: {oversize: [50 mm, 4 mm]}}"
    part = plate("500 mm", "50 mm", "27 mm", stock="board")
    assert rows(taken(small_set({"rail": part}, text)), "cutting")["rail"]["Rough, mm"] == ("550 × 54 × 32")


def test_a_part_wider_than_a_board_is_glued_up_of_equal_strips() -> None:
    part = plate("500 mm", "290 mm", "27 mm", stock="board")
    row = rows(taken(small_set({"seat": part})), "cutting")["seat"]
    # Two boards of 150 mm less 6 mm for the jointing of each give 288 mm: a third is needed. 290 / 3 + 6 = 102.7 mm.
    assert (row["Quantity"], row["Rough, mm"], row["Remarks"]) == ("3", "520 × 103 × 32", "each glued up of 3")


def test_grain_is_free_where_the_part_says_so_or_there_is_none() -> None:
    market = {**SOLD, "stock": {**SOLD["stock"], "sheet": {**SOLD["stock"]["sheet"], "grain": "none"}}}
    parts = {"top": plate(grain="free"), "end": plate(number=2)}
    assert {key: row["Grain"] for key, row in rows(taken(small_set(parts)), "cutting").items()} == {
        "top": "either way",
        "end": "length",
    }
    assert {row["Grain"] for row in rows(taken(small_set(parts, market=market)), "cutting").values()} == {"none"}


def test_edges_with_a_strip_are_in_both_lists() -> None:
    part = plate("400 mm", "200 mm", edging={"item": "bolt", "on": ("front", "rear", "left")})
    found = taken(small_set({"shelf": part}))
    assert rows(found, "cutting")["shelf"]["Edges"] == "front, rear, left"
    strips = rows(found, "hardware")
    assert [(row["Length, mm"], row["Quantity"]) for row in strips.values()] == [("400", "2"), ("200", "1")]


def test_eight_pieces_take_eight_times_as_many() -> None:
    hardware = {"bolts": {"item": "bolt", "quantity": "3", "spares": "1", "use": "x"}}
    content = small_set({"rail": plate("900 mm", "140 mm", "27 mm", stock="board")}, hardware=hardware)
    one, eight = taken(content), taken(content, times=8)
    assert rows(one, "cutting")["rail"]["Quantity"] == "1"
    assert rows(eight, "cutting")["rail"]["Quantity"] == "8"
    assert rows(eight, "parts")["rail"]["Quantity"] == "8"
    assert (rows(eight, "hardware")["bolts"]["Quantity"], rows(eight, "hardware")["bolts"]["Spares"]) == ("24", "1")
    (plan,) = eight.plans
    assert plan.plan.count == 4


@pytest.mark.parametrize("kind", ["jig", "test_piece"])
def test_one_jig_serves_eight_pieces(kind: str) -> None:
    hardware = {
        "stops": {"item": "bolt", "quantity": "3", "use": "x", "parts": ["jig"]},
        "bolts": {"item": "bolt", "quantity": "2", "use": "x", "parts": ["jig", "rail"]},
    }
    parts = {
        "rail": plate("900 mm", "140 mm", "27 mm", stock="board"),
        "jig": plate(
            "300 mm", "140 mm", "27 mm", stock="board", number=2, kind=kind, quantity={"as_drawn": 1, "mirrored": 1}
        ),
    }
    eight = taken(small_set(parts, hardware=hardware), times=8)
    for name in ("cutting", "parts"):
        assert [rows(eight, name)[part]["Quantity"] for part in parts] == ["8", "2"]
    assert [rows(eight, "hardware")[key]["Quantity"] for key in hardware] == ["3", "16"]
    placed = [
        piece.piece
        for plan in eight.plans
        for layout in plan.plan.layouts
        for piece in layout.placed
        for _ in range(layout.times)
    ]
    assert (placed.count("rail"), placed.count("jig")) == (8, 2)


def test_hardware_is_counted_from_the_design() -> None:
    roller = {"rod": {"title": "roller", "diameter": "32 mm", "length": "10 mm", "along": "z", "item": "bolt"}}
    components = {name: {**roller, "at": ("0 mm", "0 mm", "0 mm")} for name in ("a", "b", "c")}
    hardware = {"bolts": {"item": "bolt", "quantity": "2 * tally.hardware.bolt + tally.part.end", "use": "x"}}
    parts = {"end": plate(quantity={"as_drawn": 1, "mirrored": 1})}
    found = taken(small_set(parts, hardware=hardware, components=components))
    assert rows(found, "hardware")["bolts"]["Quantity"] == "8"


@pytest.mark.parametrize("quantity", ["2.5", "0", "20000", "1 mm / 3 mm"])
def test_a_quantity_is_a_whole_number(quantity: str) -> None:
    hardware = {"bolts": {"item": "bolt", "quantity": quantity, "use": "x"}}
    found, findings = take(small_set({"end": plate()}, hardware=hardware))
    assert [(finding.code, finding.place is not None) for finding in findings] == [("quantity-not-whole", True)]
    assert found.lists["hardware"] == ()


@FAST
@given(st.integers(50, 900), st.integers(50, 900), st.integers(1, 3), st.integers(1, 4))
def test_finish_is_by_the_surface_as_shapely_has_it(long: int, wide: int, count: int, coats: int) -> None:
    hole = 20
    part = plate(
        f"{long} mm",
        f"{wide} mm",
        quantity={"as_drawn": count},
        features={"gap": {"opening": (f"{hole} mm", f"{hole} mm"), "at": ("10 mm", "10 mm")}},
    )
    jig = plate(number=2, kind="jig")
    found = taken(small_set({"top": part, "jig": jig}, finishing=f"oil: {{item: oil, coats: {coats}}}"))
    (purchase,) = [row for row in found.lists["shopping"] if row.id.startswith("finish")]
    face = box(0, 0, long, wide).difference(box(10, 10, 10 + hole, 10 + hole))
    surface = count * (2 * face.area + 18 * face.length) / 1e6
    assert f"on {-(-surface * 100 // 1) / 100:.2f} m²" in purchase.cells["Note"] or surface * 100 % 1 < 1e-6
    assert int(purchase.cells["Buy"]) == -(-coats * round(surface, 9) // 2)


PRICES = """
currency: EUR
asked: 2026-03-02
source: in town
stock:
  sheet: {by_size: [90.50, 70]}
  board: {price: 1000, per: cubic_metre}
hardware:
  bolt: {price: 6.40, pack: 10}
finishes: {oil: 28.90}
"""


def test_cost_is_by_price_and_by_group() -> None:
    parts = {
        "top": plate("2 m", "1 m", number=1),
        "rail": plate("900 mm", "140 mm", "27 mm", stock="board", number=2),
    }
    hardware = {"bolts": {"item": "bolt", "quantity": "11", "use": "x"}}
    found = taken(small_set(parts, finishing="oil: {item: oil}", prices=PRICES, hardware=hardware))
    cost = {row.id: row.cells["Cost, EUR"] for row in found.lists["cost"]}
    # A board of 2400 x 150 x 32 mm and 15 %: 0.013248 m3. Eleven bolts are two packs.
    stock = Decimal("90.50") + Decimal("13.25")
    finish = Decimal("28.90") * int(
        next(row for row in found.lists["shopping"] if row.id.startswith("finish")).cells["Buy"]
    )
    assert cost == {
        "stock": str(stock),
        "hardware": "12.80",
        "finish": str(finish),
        "total": str(stock + finish + Decimal("12.80")),
        "prices": "2026-03-02",
    }


def test_what_has_no_price_is_named() -> None:
    prices = "currency: EUR\nasked: 2026-03-02\n"
    found, findings = take(small_set({"top": plate()}, prices=prices))
    assert [(each.code, each.severity.value) for each in findings] == [("price-missing", "note")]
    total = next(row for row in found.lists["cost"] if row.id == "total")
    assert total.cells == {"Of": "All of it", "Cost, EUR": "0.00", "Note": "without 18 mm plywood"}


def test_a_price_by_a_measure_that_is_not_bought_stops() -> None:
    prices = "currency: EUR\nasked: 2026-03-02\nstock: {sheet: {price: 9, per: board_foot}}\n"
    _, (finding,) = take(small_set({"top": plate()}, prices=prices))
    assert (finding.code, finding.place.line if finding.place else 0) == ("price-without-measure", 3)
    assert "`square_metre`" in finding.remedy


def test_without_prices_there_is_no_cost() -> None:
    found = taken(small_set({"top": plate()}))
    assert "cost" not in found.lists
    assert all("Cost" not in column for row in found.lists["shopping"] for column in row.cells)


@pytest.mark.parametrize(
    ("cutting", "code"),
    [
        ("sheets: {kerf: 0 mm}", "kerf-size"),
        ("sheets: {kerf: -3 mm}", "kerf-size"),
        ("sheets: {kerf: 200 mm}", "kerf-size"),
        ("boards: {by: router}", "router-for-sheets"),
        ("stock: {board: {by: router, kerf: 6 mm}}", "router-for-sheets"),
        ("sheets: {trim: [600 mm, 600 mm]}", "too-large-to-cut"),
        ("together: {faces: {parts: [top, rail], because: x}}", "together-apart"),
    ],
)
def test_cutting_that_cannot_be_is_found(cutting: str, code: str) -> None:
    parts = {
        "top": plate("1500 mm", "200 mm", number=1),
        "rail": plate("900 mm", "140 mm", "27 mm", stock="board", number=2),
    }
    _, findings = take(small_set(parts, cutting))
    assert [finding.code for finding in findings] == [code]


@pytest.mark.parametrize(
    ("part", "said"),
    [
        (plate(thickness="15 mm"), "18 mm plywood is 18 mm"),
        (plate(thickness="30 mm", stock="board"), "27 mm beech is 27 mm"),
    ],
)
def test_a_thickness_that_is_not_sold_is_found(part: dict[str, Any], said: str) -> None:
    _, (finding,) = take(small_set({"plate": part}))
    assert finding.code == "thickness-unsold"
    assert said in finding.message


def test_a_board_may_be_planed_thinner() -> None:
    assert taken(small_set({"plate": plate("900 mm", "90 mm", "20 mm", stock="board")}))


def test_a_measure_for_several_stocks_is_wrong_once() -> None:
    market = {**SOLD, "stock": {**SOLD["stock"], "plank": SOLD["stock"]["board"]}}
    parts = {
        key: plate("900 mm", "90 mm", "27 mm", stock=key, number=at) for at, key in enumerate(("board", "plank"), 1)
    }
    for kerf in ("0 mm", "300 mm"):
        _, findings = take(small_set(parts, f"boards: {{kerf: {kerf}}}", market=market))
        assert [finding.code for finding in findings] == ["kerf-size"]


def test_what_no_size_holds_is_told_where_it_would_be_bought_and_the_cost_is_without_it() -> None:
    parts = {
        "long": plate("2600 mm", "90 mm", "27 mm", stock="board", number=7),
        "short": plate("900 mm", "90 mm", number=8),
        "large": plate("2600 mm", "900 mm", number=9),
    }
    prices = "currency: EUR\nasked: 2026-03-01\nsource: x\nstock: {sheet: 90, board: 30}"
    found, findings = take(small_set(parts, prices=prices))
    assert findings == ()
    told = rows(found, "shopping")
    assert (told["stock/board/0"]["Buy"], told["stock/board/0"]["Note"]) == ("0", "no size sold holds part 7")
    assert told["stock/sheet/1"]["Note"].endswith("no plan needs fewer; no size sold holds part 9")
    cost = rows(found, "cost")["total"]
    assert (cost["Cost, EUR"], cost["Note"]) == ("90.00", "without 27 mm beech")


def test_of_what_is_glued_up_all_layers_are_bought() -> None:
    glued = {**SOLD["stock"]["board"], "thickness": "60 mm", "layers": 3, "allowance": "0 %"}
    market = {**SOLD, "stock": {**SOLD["stock"], "glued": glued}}
    parts = {"post": plate("900 mm", "60 mm", "60 mm", stock="glued", quantity={"as_drawn": 5})}
    found = taken(small_set(parts, market=market))
    assert rows(found, "cutting")["post"]["Rough, mm"] == "920 × 66 × 60"
    row = rows(found, "shopping")["stock/glued/0"]
    # Four blanks lie on a board of 2400 by 150 mm; of two such, three rough boards of 32 mm each.
    assert row["Buy"] == "6"
    assert row["Note"] == "3 glued together to one; no plan needs fewer; 0.070 m³ [29.3 board feet]"


def test_too_many_pieces_are_counted_but_not_drawn() -> None:
    found, findings = take(small_set({"plate": plate("90 mm", "40 mm")}), times=2000)
    assert [finding.code for finding in findings] == ["too-many-pieces"]
    assert found.plans == ()
    assert rows(found, "cutting")["plate"]["Quantity"] == "2000"
    assert int(rows(found, "shopping")["stock/sheet/0"]["Buy"]) >= 2000 * 0.09 * 0.04 / (2.44 * 1.22)


def test_parts_that_belong_together_come_from_one_piece() -> None:
    parts = {
        f"door_{place}": plate("1200 mm", "600 mm", number=place, quantity={"as_drawn": 1}) for place in range(1, 5)
    }
    text = "together: {doors: {parts: [door_1, door_4], because: their grain runs on}}"
    found = taken(small_set(parts, text))
    (plan,) = found.plans
    homes = [{each.piece for each in layout.placed} for layout in plan.plan.layouts]
    assert any({"door_1", "door_4"} <= home for home in homes)
    assert rows(found, "cutting")["door_1"]["Remarks"] == "from one piece with 4: their grain runs on"


def test_a_group_too_large_for_one_piece_is_laid_out_apart() -> None:
    parts = {f"door_{place}": plate("2000 mm", "1000 mm", number=place) for place in (1, 2)}
    found, findings = take(small_set(parts, "together: {doors: {parts: [door_1, door_2], because: x}}"))
    assert [finding.code for finding in findings] == ["together-too-large"]
    assert found.plans[0].plan.count == 2


sizes = st.lists(st.tuples(st.integers(40, 1100), st.integers(30, 500), st.integers(1, 3)), min_size=1, max_size=6)


@FAST
@given(sizes, st.sampled_from(list(Units)), st.sampled_from(["saw", "router"]))
def test_every_plan_is_sound_and_holds_every_piece(
    parts: list[tuple[int, int, int]], units: Units, machine: str
) -> None:
    made = {
        f"part_{number}": plate(f"{long} mm", f"{wide} mm", number=number, quantity={"as_drawn": count})
        for number, (long, wide, count) in enumerate(parts, start=1)
    }
    found = taken(small_set(made, f"sheets: {{by: {machine}}}"), units)
    (plan,) = found.plans
    assert faults_of(plan.job, plan.plan) == ()
    assert plan.plan.unplaced == ()
    assert sum(len(layout.placed) * layout.times for layout in plan.plan.layouts) == sum(each[2] for each in parts)
    assert plan.plan.bound.count <= plan.plan.count
    bought = sum(int(row.cells["Buy"]) for row in found.lists["shopping"])
    assert bought == plan.plan.count
    assert min(each.place.x for layout in plan.plan.layouts for each in layout.placed) >= 9.5 * MM


def test_what_is_bought_is_as_long_as_the_hardware_list_says() -> None:
    hardware = {"sleeves": {"item": "bolt", "quantity": "2", "length": "sleeve", "use": "x"}}
    fine = {"sleeve": {"is": "18.6 mm", "precision": "caliper"}}
    parts = {"end": plate("90 mm", "90 mm")}
    found = taken(replace(content_of(parts, fine, hardware=hardware, market=SOLD), folder="content/trial"))
    (bought,) = (row.cells for row in found.lists["shopping"] if row.id.startswith("hardware"))
    listed = rows(found, "hardware")["sleeves"]
    assert listed["Length, mm"] == bought["Size, mm"] == "18.6"
