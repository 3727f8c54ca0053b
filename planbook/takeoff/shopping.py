"""The shopping list and what it costs, as rows that print on one page."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from planbook.measure import UNIT_SIGNS, Direction, Precision, Printed, Quantity, Units, print_quantity, round_plain
from planbook.measure.dimensionality import LENGTH
from planbook.source.models.market import StockKind
from planbook.source.models.prices import Per
from planbook.takeoff.buying import Purchase
from planbook.takeoff.costing import Cost
from planbook.takeoff.finishing import Finish
from planbook.takeoff.hardware import Use
from planbook.takeoff.layouts import StockPlan
from planbook.takeoff.materials import accepted_words
from planbook.takeoff.model import ListRow
from planbook.takeoff.printing import both_systems
from planbook.takeoff.timber import FOOT, METRE

_TIMBER: Final = {Units.INCH: (Per.BOARD_FOOT, Per.CUBIC_METRE), Units.MILLIMETRE: (Per.CUBIC_METRE, Per.BOARD_FOOT)}
_AMOUNTS: Final = {Per.BOARD_FOOT: ("board feet", 0.1, 1), Per.CUBIC_METRE: ("m³", 0.001, 3)}
_SURFACE: Final = {Units.INCH: ("ft²", FOOT**2, 0.1, 1), Units.MILLIMETRE: ("m²", METRE**2, 0.01, 2)}


def shopping_list(purchases: Sequence[Purchase], cost: Cost | None, units: Units) -> tuple[ListRow, ...]:
    """One row a purchase, with its cost where there are prices."""
    rows = []
    known: set[str] = set()
    for number, purchase in enumerate(purchases):
        notes = _notes(purchase, purchases, units, first=purchase.key not in known)
        known.add(purchase.key)
        cells = {
            "Group": str(purchase.group),
            "Item": purchase.title,
            **both_systems("Size", _printed_sizes(purchase, units), units, " × "),
            "Buy": str(purchase.count),
            "Note": "; ".join(notes),
            **({} if cost is None else {_column(cost): f"{cost.lines[number]:.2f}" if number in cost.lines else ""}),
        }
        rows.append(ListRow(_id(purchase), cells))
    return tuple(rows)


def cost_list(cost: Cost) -> tuple[ListRow, ...]:
    """A row a group, then the sum, which says what it is without, then of when the prices are."""
    groups = (
        ListRow(group.name.lower(), {"Of": str(group), _column(cost): f"{amount:.2f}"})
        for group, amount in cost.groups.items()
    )
    without = f"without {listed(cost.without)}" if cost.without else ""
    total = {"Of": "All of it", _column(cost): f"{cost.total:.2f}", "Note": without}
    asked = {"Of": "Prices of", _column(cost): cost.prices.asked.isoformat(), "Note": str(cost.prices.source)}
    return (*groups, ListRow("total", total), ListRow("prices", asked))


def bound_words(plan: StockPlan) -> str:
    """How good the plan is: `no plan needs fewer`, or the least that any plan needs; then the parts that it lacks."""
    told = "no plan needs fewer" if plan.plan.proved else f"any plan needs {plan.plan.bound.count} or more"
    return "; ".join(filter(None, (told if plan.plan.count else "", _lacking(plan))))


def _lacking(plan: StockPlan) -> str:
    """`no size sold holds part 5`; nothing where every piece has its place."""
    numbers = sorted({plan.of_key(left.piece).part.number for left in plan.plan.unplaced})
    return f"no size sold holds {_parts(numbers)}" if numbers else ""


def timber_words(sizes: Sequence[Purchase], units: Units) -> str:
    """How much rough timber these boards are, rounded up: `0.081 m³ [34.4 board feet]`."""
    texts = []
    for per in _TIMBER[units]:
        name, step, decimals = _AMOUNTS[per]
        much = sum(each.measures[per] for each in sizes)
        texts.append(f"{round_plain(much, step, Direction.UP):.{decimals}f} {name}")
    return f"{texts[0]} [{texts[1]}]"


def listed(words: Sequence[str]) -> str:
    """`a, b and c`."""
    return " and ".join(filter(None, (", ".join(words[:-1]), words[-1])))


def _column(cost: Cost) -> str:
    return f"Cost, {cost.prices.currency}"


def _id(purchase: Purchase) -> str:
    """Group, key, and which of the sizes sold or how long: what tells one line from the others."""
    told = (purchase.place,) if isinstance(purchase.of, StockPlan) else tuple(round(each) for each in purchase.size)
    return "/".join((purchase.group.name.lower(), purchase.key, *map(str, told)))


def _sizes(purchase: Purchase) -> tuple[float, ...]:
    rod = isinstance(purchase.of, StockPlan) and purchase.of.stock.model.kind is StockKind.ROD
    return purchase.size[:1] if rod else purchase.size


def _printed_sizes(purchase: Purchase, units: Units) -> list[Printed]:
    """As finely as the hardware list prints the length of the same thing."""
    uses = purchase.of if isinstance(purchase.of, tuple) else ()
    fine = any(use.length is not None and use.length.precision is Precision.CALIPER for use in uses)
    precision = Precision.CALIPER if fine else Precision.WOODWORK
    return [print_quantity(Quantity(nm, LENGTH), units, precision) for nm in _sizes(purchase)]


def _notes(purchase: Purchase, every: Sequence[Purchase], units: Units, *, first: bool) -> Iterator[str]:
    match purchase.of:
        case StockPlan():
            if first:
                yield from _stock_notes(purchase.of, [each for each in every if each.of is purchase.of], units)
        case Finish():
            yield from _finish_notes(purchase.of, units)
        case uses:
            yield from _hardware_notes(uses)


def _stock_notes(plan: StockPlan, sizes: Sequence[Purchase], units: Units) -> Iterator[str]:
    """On the first of the lines of a stock."""
    stock = plan.stock
    if not plan.plan.count:
        yield bound_words(plan)
        return
    accepted = accepted_words(stock, units)
    thick = f"{accepted} {UNIT_SIGNS[units]} thick" if accepted and stock.model.kind is StockKind.SHEET else ""
    glued = f"{stock.model.layers} glued together to one" if stock.model.layers > 1 else ""
    if glued or thick:
        yield ", ".join(filter(None, (glued, thick)))
    yield f"{plan.plan.count} in all, {bound_words(plan)}" if len(sizes) > 1 else bound_words(plan)
    if stock.model.yields > 1:
        yield f"each resawn into {stock.model.yields}"
    if stock.model.kind is StockKind.BOARD:
        share = f", with {100 * sizes[0].allowance:.0f} % for knots and splits" if sizes[0].allowance else ""
        yield f"{timber_words(sizes, units)}{share}"


def _finish_notes(finish: Finish, units: Units) -> Iterator[str]:
    unit, size, step, decimals = _SURFACE[units]
    area = f"{round_plain(finish.area / size, step, Direction.UP):.{decimals}f} {unit}"
    coats = finish.use.coats
    yield f"{finish.model.pack} each"
    yield f"{coats} {'coat' if coats == 1 else 'coats'} on {area}"


def _hardware_notes(uses: Sequence[Use]) -> Iterator[str]:
    spares = sum(use.spares for use in uses)
    if spares:
        yield f"{spares} to spare"
    numbers = sorted({number for use in uses for number in use.parts})
    if numbers:
        yield f"for {_parts(numbers)}"


def _parts(numbers: Sequence[int]) -> str:
    return f"{'part' if len(numbers) == 1 else 'parts'} {listed([str(each) for each in numbers])}"
