"""The cut list: every piece by stock, with its finished and its rough size."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from planbook.measure import Precision, Quantity, Units, print_quantity
from planbook.measure.dimensionality import LENGTH
from planbook.shape.model import Part
from planbook.source.content import Content
from planbook.source.models.market import Grain, StockKind
from planbook.source.text import Text
from planbook.takeoff.model import ListRow
from planbook.takeoff.parts import hands_words, kind_words, method_remarks
from planbook.takeoff.pieces import Pieces
from planbook.takeoff.printing import both_systems, print_size

FINISHED, ROUGH = "Finished", "Rough"


def cut_list(
    content: Content, pieces: Sequence[Pieces], parts: Mapping[str, Part], units: Units
) -> tuple[ListRow, ...]:
    """One row a part, by stock, the longest first."""
    return tuple(ListRow(each.part.key, _cells(content, each, parts, units)) for each in pieces)


def grain_words(each: Pieces) -> str:
    """Which way the grain of a piece runs: along its length, either way, or none to heed."""
    if each.stock.model.grain is Grain.NONE:
        return "none"
    return "either way" if each.turnable else "length"


def edge_words(part: Part) -> str:
    """Which edges get a strip: `front, left`."""
    return ", ".join(part.model.edging.on) if part.model.edging is not None else ""


def rough_sizes(each: Pieces) -> tuple[float, ...]:
    """What is cut: of rod only a length."""
    return each.rough[:1] if each.stock.model.kind is StockKind.ROD else each.rough


def _cells(content: Content, each: Pieces, parts: Mapping[str, Part], units: Units) -> dict[str, str]:
    part = each.part
    finished = [print_size(value, part.model.precision, units) for value in part.size]
    rough = [print_quantity(Quantity(size, LENGTH), units, Precision.WOODWORK) for size in rough_sizes(each)]
    edges = edge_words(part)
    return {
        "Stock": str(each.stock.model.title),
        "Part": str(part.number),
        "Description": part.title,
        "Quantity": str(each.count),
        **both_systems(FINISHED, finished, units, " × "),
        **both_systems(ROUGH, rough, units, " × "),
        "Grain": grain_words(each),
        **({"Edges": edges} if edges else {}),
        "Remarks": ", ".join(filter(None, _remarks(content, each, parts))),
    }


def _remarks(content: Content, each: Pieces, parts: Mapping[str, Part]) -> Iterator[str]:
    part = each.part
    yield kind_words(part)
    yield hands_words(part)
    if each.strips > 1:
        yield f"each glued up of {each.strips}"
    elif part.quantity != each.count:
        yield f"{part.quantity} made"
    yield from method_remarks(part, parts)
    if each.group:
        group = content.cutting.together[Text(each.group)]
        others = sorted(parts[str(key)].number for key in group.parts if key != part.key)
        yield f"from one piece with {_numbers(others)}: {group.because}"


def _numbers(numbers: Sequence[int]) -> str:
    words = [str(number) for number in numbers]
    return " and ".join(filter(None, (", ".join(words[:-1]), words[-1])))
