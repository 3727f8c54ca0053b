"""An impact in a builder's words: one line a part, for lists that stand under the name of the class."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Final

from planbook.impact.model import Impact, PartImpact, Reach, Stage, StepImpact
from planbook.source.names import in_row

ORDER: Final = (
    Impact.RECUT,
    Impact.REWORK,
    Impact.CHECK,
    Impact.NEW,
    Impact.WITHDRAWN,
    Impact.REPRINT,
    Impact.UNCHANGED,
)
"""The gravest first."""
TITLES: Mapping[Impact, str] = {
    Impact.RECUT: "Recut",
    Impact.REWORK: "Rework",
    Impact.CHECK: "Check the fit",
    Impact.NEW: "New",
    Impact.WITHDRAWN: "No longer made",
    Impact.REPRINT: "Print the sheet anew; the part is as before",
    Impact.UNCHANGED: "As before",
}


def gravest(impacts: Iterator[Impact]) -> Impact:
    """The one that stands first in the order."""
    return min(impacts, key=ORDER.index)


def say_part(part: PartImpact) -> str:
    """What to do with it, without the class and the name; "" where the class says all."""
    said = [str(measure) for measure in part.measures]
    if part.because and not (part.impact is Impact.CHECK and part.measures):
        said.insert(0, part.because)
    if part.impact is Impact.REWORK and part.moved_words:
        said.append(part.moved_words)
    said += _pieces(part)
    said += [say_reach(each) for each in part.out_of_reach]
    return "; ".join(said)


def say_stages(part: PartImpact) -> Mapping[Stage, str]:
    """What a builder does at each stage, of a part that asks for something."""
    if not part.asks or part.impact in (Impact.NEW, Impact.WITHDRAWN):
        return {}
    said = say_part(part) or part.impact.value
    glued = _when_glued(part, said) if part.glued else said
    cuts = part.impact is Impact.REWORK and not part.out_of_reach
    return {
        Stage.UNCUT: "work from the new sheet",
        Stage.CUT: said,
        Stage.GLUED: glued,
        Stage.FINISHED: f"{glued}; renew the finish where you cut" if cuts else glued,
    }


def _when_glued(part: PartImpact, said: str) -> str:
    if part.impact is Impact.RECUT:
        return "make it anew, with what it is glued to"
    if part.impact is not Impact.REWORK:
        return said
    if part.reach is None:
        return f"{said}; whether a tool reaches it in its place is not recorded"
    if part.out_of_reach:
        return "; ".join(map(say_reach, part.out_of_reach))
    return said


def say_reach(reach: Reach) -> str:
    """`once glued, 30 mm are free before hole pivot, and a drill needs 90`."""
    return f"once glued, {reach.free:.0f} mm are free before {reach.words}, and {reach.tool} needs {reach.needs:.0f} mm"


def say_step(step: StepImpact, numbers: Mapping[str, int]) -> str:
    """`Step 4, End frames: part 7 is not as it was`; `numbers` are those of parts by key."""
    said = []
    if step.gone:
        said.append("no longer done")
    if step.parts:
        known = sorted(numbers[key] for key in step.parts if key in numbers)
        listed = ", ".join(map(str, known))
        said.append(f"part{'s' if len(known) > 1 else ''} {listed} {'are' if len(known) > 1 else 'is'} not as before")
    if step.cautions:
        named = in_row([f"“{title}”" for title in step.cautions], "and")
        said.append(f"it has {'a new caution' if len(step.cautions) == 1 else 'new cautions'}, {named}")
    if step.reworded and not step.renumbered:
        measure = " and a measure in it is another" if step.remeasured else ""
        said.append(f"read it again, for it reads differently{measure}")
    elif step.reworded:
        said.append("a measure in it is another")
    return f"Step {step.number}, {step.title}: {'; '.join(said)}"


def _pieces(part: PartImpact) -> Iterator[str]:
    more, left = (_counted(each) for each in (part.more, part.left))
    if more:
        yield f"make {more}" if part.impact is Impact.NEW else f"make {more} more"
    if left:
        yield f"{left} fewer"


def _counted(pieces: tuple[int, int]) -> str:
    drawn, mirrored = pieces
    if not mirrored:
        return str(drawn) if drawn else ""
    return f"{drawn} as drawn and {mirrored} mirrored" if drawn else f"{mirrored} mirrored"
