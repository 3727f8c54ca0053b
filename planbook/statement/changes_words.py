"""A change in a builder's words, with titles and printed numbers in the place of names and stored values."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass

from planbook.source.sentences import capital
from planbook.statement.comparison import Change, Kind
from planbook.statement.facets import PICTURE, TOO_FINE, read_quantity
from planbook.statement.model import Statement

_AROUND = 4
"""Words that stand on either side of what was reworded."""
_LONGEST = 24
"""Words of a text that is quoted by itself."""
_REFERENCE = re.compile(r" \[[^\]]*\]")
_CHARACTERISTICS = {
    "x": "position along x",
    "y": "position along y",
    "z": "position along z",
    "end_x": "far end along x",
    "end_y": "far end along y",
    "through_x": "arc's middle along x",
    "through_y": "arc's middle along y",
    "arc_radius": "radius of the arc",
}
NAMED = "named"
"""The side of a change of name."""
_RELATIONS = {">=": "≥", "<=": "≤", "==": "=", "!=": "≠"}


@dataclass(frozen=True, slots=True)
class Titles:
    """What the things of two statements are called where a builder reads of them."""

    old: Statement
    new: Statement

    def parts(self, keys: str) -> str:
        """Part keys in a list (`handle, tool_rack`) as titles."""
        titles = {key: part.title for side in (self.old, self.new) for key, part in side.parts.items()}
        return _each(keys, titles)

    def cautions(self, keys: str) -> str:
        """Cautions' keys in a list as titles."""
        rows = [row for side in (self.old, self.new) for row in side.lists.get("cautions", ())]
        return _each(keys, {row.id: row_title(row.cells.values()) for row in rows})

    def figure(self, name: str) -> str:
        """`figure 3`; one that no page shows (a cover's) by its caption."""
        figure = self.new.figures.get(name) or self.old.figures[name]
        return f"figure {figure.number}" if figure.number else f"the picture “{figure.caption}”"

    def parameter(self, name: str) -> str:
        """`height of the handle as it stands (handle.width)`, as the table of dimensions has it."""
        means = (self.new.parameters.get(name) or self.old.parameters[name]).means
        return f"{means} ({name})" if means else name

    def row(self, name: str) -> str:
        """A row of a list by what it opens with; a caution by its title."""
        kind, _, key = name.partition("/")
        rows = (row for side in (self.new, self.old) for row in side.lists.get(kind, ()) if row.id == key)
        return row_title(next(rows).cells.values())

    def rule(self, name: str) -> str:
        """A rule is known by its reason."""
        because = (self.new.rules.get(name) or self.old.rules[name]).because
        return f"“{because}”" if because else name


def describe(change: Change, titles: Titles) -> str:
    """A change as a line that opens with a capital letter: `Pivot, diameter: 8 mm → 10 mm`."""
    if change.side == NAMED:
        return f"“{words(change.old)}” is now called “{words(change.new)}”"
    return capital(_SAYING.get(change.kind, _field)(change, titles))


def feature_words(name: str) -> str:
    """`left_housing` as `left housing`; a corner of the outline as `outline at arch right`."""
    outline, _, corner = name.rpartition("outline.")
    return words(f"outline at {corner}" if corner != name else outline or name)


def words(name: str) -> str:
    """A key as words."""
    return name.replace("_", " ")


def row_title(cells: Iterable[str]) -> str:
    """The first cell of a row that says anything, of a caution only its title."""
    first = next((cell for cell in cells if cell), "")
    caution = re.match(r"[A-Z]+\. (?P<title>[^.]+)\. ", first)
    return caution["title"] if caution else first


def _each(keys: str, titles: Mapping[str, str]) -> str:
    return ", ".join(titles.get(key, key) for key in keys.split(", "))


def _went(subject: str, old: str, new: str) -> str:
    """`subject: old → new`, or that it is new or gone."""
    if old and new:
        return f"{subject}: {old} → {new}" if subject else f"{old} → {new}"
    return f"{subject}: new, {new}" if new else f"{subject}: no longer there, was {old}"


def _plain(old: str, new: str) -> tuple[str, str]:
    """Printed numbers without the other system's in brackets, unless only those differ."""
    plain = _REFERENCE.sub("", old), _REFERENCE.sub("", new)
    return plain if plain[0] != plain[1] else (old, new)


def _part(change: Change, titles: Titles) -> str:
    if not change.old:
        part = titles.new.parts[change.id]
        return (
            f"new part: make {read_quantity(part)} of {part.stock_title or words(part.stock)}; see sheet {part.sheet}"
        )
    if not change.new:
        return "no longer made"
    if change.new.endswith(TOO_FINE):
        return f"{change.side}: drawn anew, by less than its printed numbers show"
    return _reworded(change.side, change.old, change.new) if change.side == "notes" else _field(change, titles)


def _feature(change: Change, _: Titles) -> str:
    name = feature_words(change.id.partition("/")[2])
    if not (change.old and change.new):
        return f"{name}: new {change.new}" if change.new else f"{name}: taken out"
    if change.side:
        return _reworded(f"{name}, {change.side}", change.old, change.new)
    if change.new.endswith(TOO_FINE):
        return f"{name}: drawn anew, by less than its printed numbers show"
    return _went(name, change.old, change.new)


def _dimension(change: Change, _: Titles) -> str:
    _part_key, feature, characteristic, *second = change.id.split("/")
    names = [feature_words(each) for each in (feature, *second) if each != "blank"]
    subject = ", ".join(filter(None, (" to ".join(names), _CHARACTERISTICS.get(characteristic, words(characteristic)))))
    if change.side == "drawn as":
        return f"{subject}: dimensioned in another place or way"
    return _went(" ".join(filter(None, (change.side, subject))), *_plain(change.old, change.new))


def _parameter(change: Change, titles: Titles) -> str:
    name = titles.parameter(change.id)
    if change.side == "meaning":
        return _reworded(f"{change.id}, meaning", change.old, change.new)
    return _went(", ".join(filter(None, (name, change.side))), *_plain(change.old, change.new))


def _prose(change: Change, titles: Titles) -> str:
    page = change.id.partition("/")[0]
    if not any(block.page == page for block in titles.old.blocks):
        return "a new page"
    if not any(block.page == page for block in titles.new.blocks):
        return "this page is taken out"
    return _reworded("", change.old, change.new)


def _list(change: Change, titles: Titles) -> str:
    title = titles.row(change.id)
    if not change.side:
        return f"“{title}” is new" if change.new else f"“{title}” is taken out"
    if change.id.startswith("cautions/"):
        return _reworded(title, change.old, change.new)
    return _went(f"{title}, {change.side.lower()}", change.old, change.new)


def _figure(change: Change, titles: Titles) -> str:
    name = titles.figure(change.id)
    if not (change.old and change.new):
        return f"{name} is new" if change.new else f"{name}, “{change.old}”, is taken out"
    match change.side:
        case side if side == PICTURE:
            return f"{name} is redrawn"
        case "text":
            return f"{name} is described otherwise to those who cannot see it"
        case "figure":
            return f"{name} was figure {change.old}" if change.old != "0" else f"{name} is shown for the first time"
    return _reworded(f"{name}, {change.side}", change.old, change.new)


def _rule(change: Change, titles: Titles) -> str:
    if change.side:
        return _reworded("why it is asked for", change.old, change.new)
    name = titles.rule(change.id)
    if not change.new:
        return f"{name}: no longer asked for"
    relations = re.compile("|".join(map(re.escape, _RELATIONS)))
    old, new = (relations.sub(lambda sign: _RELATIONS[sign[0]], text) for text in (change.old, change.new))
    return _went(name, old, new)


def _step(change: Change, titles: Titles) -> str:
    if not (change.old and change.new):
        return "a new step" if change.new else "this step is taken out"
    match change.side:
        case "step":
            return f"was step {change.old}"
        case "parts" | "glue-up order":
            return _went(change.side, titles.parts(change.old), titles.parts(change.new))
        case "cautions":
            return _went("cautions", titles.cautions(change.old), titles.cautions(change.new))
    return _reworded(change.side, change.old, change.new)


def _field(change: Change, _: Titles) -> str:
    return _went(change.side, change.old, change.new)


def _reworded(subject: str, old: str, new: str) -> str:
    """The stretch in which two texts differ, with a few words around it; a text that came or went from its start."""
    lead = f"{subject}: " if subject else ""
    if not old or old == "none":
        return f"{lead}new: “{_shortened(new.split())}”"
    if not new or new == "none":
        return f"{lead}taken out: “{_shortened(old.split())}”"
    before, after = old.split(), new.split()
    least = min(len(before), len(after))
    head = next((at for at in range(least) if before[at] != after[at]), least)
    tail = next((at for at in range(least - head) if before[-1 - at] != after[-1 - at]), least - head)
    return f"{lead}{_stretch(before, head, tail)} → {_stretch(after, head, tail)}"


def _stretch(text: list[str], head: int, tail: int) -> str:
    """Words of a text but the first `head` and the last `tail`, with some of those around them."""
    start, end = max(0, head - _AROUND), min(len(text), len(text) - tail + _AROUND)
    middle = _shortened(text[start:end], _LONGEST + 2 * _AROUND)
    return f"“{'… ' if start else ''}{middle}{' …' if end < len(text) else ''}”"


def _shortened(text: list[str], longest: int = _LONGEST) -> str:
    return " ".join(text) if len(text) <= longest else f"{' '.join(text[:longest])} …"


_SAYING: Mapping[Kind, Callable[[Change, Titles], str]] = {
    Kind.PART: _part,
    Kind.FEATURE: _feature,
    Kind.DIMENSION: _dimension,
    Kind.PARAMETER: _parameter,
    Kind.PROSE: _prose,
    Kind.LIST: _list,
    Kind.FIGURE: _figure,
    Kind.RULE: _rule,
    Kind.STEP: _step,
}
