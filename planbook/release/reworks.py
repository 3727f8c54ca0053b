"""Pictures of what is to be reworked or cut anew, as files to open."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from planbook.drawing import draw_rework, to_svg
from planbook.impact import Impact, reshaped
from planbook.release.since import Since, Sinces


def rework_pictures(sinces: Sinces) -> Mapping[str, bytes]:
    """By path, posix and relative: `metric/9-tool-rack.svg`, of each part with wood that goes or is lacking."""
    return {f"{edition}/{name}.svg": image for edition, since in sinces.items() for name, image in _pictures(since)}


def _pictures(since: Since) -> Iterator[tuple[str, bytes]]:
    statement = since.comparison.new
    for part in since.impact.parts:
        if part.impact in (Impact.REWORK, Impact.RECUT) and (part.goes or part.lacks):
            name = f"{statement.parts[part.key].sheet}-{part.key.replace('_', '-')}"
            drawing = draw_rework(reshaped(since.comparison, part.key), statement.edition.units)
            yield name, to_svg(drawing, name).encode()
