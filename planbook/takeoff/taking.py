"""Taking off: from the shaped parts of an edition to all that is bought, cut, listed and paid."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from planbook.cutting import Why
from planbook.design import Design
from planbook.measure import Units
from planbook.shape.model import Part
from planbook.source.content import Content
from planbook.source.findings import Finding, Place
from planbook.takeoff.buying import Purchase, purchases_of
from planbook.takeoff.costing import Cost, cost_of
from planbook.takeoff.cut_list import cut_list
from planbook.takeoff.finishing import finishes_of
from planbook.takeoff.grids import Grid, cost_grid, cutting_grid, hardware_grid, shopping_grid, weight_grid
from planbook.takeoff.hardware import Use, hardware_list, uses_of
from planbook.takeoff.layouts import MOST, StockPlan, plan_stock
from planbook.takeoff.making import for_pieces
from planbook.takeoff.materials import materials_list
from planbook.takeoff.model import ListRow
from planbook.takeoff.parts import parts_list
from planbook.takeoff.pieces import Pieces, of_stock, pieces_of
from planbook.takeoff.shopping import cost_list, shopping_list
from planbook.takeoff.sizes import check_group, check_kerf, check_many, check_plan, check_thickness, check_together
from planbook.takeoff.ways import CuttingWay, way_of
from planbook.takeoff.weight import densities_of, weight_list, weight_of

Findings = tuple[Finding, ...]


@dataclass(frozen=True)
class TakenOff:
    """`lists` by name: parts, materials, hardware, shopping, cutting, cost where there are prices, and
    weight where there are densities."""

    lists: Mapping[str, tuple[ListRow, ...]]
    plans: tuple[StockPlan, ...]
    """Those that are drawn."""
    uses: tuple[Use, ...]
    grids: tuple[Grid, ...]


def take_off(
    content: Content, design: Design, parts: Mapping[str, Part], units: Units, times: int = 1
) -> tuple[TakenOff, Findings]:
    """All lists and plans for so many `times` the piece. What a finding stops is left out of them."""
    parts = for_pieces(parts, times)
    uses, findings = uses_of(content, design, parts, times)
    ways, found = _ways(content, design, parts, units)
    pieces = pieces_of(content, design, parts, ways, units)
    plans, more = _plans(content, design, ways, pieces)
    finishes, finishing = finishes_of(content, design, parts)
    purchases = purchases_of(design, plans, uses, finishes)
    cost, pricing = _cost(content, design, purchases)
    weight = weight_of(
        parts, densities_of(design), uses, {key: str(each.model.title) for key, each in design.stock.items()}
    )
    lists = {
        "parts": parts_list(design, parts, units),
        "materials": materials_list(design, parts, units),
        "hardware": hardware_list(uses, units),
        "shopping": shopping_list(purchases, cost, units),
        "cutting": cut_list(content, pieces, parts, units),
        **({"cost": cost_list(cost)} if cost is not None else {}),
        **({"weight": weight_list(weight, units)} if weight is not None else {}),
    }
    grids = (
        cutting_grid(pieces, lists["cutting"]),
        hardware_grid(uses),
        shopping_grid(purchases, cost, lists["shopping"]),
    )
    drawn = tuple(plan for plan in plans if sum(each.count for each in plan.pieces) <= MOST)
    priced = (cost_grid(cost),) if cost is not None else ()
    weighed = (weight_grid(weight),) if weight is not None else ()
    taken = TakenOff(lists, drawn, uses, (*grids, *priced, *weighed))
    checked = (*check_thickness(design, parts, units), *check_together(content, parts))
    return taken, (*findings, *found, *more, *finishing, *pricing, *checked)


def _ways(
    content: Content, design: Design, parts: Mapping[str, Part], units: Units
) -> tuple[dict[str, CuttingWay], Findings]:
    """By stock, in the market's order."""
    ways: dict[str, CuttingWay] = {}
    findings: list[Finding] = []
    used = {part.stock for part in parts.values()}
    for key, stock in design.stock.items():
        if key in used:
            way, found = way_of(content, design, stock, units)
            # A measure for several stocks is wrong once.
            findings += (each for each in found if (each.code, each.place) not in _known(findings))
            if way is not None:
                ways[key] = way
    return ways, tuple(findings)


def _known(findings: Sequence[Finding]) -> set[tuple[str, Place | None]]:
    return {(each.code, each.place) for each in findings}


def _plans(
    content: Content, design: Design, ways: Mapping[str, CuttingWay], pieces: Sequence[Pieces]
) -> tuple[tuple[StockPlan, ...], Findings]:
    plans: list[StockPlan] = []
    findings: list[Finding] = []
    for key, some in of_stock(pieces).items():
        stock, way = design.stock[key], ways[key]
        kerf = tuple(check_kerf(content, stock, way, some))
        findings += (each for each in kerf if (each.code, each.place) not in _known(findings))
        plan = None if kerf else plan_stock(design, stock, way, some)
        if plan is None:
            continue
        split = {plan.of_key(left.piece).group for left in plan.plan.unplaced if left.why is Why.GROUP_TOO_LARGE}
        if split:
            findings += (check_group(content, name) for name in sorted(split))
            apart = [replace(each, group="") if each.group in split else each for each in some]
            plan = plan_stock(design, stock, way, apart)
        if plan is not None:
            findings += check_plan(design, plan)
            plans.append(plan)
        count = sum(each.count for each in some)
        if count > MOST:
            findings.append(check_many(stock, count, MOST, some[0].part.model.stock.place))
    return tuple(plans), tuple(findings)


def _cost(content: Content, design: Design, purchases: Sequence[Purchase]) -> tuple[Cost | None, Findings]:
    """None where the author gives no prices for the market."""
    prices = content.prices.get(design.market)
    if prices is None:
        return None, ()
    return cost_of(prices, purchases, f"{content.folder}/prices/{design.market}.yaml")
