"""The hardware list: what to buy, with what it is for."""

from __future__ import annotations

from planbook.design import Design, Value
from planbook.measure import Units
from planbook.measure.dimensionality import LENGTH
from planbook.source.content import Content
from planbook.source.findings import Finding, Severity
from planbook.source.models.market import HardwareUseModel
from planbook.takeoff.model import ListRow
from planbook.takeoff.printing import both_systems, print_size


def hardware_list(content: Content, design: Design, units: Units) -> tuple[ListRow, ...]:
    """One row a use, in file order. Items that the market does not have are left out: reading reports them."""
    return tuple(
        ListRow(str(key), _cells(content, design, use, units))
        for key, use in content.hardware.items()
        if str(use.item) in design.hardware
    )


def check_hardware(content: Content, design: Design) -> tuple[Finding, ...]:
    """What is wrong with the lengths of the list: formulas that do not solve, and lengths of nothing or less."""
    findings: list[Finding] = []
    for key, use in content.hardware.items():
        if use.length is None:
            continue
        value, found = design.solve(use.length, LENGTH)
        findings += found
        if value is not None and value.number <= 0:
            message = f"The length of `{key}` in the hardware list is `{use.length}`, which is not more than nothing."
            remedy = "Give a length greater than zero, or mend the parameters that it is worked out from."
            findings.append(Finding("size-not-positive", Severity.STOP, message, remedy, use.length.place))
    return tuple(findings)


def _cells(content: Content, design: Design, use: HardwareUseModel, units: Units) -> dict[str, str]:
    length = _length(design, use)
    numbers = sorted(content.parts[key].number for key in use.parts if key in content.parts)
    return {
        "Item": str(design.hardware[str(use.item)].model.title),
        **both_systems("Length", [print_size(length, None, units)] if length else [], units),
        "Quantity": str(use.quantity),
        "Use": str(use.use),
        "Parts": ", ".join(str(number) for number in numbers),
    }


def _length(design: Design, use: HardwareUseModel) -> Value | None:
    return None if use.length is None else design.solve(use.length, LENGTH)[0]
