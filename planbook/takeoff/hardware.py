"""The hardware list: what to buy, how many as the design asks, with what it is for."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from planbook.design import Design, Hardware, Value
from planbook.measure import Units, round_plain
from planbook.measure.dimensionality import LENGTH, SCALAR
from planbook.shape.model import Part
from planbook.source.content import Content
from planbook.source.findings import Finding, Severity
from planbook.source.models.market import HardwareUseModel
from planbook.source.models.part import Edge, PartKind
from planbook.source.text import Text
from planbook.takeoff.model import ListRow
from planbook.takeoff.printing import both_systems, print_size

_MOST = 10_000
_ALONG = (Edge.FRONT, Edge.REAR)


@dataclass(frozen=True, slots=True)
class Use:
    """A line of the list, worked out: `count` pieces and so many `spares` of an item, `length` (nm) each, or 0."""

    key: str
    item: Hardware
    count: int
    spares: int
    length: Value | None
    use: str
    parts: tuple[int, ...]
    """Numbers of the parts that it goes into."""

    @property
    def bought(self) -> int:
        """With the spares."""
        return self.count + self.spares


def uses_of(
    content: Content, design: Design, parts: Mapping[str, Part], times: int
) -> tuple[tuple[Use, ...], tuple[Finding, ...]]:
    """One use a line of the file, for so many `times` the piece, then one for each strip that edges of parts get.

    Items that the market does not have are left out: reading reports them.
    """
    uses: list[Use] = []
    findings: list[Finding] = []
    for key, model in content.hardware.items():
        if str(model.item) not in design.hardware:
            continue
        length, found = _length(design, key, model)
        count, more = _count(design, key, model)
        findings += (*found, *more)
        if count is None or (length is None and model.length is not None):
            continue
        numbers = sorted(content.parts[part].number for part in model.parts if part in content.parts)
        item, spares = design.hardware[str(model.item)], model.spares
        uses.append(
            Use(str(key), item, count * _serves(content, model, times), spares, length, str(model.use), tuple(numbers))
        )
    return (*uses, *_strips(design, parts)), tuple(findings)


def hardware_list(uses: tuple[Use, ...], units: Units) -> tuple[ListRow, ...]:
    """One row a use."""
    return tuple(ListRow(use.key, _cells(use, units)) for use in uses)


def _cells(use: Use, units: Units) -> dict[str, str]:
    return {
        "Item": str(use.item.model.title),
        **both_systems("Length", [print_size(use.length, None, units)] if use.length else [], units),
        "Quantity": str(use.count),
        **({"Spares": str(use.spares)} if use.spares else {}),
        "Use": use.use,
        "Parts": ", ".join(str(number) for number in use.parts),
    }


def _count(design: Design, key: Text, use: HardwareUseModel) -> tuple[int | None, tuple[Finding, ...]]:
    value, found = design.solve(use.quantity, SCALAR)
    if value is None:
        return None, found
    count = round_plain(value.number, 1.0)
    if abs(count - value.number) < 1e-9 and 1 <= count <= _MOST:
        return int(count), found
    message = f"The quantity of `{key}` in the hardware list is `{use.quantity}`, which comes to {value.number:g}."
    remedy = f"It must be a whole number from 1 to {_MOST}: count differently, or round it with `ceil(...)`."
    return None, (*found, Finding("quantity-not-whole", Severity.STOP, message, remedy, use.quantity.place))


def _serves(content: Content, use: HardwareUseModel, times: int) -> int:
    """How many times a use is wanted: once where all that it goes into are jigs and test pieces, made once."""
    kinds = {content.parts[part].kind for part in use.parts if part in content.parts}
    return times if PartKind.PART in kinds or not kinds else 1


def _length(design: Design, key: Text, use: HardwareUseModel) -> tuple[Value | None, tuple[Finding, ...]]:
    if use.length is None:
        return None, ()
    value, found = design.solve(use.length, LENGTH)
    if value is None or value.number > 0:
        return value, found
    message = f"The length of `{key}` in the hardware list is `{use.length}`, which is not more than nothing."
    remedy = "Give a length greater than zero, or mend the parameters that it is worked out from."
    return None, (*found, Finding("size-not-positive", Severity.STOP, message, remedy, use.length.place))


def _strips(design: Design, parts: Mapping[str, Part]) -> Iterator[Use]:
    """A use for each edge of each part that gets a strip; alike edges are one."""
    for part in parts.values():
        edging = part.model.edging
        if edging is None or str(edging.item) not in design.hardware:
            continue
        for axis, name in ((0, "long edges"), (1, "ends")):
            edges = [edge for edge in edging.on if (edge in _ALONG) == (axis == 0)]
            if edges:
                item, count = design.hardware[str(edging.item)], len(edges) * part.quantity
                use = f"{name} of the {part.title.lower()}"
                yield Use(f"{part.key}/{name.split()[-1]}", item, count, 0, part.size[axis], use, (part.number,))
