"""Charts: the curves of a figure, sampled while one parameter runs and everything that hangs on it follows."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from planbook.design import Design, Plan, evaluate
from planbook.measure import UNITS, Quantity, Units
from planbook.measure.dimensionality import (
    ANGLE,
    FORCE,
    LENGTH,
    MASS,
    PRESSURE,
    SCALAR,
    TIME,
    TORQUE,
    Dimensionality,
)
from planbook.source.findings import Finding, Severity
from planbook.source.models.figures import ChartModel
from planbook.source.text import Text
from planbook.statement.stated import ChartData, CurveData, LimitData

Findings = tuple[Finding, ...]
_SIGNS: dict[Dimensionality, tuple[str, str]] = {
    LENGTH: ("in", "mm"), FORCE: ("lbf", "N"), MASS: ("lb", "kg"), PRESSURE: ("psi", "MPa"), ANGLE: ("deg", "deg"),
    TIME: ("s", "s"), TORQUE: ("lbf·ft", "N·m"), SCALAR: ("", ""),
}  # fmt: skip
"""Units of an axis, in an edition in inches and in millimetres."""


@dataclass(frozen=True, slots=True)
class Axis:
    """An axis of a chart: `factor` base units make one `unit`."""

    kind: Dimensionality
    unit: str
    factor: float

    def measure(self, values: Iterable[float]) -> tuple[float, ...]:
        """Base units in the axis's own."""
        return tuple(value / self.factor for value in values)


@dataclass(frozen=True, slots=True)
class _Frame:
    """Axes, the ends of the sweep and the levels of the limits, these in base units."""

    x: Axis
    y: Axis
    ends: tuple[float, float]
    levels: list[float]


def sample_chart(
    name: Text, model: ChartModel, design: Design, plan: Plan, units: Units
) -> tuple[ChartData | None, Findings]:
    """A chart's data in the edition's units; None when some part of it has no value, which a finding tells."""
    parameter = design.parameters.get(str(model.chart))
    if parameter is None:
        return None, ()
    frame, findings = _frame(name, model, design, units, parameter.value.quantity.dimensionality)
    if frame is None:
        return None, findings
    xs = _between(*frame.ends, model.steps)
    curves, findings = _sweep(model, design, plan, frame, xs)
    if curves is None:
        return None, findings
    levels = frame.y.measure(frame.levels)
    return ChartData(
        parameter=str(model.chart),
        x_label=str(model.x_label),
        x_unit=frame.x.unit,
        y_label=str(model.y_label),
        y_unit=frame.y.unit,
        x=frame.x.measure(xs),
        curves=tuple(
            CurveData(str(curve.label), frame.y.measure(ys)) for curve, ys in zip(model.curves, curves, strict=True)
        ),
        limits=tuple(LimitData(str(limit.label), level) for limit, level in zip(model.limits, levels, strict=True)),
    ), ()


def _frame(
    name: Text, model: ChartModel, design: Design, units: Units, kind: Dimensionality
) -> tuple[_Frame | None, Findings]:
    """What a chart is drawn in; None when a formula of it has no value as the design stands, or none of its kind."""
    ends, findings = solve_all(design, (model.start, model.end), kind)
    first, more = design.solve(model.curves[0].value)
    if ends is None or first is None:
        return None, (*findings, *more)
    if ends[1] <= ends[0]:
        return None, (_no_range(model),)
    x, y = axis_of(kind, units), axis_of(first.quantity.dimensionality, units)
    if x is None or y is None:
        return None, (unmeasured(name),)
    levels, findings = solve_all(design, [limit.value for limit in model.limits], y.kind)
    standing, more = solve_all(design, [curve.value for curve in model.curves], y.kind)
    if levels is None or standing is None:
        return None, (*findings, *more)
    return _Frame(x, y, (ends[0], ends[1]), levels), ()


def _between(start: float, end: float, steps: int) -> tuple[float, ...]:
    return (*(start + (end - start) * step / steps for step in range(steps)), end)


def solve_all(design: Design, formulas: Iterable[Text], kind: Dimensionality) -> tuple[list[float] | None, Findings]:
    """The values of formulas of one kind, in base units; None where one has none, which the findings tell."""
    solved = [design.solve(formula, kind) for formula in formulas]
    findings = tuple(finding for _, found in solved for finding in found)
    values = [value.number for value, _ in solved if value is not None]
    return (values if len(values) == len(solved) else None), findings


def _sweep(
    model: ChartModel, design: Design, plan: Plan, frame: _Frame, xs: Iterable[float]
) -> tuple[list[list[float]] | None, Findings]:
    """The curves' values at each x; at the first x where one has none, a finding."""
    curves: list[list[float]] = [[] for _ in model.curves]
    for x in xs:
        there, findings = evaluate(plan, design.overriding({str(model.chart): Quantity(x, frame.x.kind)}))
        if there is None:
            return None, findings
        values, more = solve_all(there, [curve.value for curve in model.curves], frame.y.kind)
        if values is None:
            return None, (_gap(model, more or _beyond(design, plan, findings)),)
        for curve, value in zip(curves, values, strict=True):
            curve.append(value)
    return curves, ()


def _beyond(design: Design, plan: Plan, findings: Findings) -> Findings:
    """The findings that the design does not have where it stands: those are reported already."""
    _, standing = evaluate(plan, design.overriding({}))
    return tuple(finding for finding in findings if finding not in standing)


def _no_range(model: ChartModel) -> Finding:
    message = f"The chart ends at `{model.end}`, which is not more than its start, `{model.start}`."
    return Finding("chart-range", Severity.STOP, message, "Let `end` be greater than `start`.", model.end.place)


def _gap(model: ChartModel, findings: Findings) -> Finding:
    first = findings[0]
    if first.place is not None and any(first.place.file == curve.value.place.file for curve in model.curves):
        return first
    message = f"Between its ends the chart has no value: {first.message}"
    return Finding("chart-gap", Severity.STOP, message, "Move start or end.", model.start.place)


def unmeasured(name: Text) -> Finding:
    """What is told of a chart whose quantity no axis measures."""
    message = f"The chart {name} shows a quantity that has no unit of its own."
    remedy = "Show a length, an angle, a force, a mass, a pressure, a moment, a time or a ratio."
    return Finding("chart-unit", Severity.STOP, message, remedy, name.place)


def axis_of(kind: Dimensionality, units: Units) -> Axis | None:
    """The axis that a kind of quantity is drawn on; None where it has no unit of its own."""
    if kind not in _SIGNS:
        return None
    sign = _SIGNS[kind][0 if units is Units.INCH else 1]
    factor = Fraction(1)
    for part in sign.split("·") if sign else ():
        factor *= UNITS[part].factor
    return Axis(kind, "°" if sign == "deg" else sign, float(factor))
