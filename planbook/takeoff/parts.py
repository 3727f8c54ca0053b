"""The parts list: the columns of ISO 7573 in the trade's words, the size in both systems."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from planbook.design import Design
from planbook.measure import Units
from planbook.shape import SIZE_NAMES, method_words
from planbook.shape.model import Part
from planbook.source.models.part import PartKind
from planbook.source.text import Text
from planbook.takeoff.model import ListRow
from planbook.takeoff.printing import both_systems, print_size

_KINDS = {PartKind.PART: "", PartKind.JIG: "jig", PartKind.TEST_PIECE: "test piece"}


def parts_list(design: Design, parts: Mapping[str, Part], units: Units) -> tuple[ListRow, ...]:
    """One row a part, in the order of part numbers: reference, what it is, how many, of what, its size, its sheet."""
    return tuple(ListRow(key, _cells(design, part, parts, units)) for key, part in parts.items())


def _cells(design: Design, part: Part, parts: Mapping[str, Part], units: Units) -> dict[str, str]:
    stock = design.stock.get(part.stock)
    sizes = [print_size(value, part.model.precision, units) for value in part.size]
    return {
        "Part": str(part.number),
        "Description": part.title,
        "Quantity": str(part.quantity),
        "Material": str(stock.model.title) if stock else part.stock,
        **both_systems("Length × width × thickness", sizes, units, " × "),
        "Sheet": part.sheet,
        "Remarks": ", ".join(filter(None, (kind_words(part), hands_words(part), *method_remarks(part, parts)))),
    }


def kind_words(part: Part) -> str:
    """`jig` or `test piece`; "" for what stays in the piece."""
    return _KINDS[part.kind]


def method_remarks(part: Part, parts: Mapping[str, Part]) -> Iterator[str]:
    """How the blank gets its size, where not to its number: `length cut oversize, then trim`."""
    for name in SIZE_NAMES:
        wish = part.model.dimensions.get(Text(f"blank/{name}"))
        words = method_words(wish.method, parts) if wish is not None else ""
        if words:
            yield f"{name} {words}"


def hands_words(part: Part) -> str:
    """How many of each hand, when some are mirrored."""
    if not part.mirrored:
        return ""
    drawn, mirrored = part.as_drawn, part.mirrored
    if part.model.marks is not None:
        named = ((drawn, part.model.marks.as_drawn), (mirrored, part.model.marks.mirrored))
        return ", ".join(f"{count} {name}" for count, name in named if count)
    return f"{drawn} as drawn, {mirrored} mirrored" if drawn else "all mirrored"
