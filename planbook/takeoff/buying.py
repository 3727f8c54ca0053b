"""What is bought: whole sheets, boards and rods by the plans of cutting; hardware with its spares; packs of finish."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum

from planbook.design import Design
from planbook.measure.dimensionality import SCALAR
from planbook.source.models.market import StockKind
from planbook.source.models.prices import Per
from planbook.takeoff.finishing import Finish
from planbook.takeoff.hardware import Use
from planbook.takeoff.layouts import StockPlan
from planbook.takeoff.pieces import rough_thickness
from planbook.takeoff.timber import FOOT, METRE, board_feet, cubic_metres


class Group(StrEnum):
    """What is bought in one place."""

    STOCK = "Sheets, boards and rods"
    HARDWARE = "Hardware"
    FINISH = "Finish"


@dataclass(frozen=True)
class Purchase:
    """A line of the shopping list. `size` in nanometres: length and width of stock, length of hardware, or nothing.

    `measures` is how much it is by each measure that a price may be for. `of` is where it comes from.
    """

    group: Group
    key: str
    """Of the market table."""
    title: str
    size: tuple[float, ...]
    count: int
    measures: dict[Per, float]
    of: StockPlan | tuple[Use, ...] | Finish
    place: int = 0
    """Of its size among the sizes sold."""
    allowance: float = 0.0
    """The share added for knots and splits."""


def purchases_of(
    design: Design, plans: Sequence[StockPlan], uses: Sequence[Use], finishes: Sequence[Finish]
) -> tuple[Purchase, ...]:
    """All of it, group by group, in the order of the market's table and of the hardware list."""
    stock = (purchase for plan in plans for purchase in _stock(design, plan))
    finish = (
        Purchase(Group.FINISH, str(each.use.item), str(each.model.title), (), each.packs, {Per.PIECE: each.packs}, each)
        for each in finishes
    )
    return (*stock, *_hardware(uses), *finish)


def _stock(design: Design, plan: StockPlan) -> Iterator[Purchase]:
    """One line a size that the plan uses: rough boards of resawn ones, layers of what is glued up. One of none, where
    no size serves.
    """
    stock, bought = plan.stock, dict.fromkeys(plan.sizes, 0)
    if not plan.plan.layouts:
        yield Purchase(Group.STOCK, stock.key, str(stock.model.title), (), 0, {}, plan)
    for layout in plan.plan.layouts:
        bought[layout.stock] += layout.times
    allowance = _allowance(design, plan)
    for place, (key, size) in enumerate(plan.sizes.items()):
        if bought[key]:
            count = math.ceil(bought[key] * stock.model.layers / stock.model.yields)
            measures = _measures(stock.model.kind, (size.length, size.width, rough_thickness(design, stock)), count)
            for per in (Per.BOARD_FOOT, Per.CUBIC_METRE):
                if per in measures:
                    measures[per] *= 1 + allowance
            title, lengths = str(stock.model.title), (float(size.length), float(size.width))
            yield Purchase(Group.STOCK, stock.key, title, lengths, count, measures, plan, place, allowance)


def _allowance(design: Design, plan: StockPlan) -> float:
    share = plan.stock.model.allowance
    value = design.solve(share, SCALAR)[0] if share is not None else None
    return value.number if value is not None else 0.0


def _measures(kind: StockKind, size: tuple[float, float, float], count: int) -> dict[Per, float]:
    length, width, _ = size
    measures: dict[Per, float] = {Per.PIECE: count}
    if kind is StockKind.SHEET:
        measures |= {
            Per.SQUARE_METRE: count * length * width / METRE**2,
            Per.SQUARE_FOOT: count * length * width / FOOT**2,
        }
    else:
        measures |= {Per.METRE: count * length / METRE, Per.FOOT: count * length / FOOT}
    if kind is StockKind.BOARD:
        measures |= {Per.BOARD_FOOT: count * board_feet(*size), Per.CUBIC_METRE: count * cubic_metres(*size)}
    return measures


def _hardware(uses: Sequence[Use]) -> Iterator[Purchase]:
    """The same item of the same length is one line, whatever it is for."""
    lines: dict[tuple[str, float], list[Use]] = {}
    for use in uses:
        lines.setdefault((use.item.key, use.length.number if use.length is not None else 0.0), []).append(use)
    for (key, length), same in lines.items():
        count = sum(use.bought for use in same)
        measures: dict[Per, float] = {Per.PIECE: count}
        if length:
            measures |= {Per.METRE: count * length / METRE, Per.FOOT: count * length / FOOT}
        title = str(same[0].item.model.title)
        yield Purchase(Group.HARDWARE, key, title, (length,) if length else (), count, measures, tuple(same))
