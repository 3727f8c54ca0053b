"""Whether what a builder may change leaves alone what must be kept: critical measures, and every rule."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from planbook.design import Design, Plan, Value, evaluate, routes
from planbook.measure import print_quantity
from planbook.source.content import Content
from planbook.source.findings import Finding, Related, Severity
from planbook.source.models.standing import FreeModel
from planbook.source.text import Text
from planbook.statement.judging import newly_broken, requirement
from planbook.statement.model import DimensionStated, Statement
from planbook.statement.standing import CRITICAL, FREE, Standings, judged_by_fits, said_of


@dataclass(frozen=True)
class Freedom:
    """One edition, whose free measures are judged one at a time, all others as designed."""

    statement: Statement
    standings: Standings
    plan: Plan

    @property
    def content(self) -> Content:
        """What the author says."""
        return self.standings.content

    @property
    def design(self) -> Design:
        """As designed."""
        return self.standings.design

    def findings(self) -> Iterator[Finding]:
        """Of free parameters in file order, then of the free dimensions of parts."""
        for name, model in self.content.parameters.items():
            if model.free is not None and str(name) in self.statement.parameters:
                yield from self._of_parameter(name, model.free)
        for part, key, holder in said_of(self.content, self.statement.dimensions):
            free = self.content.parts[part].dimensions[key].free
            if free is not None and holder is not None:
                yield from self._of_dimension(holder, free)

    def _of_parameter(self, name: Text, free: FreeModel) -> Iterator[Finding]:
        ways = {str(name): (str(name),), **routes(self.plan, str(name))}
        critical = sorted(self._critical(ways), key=len)
        if critical:
            message = f"`{name}` may be changed freely, and {_told(critical)}."
            remedy = f"Take `free` from `{name}`, or `critical` from what hangs on it."
            yield Finding(
                "free-and-critical",
                Severity.STOP,
                message,
                remedy,
                free.because.place,
                related=self._steps(critical[0]),
            )
        kind = self.design.parameters[str(name)].value.quantity.dimensionality
        limits = self.standings.limits(free, kind)
        if limits is None:
            yield from self._without_limits(name, free, ways)
        else:
            for word, end in zip(("least", "most"), limits, strict=True):
                yield from self._at(name, word, end, ways)

    def _critical(self, ways: Mapping[str, tuple[str, ...]]) -> Iterator[tuple[str, ...]]:
        """The ways to critical parameters and to critical dimensions."""
        for end, way in ways.items():
            stated = self.statement.parameters.get(end)
            if stated is not None and stated.standing is not None and stated.standing.kind == CRITICAL:
                yield way
        for each in self.statement.dimensions.values():
            if each.standing is not None and each.standing.kind == CRITICAL:
                yield from _nearest(ways, each.inputs, f"dim.{each.id.replace('/', '.')}")

    def _steps(self, way: tuple[str, ...]) -> tuple[Related, ...]:
        """Where each name on the way is given."""
        given = {str(name): name.place for name in self.content.parameters}
        return tuple(Related(given[name], f"`{name}` stands on the way") for name in way[1:] if name in given)

    def _without_limits(self, name: Text, free: FreeModel, ways: Mapping[str, tuple[str, ...]]) -> Iterator[Finding]:
        bound = sorted(self._bound(ways), key=len)
        if bound:
            message = f"`{name}` may be changed to anything, and {_told(bound, 'a rule')}."
            remedy = f"Say how far: `free: {{because: ..., between: [..., ...]}}` at `{name}`."
            yield Finding("free-without-limits", Severity.WARN, message, remedy, free.because.place)

    def _bound(self, ways: Mapping[str, tuple[str, ...]]) -> Iterator[tuple[str, ...]]:
        """The ways to the rules that have a say."""
        for name, rule in self.content.rules.items():
            require = requirement(rule, self.design.market)
            judgement, _ = self.design.judge(require) if require is not None else (None, ())
            used = {each for side in judgement.sides for each in side.inputs} if judgement is not None else set()
            yield from _nearest(ways, used, f"rule {name}")

    def _at(self, name: Text, word: str, end: Value, ways: Mapping[str, tuple[str, ...]]) -> Iterator[Finding]:
        """The rules with the measure at one of its limits."""
        there, found = evaluate(self.plan, self.design.overriding({str(name): end.quantity}))
        text = print_quantity(end.quantity, self.standings.units, end.precision).full
        at = f"At {text}, the {word} that `{name}` may be,"
        where = Text(end.formula, end.place).place
        if there is None or found:
            why = found[0].message if found else "it has no values."
            yield Finding(
                "free-breaks-formula", Severity.STOP, f"{at} the design cannot be worked out: {why}", _CLOSER, where
            )
            return
        rules = {way[-1].removeprefix("rule "): way for way in self._bound(ways)}
        for broken in newly_broken(self.content, self.design, there, self.standings.units, self.statement.rules):
            way = f" ({_arrows(rules[broken.name])})" if broken.name in rules else ""
            message = f"{at} the rule {broken.name} does not hold{way}: {broken.short}."
            yield Finding("free-breaks-rule", broken.severity, message, _CLOSER, where)

    def _of_dimension(self, dimension: DimensionStated, free: FreeModel) -> Iterator[Finding]:
        """A dimension is changed by itself: no fit may be judged by it, and no other may come from the same name."""
        name = f"dim.{dimension.id.replace('/', '.')}"
        place = free.because.place
        own = self.statement.parameters.get(dimension.formula)
        if any(each.id == dimension.id for each, _ in judged_by_fits(self.content, self.statement.dimensions)):
            message = f"`{name}` may be changed freely, and a fit is judged by it."
            remedy = "Take `free` from it, or let the builder make one to the other: `fitted: true` at the fit."
            yield Finding("free-and-critical", Severity.STOP, message, remedy, place)
        elif own is not None and own.standing is not None and own.standing.kind == CRITICAL:
            message = f"`{name}` may be changed freely, and `{own.name}`, which it prints, is critical."
            yield Finding("free-and-critical", Severity.STOP, message, "Keep one of the two.", place)
        elif own is not None and own.standing is not None and own.standing.kind != FREE:
            others = self._others(dimension)
            if others:
                message = f"`{name}` may be changed freely, and {others[0]} comes from the same `{own.name}`."
                remedy = f"Say `free` at `{own.name}`, so that both change together."
                yield Finding("free-not-alone", Severity.STOP, message, remedy, place)

    def _others(self, dimension: DimensionStated) -> list[str]:
        ways = {dimension.formula, *routes(self.plan, dimension.formula)}
        dimensions = self.statement.dimensions.values()
        return [f"`{each.id}`" for each in dimensions if each.id != dimension.id and not ways.isdisjoint(each.inputs)]


_CLOSER = "Bring the limit nearer to the design, or change what hangs on the measure."


def _nearest(ways: Mapping[str, tuple[str, ...]], used: Iterable[str], end: str) -> Iterator[tuple[str, ...]]:
    """The shortest of the ways that lead to a name which `end` uses, led on to that; nothing if none does."""
    leading = sorted((ways[name] for name in used if name in ways), key=lambda way: (len(way), way))
    yield from ((*way, end) for way in leading[:1])


def _told(ways: list[tuple[str, ...]], what: str = "a critical measure") -> str:
    more = f"; {len(ways) - 1} more do" if len(ways) > 1 else ""
    return f"{what} hangs on it: {_arrows(ways[0])}{more}"


def _arrows(way: tuple[str, ...]) -> str:
    return " → ".join(f"`{each}`" for each in way)
