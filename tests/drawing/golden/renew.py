"""Write the golden sheets anew: `.venv/bin/python -m tests.drawing.golden.renew`, then read the difference with git."""

from __future__ import annotations

from pathlib import Path

from planbook.drawing import draw_sheet, mark_sheet, to_svg
from planbook.statement import SheetMark
from tests.drawing import samples

MARKS = (
    SheetMark(1, "Blank, length", "36 mm", "It came loose.", "button/blank/length"),
    SheetMark(2, "Material", "Oak"),
)


def golden(inch: bool) -> tuple[Path, str]:
    """Where a golden sheet is kept, and what is drawn now."""
    (drawing, *_), _ = draw_sheet(samples.statement(samples.button(inch)), "1")
    return Path(__file__).with_name(f"button-{'inch' if inch else 'metric'}.svg"), to_svg(drawing, "button")


def golden_marked() -> tuple[Path, str]:
    """The metric sheet with revision marks."""
    statement = samples.statement(samples.button())
    pages, _ = draw_sheet(statement, "1")
    (drawing, *_), _ = mark_sheet(pages, MARKS, "1.0", statement.edition.paper)
    return Path(__file__).with_name("button-marked.svg"), to_svg(drawing, "button")


if __name__ == "__main__":
    for path, svg in (golden(False), golden(True), golden_marked()):
        path.write_text(svg, encoding="utf-8")
