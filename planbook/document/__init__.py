"""Pages, tables, charts, composition, PDF and places: an edition as a document that a builder prints.

Face: `compose(stated, door)`, with a `Gallery` of figures that are drawn already; `supplement_pdf` and
`catch_up_pdf` for who holds an older version; `full_size_pdf(pages, ...)` for templates at true size;
`render(door, template, values)` for a page by itself; and, for whoever freezes a
release, `subsetting_is_reproducible()`.
"""

from planbook.document.catch_up import CatchUp, PartTask, Rework, TaskGroup, catch_up_pdf
from planbook.document.compose import Composed, compose
from planbook.document.drawn import Drawn
from planbook.document.fullsize import full_size_pdf
from planbook.document.gallery import Gallery
from planbook.document.supplement import supplement_pdf, withdrawn_sheets
from planbook.document.templates import render
from planbook.document.typeset import subsetting_is_reproducible

__all__ = [
    "CatchUp",
    "Composed",
    "Drawn",
    "Gallery",
    "PartTask",
    "Rework",
    "TaskGroup",
    "catch_up_pdf",
    "compose",
    "full_size_pdf",
    "render",
    "subsetting_is_reproducible",
    "supplement_pdf",
    "withdrawn_sheets",
]
