"""What a supposed change moves, for people: edition by edition, demands first, then dimensions by part."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from planbook.cli.shell import columns
from planbook.release import Weighed
from planbook.release.reports.weighed import EditionWeighed
from planbook.statement import Effect

_HEADINGS = {"rule": "Rules", "fit": "Fits", "clearance": "Least clearances"}


def weighed_lines(weighed: Weighed) -> Iterator[str]:
    """All lines; nothing where no edition could be stated."""
    if not weighed.editions:
        return
    yield f"{weighed.set} with {', '.join(map(str, weighed.supposed))}"
    for name, formula in weighed.replaced.items():
        yield f"  {name} is otherwise worked out: {formula} does not count here."
    for edition in weighed.editions:
        yield from ("", f"{edition.name} edition", *_edition(edition))


def _edition(edition: EditionWeighed) -> Iterator[str]:
    for kind, title in _HEADINGS.items():
        found = [effect for effect in edition.effects if effect.kind == kind]
        if found:
            yield from (f"  {title}", *_table(found, 4, turns=True))
    if edition.parts:
        yield "  Dimensions"
    for part in edition.parts:
        yield from (f"    {part.number} {part.title}", *_table(part.effects, 6, turns=False))
    if not edition.effects and not edition.parts:
        yield "  Nothing that is printed or demanded moves."


def _table(found: Sequence[Effect], indent: int, *, turns: bool) -> list[str]:
    rows = [(*((effect.turn.value,) if turns else ()), effect.id, effect.old or "none", "→", effect.new or "none")
            for effect in found]  # fmt: skip
    return [f"{' ' * indent}{line}" for line in columns(rows)]
