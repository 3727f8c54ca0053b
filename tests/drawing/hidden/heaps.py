"""Assemblies for views: heaps of boxes and rods on a coarse grid, so that touching is common; and the demo's own."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path

from hypothesis import strategies as st

from planbook.design import Overrides, evaluate, plan_design
from planbook.shape import place_components, shape_parts
from planbook.shape.geometry import Vec
from planbook.shape.model import Component, Placement
from planbook.shape.solids import Mesh, mesh_of_component
from planbook.source import Door, load
from tests.drawing.assemblies import X, Y, Z, at, shaped
from tests.drawing.samples import NM, Bench

AXES = ((X, Y, Z), (Y, Z, X), (Z, X, Y))


def box(name: str, place: tuple[float, float, float], size: tuple[float, float, float]) -> Component:
    return Component(name, Placement(at(*place), X, Y, Z), shaped(Bench("box", "Box", size)))


def rod(name: str, place: tuple[float, float, float], axis: int, radius: float, length: float) -> Component:
    """A cylinder along a world axis from the middle of its near end."""
    return Component(name, Placement(at(*place), *AXES[axis]), None, "rod", radius * NM, length * NM)


def tilted(component: Component, turn: tuple[float, float]) -> Component:
    """The same component with its x axis in another direction of the x-z plane."""
    cos, sin = turn
    placement = Placement(component.placement.origin, Vec(cos, 0, sin), Y, Vec(-sin, 0, cos))
    return Component(component.name, placement, component.part, "rod", component.rod_radius, component.rod_length)


def meshes(*components: Component) -> dict[str, Mesh]:
    return {component.name: mesh_of_component(component) for component in components}


_STEP = st.integers(0, 6).map(lambda k: 10.0 * k)
_SIZE = st.integers(1, 5).map(lambda k: 10.0 * k)
_PLACE = st.tuples(_STEP, _STEP, _STEP)


@st.composite
def heaps(draw: st.DrawFn) -> dict[str, Mesh]:
    """Two to six boxes and rods; they may touch, lie flush, or reach into one another."""
    found: list[Component] = []
    for number in range(draw(st.integers(2, 6))):
        name, place = f"c{number}", draw(_PLACE)
        if draw(st.booleans()):
            found.append(box(name, place, draw(st.tuples(_SIZE, _SIZE, _SIZE))))
        else:
            found.append(rod(name, place, draw(st.integers(0, 2)), draw(st.sampled_from((4.0, 10.0))), draw(_SIZE)))
    return meshes(*found)


@lru_cache
def assembly(key: str) -> tuple[Component, ...]:
    """A demo's components as they stand, in the European market."""
    content, _ = load(Door(Path(__file__).parents[3]), key)
    assert content is not None
    plan, _ = plan_design(content)
    assert plan is not None
    design, _ = evaluate(plan, Overrides("europe"))
    assert design is not None
    parts, _ = shape_parts(content, design)
    return place_components(content, design, parts)[0]
