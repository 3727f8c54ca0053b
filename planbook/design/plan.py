"""The plan of a design: all formulas parsed, typed and in order, for each market; nothing evaluated yet."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property

from planbook.design.compiler import Compiled, CompiledRule, Faults, Scope, compile_formula, compile_rule, mentions
from planbook.design.entries import (
    MASS,
    NOT_THE_AUTHORS,
    Entry,
    check_leaves,
    handbook_entries,
    market_entries,
    mass_entries,
    parameter_entries,
    phase_entries,
    tally_entries,
)
from planbook.design.faults import Fault, findings_in, spot
from planbook.design.fineness import fineness
from planbook.design.functions import FUNCTIONS
from planbook.design.kinds import Run
from planbook.design.naming import check_names
from planbook.design.order import order
from planbook.design.syntax import Number, is_bare, parse
from planbook.measure.dimensionality import SCALAR, Dimensionality
from planbook.measure.systems import Precision
from planbook.measure.units import UNITS, in_words
from planbook.source.content import Content
from planbook.source.findings import Finding, Place, Related
from planbook.source.models.market import MarketModel
from planbook.source.text import Text


@dataclass(frozen=True)
class MarketPlan:
    """What is evaluated in one market. Values live in a list, by slot."""

    model: MarketModel
    entries: Mapping[str, Entry]
    """In the order of the content, hidden ones too."""
    scope: Scope
    """The names that formulas may use."""
    slots: Mapping[str, int]
    """Where each entry's value stands, hidden ones too."""
    code: tuple[tuple[int, Run], ...]
    """Slot and function of every sound entry, so that each stands after what it needs."""
    inputs: Mapping[str, tuple[str, ...]]
    precision: Mapping[str, Precision]
    tolerances: tuple[str, ...]
    """The hidden entries that must not be negative."""
    broken: frozenset[str]
    """Names whose formula is faulty or rests on a faulty one."""
    _formulas: dict[tuple[str, Dimensionality | None], Compiled | Faults] = field(
        default_factory=dict, repr=False, compare=False
    )
    _rules: dict[str, CompiledRule | Faults] = field(default_factory=dict, repr=False, compare=False)

    def unweighed(self, fixed: Collection[str]) -> frozenset[str]:
        """What has no value yet because it rests on a mass that is not weighed, which is that of no name in `fixed`."""
        if all(name in fixed for name in self._masses):
            return frozenset()
        resting: set[str] = set()
        for name in self.slots:
            if name not in fixed and (name in self._masses or not resting.isdisjoint(self.inputs[name])):
                resting.add(name)
        return frozenset(resting)

    @cached_property
    def _masses(self) -> frozenset[str]:
        return frozenset(name for name in self.slots if name.startswith(MASS))

    def formula(self, text: str, expect: Dimensionality | None) -> Compiled | Faults:
        """A formula compiled once, however often it is solved."""
        key = (text, expect)
        if key not in self._formulas:
            self._formulas[key] = compile_formula(text, self.scope, expect)
        return self._formulas[key]

    def rule(self, text: str) -> CompiledRule | Faults:
        """A requirement compiled once."""
        if text not in self._rules:
            self._rules[text] = compile_rule(text, self.scope)
        return self._rules[text]


@dataclass(frozen=True)
class Plan:
    """The plan in every market that an edition of the set uses."""

    markets: Mapping[str, MarketPlan]
    names: tuple[str, ...]
    """Every name that a formula may use in some market: parameters first, then stock and hardware."""


def plan_design(content: Content) -> tuple[Plan | None, tuple[Finding, ...]]:
    """Parse, type and order all formulas of a plan set.

    Faulty formulas do not end the planning: what rests on them is left out silently, and the rest can still be
    evaluated and checked. Without a market there is nothing to plan, which reading the content has reported.
    """
    taken = [*UNITS, *FUNCTIONS]
    findings = [*check_names(content.parameters, taken), *check_leaves(content)]
    unitless = _unitless(content)
    findings += [_for_markets(each, [market], content) for (_, market), told in unitless.items() for each in told]
    plans: dict[str, MarketPlan] = {}
    found: dict[Finding, list[str]] = {}
    for key, model in content.markets.items():
        missing = {name for (name, market) in unitless if market == str(key)}
        entries, declared = _entries(content, str(key), model, missing), [*map(str, content.parameters)]
        planner = _Planner(entries, declared, _known_kinds(plans), _travels(content))
        plans[str(key)] = planner.plan(model)
        for finding in planner.findings:
            found.setdefault(finding, []).append(str(key))
    findings += [_for_markets(finding, keys, content) for finding, keys in found.items()]
    names = dict.fromkeys(name for plan in plans.values() for name in plan.scope.names)
    ranked = sorted(names, key=lambda name: name.startswith(NOT_THE_AUTHORS))
    return (Plan(plans, tuple(ranked)) if plans else None), tuple(findings)


def _unitless(content: Content) -> Mapping[tuple[str, str], Sequence[Finding]]:
    """By parameter and market: bare numbers where another market has a quantity, each told as a forgotten unit.

    They have no value, so that what rests on them is not told as well.
    """
    found: dict[tuple[str, str], Sequence[Finding]] = {}
    for name, model in content.parameters.items():
        trees = {market: parse(str(formula)) for market, formula in (model.by_market or {}).items()}
        kinds = {tree.kind for tree in trees.values() if isinstance(tree, Number)} - {SCALAR}
        if len(kinds) != 1:
            continue
        (kind,) = kinds
        for market, tree in trees.items():
            if not isinstance(tree, Fault) and is_bare(tree):
                found[str(name), str(market)] = _missing_unit((model.by_market or {})[market], kind, f"`{name}`")
    return found


def _missing_unit(formula: Text, kind: Dimensionality, subject: str) -> Sequence[Finding]:
    """What is told of a bare number in the place of another kind."""
    checked = compile_formula(str(formula), Scope({}, {}, ()), kind, subject)
    return findings_in(formula, checked) if isinstance(checked, tuple) else ()


def _entries(content: Content, market: str, model: MarketModel, missing: Collection[str]) -> dict[str, Entry]:
    entries = [
        *parameter_entries(content, market),
        *phase_entries(content),
        *market_entries(model),
        *tally_entries(content),
        *handbook_entries(content),
        *mass_entries(content),
    ]
    return {entry.name: entry for entry in entries if entry.name not in missing and entry.like not in missing}


def _travels(content: Content) -> tuple[str, ...]:
    return () if content.positions is None else tuple(map(str, content.positions.travels))


Known = Mapping[str, tuple[Dimensionality, Place]]


def _known_kinds(plans: Mapping[str, MarketPlan]) -> Known:
    """What kind each name has in the markets planned so far, and where that is said."""
    known: dict[str, tuple[Dimensionality, Place]] = {}
    for plan in plans.values():
        for name, kind in plan.scope.kinds.items():
            known.setdefault(name, (kind, plan.entries[name].formula.place))
    return known


def _for_markets(finding: Finding, markets: Sequence[str], content: Content) -> Finding:
    """A finding that does not hold in every market says where it holds."""
    if len(markets) == len(content.markets):
        return finding
    editions = [name for name, model in content.plan_set.editions.items() if model.market in markets]
    message = f"For the market {', '.join(markets)}: {finding.message}"
    return replace(finding, message=message, edition=str(editions[0]) if len(editions) == 1 else "")


class _Planner:
    """Plans one market, collecting findings."""

    def __init__(
        self, entries: Mapping[str, Entry], declared: Sequence[str], known: Known, travels: tuple[str, ...]
    ) -> None:
        self._entries = entries
        self._without_value = [name for name in declared if name not in entries]
        self._known, self._travels = known, travels
        self._kinds: dict[str, Dimensionality] = {}
        self._compiled: dict[str, Compiled] = {}
        self._inputs = {name: _inputs_of(entry) for name, entry in entries.items()}
        self._precision: dict[str, Precision] = {}
        self.findings: list[Finding] = []

    def plan(self, model: MarketModel) -> MarketPlan:
        names, circles = order(self._needs())
        in_circles = {name for circle in circles for name in circle}
        self.findings += [self._circle_finding(circle) for circle in circles]
        slots = {name: slot for slot, name in enumerate(names)}
        public = tuple(name for name, entry in self._entries.items() if not entry.is_hidden)
        open_names = {name: slots[name] for name in public} | dict.fromkeys(self._without_value, _NO_SLOT)
        scope = Scope(open_names, self._kinds, public, self._travels)
        for name in names:
            self._precision[name] = self._finest(name)
            if name not in in_circles:
                self._compile(self._entries[name], scope)
        code = tuple((slots[name], self._compiled[name].run) for name in names if name in self._compiled)
        broken = frozenset(name for name in (*names, *self._without_value) if name not in self._compiled)
        sides = tuple(name for name, entry in self._entries.items() if entry.like)
        return MarketPlan(model, self._entries, scope, slots, code, self._inputs, self._precision, sides, broken)

    def _needs(self) -> dict[str, tuple[str, ...]]:
        """Known names that each entry must wait for."""
        needs: dict[str, tuple[str, ...]] = {}
        for name, entry in self._entries.items():
            waits = (*self._inputs[name], entry.like) if entry.like else self._inputs[name]
            needs[name] = tuple(each for each in waits if each in self._entries)
        return needs

    def _compile(self, entry: Entry, scope: Scope) -> None:
        expect = self._kinds.get(entry.like) if entry.like else entry.expect
        if entry.like and expect is None:
            return
        compiled = compile_formula(str(entry.formula), scope, expect, entry.subject)
        if not isinstance(compiled, Compiled):
            self.findings += findings_in(entry.formula, compiled)
        elif compiled.kind is not None and self._agrees(entry, compiled.kind):
            self._kinds[entry.name] = compiled.kind
            self._compiled[entry.name] = compiled

    def _agrees(self, entry: Entry, kind: Dimensionality) -> bool:
        """Whether the entry has the same kind as in the markets before."""
        if entry.name not in self._known or self._known[entry.name][0] == kind:
            return True
        other, place = self._known[entry.name]
        tree = parse(str(entry.formula))
        if not isinstance(tree, Fault) and is_bare(tree):
            return self._report_missing_unit(entry, other)
        message = f"`{entry.name}` is {in_words(kind)} in this market and {in_words(other)} in another."
        related = (Related(place, f"here it is {in_words(other)}"),)
        fault = Fault("market-kinds", 0, message, "Give it the same kind of quantity in every market.", related)
        self.findings.append(fault.found_in(entry.formula))
        return False

    def _report_missing_unit(self, entry: Entry, kind: Dimensionality) -> bool:
        """A bare number where another market has a quantity: its unit was forgotten."""
        self.findings += _missing_unit(entry.formula, kind, entry.subject)
        return False

    def _finest(self, name: str) -> Precision:
        entry = self._entries[name]
        tree = parse(str(entry.formula))
        return entry.precision or (Precision.WOODWORK if isinstance(tree, Fault) else fineness(tree, self._precision))

    def _circle_finding(self, circle: tuple[str, ...]) -> Finding:
        steps = list(zip(circle, (*circle[1:], circle[0]), strict=True))
        places = [self._mention(user, used) for user, used in steps]
        told = ", ".join(f"`{user}` needs `{used}`" for user, used in steps)
        related = tuple(
            Related(place, f"`{user}` is defined by `{self._entries[user].formula}`")
            for (user, _), place in zip(steps[1:], places[1:], strict=True)
        )
        message = f"These definitions go round in a circle: {told}."
        fault = Fault(
            "circular-definition", 0, message, f"Give one of them, such as `{circle[0]}`, a value of its own."
        )
        return replace(fault.found_in(self._entries[circle[0]].formula), place=places[0], related=related)

    def _mention(self, user: str, used: str) -> Place:
        """Where the formula of `user` first mentions `used`."""
        formula = self._entries[user].formula
        tree = parse(str(formula))
        if isinstance(tree, Fault):
            return formula.place
        offset = next(name.span.start for name in mentions(tree) if name.name == used)
        return spot(formula, offset)


_NO_SLOT = 0
"""For a name that is known and has no value: nothing that mentions it is run."""


def _inputs_of(entry: Entry) -> tuple[str, ...]:
    tree = parse(str(entry.formula))
    return () if isinstance(tree, Fault) else tuple(dict.fromkeys(name.name for name in mentions(tree)))
