"""What glued pieces can no longer have done to them, and what the author says to do instead."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from planbook.impact import Impact, PartImpact, Reach, say_reach
from planbook.release.compilation import Told
from planbook.source.content import Content
from planbook.source.findings import Finding, Place, Severity
from planbook.source.models.changes import RemedyModel, VersionNotesModel
from planbook.source.sentences import capital
from planbook.source.text import Text


def check_remedies(
    told: Mapping[str, Told], content: Content, notes: tuple[Text, VersionNotesModel] | None, severity: Severity
) -> tuple[Finding, ...]:
    """A finding for each thing that a glued piece no longer allows, unless the version's `notes` have a remedy for it.

    `notes` are those of the version that is due, with their key in changes.yaml.
    """
    remedies = notes[1].remedies if notes else ()
    place = notes[0].place if notes else Place(f"{content.folder}/changes.yaml", 0, 0)
    wanting: dict[str, Finding] = {}
    met: set[str] = set()
    for edition, one in told.items():
        for part in one.since.impact.parts if one.since else ():
            for names, finding in _forbidden(part, edition, severity, place):
                if remedy := _remedy_for(part, names, remedies):
                    met |= {str(subject) for subject in remedy.subjects} & {*names, *_part(part)}
                else:
                    wanting.setdefault(names[0], finding)
    idle = (subject for each in remedies for subject in each.subjects if str(subject) not in met)
    return (*wanting.values(), *map(_idle, idle))


def remedies_said(part: PartImpact, remedies: tuple[RemedyModel, ...]) -> tuple[str, ...]:
    """What builders do who have glued a part, as the author says it."""
    found = (_remedy_for(part, names, remedies) for names in _wanted(part))
    return tuple(dict.fromkeys(capital(str(each.glued)) for each in found if each is not None))


Names = tuple[str, ...]
"""Of one thing: what it is called, then what it was called in earlier versions."""


def _wanted(part: PartImpact) -> Iterator[Names]:
    """What a remedy is asked for: each feature out of reach, and the part that is to be made anew or left out."""
    yield from (_feature(part, reach) for reach in part.out_of_reach)
    yield from (_part(part),) if part.is_stuck else ()


def _part(part: PartImpact) -> Names:
    return (part.key, *part.was)


def _feature(part: PartImpact, reach: Reach) -> Names:
    return tuple(f"{key}/{name}" for key in _part(part) for name in (reach.feature, *reach.was))


def _remedy_for(part: PartImpact, names: Names, remedies: tuple[RemedyModel, ...]) -> RemedyModel | None:
    """The author's remedy: about that feature, else about the whole part; the newest of several."""
    by_name = {str(subject): each for each in remedies for subject in each.subjects}
    return next((by_name[name] for name in (*names, *_part(part)) if name in by_name), None)


def _forbidden(part: PartImpact, edition: str, severity: Severity, place: Place) -> Iterator[tuple[Names, Finding]]:
    """What wants a remedy, with the finding where there is none."""
    name, where = f"Part {part.number}, {part.title},", f" ({edition} edition)."
    for reach in part.out_of_reach:
        names = _feature(part, reach)
        message = f"{name} is to be reworked, and that cannot be done to a glued one: {say_reach(reach)}{where}"
        yield names, _wanting("remedy-out-of-reach", message, names[0], severity, place)
    if part.is_stuck:
        message = f"{name} {_asks(part)}, and a step glues it: who has done that cannot take it out{where}"
        yield _part(part), _wanting("remedy-glued-in", message, part.key, severity, place)


def _asks(part: PartImpact) -> str:
    if part.impact is Impact.WITHDRAWN:
        return "is no longer wanted"
    if part.impact is Impact.RECUT:
        return "is to be made anew"
    anew = (each for each in part.measures if any(one.impact is Impact.RECUT for one in each.outside))
    return f"is to be made anew if it measures otherwise than it may now ({'; '.join(map(str, anew))})"


def _wanting(code: str, message: str, about: str, severity: Severity, place: Place) -> Finding:
    remedy = f"`{{about: {about}, glued: ...}}`"
    said = f"Tell in changes.yaml, under the version's `remedies`, what builders do who have glued it: {remedy}."
    return Finding(code, severity, message, said, place)


def _idle(about: Text) -> Finding:
    return Finding(
        "remedy-idle",
        Severity.WARN,
        f"A remedy is given for `{about}`, which a glued piece allows as before; it is not printed.",
        "Take it out, or name the part to be made anew, or the feature that no tool reaches once it is glued.",
        about.place,
    )
