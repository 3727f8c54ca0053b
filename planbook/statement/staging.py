"""How pictures of the assembly set it on stage: what is shown, what is pointed out, what is moved from its place."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from planbook.design import Design
from planbook.measure.dimensionality import LENGTH
from planbook.shape.geometry import Vec
from planbook.shape.model import Component
from planbook.source.content import Content, Step
from planbook.source.findings import Finding
from planbook.source.models.figures import ExplodedModel, OfAssemblyModel, RowModel, StepFigureModel

Move = Vec
"""Nanometres to the right, to the back and up."""


@dataclass(frozen=True, slots=True)
class Stage:
    """What a picture shows of its components: in black those in `emphasise`, numbered those in `labelled`.

    `moves` is where an exploded view takes components from their places.
    """

    show: frozenset[str]
    emphasise: frozenset[str] = frozenset()
    labelled: frozenset[str] = frozenset()
    moves: Mapping[str, Move] = field(default_factory=dict)


def stage_figures(
    content: Content, design: Design, assemblies: Mapping[str, Sequence[Component]]
) -> tuple[Mapping[str, Stage], tuple[Finding, ...]]:
    """The stage of each picture of the assembly, by figure; findings where a move cannot be worked out."""
    stages: dict[str, Stage] = {}
    found: list[Finding] = []
    for name, model in content.figures.items():
        if not isinstance(model, OfAssemblyModel) or isinstance(model, RowModel):
            continue
        components = assemblies[str(name)]
        moves: Mapping[str, Move] = {}
        if isinstance(model, ExplodedModel):
            moves, findings = _moves(model, design)
            found += findings
        if isinstance(model, StepFigureModel):
            stages[str(name)] = _of_step(content, model, components)
        else:
            stages[str(name)] = _as_told(model, components, moves)
    return stages, tuple(found)


def _as_told(model: OfAssemblyModel, components: Sequence[Component], moves: Mapping[str, Move]) -> Stage:
    show = frozenset(each.name for each in components if model.show is None or each.name in model.show)
    strong = frozenset(map(str, model.emphasise))
    return Stage(show, strong, show if model.label else frozenset(), moves)


def _of_step(content: Content, model: StepFigureModel, components: Sequence[Component]) -> Stage:
    number = next((step.number for step in content.steps if step.key == model.step), 0)
    before = [step for step in content.steps if step.number < number]
    this = [step for step in content.steps if step.number == number]
    there = _made(before, components) | set(_put_in(content, before))
    named = _made(this, components)
    added = frozenset((named - there or named) | set(map(str, model.emphasise)))
    grey = there if model.show is None else set(map(str, model.show))
    return Stage(frozenset(grey) | added, added, added if model.label else frozenset())


def _made(steps: Sequence[Step], components: Sequence[Component]) -> set[str]:
    """Components of the parts that steps make."""
    parts = {str(part) for step in steps for part in step.head.parts}
    return {each.name for each in components if each.part is not None and each.part.key in parts}


def _put_in(content: Content, steps: Sequence[Step]) -> Iterator[str]:
    """What figures of steps add besides their parts."""
    keys = {step.key for step in steps}
    for model in content.figures.values():
        if isinstance(model, StepFigureModel) and model.step in keys:
            yield from map(str, model.emphasise)


def _moves(model: ExplodedModel, design: Design) -> tuple[Mapping[str, Move], tuple[Finding, ...]]:
    """The way that each component goes: the sum of those that name it."""
    moves: dict[str, Move] = {}
    found: list[Finding] = []
    for apart in model.apart:
        solved = [design.solve(formula, LENGTH) for formula in apart.by]
        found += (finding for _, findings in solved for finding in findings)
        by = [value.number if value is not None else 0.0 for value, _ in solved]
        for name in map(str, apart.move):
            moves[name] = Move(*(a + b for a, b in zip(moves.get(name, Move(0, 0, 0)), by, strict=True)))
    return moves, tuple(found)
