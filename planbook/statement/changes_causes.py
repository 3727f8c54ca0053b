"""Why something changed, as far as the author has said: by its own name, or by that of what it is worked out from."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from collections.abc import Set as AbstractSet

from planbook.design.entries import MASS, TALLY
from planbook.statement.changes_names import names_of
from planbook.statement.comparison import Change, Comparison, Kind
from planbook.statement.model import Statement


class Causes:
    """Which changes a set of reasons accounts for. `given` are the names that the author's reasons are about.

    A measure that changed because another did goes by the reason for that other, through as many formulas as lie
    between them.
    """

    def __init__(self, comparison: Comparison, given: AbstractSet[str]) -> None:
        self._sides = (comparison.old, comparison.new)
        self._given = given
        changed = (change for change in comparison.changes if change.kind is Kind.PARAMETER)
        self._changed = {change.id: names_of(change) for change in changed}
        self.used: set[str] = set()
        """Names of reasons that accounted for something which only follows from what they are about."""

    def account_for(self, change: Change) -> bool:
        """Whether a reason is about a change, or about what it follows from."""
        if not self._given.isdisjoint(names_of(change)):
            return True
        found = {name for each in self._behind(change) for name in self._changed[each] if name in self._given}
        self.used |= found
        return bool(found)

    def name_for(self, change: Change) -> str:
        """The closest name of a reason that accounts for a change, "" for none."""
        behind = (name for each in self._behind(change) for name in self._changed[each])
        return next((name for name in (*names_of(change), *behind) if name in self._given), "")

    def roots(self, measure: str) -> tuple[str, ...]:
        """The parameters behind this one that changed by themselves and are there now, the near ones first.

        What is weighed or counted is no root: it follows from the parts.
        """
        behind = (name for name in self._chain([measure]) if name != measure and name in self._sides[1].parameters)
        return tuple(name for name in behind if not (self.is_derived(name) or name.startswith((MASS, TALLY))))

    def is_derived(self, measure: str) -> bool:
        """Whether a parameter is worked out from others by the same formula as before."""
        both = [side.parameters.get(measure) for side in self._sides]
        formulas = {each.formula for each in both if each is not None and not each.given and each.inputs}
        return None not in both and len(formulas) == 1

    def is_weighed(self, measure: str) -> bool:
        """Whether a parameter is weighed or counted from the parts, or worked out from one that is."""
        return any(name.startswith((MASS, TALLY)) for name in self._chain([measure]))

    def has_reason(self, measure: str) -> bool:
        """Whether a reason is about a parameter that changed."""
        return bool(self.reasons_of(measure))

    def reasons_of(self, measure: str) -> AbstractSet[str]:
        """The names of the reasons that are about a parameter that changed."""
        return self._given & set(self._changed.get(measure, ()))

    def follows_from(self, change: Change, names: AbstractSet[str]) -> bool:
        """Whether a change is worked out from one of these parameters, which changed."""
        return any(each in names and each != change.id for each in self._behind(change))

    def _behind(self, change: Change) -> Iterator[str]:
        """The parameters that changed and from which this is worked out, in either version, the near ones first."""
        yield from self._chain([name for side in self._sides for name in _inputs(side, change)])

    def _chain(self, waiting: list[str]) -> Iterator[str]:
        """Those among these that changed, and what changed behind them."""
        seen: set[str] = set()
        while waiting:
            name, *waiting = waiting
            if name in seen or name not in self._changed:
                continue
            seen.add(name)
            yield name
            waiting += [each for side in self._sides for each in _worked_from(side, name)]


def _inputs(statement: Statement, change: Change) -> Iterable[str]:
    if change.kind is Kind.DIMENSION and change.id in statement.dimensions:
        return statement.dimensions[change.id].inputs
    return _worked_from(statement, change.id) if change.kind is Kind.PARAMETER else ()


def _worked_from(statement: Statement, name: str) -> Iterable[str]:
    parameter = statement.parameters.get(name)
    return parameter.inputs if parameter else ()
