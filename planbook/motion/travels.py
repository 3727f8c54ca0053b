"""The travels of a plan set in one edition: each run once, swept on demand, with what is wrong in them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import combinations

from planbook.design import Design, Plan, Value, evaluate, failing
from planbook.measure import MILLIMETRE
from planbook.measure.dimensionality import LENGTH
from planbook.motion.contact import LEAST_OVERLAP
from planbook.motion.pinching import Pinch, pinches
from planbook.motion.sweep import Nearest, Sweep
from planbook.motion.travel import Course, Mover, Place, course_of, run, said
from planbook.shape import in_both
from planbook.shape.model import Part
from planbook.source.content import Content
from planbook.source.findings import Finding, Related, Severity
from planbook.source.findings import Place as SourcePlace
from planbook.source.models.assembly import PhaseModel, PositionsModel, TravelModel
from planbook.source.text import Text

Findings = tuple[Finding, ...]
_WITHIN = ("<=", "<=")
_TOUCH = 0.3
"""Millimetres within which it is asked whether two components run into one another."""


@dataclass(frozen=True)
class Travel:
    """A travel that can be run from end to end. `allowed`: by how many millimetres a pair may lie in one another."""

    mover: Mover
    places: tuple[Place, ...]
    allowed: Mapping[frozenset[str], float]

    @property
    def course(self) -> Course:
        """What is moved."""
        return self.mover.course

    @cached_property
    def sweep(self) -> Sweep:
        """Its bodies and paths."""
        return Sweep(self.places)

    @cached_property
    def nearest(self) -> tuple[Nearest, ...]:
        """Every pair that comes within reach."""
        return tuple(self.sweep.nearest())

    @cached_property
    def pinches(self) -> tuple[Pinch, ...]:
        """Every pair that pinches a finger."""
        return tuple(pinches(self.sweep))


def travels_of(
    content: Content, plan: Plan, design: Design, parts: Mapping[str, Part]
) -> tuple[Mapping[str, Travel], Findings]:
    """Those that can be run, and findings about the others and about the phases and positions.

    A design that has a fault where it stands is not moved: its own findings say so.
    """
    positions = content.positions
    if positions is None or content.assembly is None:
        return {}, ()
    travels: dict[str, Travel] = {}
    courses: list[Course] = []
    sound = not evaluate(plan, design.overriding({}))[1]
    found = [*_phases(positions, design)]
    for name, model in positions.travels.items():
        course, findings = course_of(name, model, positions, design)
        found += findings
        if course is None:
            continue
        courses.append(course)
        if not sound:
            continue
        mover = Mover(content, plan, design, parts, course)
        places, findings = run(mover, name)
        found += findings
        allowed, findings = _allowed(content, model, design)
        found += findings
        if places:
            travels[str(name)] = Travel(mover, places, allowed)
    return travels, (*found, *_outside(content, positions, courses, design))


def check_travels(content: Content, travels: Mapping[str, Travel]) -> Findings:
    """A finding for each two components that run into one another."""
    return tuple(finding for name, travel in travels.items() for finding in _meetings(content, name, travel))


def _meetings(content: Content, name: str, travel: Travel) -> Iterator[Finding]:
    assert content.assembly is not None
    keys = {str(key): key for key in content.assembly.components}
    course = travel.course
    for each in travel.sweep.nearest(_TOUCH):
        if -each.gap <= travel.allowed.get(frozenset((each.one, each.other)), LEAST_OVERLAP):
            continue
        at = said(travel.places[each.place].at, course.kind)
        depth = in_both(round(-each.gap, 1) * MILLIMETRE)
        yield Finding(
            "travel-blocked",
            Severity.STOP,
            f"In the travel {name} `{each.one}` and `{each.other}` run into one another: {depth} deep with "
            f"`{course.driver}` at {at}, step {each.place} of {course.steps}.",
            "Make room for one of them, or let the driver stop before. Where one bears on the other on purpose, say so "
            "in positions.yaml: `bearing: {name: "
            f"{{between: [{each.one}, {each.other}], by: 0.5 mm, because: ...}}}}`.",
            keys[each.one].place,
            related=(Related(keys[each.other].place, f"`{each.other}` is placed here"),),
        )


def _allowed(content: Content, model: TravelModel, design: Design) -> tuple[Mapping[frozenset[str], float], Findings]:
    allowed: dict[frozenset[str], float] = {}
    found: list[Finding] = []
    for overlap in content.assembly.overlaps.values() if content.assembly is not None else ():
        allowed |= {frozenset(map(str, pair)): float("inf") for pair in combinations(overlap.between, 2)}
    for bearing in model.bearing.values():
        value, findings = design.solve(bearing.by, LENGTH)
        found += findings
        if value is not None:
            allowed[frozenset(map(str, bearing.between))] = max(LEAST_OVERLAP, value.number / MILLIMETRE)
    return allowed, tuple(found)


def _phases(positions: PositionsModel, design: Design) -> Iterator[Finding]:
    """Phases that end before they begin, or begin before the one that they come after has ended."""
    ends = {str(name): _ends(model, design) for name, model in positions.phases.items()}
    for name, model in positions.phases.items():
        mine = ends[str(name)]
        if mine is not None and not _rises(mine[0], mine[1], "<"):
            start, end = map(_said, mine)
            message = f"The phase {name} ends at {end}, which is not after it begins, at {start}."
            yield Finding("phase-order", Severity.STOP, message, "Let `to` be more than `from`.", model.end.place)
        before = ends.get(str(model.after)) if model.after is not None else None
        if mine is not None and before is not None and not _rises(before[1], mine[0], "<="):
            start, ended = _said(mine[0]), _said(before[1])
            message = f"The phase {name} begins at {start}, before {model.after} has ended, at {ended}."
            remedy = f"Begin it at `phase.{model.after}_to` or later, or do not say that it comes after."
            yield Finding("phase-order", Severity.STOP, message, remedy, model.start.place)


def _ends(model: PhaseModel, design: Design) -> tuple[Value, Value] | None:
    start, end = (design.solve(formula)[0] for formula in (model.start, model.end))
    return None if start is None or end is None else (start, end)


def _rises(one: Value, other: Value, relation: str) -> bool:
    """Whether the other is greater, or as great; without the noise of arithmetic."""
    return failing(one.quantity.dimensionality, (one.number, other.number), (relation,)) is None


def _said(value: Value) -> str:
    return said(value.number, value.quantity.dimensionality)


def _outside(
    content: Content, positions: PositionsModel, courses: Sequence[Course], design: Design
) -> Iterator[Finding]:
    """Drivers that stand where no travel of theirs leads, as they are given or in a position."""
    for driver in dict.fromkeys(course.driver for course in courses):
        ways = [course for course in courses if course.driver == driver]
        low = min(min(way.start, way.end) for way in ways)
        high = max(max(way.start, way.end) for way in ways)
        kind = ways[0].kind
        ends = f"its travel goes from {said(low, kind)} to {said(high, kind)}"
        given = design.parameters[driver].value
        if failing(kind, (low, given.number, high), _WITHIN) is not None:
            place = next(name.place for name in content.parameters if name == driver)
            yield _outside_finding(f"`{driver}` is {said(given.number, kind)} as it is given; {ends}.", place)
        for name in positions.positions:
            formula = positions.stand(name).get(Text(driver))
            value = None if formula is None else design.solve(formula, kind)[0]
            if formula is None or value is None:
                continue
            if failing(kind, (low, value.number, high), _WITHIN) is not None:
                yield _outside_finding(f"In the position {name} `{driver}` is {formula}; {ends}.", formula.place)


def _outside_finding(message: str, place: SourcePlace) -> Finding:
    return Finding("position-outside", Severity.STOP, message, "Keep it within the travel, or lengthen that.", place)
