"""What more has to be bought, what is left over, and which stock is another."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from planbook.impact.model import ItemImpact
from planbook.statement.model import RowStated, Statement

HARDWARE, MATERIALS = "hardware", "materials"
_Item = tuple[str, str]


def items(old: Statement, new: Statement) -> tuple[ItemImpact, ...]:
    """Hardware by item and length, then materials."""
    return (*_hardware(old, new), *_materials(old, new))


def _hardware(old: Statement, new: Statement) -> Iterator[ItemImpact]:
    before, after = (_counted(side.lists.get(HARDWARE, ())) for side in (old, new))
    for item in dict.fromkeys((*after, *before)):
        more = after.get(item, 0) - before.get(item, 0)
        if more:
            name = " × ".join(filter(None, item))
            said = f"buy {more} {'more' if item in before else ''}".rstrip() if more > 0 else f"{-more} left over"
            yield ItemImpact(HARDWARE, name, f"{said}: {name}", more, asks=more > 0)


def _counted(rows: tuple[RowStated, ...]) -> Mapping[_Item, int]:
    """How many of each item and length, over all its uses."""
    counted: dict[_Item, int] = {}
    for row in rows:
        item = (row.cells.get("Item", row.id), _length(row.cells))
        counted[item] = counted.get(item, 0) + _number(row.cells.get("Quantity", ""))
    return counted


def _length(cells: Mapping[str, str]) -> str:
    """In the edition's own unit: what stands in brackets is for reference."""
    columns = ((column, text) for column, text in cells.items() if column.startswith("Length"))
    return next((f"{text} {column.partition(', ')[2]}" for column, text in columns if text and text[0] != "["), "")


def _number(text: str) -> int:
    return int(text) if text.isdecimal() else 0


def _materials(old: Statement, new: Statement) -> Iterator[ItemImpact]:
    before, after = ({row.id: row for row in side.lists.get(MATERIALS, ())} for side in (old, new))
    for key, row in after.items():
        if key not in before:
            yield ItemImpact(MATERIALS, key, f"buy: {_material(row)}", 1)
        elif (was := _material(before[key])) != (now := _material(row)):
            yield ItemImpact(MATERIALS, key, f"{was} → {now}", asks=False)
    for key, row in before.items():
        if key not in after:
            yield ItemImpact(MATERIALS, key, f"no longer needed: {_material(row)}", -1, asks=False)


def _material(row: RowStated) -> str:
    """`18 mm birch plywood, accepted 17.6 to 18.4 mm`."""
    accepted = next(
        (
            f"accepted {text} {column.partition(', ')[2]}"
            for column, text in row.cells.items()
            if column.startswith("Accepted") and text
        ),
        "",
    )
    return ", ".join(filter(None, (row.cells.get("Material", row.id), accepted)))
