"""What the content declares and nothing uses: parts without a step, figures without a page, idle parameters."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from planbook.source.content import Content
from planbook.source.findings import Finding, Place, Severity
from planbook.source.mentions import names_in


def unused(content: Content, figures: Iterable[str]) -> tuple[Finding, ...]:
    """Findings for what nothing uses; `figures` are those that a page shows."""
    return (*_idle_parts(content), *_unseen_figures(content, figures), *_idle_parameters(content))


def missing_cautions(content: Content) -> tuple[Finding, ...]:
    """A finding that stops a release: a plan set without its cautions. A draft may do without."""
    if content.plan_set.cautions:
        return ()
    message = "The plan set has no cautions; without them it is not released."
    remedy = f"List them in set.yaml, as in `cautions: [{', '.join(list(map(str, content.cautions))[:3])}]`."
    return (Finding("no-cautions", Severity.STOP, message, remedy, Place(f"{content.folder}/set.yaml", 1, 1)),)


def _idle_parts(content: Content) -> Iterator[Finding]:
    used = {str(part) for step in content.steps for part in step.head.parts}
    for key, part in content.parts.items():
        if key not in used:
            message = f"No step makes or adds part {part.number}, {part.title}."
            remedy = f"Name it in the head of a step: `parts: [{key}]`."
            yield Finding("part-idle", Severity.WARN, message, remedy, Place(content.part_files[key], 1, 1))


def _unseen_figures(content: Content, figures: Iterable[str]) -> Iterator[Finding]:
    shown = {*figures, str(content.plan_set.cover)}
    for name in content.figures:
        if name not in shown:
            message = f"No page shows the figure {name}."
            remedy = f"Write {{{{ figure.{name} }}}} in a paragraph of its own, or delete the figure."
            yield Finding("figure-idle", Severity.NOTE, message, remedy, name.place)


def _idle_parameters(content: Content) -> Iterator[Finding]:
    mentioned = names_in(mentioning(content))
    for name in content.parameters:
        if name not in mentioned and name not in content.calculations:
            message = f"Nothing uses or prints {name}."
            remedy = f"Use it in a formula, write {{{{ {name} }}}} on a page, or delete it."
            yield Finding("parameter-idle", Severity.NOTE, message, remedy, name.place)


def mentioning(content: Content) -> tuple[object, ...]:
    """All of a plan set's content in which a name may be used."""
    return (
        content.plan_set.tolerances, content.plan_set.least_wall, content.parameters, content.parts,
        content.cutting, content.finishing,
        content.hardware, content.rules, content.fits, content.loads, content.figures, content.assembly, content.stacks,
        content.positions, content.cautions,
        [page.body for page in content.pages], [(step.head, step.body) for step in content.steps],
    )  # fmt: skip
