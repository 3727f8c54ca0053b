"""Cost: what is bought by the author's prices, by group; what has no price is named, and the sum is without it."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal

from planbook.source.findings import Finding, Place, Severity
from planbook.source.models.prices import PriceModel, PricesModel
from planbook.source.text import Text
from planbook.takeoff.buying import Group, Purchase

_CENT = Decimal("0.01")


@dataclass(frozen=True)
class Cost:
    """What the purchases cost, by their place in the list; the titles of those `without` a price, each once."""

    prices: PricesModel
    lines: Mapping[int, Decimal]
    groups: Mapping[Group, Decimal]
    without: tuple[str, ...]

    @property
    def total(self) -> Decimal:
        """Of all that has a price."""
        return sum(self.groups.values(), Decimal(0))


def cost_of(prices: PricesModel, purchases: Sequence[Purchase], place: str) -> tuple[Cost, tuple[Finding, ...]]:
    """The cost, and a note for each thing without a price. `place` is the price file."""
    lines: dict[int, Decimal] = {}
    findings: list[Finding] = []
    missing: dict[str, Purchase] = {}
    for number, purchase in enumerate(purchases):
        price = _table(prices, purchase.group).get(Text(purchase.key))
        if price is None or not purchase.count:
            missing.setdefault(purchase.title, purchase)
            continue
        amount = _amount(price, purchase)
        if amount is None:
            findings.append(_wrong_measure(price, purchase))
            missing.setdefault(purchase.title, purchase)
        else:
            lines[number] = amount
    unpriced = (each for each in missing.values() if each.key not in _table(prices, each.group))
    findings += [_missing(each, prices, place) for each in unpriced]
    groups: dict[Group, Decimal] = {}
    for number, amount in lines.items():
        group = purchases[number].group
        groups[group] = groups.get(group, Decimal(0)) + amount
    return Cost(prices, lines, groups, tuple(missing)), tuple(findings)


def _table(prices: PricesModel, group: Group) -> Mapping[Text, PriceModel]:
    return {Group.STOCK: prices.stock, Group.HARDWARE: prices.hardware, Group.FINISH: prices.finishes}[group]


def _amount(price: PriceModel, purchase: Purchase) -> Decimal | None:
    """In the currency, to a cent; None where it is not bought by what the price is for."""
    if price.by_size:
        one = price.by_size[purchase.place] if purchase.place < len(price.by_size) else None
        return None if one is None else (Decimal(str(one)) * purchase.count).quantize(_CENT, ROUND_HALF_UP)
    much = purchase.measures.get(price.per)
    if much is None or price.price is None:
        return None
    packs = Decimal(math.ceil(much / price.pack - 1e-9)) if price.pack > 1 else Decimal(f"{much:.6f}")
    return (Decimal(str(price.price)) * packs).quantize(_CENT, ROUND_HALF_UP)


def _wrong_measure(price: PriceModel, purchase: Purchase) -> Finding:
    known = ", ".join(f"`{per}`" for per in purchase.measures)
    place = (price.by_size[0] if price.by_size else price.price or Text("")).place
    if price.by_size:
        message = f"{purchase.title} is bought in a size for which `by_size` has no price."
        remedy = "Give one price for each size of the market's table, in its order."
    else:
        message = f"{purchase.title} is not bought by the {str(price.per).replace('_', ' ')}."
        remedy = f"Give its price by one of these: {known}."
    return Finding("price-without-measure", Severity.STOP, message, remedy, place)


def _missing(purchase: Purchase, prices: PricesModel, file: str) -> Finding:
    message = f"Nothing tells what {purchase.title} costs, so the cost is printed without it."
    remedy = f"Add `{purchase.key}` to the prices, in {prices.currency}."
    return Finding("price-missing", Severity.NOTE, message, remedy, Place(file, 1, 1))
