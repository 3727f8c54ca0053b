"""The proof that a sheet says enough, and nothing twice."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from planbook.dimension.completeness.granted import granted
from planbook.dimension.completeness.record import Shape, SheetRecord, Told
from planbook.dimension.completeness.said import said
from planbook.dimension.completeness.system import System
from planbook.dimension.completeness.turns import granted_turns
from planbook.dimension.completeness.unknowns import Unknown, Unknowns, unknowns_of


@dataclass(frozen=True, slots=True)
class Unfixed:
    """Something of the part that no printed dimension fixes."""

    features: tuple[str, ...]
    direction: str
    """"x", "y", "z", or "radius"."""
    value: float
    """Where it is drawn, in nanometres: for the person who looks for it."""


@dataclass(frozen=True, slots=True)
class Implied:
    """A dimension that others already say, and that is not marked as a reference."""

    dimension: str
    by: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Adrift:
    """A dimension that points at nothing that the part has."""

    dimension: str


Fault = Unfixed | Implied | Adrift


def check_sheet(record: SheetRecord) -> tuple[Fault, ...]:
    """What the sheet leaves open, says twice, or says of nothing.

    Reference dimensions say nothing but how many features there are.
    """
    unknowns = unknowns_of(record.part)
    told, bracketed = (tuple(each for each in record.dimensions if each.reference is kind) for kind in (False, True))
    system, faults = _taken_in(record.part, unknowns, told, bracketed)
    loose = [unknown for unknown in unknowns.owners if not system.is_fixed(unknown)]
    faults += [Unfixed(tuple(sorted(unknowns.owners[each])), each.kind, each.value) for each in loose]
    if not faults:
        faults += _needless(record.part, unknowns, told, bracketed)
    return tuple(faults)


def _taken_in(
    part: Shape, unknowns: Unknowns, told: Sequence[Told], bracketed: Sequence[Told]
) -> tuple[System[Unknown], list[Fault]]:
    """All equations, and the dimensions that say nothing new or nothing at all."""
    system: System[Unknown] = System()
    for equation in (*granted(part, unknowns, told), *granted_turns(part, unknowns, told, bracketed)):
        system.add(equation.name, equation.row)
    faults: list[Fault] = []
    for each in told:
        equations = said(part, unknowns, each)
        if equations is None:
            faults.append(Adrift(each.id))
            continue
        answers = [system.add(equation.name, equation.row) for equation in equations]
        if all(answer is not None for answer in answers):
            others = frozenset().union(*(answer for answer in answers if answer)) - {each.id}
            faults.append(Implied(each.id, tuple(sorted(name for name in others if "/" in name))))
    return system, faults


def _needless(part: Shape, unknowns: Unknowns, told: Sequence[Told], bracketed: Sequence[Told]) -> Iterator[Implied]:
    """Dimensions to a point that only helps, where the part is fixed without them: the place of a highest point.

    Of two that each do without the other, as the length and the width of a disc, the later one is needless.
    """
    left = list(told)
    for each in reversed(told):
        rows = [equation.row for equation in said(part, unknowns, each) or ()]
        if all(unknown in unknowns.owners for row in rows for unknown in row):
            continue
        others = [other for other in left if other is not each]
        system, _ = _taken_in(part, unknowns, others, bracketed)
        if all(system.is_fixed(unknown) for unknown in unknowns.owners):
            left = others
            yield Implied(each.id, ())
