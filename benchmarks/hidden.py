"""What hidden-line views cost: the isometric picture of an assembly, from placed parts to strokes, on one core.

    python benchmarks/hidden.py [SET]

Prints CPU seconds, and ratios to the time that this machine takes to sort a million numbers, so that runs on different
machines can be compared.
"""

from __future__ import annotations

import sys
import time
from collections.abc import Callable
from pathlib import Path

import numpy as np

from planbook.design import Overrides, evaluate, plan_design
from planbook.drawing import draw_elevation, draw_isometric
from planbook.shape import place_components, shape_parts
from planbook.shape.model import Component
from planbook.shape.solids import building, mesh_of_component
from planbook.source import Door, load

WORKSPACE = Path(__file__).parents[1]
RUNS = 3
AIM = 2.0
"""CPU seconds for the isometric view of the desk."""


def main() -> None:
    key = sys.argv[1] if len(sys.argv) > 1 else "sewing-desk"
    components = assembly(key)
    meshes = best(lambda: mesh_anew(components))
    triangles = sum(len(mesh_of_component(component).triangles) for component in components)
    front = best(lambda: draw_elevation(components, "front"))
    isometric = best(lambda: draw_isometric(components, "front_left"))
    unit = best(sort_a_million)
    print(f"{key}: {len(components)} components, {triangles} triangles")
    print(f"  solids of all parts     {meshes:6.2f} s   ratio {meshes / unit:6.1f}")
    print(f"  elevation               {front:6.2f} s   ratio {front / unit:6.1f}")
    print(f"  isometric view          {isometric:6.2f} s   ratio {isometric / unit:6.1f}   (aim: at most {AIM:.0f} s)")


def assembly(key: str) -> tuple[Component, ...]:
    content, findings = load(Door(WORKSPACE), key)
    assert content is not None, findings
    plan, _ = plan_design(content)
    assert plan is not None
    market = next(iter(content.plan_set.editions.values())).market
    design, _ = evaluate(plan, Overrides(str(market)))
    assert design is not None
    parts, _ = shape_parts(content, design)
    return place_components(content, design, parts)[0]


def mesh_anew(components: tuple[Component, ...]) -> None:
    for remembered in (building.pieces_of, building.mesh_of_cuts, building._rod_mesh):
        remembered.cache_clear()
    for component in components:
        mesh_of_component(component)


def sort_a_million() -> None:
    np.sort(np.random.default_rng(1).random(1_000_000))


def best(work: Callable[[], object]) -> float:
    """The least CPU time of a few runs."""
    times = []
    for _ in range(RUNS):
        start = time.process_time()
        work()
        times.append(time.process_time() - start)
    return min(times)


if __name__ == "__main__":
    main()
