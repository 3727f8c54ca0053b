"""How to mend a rule that fails: the given parameters that it hangs on most, and the value of each that would do."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from functools import partial
from typing import Final

from planbook.design import Design, Judgement, Plan, evaluate
from planbook.design.entries import HANDBOOK, MASS, NOT_THE_AUTHORS
from planbook.measure import Precision, Printed, Quantity, Units, print_quantity
from planbook.measure.dimensionality import ACCELERATION
from planbook.source.content import Content
from planbook.source.mentions import names_in
from planbook.source.names import listed
from planbook.source.sentences import capital

Slack = Callable[[Design], float | None]
"""By how much a rule holds in a design, below zero by how much it fails; None where it has no value there."""
_STEP: Final = 0.01
"""Share by which a parameter is changed to see what hangs on it: over it what is rounded moves too."""
_FURTHEST: Final = 0.3
"""Share within which a value is looked for."""
_STRIDES: Final = 15
_HALVINGS: Final = 24
_NUDGES: Final = (0.0, 0.0005, 0.001, 0.002, 0.005, 0.01, 0.02, 0.05)
"""Shares by which a value that just mends is moved on until it does as printed."""
_JUST: Final = 1e-9
_FIXED: Final = (HANDBOOK, MASS)
"""How names begin that nobody changes by giving them another value."""
_TOLD = 3
_MOST_NAMES = 8


@dataclass(frozen=True, slots=True)
class Influence:
    """A given parameter, how much the slack changes when it changes by all of itself, and a value that mends."""

    name: str
    now: Quantity
    weight: float
    mends: Quantity | None


@dataclass(frozen=True)
class Failure:
    """A rule where it fails: the design there, and what else may be changed in it, the driver of a travel held."""

    design: Design
    plan: Plan
    slack: Slack
    units: Units

    def influences(self, names: Iterable[str]) -> tuple[Influence, ...]:
        """The three that matter most by relative change, greatest first."""
        weights = {name: self._weight(name) for name in names if self._number(name) and not self._is_gravity(name)}
        least = 1e-6 * abs(self.slack(self.design) or 0.0)
        told = sorted((name for name in weights if abs(weights[name]) > least), key=lambda name: -abs(weights[name]))
        return tuple(
            Influence(name, self.design.parameters[name].value.quantity, weights[name], self._mend(name, weights[name]))
            for name in told[:_TOLD]
        )

    def _is_gravity(self, name: str) -> bool:
        """What nobody changes, though a plan set may give it a name."""
        return self.design.parameters[name].value.quantity.dimensionality == ACCELERATION

    def _number(self, name: str) -> float:
        return self.design.parameters[name].value.number

    def _with(self, name: str, number: float) -> float | None:
        kind = self.design.parameters[name].value.quantity.dimensionality
        there, _ = evaluate(self.plan, self.design.overriding({name: Quantity(number, kind)}))
        return None if there is None else self.slack(there)

    def _weight(self, name: str) -> float:
        now = self._number(name)
        more, less = (self._with(name, now * (1 + share)) for share in (_STEP, -_STEP))
        return 0.0 if more is None or less is None else (more - less) / (2 * _STEP)

    def _mend(self, name: str, weight: float) -> Quantity | None:
        """The nearest value that mends, as printed; first looked for where the slope leads."""
        for way in (1, -1) if weight > 0 else (-1, 1):
            found = self._towards(name, way)
            if found is not None:
                return self._as_printed(name, found, way)
        return None

    def _towards(self, name: str, way: int) -> float | None:
        """Strides until it holds, then halving between that and the last failure."""
        now, fails = self._number(name), 0.0
        holds_at = partial(self._holds, name)
        for stride in range(1, _STRIDES + 1):
            share = way * _FURTHEST * stride / _STRIDES
            if holds_at(now * (1 + share)):
                for _ in range(_HALVINGS):
                    middle = (fails + share) / 2
                    fails, share = (fails, middle) if holds_at(now * (1 + middle)) else (middle, share)
                return now * (1 + share)
            fails = share
        return None

    def _holds(self, name: str, number: float) -> bool:
        slack = self._with(name, number)
        return slack is not None and slack >= 0

    def _as_printed(self, name: str, number: float, way: int) -> Quantity | None:
        """A value that can be printed and mends as printed."""
        value = self.design.parameters[name].value
        kind, furthest = value.quantity.dimensionality, abs(value.number) * (_FURTHEST + 1e-9)
        for precision in dict.fromkeys((value.precision, Precision.CALIPER)):
            for nudge in _NUDGES:
                moved = Quantity(number + way * nudge * value.number, kind)
                printed = print_quantity(moved, self.units, precision).value
                if abs(printed - value.number) <= furthest and self._holds(name, printed):
                    return Quantity(printed, kind)
        return None


def slack_of(judge: Callable[[Design], Judgement | None]) -> Slack:
    """The slack of the relation that holds least, in base units."""

    def slack(design: Design) -> float | None:
        judgement = judge(design)
        if judgement is None:
            return None
        least = min(each for each, _ in slacks(judgement))
        # A relation holds or fails after the noise of arithmetic is settled, a strict one fails where it is just met.
        return max(least, 0.0) if judgement.holds else min(least, -_JUST)

    return slack


def slacks(judgement: Judgement) -> Iterator[tuple[float, float]]:
    """By how much each relation holds, below zero by how much it fails, and the size of its greater side."""
    for relation, left, right in zip(judgement.relations, judgement.sides, judgement.sides[1:], strict=False):
        more = right.number - left.number
        slack = more if "<" in relation else -more if ">" in relation else -abs(more)
        yield slack, max(abs(left.number), abs(right.number))


def remedy(because: str, names: Iterable[str], failure: Failure, held: Iterable[str] = ()) -> str:
    """What to change, by how much where that is known. `held` is not to be changed: it moves by itself."""
    given = [name for name in given_names(names, failure.design) if name not in set(held)]
    found = failure.influences(given)
    mending = [_changed(each, failure) for each in found if each.mends is not None]
    others = [each.name for each in found if each.mends is None]
    if not found:
        return f"{capital(because)}: change {_named(given) or 'the rule'}."
    nothing = f"nothing within {_FURTHEST * 100:.0f} % of"
    if not mending:
        one = "it" if len(others) == 1 else "any one of them"
        return f"{capital(because)}: it hangs most on {listed(others, 'and')}; {nothing} {one} mends it alone."
    alone = f"; {nothing} {listed(others, 'or')} mends it alone" if others else ""
    return f"{capital(because)}: change {', or '.join(mending)}{alone}."


def plain_remedy(because: str, names: Iterable[str], design: Design) -> str:
    """The same where no value would be of use: which parameters it hangs on."""
    return f"{capital(because)}: change {_named(given_names(names, design)) or 'the rule'}."


def _named(given: Iterable[str]) -> str:
    names = list(given)
    return ", ".join(names[:_MOST_NAMES]) + (" or another" if len(names) > _MOST_NAMES else "")


def _changed(influence: Influence, failure: Failure) -> str:
    """The new value as finely as the parameter is printed, more finely where that would be another value."""
    mends = influence.mends or influence.now
    own = failure.design.parameters[influence.name].value.precision
    now = print_quantity(influence.now, failure.units, own)
    new = [print_quantity(mends, failure.units, each) for each in (own, Precision.CALIPER)]
    nearest = min(new, key=lambda printed: abs(printed.value - mends.value))
    return f"`{influence.name}` from {_full(now)} to {_full(nearest)}"


def _full(printed: Printed) -> str:
    return f"{printed.text}{'' if printed.unit in ('', '°') else ' '}{printed.unit}"


def measures_of(content: Content, design: Design) -> tuple[str, ...]:
    """The names that the shapes and places of parts and components mention, sorted."""
    components = content.assembly.components if content.assembly is not None else {}
    return tuple(sorted(name for name in names_in([content.parts, components]) if name in design.parameters))


def given_names(names: Iterable[str], design: Design) -> tuple[str, ...]:
    """The given parameters that these names hang on, the author's own first, then the market's."""
    given = [name for name in hung_on(names, design) if design.parameters[name].given and not name.startswith(_FIXED)]
    return tuple(sorted(given, key=lambda name: (name.startswith(NOT_THE_AUTHORS), name)))


def hung_on(names: Iterable[str], design: Design) -> tuple[str, ...]:
    """These names and all that they hang on, given or worked out."""
    reached: dict[str, None] = {}
    waiting = list(names)
    while waiting:
        name = waiting.pop()
        parameter = design.parameters.get(name)
        if parameter is not None and name not in reached:
            reached[name] = None
            waiting += parameter.value.inputs
    return tuple(reached)
