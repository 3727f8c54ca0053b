"""Components that lie in one another, and such as hang in the air, told for all positions at once."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from itertools import combinations
from typing import Final

from planbook.design import Design, Plan
from planbook.measure import MILLIMETRE
from planbook.motion.contact import TOUCH, Contacts, Overlap, Solid, solid_of
from planbook.motion.positions import place_in
from planbook.shape import in_both
from planbook.shape.model import Component, Part
from planbook.source.content import Content
from planbook.source.findings import Finding, Related, Severity
from planbook.source.models.assembly import AssemblyModel
from planbook.source.names import listed
from planbook.source.text import Text

Components = tuple[Component, ...]
_FLOOR: Final = TOUCH
"""Millimetres over the floor at which something stands on it."""


def check_assembly(
    content: Content, design: Design, plan: Plan, parts: Mapping[str, Part], standing: Components
) -> tuple[Finding, ...]:
    """Warnings about the assembly as it is placed; `standing` is it with the driver as given."""
    if content.assembly is None:
        return ()
    allowed = _allowed(content.assembly)
    worst: dict[tuple[str, str], Overlap] = {}
    where: dict[tuple[str, str], list[str]] = {}
    floating: dict[tuple[str, ...], list[str]] = {}
    contacts, known = Contacts(), dict[Component, Solid]()
    for position, components in _positions(content, design, plan, parts, standing).items():
        solids = _solids(components, known)
        for each in contacts.overlaps(solids):
            pair = (each.one, each.other)
            if frozenset(pair) not in allowed:
                worst[pair] = max(worst.get(pair, each), each, key=lambda overlap: overlap.depth)
                where.setdefault(pair, []).append(position)
        for island in _in_the_air(solids, contacts):
            floating.setdefault(island, []).append(position)
    keys = {str(name): name for name in content.assembly.components}
    count = len(content.positions.positions) if content.positions else 0
    return (
        *(_overlap(keys, each, _said(where[pair], count)) for pair, each in worst.items()),
        *(_floats(keys, island, _said(positions, count)) for island, positions in floating.items()),
    )


def _positions(
    content: Content, design: Design, plan: Plan, parts: Mapping[str, Part], standing: Components
) -> Mapping[str, Components]:
    """By name; one that has a fault is left out. Without positions, the assembly as it stands."""
    if content.positions is None:
        return {"": standing}
    return {
        str(position): placed
        for position in content.positions.positions
        if (placed := place_in(position, content, design, plan, parts)[0])
    }


def _solids(components: Components, known: dict[Component, Solid]) -> dict[str, Solid]:
    """Those of which their features leave something; what stands as it did in another position is the same solid."""
    solids: dict[str, Solid] = {}
    for each in components:
        stands = replace(each, part=None)  # a component's part is the same in all positions
        if stands not in known:
            known[stands] = solid_of(each)
        if len(known[stands].mesh.triangles):
            solids[each.name] = known[stands]
    return solids


def _allowed(assembly: AssemblyModel) -> frozenset[frozenset[str]]:
    pairs = (combinations(map(str, each.between), 2) for each in assembly.overlaps.values())
    return frozenset(frozenset(pair) for each in pairs for pair in each)


def _in_the_air(solids: Mapping[str, Solid], contacts: Contacts) -> Iterator[tuple[str, ...]]:
    """The groups that touch no other and do not stand on the floor; the largest is the piece itself."""
    found = contacts.islands(solids)
    piece = max(found, key=lambda island: sum(solids[name].mesh.volume for name in island), default=())
    for island in found:
        if island is not piece and min(solids[name].low[2] for name in island) > _FLOOR:
            yield island


def _said(positions: Iterable[str], count: int) -> str:
    """` in raised`; nothing where it is so in every position."""
    named = [name for name in positions if name]
    return f" in {listed(named, 'and')}" if named and len(named) < count else ""


def _overlap(keys: Mapping[str, Text], overlap: Overlap, position: str) -> Finding:
    sizes = [high - low for low, high in zip(overlap.low, overlap.high, strict=True)]
    middle = [(low + high) / 2 for low, high in zip(overlap.low, overlap.high, strict=True)]
    at = ", ".join(f"{axis} {number:.0f}" for axis, number in zip("xyz", middle, strict=True))
    return Finding(
        "components-overlap",
        Severity.WARN,
        f"`{overlap.one}` and `{overlap.other}` lie in one another{position}, up to "
        f"{in_both(round(overlap.depth, 1) * MILLIMETRE)} deep: they share a space of "
        f"{' by '.join(f'{size:.1f}' for size in sizes)} mm about {at} mm.",
        "Move one of them, or shape one so that the other has its place. Where they are meant to, say so in "
        f"assembly.yaml: `overlaps: {{name: {{between: [{overlap.one}, {overlap.other}], because: ...}}}}`.",
        keys[overlap.one].place,
        related=(Related(keys[overlap.other].place, f"`{overlap.other}` is placed here"),),
    )


def _floats(keys: Mapping[str, Text], island: tuple[str, ...], position: str) -> Finding:
    what = f"`{island[0]}` touches" if len(island) == 1 else f"{listed(island, 'and')} touch one another and"
    return Finding(
        "component-floats",
        Severity.WARN,
        f"{what} nothing else within {in_both(TOUCH * MILLIMETRE)}{position}, and the floor neither.",
        "Look at `at` of the component, or add what holds it.",
        keys[island[0]].place,
    )
