"""The pages of an edition: page sizes, margins and the widths that figures may take, all in millimetres."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final


@dataclass(frozen=True, slots=True)
class Paper:
    """A portrait page; sheets are the same page turned to landscape."""

    width: float
    height: float
    left: float
    """Wider than the right margin, for filing."""
    right: float
    top: float = 24.0
    bottom: float = 22.0

    @property
    def text_width(self) -> float:
        """From margin to margin: tables and wide figures."""
        return self.width - self.left - self.right


COLUMN: Final = 124.0
"""The column of prose; what is left of the text width stands empty or holds notes on its left."""
FIGURE_HEIGHT: Final = 84.0
"""The greatest height of a figure: two of them fit a page with words between."""
LARGE_FIGURE_HEIGHT: Final = 170.0
"""That of a figure which asks for most of a page: its caption and a paragraph stand beside it."""
LAYOUT_HEIGHT: Final = 100.0
"""The greatest height of a plan of cutting: two of them fit a page with their cuts."""
_ROOM: Final = 0.42
"""Of a page's height that must be free below the head of a chapter."""
COVER_HEIGHT: Final = 110.0

PAPERS: Final = {
    # ISO 216: A4 is 210 x 297 mm. ASME Y14.1: size A is 8.5 x 11 in.
    "a4": Paper(210.0, 297.0, left=22.0, right=18.0),
    "letter": Paper(215.9, 279.4, left=25.0, right=20.9, top=22.0, bottom=20.0),
}


def page_rules(paper: Paper) -> str:
    """The page sizes and margins of a style sheet: portrait for text, the same paper turned for sheets.

    A chapter's head asks for the room of most of a page, so that a chapter begins a page of its own unless the one
    before has left little on its last page; then it runs on there, and no page stays nearly empty.
    """
    room = round(_ROOM * (paper.height - paper.top - paper.bottom), 1)
    margins = f"{paper.top}mm {paper.right}mm {paper.bottom}mm {paper.left}mm"
    return (
        f"@page{{size:{paper.width}mm {paper.height}mm;margin:{margins}}}"
        f"@page sheet{{size:{paper.height}mm {paper.width}mm}}"
        f".head{{padding-bottom:{room}mm;margin-bottom:-{room}mm}}"
    )
