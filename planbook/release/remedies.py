"""What glued pieces can no longer have done to them, and what the author says to do instead."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from planbook.impact import PartImpact, Reach, say_reach
from planbook.release.compilation import Told
from planbook.source.findings import Finding, Severity
from planbook.source.models.changes import RemedyModel, VersionNotesModel
from planbook.source.sentences import capital


def check_remedies(
    told: Mapping[str, Told], notes: VersionNotesModel | None, severity: Severity
) -> tuple[Finding, ...]:
    """A finding for each thing to cut that no tool reaches once its part is glued, unless `notes` have a remedy."""
    remedies = notes.remedies if notes else ()
    wanting: dict[str, Finding] = {}
    met: set[str] = set()
    for edition, one in told.items():
        for part, reach in _out_of_reach(one):
            about = f"{part.key}/{reach.feature}"
            remedy = remedy_for(part, remedies, reach)
            if remedy is None:
                wanting.setdefault(about, _wanting(edition, part, reach, severity))
            else:
                met.add(str(remedy.about))
    return (*wanting.values(), *(_idle(each) for each in remedies if str(each.about) not in met))


def remedy_for(part: PartImpact, remedies: tuple[RemedyModel, ...], reach: Reach) -> RemedyModel | None:
    """The author's remedy for one thing out of reach: about that feature, else about the whole part."""
    by_name = {str(each.about): each for each in remedies}
    return by_name.get(f"{part.key}/{reach.feature}") or by_name.get(part.key)


def _out_of_reach(told: Told) -> Iterator[tuple[PartImpact, Reach]]:
    for part in told.since.impact.parts if told.since else ():
        for reach in part.out_of_reach:
            yield part, reach


def _wanting(edition: str, part: PartImpact, reach: Reach, severity: Severity) -> Finding:
    return Finding(
        "remedy-out-of-reach",
        severity,
        f"Part {part.number}, {part.title}, is to be reworked, and that cannot be done to a glued one: "
        f"{say_reach(reach)} ({edition} edition).",
        "Tell in changes.yaml, under `remedies`, what builders do who have glued it: "
        f"`about: {part.key}/{reach.feature}`, `glued: ...`.",
    )


def _idle(remedy: RemedyModel) -> Finding:
    return Finding(
        "remedy-idle",
        Severity.WARN,
        f"A remedy is given for `{remedy.about}`, which a tool reaches as before; it is not printed.",
        "Take it out, or name the part or the feature that no tool reaches once it is glued.",
        remedy.about.place,
    )


def remedies_said(part: PartImpact, remedies: tuple[RemedyModel, ...]) -> tuple[str, ...]:
    """What builders do who have glued a part, as the author says it."""
    found = (remedy_for(part, remedies, reach) for reach in part.out_of_reach)
    return tuple(dict.fromkeys(capital(str(each.glued)) for each in found if each is not None))
