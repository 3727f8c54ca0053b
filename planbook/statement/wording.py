"""A change in words: what went from an old reading to a new one, or a sentence that says all."""

from __future__ import annotations

from dataclasses import dataclass, replace

from planbook.source.sentences import capital

_AROUND = 4
"""Words that stand on either side of what was reworded."""
_LONGEST = 24
"""Words of a text that is quoted by itself."""


@dataclass(frozen=True, slots=True)
class Wording:
    """`subject` went from `old` to `new`; a subject without either is a sentence by itself. `str` gives one line."""

    subject: str
    old: str = ""
    new: str = ""

    def __str__(self) -> str:
        lead = f"{self.subject}: " if self.subject else ""
        if self.old and self.new:
            return f"{lead}{self.old} → {self.new}"
        return f"{lead}{self.old or self.new}" if self.old or self.new else self.subject

    @property
    def capitalised(self) -> Wording:
        """The same with a capital letter at its beginning."""
        if self.subject:
            return replace(self, subject=capital(self.subject))
        return replace(self, old=capital(self.old), new=self.new if self.old else capital(self.new))


def went(subject: str, old: str, new: str) -> Wording:
    """`subject: old → new`, or that it is new or gone."""
    if old and new:
        return Wording(subject, old, new)
    return Wording(subject, new=f"new, {new}") if new else Wording(subject, old=f"no longer there, was {old}")


def reworded(subject: str, old: str, new: str) -> Wording:
    """The stretch in which two texts differ, with a few words around it; a text that came or went from its start."""
    if not old or old == "none":
        return Wording(subject, new=f"new: “{_shortened(new.split())}”")
    if not new or new == "none":
        return Wording(subject, old=f"taken out: “{_shortened(old.split())}”")
    before, after = old.split(), new.split()
    least = min(len(before), len(after))
    head = next((at for at in range(least) if before[at] != after[at]), least)
    tail = next((at for at in range(least - head) if before[-1 - at] != after[-1 - at]), least - head)
    return Wording(subject, _stretch(before, head, tail), _stretch(after, head, tail))


def relisted(subject: str, old: str, new: str) -> Wording:
    """Sentences, one a line, of which some were reworded: those that both texts have are not quoted."""
    before, after = old.split("\n"), new.split("\n")
    if "none" in (old, new) or not (set(before) ^ set(after)):
        return reworded(subject, " ".join(before), " ".join(after))
    gone, come = ([each for each in one if each not in other] for one, other in ((before, after), (after, before)))
    return reworded(subject, " ".join(gone), " ".join(come))


def _stretch(text: list[str], head: int, tail: int) -> str:
    """Words of a text but the first `head` and the last `tail`, with some of those around them."""
    start, end = max(0, head - _AROUND), min(len(text), len(text) - tail + _AROUND)
    middle = _shortened(text[start:end], _LONGEST + 2 * _AROUND)
    return f"“{'… ' if start else ''}{middle}{' …' if end < len(text) else ''}”"


def _shortened(text: list[str], longest: int = _LONGEST) -> str:
    return " ".join(text) if len(text) <= longest else f"{' '.join(text[:longest])} …"
