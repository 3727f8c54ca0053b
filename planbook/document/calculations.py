"""The engineering pages: each calculation of the statement with its working, ready to be set."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final

from markupsafe import Markup

from planbook.document.words import as_html
from planbook.statement.calculations import CALCULATIONS, WAYS
from planbook.statement.model import RowStated, Statement
from planbook.statement.stacks_told import STACKS

_NOTHING: Final = Markup("")
_POWER: Final = re.compile(r"\^(\d+(?:\.\d+)?)")
_VALUED: Final = re.compile(r"(?<=\b\w) = |(?<=\b\w\w) = ")
"""Between a letter of a formula and its value."""
_LAYER: Final = ("Layer", "Nominal", "Limits", "Adds", "Share")


@dataclass(frozen=True, slots=True)
class Calculation:
    """One calculation. What is not told is empty. `anchor` is what links aim at."""

    anchor: str
    mark: str
    title: Markup
    formula: Markup
    worked: Markup
    result: Markup
    must: Markup
    notes: Markup
    ways: Markup = _NOTHING
    """The ways in which something gives, and the one that governs."""
    sheets: Markup = _NOTHING
    """Which sheets a stack takes."""
    heads: tuple[str, ...] = ()
    layers: tuple[tuple[Markup, ...], ...] = ()
    """Of a stack, with a cell for each of `heads`."""


def calculations_of(statement: Statement) -> tuple[Calculation, ...]:
    """Those of the statement, in its order."""
    layers = statement.lists.get(STACKS, ())
    return tuple(
        Calculation(
            anchor=f"calculation.{row.id}",
            mark=f"parameter:{row.id}",
            title=as_html(row.cells["Calculation"]),
            formula=_raised(as_html(row.cells.get("Formula", ""))),
            worked=as_html(_VALUED.sub("\N{NO-BREAK SPACE}=\N{NO-BREAK SPACE}", row.cells.get("With", ""))),
            result=as_html(row.cells.get("Result", "")),
            must=as_html(row.cells.get("Must", "")),
            notes=_notes(row.cells.get("Assumes", ""), row.cells.get("Source", "")),
            ways=as_html(row.cells.get(WAYS, "")),
            sheets=as_html(row.cells.get("Sheets", "")),
            heads=_LAYER,
            layers=tuple(_cells(layer) for layer in layers if layer.cells["Stack"] == row.id),
        )
        for row in statement.lists.get(CALCULATIONS, ())
    )


def _raised(formula: Markup) -> Markup:
    """`G^1.45` with its power over the line."""
    return Markup(_POWER.sub(r"<sup>\1</sup>", str(formula)))


def _cells(layer: RowStated) -> tuple[Markup, ...]:
    return tuple(as_html(layer.cells[head]) for head in _LAYER)


def _notes(assumes: str, source: str) -> Markup:
    return as_html(" ".join(f"{text}." for text in (assumes, source and f"Source: {source}") if text))
