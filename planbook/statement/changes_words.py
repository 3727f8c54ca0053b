"""A change in a builder's words, with titles and printed numbers in the place of names and stored values."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass

from planbook.design.entries import NOT_THE_AUTHORS
from planbook.source.names import in_row
from planbook.statement.asking import is_question
from planbook.statement.comparison import Change, Kind
from planbook.statement.facets import REDRAWN, TOO_FINE
from planbook.statement.model import Statement
from planbook.statement.naming import dimension_words, feature_words, words
from planbook.statement.things import PICTURE, read_quantity
from planbook.statement.wording import Wording, relisted, reworded, went

_REFERENCE = re.compile(r" \[[^\]]*\]")
_BOUGHT = ("stock.", "hardware.")
NAMED = "named"
"""The side of a change of name."""
_RELATIONS = {">=": "≥", "<=": "≤", "==": "=", "!=": "≠"}
_NAMING = ("Calculation", "Description", "Item", "Material", "Layer", "One", "Other", "Caution", "Tool", "Of")
"""Columns of lists that say what a row is about. A row that was read from a file has its columns by the alphabet."""
_SIZED = ("shopping", "hardware")
"""Lists in which one thing may stand in several sizes,"""
_SIZES = ("Size", "Length")
"""and the columns that tell them apart."""


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
        return _each(keys, {row.id: row_title(row.cells) for row in rows})

    def figure(self, name: str) -> str:
        """`figure 3`; one that no page shows (a cover's) by its caption."""
        figure = self.new.figures.get(name) or self.old.figures[name]
        return f"figure {figure.number}" if figure.number else f"the picture “{figure.caption}”"

    def parameter(self, name: str) -> str:
        """`height of the handle as it stands (handle.width)`, as the table of dimensions has it.

        What is in no table, for no author named it, is called by what it is: `18 mm birch plywood, thickness`.
        """
        means = (self.new.parameters.get(name) or self.old.parameters[name]).means
        if name.startswith(NOT_THE_AUTHORS):
            last = words(name.rpartition(".")[2])
            return f"{means}, {last}" if name.startswith(_BOUGHT) else means or last
        return f"{means} ({name})" if means else name

    def question(self, side: Statement, page: str) -> str:
        """A question as a plan prints it, "" where it prints none under that name."""
        asked = (block.text for block in side.blocks if block.id == f"{page}/start/0")
        return next((f"“{text}”" for text in asked), "")

    def row(self, name: str) -> str:
        """A row of a list by what it is about, and how large that is if it is bought; a caution by its title."""
        kind, _, key = name.partition("/")
        rows = (row for side in (self.new, self.old) for row in side.lists.get(kind, ()) if row.id == key)
        cells = next(rows).cells
        return ", ".join((row_title(cells), *(_sizes(cells) if kind in _SIZED else ())))

    def rule(self, name: str) -> str:
        """A rule is known by its reason."""
        because = (self.new.rules.get(name) or self.old.rules[name]).because
        return f"“{because}”" if because else name


def describe(change: Change, titles: Titles) -> Wording:
    """A change in words that open with a capital letter: `Pivot, diameter: 8 mm → 10 mm`."""
    if change.side == NAMED:
        return Wording(f"“{words(change.old)}” is now called “{words(change.new)}”")
    return _SAYING.get(change.kind, _field)(change, titles).capitalised


def redrawn_figures(names: Iterable[str], titles: Titles) -> Wording:
    """`Figures 1, 3 and 5 and the picture “The tote” are redrawn`."""
    figures = {name: titles.new.figures[name] for name in names}
    numbers = _runs(sorted(each.number for each in figures.values() if each.number))
    several = sum(each.number > 0 for each in figures.values()) > 1
    told = [f"figure{'s' if several else ''} {in_row(numbers, 'and')}"] if numbers else []
    told += [titles.figure(name) for name, each in figures.items() if not each.number]
    return Wording(f"{in_row(told, 'and')} {'is' if len(figures) == 1 else 'are'} redrawn").capitalised


def renumbered_figures(names: Iterable[str], titles: Titles) -> Wording:
    """`Figures 17 to 22 were figures 16 to 21`, in the order of their new numbers."""
    numbers = sorted((titles.new.figures[name].number, titles.old.figures[name].number) for name in names)
    now, before = (in_row(_runs(side), "and") for side in zip(*numbers, strict=True))
    return Wording(f"Figures {now} were figures {before}")


def _runs(numbers: Iterable[int]) -> list[str]:
    """Ascending numbers with runs of three or more as one: `1 to 4`, `7`."""
    runs: list[list[int]] = []
    for number in numbers:
        if runs and runs[-1][-1] == number - 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return [each for run in runs for each in ([f"{run[0]} to {run[-1]}"] if len(run) > 2 else map(str, run))]


def row_title(cells: Mapping[str, str]) -> str:
    """What a row is about: the first of its naming columns that says anything, of a caution only its title."""
    named = [cells[column] for column in _NAMING if cells.get(column)]
    if "Other" in cells:
        return in_row(named[:2], "and")
    first = next((cell for cell in (*named, *cells.values()) if cell), "")
    caution = re.match(r"[A-Z]+\. (?P<title>[^.]+)\. ", first)
    return caution["title"] if caution else first


def _sizes(cells: Mapping[str, str]) -> Iterator[str]:
    """`2400 × 150 mm`: what tells one line of an item from another; what stands in brackets repeats it."""
    for column, text in cells.items():
        name, _, unit = column.partition(", ")
        if name in _SIZES and text and not text.startswith("["):
            yield f"{text} {unit}"


def _each(keys: str, titles: Mapping[str, str]) -> str:
    return ", ".join(titles.get(key, key) for key in keys.split(", "))


def plain_numbers(old: str, new: str) -> tuple[str, str]:
    """Printed numbers without the other system's in brackets, unless only those differ."""
    plain = _REFERENCE.sub("", old), _REFERENCE.sub("", new)
    return plain if plain[0] != plain[1] else (old, new)


def _part(change: Change, titles: Titles) -> Wording:
    if not change.old:
        part = titles.new.parts[change.id]
        make = f"make {read_quantity(part)} of {part.stock_title or words(part.stock)}"
        return Wording(f"new part: {make}; see sheet {part.sheet}")
    if not change.new:
        return Wording("no longer made")
    if change.new.endswith((TOO_FINE, REDRAWN)):
        return Wording(change.side, new=_drawn_anew(change))
    return relisted(change.side, change.old, change.new) if change.side == "notes" else _field(change, titles)


def _drawn_anew(change: Change) -> str:
    """Of a shape that reads as it did: `drawn anew within 9 1/2 × 11 1/2 in`, or that nobody will see it."""
    if change.new.endswith(TOO_FINE):
        return "drawn anew, by less than its printed numbers show"
    return f"drawn anew; still {change.new.removesuffix(REDRAWN)}"


def _feature(change: Change, _: Titles) -> Wording:
    name = feature_words(change.id.partition("/")[2])
    if not (change.old and change.new):
        return Wording(name, new=f"new {change.new}" if change.new else "taken out")
    if change.side:
        return reworded(f"{name}, {change.side}", change.old, change.new)
    if change.new.endswith((TOO_FINE, REDRAWN)):
        return Wording(name, new=_drawn_anew(change))
    return went(name, change.old, change.new)


def _dimension(change: Change, _: Titles) -> Wording:
    subject = dimension_words(change.id)
    if change.side == "drawn as":
        return Wording(subject, new="dimensioned in another place or way")
    if change.side in ("method", "standing"):
        return went(f"{subject}, {change.side}", *("" if text == "none" else text for text in (change.old, change.new)))
    return went(" ".join(filter(None, (change.side, subject))), *plain_numbers(change.old, change.new))


def _parameter(change: Change, titles: Titles) -> Wording:
    name = titles.parameter(change.id)
    if change.side == "meaning":
        return reworded(f"what {change.id} means", change.old, change.new)
    return went(", ".join(filter(None, (name, change.side))), *plain_numbers(change.old, change.new))


def _prose(change: Change, titles: Titles) -> Wording:
    page = change.id.partition("/")[0]
    if is_question(page):
        return _answer(change, titles, page)
    if not any(block.page == page for block in titles.old.blocks):
        return Wording("a new page")
    if not any(block.page == page for block in titles.new.blocks):
        return Wording("this page is taken out")
    return reworded("", change.old, change.new)


def _answer(change: Change, titles: Titles, page: str) -> Wording:
    was, now = (titles.question(side, page) for side in (titles.old, titles.new))
    if not was:
        return Wording(now, new="answered")
    return reworded(now, change.old, change.new) if now else Wording(was, new="taken out")


def _list(change: Change, titles: Titles) -> Wording:
    title = titles.row(change.id)
    if not change.side:
        return Wording(f"“{title}” is {'new' if change.new else 'taken out'}")
    if change.id.startswith("cautions/"):
        return reworded(title, change.old, change.new)
    return went(f"{title}, {change.side[:1].lower()}{change.side[1:]}", change.old, change.new)


def _figure(change: Change, titles: Titles) -> Wording:
    name = titles.figure(change.id)
    if not (change.old and change.new):
        return Wording(f"{name} is new" if change.new else f"{name}, “{change.old}”, is taken out")
    match change.side:
        case side if side == PICTURE:
            return Wording(f"{name} is redrawn")
        case "text":
            return Wording(f"{name} is described otherwise to those who cannot see it")
        case "figure":
            return Wording(
                f"{name} was figure {change.old}" if change.old != "0" else f"{name} is shown for the first time"
            )
    return reworded(f"{name}, {change.side}", change.old, change.new)


def _rule(change: Change, titles: Titles) -> Wording:
    if change.side:
        return reworded("why it is asked for", change.old, change.new)
    name = titles.rule(change.id)
    if not change.new:
        return Wording(name, new="no longer asked for")
    relations = re.compile("|".join(map(re.escape, _RELATIONS)))
    old, new = (relations.sub(lambda sign: _RELATIONS[sign[0]], text) for text in (change.old, change.new))
    return went(name, old, new)


def _fit(change: Change, titles: Titles) -> Wording:
    """A fit is known by its reason, as a rule is."""
    fit = (titles.new.fits or {}).get(change.id) or (titles.old.fits or {})[change.id]
    name = f"“{fit.because}”"
    if not (change.old and change.new):
        return Wording(name, new=f"new, {change.new}" if change.new else "no longer asked for")
    return went(f"{name}, {change.side}", change.old, change.new)


def _step(change: Change, titles: Titles) -> Wording:
    if not (change.old and change.new):
        return Wording("a new step" if change.new else "this step is taken out")
    match change.side:
        case "step":
            return Wording(f"was step {change.old}")
        case "parts" | "glue-up order":
            return went(change.side, titles.parts(change.old), titles.parts(change.new))
        case "cautions":
            return went("cautions", titles.cautions(change.old), titles.cautions(change.new))
    return reworded(change.side, change.old, change.new)


def _field(change: Change, _: Titles) -> Wording:
    return went(change.side, change.old, change.new)


_SAYING: Mapping[Kind, Callable[[Change, Titles], Wording]] = {
    Kind.PART: _part,
    Kind.FEATURE: _feature,
    Kind.DIMENSION: _dimension,
    Kind.PARAMETER: _parameter,
    Kind.PROSE: _prose,
    Kind.LIST: _list,
    Kind.FIGURE: _figure,
    Kind.RULE: _rule,
    Kind.FIT: _fit,
    Kind.STEP: _step,
}
