"""Whether the walls that the features of a part leave are as thick as its author asks, or else as wood should be."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Final

from planbook.design.values import Value
from planbook.measure import MILLIMETRE, round_to
from planbook.shape.bench import Bench, Solving
from planbook.shape.model import Part
from planbook.shape.walls import Wall, thin_walls
from planbook.shape.wording import in_both, like, said
from planbook.source.content import Content
from planbook.source.findings import Finding
from planbook.source.text import Text

LEAST_WALL: Final = 2 * MILLIMETRE
"""Where content states none: thinner wood breaks out under the tool (common practice, no source)."""
_TOLD: Final = MILLIMETRE / 100
"""How finely a wall is told."""


def check_walls(content: Content, design: Solving, parts: Mapping[str, Part]) -> tuple[Finding, ...]:
    """A finding for each wall thinner than is stated, which stops, or than `LEAST_WALL`, which warns."""
    bench = Bench(design)
    general = content.plan_set.least_wall
    common = None if general is None else bench.size(general, "the least wall")
    for part in parts.values():
        own = part.model.least_wall
        stated = common if own is None else bench.size(own, f"the least wall of {part.title.lower()}")
        for name, wall in _walls(part, stated):
            _report(bench, part, name, wall, stated)
    return bench.findings


def _walls(part: Part, stated: Value | None) -> Iterator[tuple[Text, Wall]]:
    names = {str(name): name for name in part.model.features}
    for wall in thin_walls(part, LEAST_WALL if stated is None else stated.number):
        yield names[wall.feature], wall


def _report(bench: Bench, part: Part, name: Text, wall: Wall, stated: Value | None) -> None:
    title = part.title.lower()
    other = f"`{wall.other}`" if wall.between_features else wall.other
    thickness = in_both(round_to(wall.thickness, _TOLD))
    has = f"between `{name}` and {other}, {title} has only {thickness} of wood"
    if stated is None:
        remedy = (
            f"Leave at least {in_both(LEAST_WALL)}, or state what is enough there: `least_wall` in the part's file or "
            "in set.yaml."
        )
        bench.warn("wall-thin", name.place, f"{has}, which breaks easily.", remedy)
        return
    remedy = f"Move or shape one of them until it is {like(stated, stated.number)}, or state less for this part."
    bench.stop("wall-thin", name.place, f"{has}; its walls must be at least {said(stated)}.", remedy)
