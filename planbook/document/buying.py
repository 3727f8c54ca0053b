"""What to buy and how to cut it, as chapters: tables of the lists, and each layout with its cuts in order."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import Final

from markupsafe import Markup

from planbook.document.images import Image
from planbook.document.tables import Cell, Group, Row, Table, columns_of, sheet_links, told_row, unit_columns
from planbook.document.words import as_html, long_date
from planbook.statement.cut_order import cut_order
from planbook.statement.model import Box, LayoutStated, RowStated, Statement

_ONE: Final = {"sheet": "Sheet", "board": "Board", "rod": "Rod"}
_NO: Final = Markup("")
_BREAK: Final = Markup("<br>")


@dataclass(frozen=True, slots=True)
class LayoutShown:
    """A layout: its head (`Sheet 1 of 2`), its size, its picture, the cuts in order, what is left over."""

    head: str
    text: Markup
    image: Markup
    cuts: tuple[tuple[int, Markup], ...]
    offcuts: Markup
    routed: Markup
    """What a router's cutter leaves of inside corners; nothing for a saw."""


@dataclass(frozen=True, slots=True)
class StockShown:
    """The layouts of one stock; `count` is what is bought of it, with how good that is."""

    anchor: str
    title: str
    count: Markup
    layouts: tuple[LayoutShown, ...]


def stock_shown(statement: Statement, images: Mapping[str, Image]) -> tuple[StockShown, ...]:
    """All layouts, stock by stock."""
    return tuple(
        _stock(key, tuple(layouts), images) for key, layouts in groupby(statement.layouts, lambda each: each.stock)
    )


def _stock(key: str, layouts: Sequence[LayoutStated], images: Mapping[str, Image]) -> StockShown:
    first = layouts[0]
    word = _ONE[first.kind].lower() + ("" if first.count == 1 else "s")
    shown: list[LayoutShown] = []
    number = 1
    for layout in layouts:
        shown.append(_layout(layout, number, images[layout.id]))
        number += layout.times
    count = f"{first.count} {word}; {first.bound}."
    told = f"{count} Each cut takes {first.kerf}." if first.kerf else count
    return StockShown(f"layout.{key}", first.title, as_html(told), tuple(shown))


def _layout(layout: LayoutStated, number: int, image: Image) -> LayoutShown:
    last = number + layout.times - 1
    which = f"{number}" if layout.times == 1 else f"{number} to {last}, alike"
    of = f" of {layout.count}" if layout.times == 1 and layout.count > 1 else ""
    head = _ONE[layout.kind] + (f" {which}{of}" if layout.count > 1 else "")
    cuts = tuple((each.number, as_html(each.text)) for each in cut_order(layout))
    left = as_html("; ".join(each.text for each in layout.offcuts))
    return LayoutShown(head, as_html(layout.text), image.html, cuts, left, _routed(layout))


def _routed(layout: LayoutStated) -> Markup:
    """Where its inside corners matter, and what to do."""
    if layout.machine != "router":
        return _NO
    told = "Rout round each piece; they lie at least the cutter's diameter apart."
    if layout.radius:
        told += f" An inside corner keeps the cutter's radius, {layout.radius}."
    if any(_lies_in(piece.box, hole) for piece in layout.pieces for each in layout.pieces for hole in each.holes):
        told += " What lies in an opening is cut before the part round it."
    if layout.corners:
        listed = "; ".join(layout.corners)
        told += f" Corners that are drawn sharper: {listed}."
        told += " Square them by hand, or relieve each with a hole that just takes in its corner."
    return as_html(told)


def _lies_in(box: Box, hole: Sequence[tuple[float, float]]) -> bool:
    x, y, length, width = box
    xs, ys = zip(*hole, strict=True)
    return bool(min(xs) <= x and x + length <= max(xs) and min(ys) <= y and y + width <= max(ys))


def shopping_table(statement: Statement) -> Table | None:
    """The shopping list by group, with a box to tick."""
    rows = statement.lists.get("shopping", ())
    own, other = unit_columns(statement)
    costs = tuple(dict.fromkeys(name for row in rows for name in row.cells if name.startswith("Cost")))
    columns = ("Item", f"Size, {own}", f"Size, {other}", "Buy", "Note", *costs)
    looks = ("text", "size", "size second", "figures", "text", *("figures" for _ in costs))
    return _grouped("shopping", "What to buy", rows, "Group", tuple(zip(columns, looks, strict=True)))


def cost_words(statement: Statement) -> tuple[Markup, ...]:
    """Cost by group and in all, with what it is without; then of when and where the prices are. Nothing without any."""
    rows = {row.id: row.cells for row in statement.lists.get("cost", ())}
    if not rows:
        return ()
    column = next(name for name in rows["total"] if name.startswith("Cost"))
    currency = column.rpartition(" ")[2]
    groups = "; ".join(
        f"{cells['Of'].lower()} {cells[column]}" for name, cells in rows.items() if name not in ("total", "prices")
    )
    without = f", {rows['total']['Note']}" if rows["total"]["Note"] else ""
    asked = long_date(rows["prices"][column])
    where = f", {rows['prices']['Note']}" if rows["prices"]["Note"] else ""
    return (
        Markup("<strong>Cost: {} {}</strong>{} ({}).").format(currency, rows["total"][column], without, groups),
        as_html(f"Prices of {asked}{where}. Yours will differ; tools, glue and abrasives are not in it."),
    )


def weight_words(statement: Statement) -> tuple[Markup, ...]:
    """What it weighs, in one line; nothing where no stock says a density."""
    rows = {row.id: row.cells for row in statement.lists.get("weight", ())}
    if not rows:
        return ()
    told = "; ".join(f"{cells['Of'].lower()} {cells['Weight']}" for cells in rows.values())
    return (Markup("<strong>Weight:</strong> {}, {}.").format(as_html(told), rows["shipped"]["Note"]),)


def cutting_table(statement: Statement) -> Table | None:
    """The cut list by stock; both systems stand in one cell, one under the other."""
    own, other = unit_columns(statement)
    stated = statement.lists.get("cutting", ())
    edged = any(row.cells.get("Edges") for row in stated)
    heads = [("Part", "no"), ("Description", "text"), ("Qty", "figures"), (f"Finished, {own}", "size"),
             (f"Rough, {own}", "size"), ("Grain", "text"), *((("Edges", "text"),) if edged else ()),
             ("Sheet", "figures"), ("Remarks", "text")]  # fmt: skip
    groups = []
    for stock, rows in groupby(stated, lambda row: row.cells["Stock"]):
        groups.append(Group(stock, tuple(_cut_row(row, statement, (own, other), edged=edged) for row in rows)))
    every = [row for group in groups for row in group.rows]
    if not every:
        return None
    measured = [Row(tuple(Cell(_longest(cell.html)) for cell in row.cells)) for row in every]
    return Table("cutting", "Cut list", columns_of(heads, measured), tuple(groups))


def _longest(html: Markup) -> Markup:
    """Of the two lines of a cell the longer, by which its column is as wide as it has to be."""
    return max(html.split(_BREAK), key=lambda line: len(line.striptags()))


def _cut_row(row: RowStated, statement: Statement, units: tuple[str, str], *, edged: bool) -> Row:
    cells = row.cells
    own, other = units

    def both(name: str) -> Cell:
        first, second = as_html(cells[f"{name}, {own}"]), as_html(cells[f"{name}, {other}"])
        return Cell(first + _BREAK + Markup('<span class="second">{}</span>').format(second))

    sheet = statement.parts[row.id].sheet if row.id in statement.parts else ""
    return Row((
        Cell(as_html(cells["Part"])), Cell(as_html(cells["Description"])), Cell(as_html(cells["Quantity"])),
        both("Finished"), both("Rough"), Cell(as_html(cells["Grain"])),
        *((Cell(as_html(cells.get("Edges", ""))),) if edged else ()),
        Cell(sheet_links((sheet,), statement) if sheet else _NO), Cell(as_html(cells["Remarks"])),
    ), told=told_row("cutting", row))  # fmt: skip


def _grouped(
    name: str, title: str, rows: Sequence[RowStated], by: str, heads: Sequence[tuple[str, str]]
) -> Table | None:
    """A list under headings of its own, in the order of its rows, without columns in which no row says anything."""
    said = [head for head in heads if any(row.cells.get(head[0]) for row in rows)]
    groups = tuple(
        Group(group, tuple(_row(name, row, [column for column, _ in said]) for row in same))
        for group, same in groupby(rows, lambda row: row.cells.get(by, ""))
    )
    every = [row for group in groups for row in group.rows]
    return Table(name, title, columns_of(said, every), groups) if every else None


def _row(name: str, row: RowStated, columns: Sequence[str]) -> Row:
    return Row(tuple(Cell(as_html(row.cells.get(column, ""))) for column in columns), told=told_row(name, row))


def tables_of(*tables: Table | None) -> Iterator[Table]:
    """Those that hold anything."""
    return (table for table in tables if table is not None)
