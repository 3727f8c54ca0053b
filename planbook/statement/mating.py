"""The fits of a plan set, their measures as the sheets print them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from planbook.design import Design, nearest
from planbook.design.faults import Fault, spot
from planbook.dimension.audit import Fit, Limits, Measure, Number, Sum, Term, limits_of, read_sum
from planbook.measure import Precision, Units, print_limits, print_tolerance
from planbook.measure.dimensionality import LENGTH
from planbook.source.content import Content
from planbook.source.findings import Finding, Severity
from planbook.source.models.fits import FitModel, Gap
from planbook.source.names import listed
from planbook.source.text import Formula, Text
from planbook.statement.model import DimensionStated, Statement
from planbook.statement.printing import print_parameter

_BOUGHT = ("stock.", "hardware.")


@dataclass
class Mates:
    """All measures that fits may name in one edition; `general` is the general tolerance in nanometres."""

    content: Content
    statement: Statement
    design: Design
    numbers: Mapping[str, Number]
    general: float
    findings: list[Finding] = field(default_factory=list)

    def fits(self) -> Iterator[tuple[Fit, FitModel]]:
        """Every fit of this edition's market that can be read; what cannot is in `findings`."""
        for name, model in self.content.fits.items():
            gap = model.gap if model.by_market is None else model.by_market.get(Text(self.design.market))
            terms = None if gap is None else self._terms(model)
            limits = None if gap is None else self._gap(gap)
            if terms is not None and limits is not None:
                found = tuple(Term(measure, factor) for measure, factor in terms[0])
                yield Fit(str(name), found, terms[1], *limits, fitted=model.fitted), model

    def _gap(self, gap: Gap) -> tuple[float, float] | None:
        least, most = (self._number(formula) for formula in gap)
        if least is None or most is None:
            return None
        if least > most:
            message = f"The least gap, `{gap[0]}`, is more than the greatest, `{gap[1]}`."
            self._add("fit-gap", message, f"Write the smaller one first: `[{gap[1]}, {gap[0]}]`.", gap[0])
            return None
        return least, most

    def _number(self, formula: Formula) -> float | None:
        value, found = self.design.solve(formula, LENGTH)
        self.findings += found
        return None if value is None else value.number

    def _terms(self, model: FitModel) -> tuple[list[tuple[Measure, float]], float] | None:
        """The measures with their factors, and what is added to them."""
        opening, slider = self._read(model.opening), self._read(model.slider)
        if opening is None or slider is None:
            return None
        whole = opening.plus(slider.times(-1.0))
        return [(self._measures[name], factor) for name, factor in whole.factors.items()], whole.constant

    def _read(self, formula: Formula) -> Sum | None:
        found = read_sum(str(formula))
        if isinstance(found, Fault):
            self.findings.append(found.found_in(formula))
            return None
        unknown = [name for name in found.factors if not self._known(name)]
        for name in unknown:
            self._refuse(name, formula)
        return None if unknown else found

    def _known(self, name: str) -> bool:
        if name not in self._measures and name.startswith(_BOUGHT):
            parameter = self.design.parameters.get(name)
            if parameter is not None and parameter.value.quantity.dimensionality == LENGTH:
                self._measures[name] = self._bought(name)
        return name in self._measures

    def _refuse(self, name: str, formula: Formula) -> None:
        said = [path for path, each in self._dimensions.items() if each.formula == name]
        at = Text(formula, spot(formula, formula.find(name)))
        if name in self.design.parameters and said:
            message = f"`{name}` is no measure of a sheet: the design knows it, and a fit needs it as printed."
            self._add("fit-not-printed", message, f"Name its dimension: {listed(said[:3], 'or')}.", at)
            return
        close = nearest(name, self._dimensions)
        remedy = f"Did you mean {listed(close, 'or')}?" if close else "Name a dimension as in prose, without braces."
        self._add("fit-unknown-measure", f"No sheet prints a dimension `{name}`.", remedy, at)

    def _add(self, code: str, message: str, remedy: str, at: Text) -> None:
        self.findings.append(Finding(code, Severity.STOP, message, remedy, at.place))

    def __post_init__(self) -> None:
        self._units = Units(self.statement.edition.units)
        self._dimensions: dict[str, DimensionStated] = {}
        for each in self.statement.dimensions.values():
            names = (each.id, *(other.id for other in each.also))
            self._dimensions |= {f"dim.{name.replace('/', '.')}": each for name in names if each.printed.unit != "°"}
        self._measures = {path: self._made(path, each) for path, each in self._dimensions.items()}

    def _made(self, path: str, stated: DimensionStated) -> Measure:
        number = self.numbers[stated.id]
        label = stated.formula if stated.formula in self.content.parameters else path
        accepted = self._accepted(stated)
        if accepted is not None:
            return Measure(label, stated.printed.text, number.nominal, number.printed.value, accepted, made=False)
        limits = limits_of(number, self.general)
        text = f"{stated.printed.text} {stated.tolerance or self._tolerance(limits, number.caliper)}"
        return Measure(label, text, number.nominal, number.printed.value, limits)

    def _tolerance(self, limits: Limits, caliper: bool) -> str:
        precision = Precision.CALIPER if caliper else Precision.WOODWORK
        return print_tolerance(limits.upper, -limits.lower, self._units, precision).text

    def _accepted(self, stated: DimensionStated) -> Limits | None:
        """Of a thickness that comes with the stock: the range that the sheet prints as accepted."""
        stock = self.design.stock.get(self.statement.parts[stated.part].stock)
        if stock is None or (stated.feature, stated.characteristic) != ("blank", "thickness"):
            return None
        return self._within(stock.accepted, stated.printed.value)

    def _within(self, accepted: tuple[float, float] | None, printed: float) -> Limits:
        if accepted is None:
            return Limits(0.0, 0.0)
        least, greatest = print_limits(*accepted, self._units, Precision.CALIPER)
        return Limits(max(greatest.value - printed, 0.0), min(least.value - printed, 0.0))

    def _bought(self, name: str) -> Measure:
        """What is bought is as it is sold; the thickness of stock as it is accepted."""
        parameter = self.design.parameters[name]
        printed = print_parameter(parameter, self.design, self._units)
        key = name.split(".")[1]
        thickness = name.startswith("stock.") and name.endswith(".thickness")
        tolerance = parameter.value.tolerance
        limits = Limits(tolerance.plus, -tolerance.minus) if tolerance else Limits(0.0, 0.0)
        if thickness:
            limits = self._within(self.design.stock[key].accepted, printed.value)
        return Measure(name, printed.text, parameter.value.number, printed.value, limits, made=False)
