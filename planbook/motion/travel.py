"""A travel of the assembly: the design and the components at each place of its driver."""

from __future__ import annotations

from collections.abc import Mapping, Set
from dataclasses import dataclass, field, replace
from functools import cached_property

from planbook.design import Design, Plan, dependents, evaluate
from planbook.measure import Precision, Quantity, Units, print_quantity
from planbook.measure.dimensionality import Dimensionality
from planbook.shape import formulas_of, place_components
from planbook.shape.model import Component, Part
from planbook.source.content import Content
from planbook.source.findings import Finding, Severity
from planbook.source.models.assembly import ComponentModel, PositionsModel, TravelModel
from planbook.source.text import Text

Findings = tuple[Finding, ...]


@dataclass(frozen=True)
class Place:
    """The assembly with the driver at `at` (base units)."""

    at: float
    design: Design
    components: tuple[Component, ...]


@dataclass(frozen=True)
class Course:
    """What a travel moves: a driver between two values, in so many steps, others held. Values in base units."""

    name: str
    driver: str
    kind: Dimensionality
    start: float
    end: float
    steps: int
    held: Mapping[str, Quantity] = field(default_factory=dict)

    @property
    def places(self) -> tuple[float, ...]:
        """The driver's values, first and last exactly."""
        span = self.end - self.start
        return (*(self.start + span * step / self.steps for step in range(self.steps)), self.end)


@dataclass(frozen=True)
class Mover:
    """Places the assembly anywhere along a course."""

    content: Content
    plan: Plan
    design: Design
    """As it stands, with the driver as given."""
    parts: Mapping[str, Part]
    course: Course
    also: Mapping[str, Quantity] = field(default_factory=dict)
    """What else is replaced: tolerance ends, printed numbers."""

    def place(self, at: float, other: Place | None = None) -> tuple[Place | None, Findings]:
        """The assembly there; None with the findings that say why not. What the driver does not move is taken from
        another place of the course, where there is one.
        """
        values = {**self.also, **self.course.held, self.course.driver: Quantity(at, self.course.kind)}
        design, found = evaluate(self.plan, self.design.overriding(values))
        if design is None or found:
            return None, found
        placed, more = place_components(self.content if other is None else self._driven, design, self.parts)
        if more:
            return None, more
        moved = {each.name: each for each in placed}
        components = placed if other is None else tuple(moved.get(each.name, each) for each in other.components)
        return Place(at, design, components), ()

    @cached_property
    def _driven(self) -> Content:
        """With only those components whose place hangs on the driver."""
        assembly = self.content.assembly
        assert assembly is not None
        driver = self.course.driver
        moving = {driver, *dependents(self.plan, driver)}
        driven = {name: model for name, model in assembly.components.items() if self._hangs_on(model, moving)}
        return replace(self.content, assembly=assembly.model_copy(update={"components": driven}))

    def _hangs_on(self, model: ComponentModel, names: Set[str]) -> bool:
        values = (self.design.solve(formula)[0] for formula in formulas_of(model))
        return any(value is None or not names.isdisjoint(value.inputs) for value in values)


def course_of(
    name: Text, model: TravelModel, positions: PositionsModel, design: Design
) -> tuple[Course | None, Findings]:
    """What a travel says, worked out; None when its driver or its ends have a fault, which the findings tell."""
    driver = model.driver if model.driver is not None else positions.driver
    parameter = design.parameters.get(str(driver))
    if parameter is None:
        return None, ()
    kind = parameter.value.quantity.dimensionality
    if not parameter.given:
        message = f"The driver `{driver}` is worked out by a formula, so nothing can move it."
        return None, (_stop("travel-driver", message, "Name a parameter that is given a value.", driver),)
    ends = [design.solve(formula, kind) for formula in (model.start, model.end)]
    held = {str(other): design.solve(value) for other, value in model.holding.items()}
    found = tuple(finding for _, findings in (*ends, *held.values()) for finding in findings)
    (start, _), (end, _) = ends
    if start is None or end is None or found:
        return None, found
    if start.number == end.number:
        message = f"The travel `{name}` begins where it ends, at {model.start}."
        return None, (_stop("travel-range", message, "Let `to` differ from `from`.", model.end),)
    values = {other: value.quantity for other, (value, _) in held.items() if value is not None}
    return Course(str(name), str(driver), kind, start.number, end.number, model.steps, values), ()


def run(mover: Mover, name: Text) -> tuple[tuple[Place, ...], Findings]:
    """All places of a travel in order; none when the assembly cannot stand at one, with a finding that says where."""
    places: list[Place] = []
    course = mover.course
    for step, at in enumerate(course.places):
        place, found = mover.place(at, places[0] if places else None)
        if place is None:
            return (), (_stuck(name, course, step, at, found),)
        places.append(place)
    return tuple(places), ()


def _stuck(name: Text, course: Course, step: int, at: float, found: Findings) -> Finding:
    why = found[0] if found else None
    where = f"At step {step} of {course.steps}, `{course.driver}` at {said(at, course.kind)},"
    message = f"{where} the assembly has no place: {why.message if why else 'a measure has no value.'}"
    remedy = why.remedy if why else "Keep the driver where every formula has a value."
    return Finding("travel-stuck", Severity.STOP, message, remedy, why.place if why and why.place else name.place)


def said(value: float, kind: Dimensionality) -> str:
    """A driver's value in a finding: metric, for it stands in no edition's units there."""
    printed = print_quantity(Quantity(value, kind), Units.MILLIMETRE, Precision.CALIPER)
    return f"{printed.text}{'' if printed.unit in {'', '°'} else ' '}{printed.unit}"


def _stop(code: str, message: str, remedy: str, at: Text) -> Finding:
    return Finding(code, Severity.STOP, message, remedy, at.place)
