"""Prose: what authors write in pages and steps, as marked HTML and as blocks of the statement."""

from planbook.statement.prose.insert import measure_html, printed_html
from planbook.statement.prose.names import BRIEF, PINCH_PLACES, TABLES, Named, Names, Sort
from planbook.statement.prose.read import (
    Line,
    Read,
    Written,
    caution,
    caution_html,
    number_figures,
    read_line,
    read_pages,
)

__all__ = [
    "BRIEF",
    "PINCH_PLACES",
    "TABLES",
    "Line",
    "Named",
    "Names",
    "Read",
    "Sort",
    "Written",
    "caution",
    "caution_html",
    "measure_html",
    "number_figures",
    "printed_html",
    "read_line",
    "read_pages",
]
