"""The fits of a plan set, read for one edition: sums of measures as the sheets print them."""

from __future__ import annotations

import re

from planbook.design import nearest
from planbook.design.faults import Fault, spot
from planbook.dimension.audit import Fit, Measure, Sum, Term, read_sum
from planbook.measure.dimensionality import LENGTH
from planbook.source.findings import Finding, Severity
from planbook.source.models.fits import FitModel, Gap
from planbook.source.names import listed
from planbook.source.text import Formula, Text
from planbook.statement.mating_measures import Sheets, bought_measure, made_measures


class Mating:
    """One reading of the fits of an edition. `findings` grows; a fit that cannot be read is left out."""

    def __init__(self, sheets: Sheets) -> None:
        self._sheets = sheets
        self._made = made_measures(sheets)
        self.findings: list[Finding] = []

    def fits(self) -> tuple[tuple[Fit, FitModel], ...]:
        """Those of the edition's market, in file order."""
        read = ((self._fit(str(name), model), model) for name, model in self._sheets.content.fits.items())
        return tuple((fit, model) for fit, model in read if fit is not None)

    def _fit(self, name: str, model: FitModel) -> Fit | None:
        gap = model.gap if model.by_market is None else model.by_market.get(Text(self._sheets.design.market))
        if gap is None:
            return None
        limits, opening, slider = self._limits(gap), self._sum(model.opening), self._sum(model.slider)
        if limits is None or opening is None or slider is None:
            return None
        whole = opening.plus(slider.times(-1.0))
        measures = {each: self._measure(each) for each in whole.factors}
        terms = tuple(Term(measure, whole.factors[each]) for each, measure in measures.items() if measure is not None)
        return Fit(name, terms, whole.constant, *limits, fitted=model.fitted)

    def _limits(self, gap: Gap) -> tuple[float, float] | None:
        least, most = (self._number(formula) for formula in gap)
        if least is None or most is None:
            return None
        if least > most:
            message = f"The least gap, `{gap[0]}`, is more than the greatest, `{gap[1]}`."
            self._add("fit-gap", message, f"Write the smaller one first: `[{gap[1]}, {gap[0]}]`.", gap[0])
            return None
        return least, most

    def _number(self, formula: Formula) -> float | None:
        value, found = self._sheets.design.solve(formula, LENGTH)
        self.findings += found
        return None if value is None else value.number

    def _sum(self, formula: Formula) -> Sum | None:
        found = read_sum(str(formula))
        if isinstance(found, Fault):
            self.findings.append(found.found_in(formula))
            return None
        unknown = [name for name in found.factors if self._measure(name) is None]
        for name in unknown:
            self._refuse(name, formula)
        return None if unknown else found

    def _measure(self, name: str) -> Measure | None:
        return self._made.get(name) or bought_measure(name, self._sheets)

    def _refuse(self, name: str, formula: Formula) -> None:
        at = Text(name, spot(formula, _mention(name, formula)))
        printed = [path for path, each in self._made.items() if each.label == name]
        if printed:
            message = f"`{name}` is a parameter; a fit is judged by what a sheet prints of it."
            self._add("fit-not-printed", message, f"Name its dimension: {listed(printed[:3], 'or')}.", at)
            return
        close = nearest(name, self._made)
        remedy = f"Did you mean {listed(close, 'or')}?" if close else "Name a dimension as in prose, without braces."
        self._add("fit-unknown-measure", f"There is no measure `{name}` on a sheet or to buy.", remedy, at)

    def _add(self, code: str, message: str, remedy: str, at: Text) -> None:
        self.findings.append(Finding(code, Severity.STOP, message, remedy, at.place))


def _mention(name: str, formula: str) -> int:
    """Where a formula mentions a name, and not a longer one that begins or ends with it."""
    found = re.search(rf"(?<![\w.]){re.escape(name)}(?![\w.])", formula)
    return found.start() if found else 0
