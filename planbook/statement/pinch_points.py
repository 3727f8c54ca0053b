"""Where fingers are caught as the assembly moves: told in the step that makes it possible, or said to be guarded."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence, Set
from dataclasses import dataclass
from functools import cached_property
from typing import Final

from planbook.measure import MILLIMETRE, Precision, Quantity, Units, print_quantity
from planbook.measure.dimensionality import LENGTH
from planbook.motion import FINGER_FREE, Pinch, Travel
from planbook.motion.sweep import groups_of
from planbook.source.content import Content, Step
from planbook.source.findings import Finding, Place, Severity
from planbook.source.models.figures import StepFigureModel
from planbook.source.models.market import Listing
from planbook.source.text import Text
from planbook.statement.model import RowStated
from planbook.statement.naming import spoken

PINCH_POINTS: Final = "pinch_points"
_OPEN: Final = {Units.INCH: "1 in or more", Units.MILLIMETRE: "25 mm or more"}
"""A clearance that takes a whole finger, which is not measured any further."""
_TOLD: Final = 3


@dataclass(frozen=True)
class PinchPoint:
    """Two kinds of components that pinch in a travel, alike in all their places. `step` is "" without steps."""

    travel: Travel
    between: tuple[str, str]
    pinches: tuple[Pinch, ...]
    step: str
    guarded: str


def pinch_points(content: Content, travels: Mapping[str, Travel]) -> tuple[PinchPoint, ...]:
    """Those of all travels, in the order of steps; each two kinds of components once in a travel."""
    points = [point for travel in travels.values() for point in _of_travel(content, travel)]
    order = [step.key for step in content.steps]
    return tuple(sorted(points, key=lambda point: order.index(point.step) if point.step else len(order)))


def state_pinch_points(points: Sequence[PinchPoint], units: Units) -> tuple[RowStated, ...]:
    """A row for each."""
    return tuple(RowStated(_id(each), _cells(each, units)) for each in points)


def _id(point: PinchPoint) -> str:
    words = (point.travel.course.name, *point.between, *(["guarded"] if point.guarded else []))
    return "/".join(words).replace(" ", "_")


def _cells(point: PinchPoint, units: Units) -> dict[str, str]:
    return {
        "One": point.between[0],
        "Other": point.between[1],
        "From": _widest(point.pinches, units),
        "To": _printed(min(pinch.narrow for pinch in point.pinches), units),
        "While": _while(point, units),
        "Guarded": point.guarded,
        "Step": point.step,
    }


def check_pinch_points(points: Sequence[PinchPoint], content: Content) -> tuple[Finding, ...]:
    """A warning for each step that makes some and has no caution that lists them."""
    listing = _listing(content)
    found = []
    for step in dict.fromkeys(point.step for point in points if not point.guarded):
        head = next((each for each in content.steps if each.key == step), None)
        named = content.plan_set.cautions if head is None else head.head.cautions
        if not set(named) & set(listing):
            here = [point for point in points if point.step == step and not point.guarded]
            found.append(_untold(content, head, here, [str(key) for key in listing]))
    return tuple(found)


def _listing(content: Content) -> tuple[Text, ...]:
    """The cautions that list pinch points."""
    return tuple(key for key, model in content.cautions.items() if model.lists is Listing.PINCH_POINTS)


def _untold(content: Content, step: Step | None, points: Sequence[PinchPoint], listing: Sequence[str]) -> Finding:
    told = "; ".join(f"{one} and {other}" for one, other in (point.between for point in points[:_TOLD]))
    more = f"; and {len(points) - _TOLD} more" if len(points) > _TOLD else ""
    where = "The plan set has" if step is None else f"The step {step.head.title} makes"
    what = "pinch points" if len(points) > 1 else "a pinch point"
    caution = f"`cautions: [{listing[0]}]`" if listing else "a caution with `lists: pinch_points`"
    place = Place(f"{content.folder}/set.yaml", 1, 1) if step is None else step.head.title.place
    return Finding(
        "pinch-untold",
        Severity.WARN,
        f"{where} {what} that no caution lists: {told}{more}.",
        f"Name {caution} there; or say under `guarded` in positions.yaml why no finger gets between them.",
        place,
    )


def _of_travel(content: Content, travel: Travel) -> Iterator[PinchPoint]:
    build = _Build(content, travel)
    kinds: dict[tuple[tuple[str, str], str], list[Pinch]] = {}
    for pinch in travel.pinches:
        one, other = sorted((build.kind(pinch.one), build.kind(pinch.other)))
        other = f"another {other}" if one == other else other
        kinds.setdefault(((one, other), _guard(content, pinch)), []).append(pinch)
    for (between, guarded), alike in kinds.items():
        step = max((build.step(pinch) for pinch in alike), default=0)
        yield PinchPoint(travel, between, tuple(alike), content.steps[step - 1].key if step else "", guarded)


def _guard(content: Content, pinch: Pinch) -> str:
    assert content.positions is not None
    pair = {pinch.one, pinch.other}
    guards = (guard for guard in content.positions.guarded.values() if pair <= {*map(str, guard.between)})
    return next((str(guard.because) for guard in guards), "")


@dataclass(frozen=True)
class _Build:
    """By which step the components of a travel are there, and those that move together with them."""

    content: Content
    travel: Travel

    def kind(self, component: str) -> str:
        """What a builder calls it: its part's title or its own, in small letters.

        Rows are known by it, so that a title like `Leaf, free half` stays as releases have it; pages print it small.
        """
        assert self.content.assembly is not None
        model = self.content.assembly.components[Text(component)]
        title = self.content.parts[model.part].title if model.part is not None else model.rod.title if model.rod else ""
        return str(title) if "," in title.partition(" ")[0] else spoken(str(title))

    def step(self, pinch: Pinch) -> int:
        """The number of the step where a pair begins to pinch: from the one on that finishes what moves of it, or makes
        the rest, the first that works on these components and lists pinch points, if there is one not before both are
        there; else the one that makes the last. 0 without steps.
        """
        needed = {pinch.one, pinch.other}
        for group in self._moving:
            if needed & set(group):
                needed |= set(group)
        made = max(self._made.get(component, 0) for component in needed)
        parts = self._parts_of(needed)
        listing = [
            step.number
            for step in self.content.steps
            if step.number >= made and parts & set(step.head.parts) and self._lists(step)
        ]
        pair = self._parts_of({pinch.one, pinch.other})
        there = [number for number in listing if not any(self._lies_by(part, number) for part in pair)]
        return min(there or listing, default=made)

    def _parts_of(self, components: Set[str]) -> frozenset[Text]:
        assert self.content.assembly is not None
        models = (self.content.assembly.components[Text(component)] for component in components)
        return frozenset(model.part for model in models if model.part is not None)

    def _lies_by(self, part: Text, number: int) -> bool:
        """Whether a part is only cut before a step, and worked on again after it: it is not yet put in. Where a step
        that lists pinch points works on it first, it is more than cut.
        """
        steps = [step for step in self.content.steps if part in step.head.parts]
        return len(steps) > 1 and not self._lists(steps[0]) and steps[0].number < number < steps[1].number

    def _lists(self, step: Step) -> bool:
        return not {*step.head.cautions}.isdisjoint(_listing(self.content))

    @cached_property
    def _moving(self) -> tuple[tuple[str, ...], ...]:
        paths = self.travel.sweep.paths
        return tuple(group for group in groups_of(paths) if not paths[group[0]].rests)

    @cached_property
    def _made(self) -> Mapping[str, int]:
        """The first step that makes a component's part, or whose figure adds it."""
        assert self.content.assembly is not None
        numbers = {step.key: step.number for step in reversed(self.content.steps)}
        parts = {str(part): step.number for step in reversed(self.content.steps) for part in step.head.parts}
        added = {
            str(name): numbers.get(str(figure.step), 0)
            for figure in self.content.figures.values()
            if isinstance(figure, StepFigureModel)
            for name in figure.emphasise
        }
        return {
            str(name): parts.get(str(model.part), 0) if model.part is not None else added.get(str(name), 0)
            for name, model in self.content.assembly.components.items()
        }


def _widest(pinches: Sequence[Pinch], units: Units) -> str:
    wide = max(pinch.wide for pinch in pinches)
    return _OPEN[units] if wide >= FINGER_FREE else _printed(wide, units)


def _printed(millimetres: float, units: Units) -> str:
    return _own(Quantity(millimetres * MILLIMETRE, LENGTH), units)


def _own(quantity: Quantity, units: Units) -> str:
    """In the edition's own unit alone: no number to set anything by."""
    printed = print_quantity(quantity, units, Precision.WOODWORK)
    return f"{printed.text}{'' if printed.unit in {'', '°'} else ' '}{printed.unit}"


def _while(point: PinchPoint, units: Units) -> str:
    """`lever angle 72° to 99°`, and the way back."""
    course = point.travel.course
    stretches: dict[str, None] = {}
    for way in (1, -1):
        found = [pinch for pinch in point.pinches if (pinch.closed - pinch.open) * way > 0]
        if found:
            opened = (min if way > 0 else max)(pinch.open for pinch in found)
            closed = (max if way > 0 else min)(pinch.closed for pinch in found)
            texts = [_own(Quantity(point.travel.places[at].at, course.kind), units) for at in (opened, closed)]
            stretches[" to ".join(texts)] = None
    return f"{course.driver.replace('.', ' ').replace('_', ' ')} {', and back '.join(stretches)}"
