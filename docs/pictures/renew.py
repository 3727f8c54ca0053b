"""Make the README's pictures anew from the drafts in build/: `make pictures`.

Pages are found by their bookmarks, so that a page more or less before them does no harm.
"""

from __future__ import annotations

import subprocess
from pathlib import Path

from pypdf import PdfReader
from pypdf.generic import Destination

HERE = Path(__file__).parent
DRAFTS = HERE.parents[1] / "build"
DOTS_PER_INCH = 75
PICTURES = {
    "cover.png": ("sewing-desk/sewing-desk-metric-draft.pdf", None),
    "mechanism.png": ("sewing-desk/sewing-desk-metric-draft.pdf", "How the mechanism works"),
    "step.png": ("sewing-desk/sewing-desk-metric-draft.pdf", "5 Make the aprons and bolt up the base"),
    "sheet-metric.png": ("sewing-desk/sewing-desk-metric-draft.pdf", "Sheet 12: Front ramp bar"),
    "sheet-imperial.png": ("sewing-desk/sewing-desk-imperial-draft.pdf", "Sheet 12: Front ramp bar"),
}
"""File name to a draft and the bookmark of a page in it; the first page without one."""


def find_page(pdf: Path, title: str | None) -> int:
    """The number of a bookmarked page, from 1. Raises KeyError when there is no such bookmark."""
    reader = PdfReader(pdf)
    if title is None:
        return 1
    waiting = list(reader.outline)
    pages: dict[str, int] = {}
    while waiting:
        entry = waiting.pop()
        if isinstance(entry, Destination):
            pages[str(entry.title)] = (reader.get_destination_page_number(entry) or 0) + 1
        else:
            waiting += entry
    return pages[title]


for name, (draft, title) in PICTURES.items():
    page = str(find_page(DRAFTS / draft, title))
    only = ["-f", page, "-l", page, "-singlefile"]
    target = (HERE / name).with_suffix("")
    subprocess.run(["pdftoppm", "-r", str(DOTS_PER_INCH), *only, "-png", DRAFTS / draft, target], check=True)
