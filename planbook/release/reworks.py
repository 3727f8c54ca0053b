"""Pictures of what is to be reworked or cut anew."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from planbook.drawing import Drawing, draw_rework, to_svg
from planbook.impact import Impact, PartImpact, reshaped
from planbook.release.since import Since, Sinces


def draw_reworks(since: Since) -> Iterator[tuple[PartImpact, Drawing]]:
    """Of each part with wood that goes or is lacking."""
    units = since.comparison.new.edition.units
    for part in since.impact.parts:
        if part.impact in (Impact.REWORK, Impact.RECUT) and (part.goes or part.lacks):
            yield part, draw_rework(reshaped(since.comparison, part.key), units)


def rework_pictures(sinces: Sinces) -> Mapping[str, bytes]:
    """As files to open, by path, posix and relative: `metric/9-tool-rack.svg`."""
    return {f"{edition}/{name}.svg": image for edition, since in sinces.items() for name, image in _pictures(since)}


def _pictures(since: Since) -> Iterator[tuple[str, bytes]]:
    parts = since.comparison.new.parts
    for part, drawing in draw_reworks(since):
        name = f"{parts[part.key].sheet}-{part.key.replace('_', '-')}"
        yield name, to_svg(drawing, name).encode()
