"""Write the golden sheets anew: `.venv/bin/python -m tests.drawing.golden.renew`, then read the difference with git."""

from __future__ import annotations

from pathlib import Path

from planbook.drawing import draw_sheet, to_svg
from tests.drawing import samples


def golden(inch: bool) -> tuple[Path, str]:
    """Where a golden sheet is kept, and what is drawn now."""
    (drawing, *_), _ = draw_sheet(samples.statement(samples.button(inch)), "1")
    return Path(__file__).with_name(f"button-{'inch' if inch else 'metric'}.svg"), to_svg(drawing, "button")


if __name__ == "__main__":
    for each in (False, True):
        path, svg = golden(each)
        path.write_text(svg, encoding="utf-8")
