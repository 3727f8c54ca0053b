"""Which measures are critical to the fit and which a builder may change, as content says and as fits imply."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property

from planbook.design import Design, Value
from planbook.design.faults import Fault
from planbook.design.sameness import plain_form
from planbook.dimension.audit import read_sum
from planbook.measure import Precision, Quantity, Units, is_in_degrees, print_quantity
from planbook.measure.dimensionality import ANGLE, LENGTH, Dimensionality
from planbook.source.content import Content
from planbook.source.findings import Finding, Severity
from planbook.source.models.standing import FreeModel, StandingModel
from planbook.source.text import Formula, Text
from planbook.statement.mating_measures import paths_of
from planbook.statement.model import DimensionStated, StandingStated
from planbook.statement.printing import state_printed

CRITICAL, FREE = "critical", "free"
NEITHER = StandingStated()

Limits = tuple[Value, Value]


@dataclass
class Standings:
    """One reading of an edition. `reasons` are the texts of content, filled in; `findings` grows."""

    content: Content
    design: Design
    units: Units
    reasons: Mapping[str, str]
    findings: list[Finding] = field(default_factory=list)

    @cached_property
    def parameters(self) -> Mapping[str, StandingStated]:
        """Of every parameter of the author's."""
        return {
            str(name): self._read(model, parameter.value.quantity)
            for name, model in self.content.parameters.items()
            if (parameter := self.design.parameters.get(str(name))) is not None
        }

    def dimensions(self, dimensions: Mapping[str, DimensionStated]) -> Mapping[str, StandingStated]:
        """Of every dimension: what its part says of it, else its parameter, else a fit that is judged by it."""
        own, fits, named = self._of_parts(dimensions), self._of_fits(dimensions), self.parameters
        return {
            name: own.get(name) or _of_parameter(named.get(each.formula)) or fits.get(name, NEITHER)
            for name, each in dimensions.items()
        }

    def limits(self, free: FreeModel, kind: Dimensionality) -> Limits | None:
        """What a free measure may be changed to in this market; faults in the formulas join the findings."""
        written = free.within(self.design.market)
        if written is None:
            return None
        least, most = (self._solve(formula, kind) for formula in written)
        return None if least is None or most is None else (least, most)

    def _solve(self, formula: Formula, kind: Dimensionality) -> Value | None:
        value, found = self.design.solve(formula, kind)
        self.findings += found
        return value

    def _read(self, model: StandingModel, designed: Quantity) -> StandingStated:
        if model.critical is not None:
            return StandingStated(CRITICAL, self.reasons[str(model.critical)])
        if model.free is None:
            return NEITHER
        because = self.reasons[str(model.free.because)]
        self._check_market(model.free)
        limits = self.limits(model.free, designed.dimensionality)
        if limits is None:
            return StandingStated(FREE, because)
        self._check_limits(limits, designed)
        least, most = (state_printed(print_quantity(each.quantity, self.units, each.precision)) for each in limits)
        return StandingStated(FREE, because, least, most)

    def _check_market(self, free: FreeModel) -> None:
        if free.by_market is not None and free.within(self.design.market) is None:
            market = self.design.market
            message = f"What this measure may be changed to is not said for the market `{market}`."
            self._add("market-missing", message, f"Add `{market}: [..., ...]` to its by_market.", free.because)

    def _check_limits(self, limits: Limits, designed: Quantity) -> None:
        least, most = limits
        at = Text(least.formula, least.place)
        if not least.number < most.number:
            message = f"The least that this measure may be, `{least.formula}`, is not under the most, `{most.formula}`."
            self._add("free-limits", message, f"Write the smaller one first: `[{most.formula}, {least.formula}]`.", at)
        elif not least.number <= designed.value <= most.number:
            printed = print_quantity(designed, self.units, Precision.CALIPER).full
            message = f"The measure is designed {printed}, outside of what it may be changed to."
            self._add("free-limits", message, "Give limits with the design between them.", at)

    def _of_parts(self, dimensions: Mapping[str, DimensionStated]) -> Mapping[str, StandingStated]:
        found: dict[str, StandingStated] = {}
        for part, key, holder in said_of(self.content, dimensions):
            model = self.content.parts[part].dimensions[key]
            if holder is not None:
                kind = ANGLE if is_in_degrees(holder.printed.text) else LENGTH
                if model.critical is not None or model.free is not None:
                    found[holder.id] = self._read(model, Quantity(holder.nominal, kind))
        return found

    def _of_fits(self, dimensions: Mapping[str, DimensionStated]) -> Mapping[str, StandingStated]:
        return {
            each.id: StandingStated(CRITICAL, self.reasons[because])
            for each, because in judged_by_fits(self.content, dimensions)
        }

    def _add(self, code: str, message: str, remedy: str, at: Text) -> None:
        self.findings.append(Finding(code, Severity.STOP, message, remedy, at.place))


def said_of(
    content: Content, dimensions: Mapping[str, DimensionStated]
) -> Iterator[tuple[str, Text, DimensionStated | None]]:
    """What parts say of single dimensions: the part, the key, and the dimension that prints it; None if none does."""
    holders = {name: each for each in dimensions.values() for name in (each.id, *(other.id for other in each.also))}
    for part, model in content.parts.items():
        for key in model.dimensions:
            yield part, key, holders.get(f"{part}/{key}")


def judged_by_fits(
    content: Content, dimensions: Mapping[str, DimensionStated]
) -> Iterator[tuple[DimensionStated, str]]:
    """The dimensions whose printed limits decide a fit, with its reason as written; not where one is made to the other.

    Of a fit that cannot be read the audit tells.
    """
    named = {path: each for each in dimensions.values() for path in paths_of(each)}
    twins = _twins(dimensions)
    for fit in content.fits.values():
        for formula in (fit.opening, fit.slider) if not fit.fitted else ():
            terms = read_sum(str(formula))
            names = () if isinstance(terms, Fault) else terms.factors
            for held in (named[name] for name in names if name in named):
                yield from ((each, str(fit.because)) for each in twins.get(_kin(held), (held,)))


def _twins(dimensions: Mapping[str, DimensionStated]) -> Mapping[tuple[str, ...], list[DimensionStated]]:
    """The dimensions of a part that say the same of several features: a fit at one is a fit at all."""
    kin: dict[tuple[str, ...], list[DimensionStated]] = {}
    for each in dimensions.values():
        if each.formula:
            kin.setdefault(_kin(each), []).append(each)
    return kin


def _kin(each: DimensionStated) -> tuple[str, ...]:
    return each.part, each.characteristic, plain_form(each.formula)


def _of_parameter(standing: StandingStated | None) -> StandingStated | None:
    return standing if standing is not None and standing.kind else None
