"""Images of a document: bytes under a file name, and the HTML that shows them with words for who does not see them."""

from __future__ import annotations

from dataclasses import dataclass
from urllib.parse import quote

from markupsafe import Markup

from planbook.document.fetch import PICTURES
from planbook.drawing import to_svg
from planbook.drawing.recording import Drawing


@dataclass(frozen=True, slots=True)
class Image:
    """`file` is the name that `data` is served under; its ending tells the kind. `limits` are CSS declarations.

    Drawings are served like pictures, not written into the page: an SVG of its own is read far faster than the same
    elements among the page's, and its ids cannot meet those of another. With `drawing` none has to be read: what is set
    as a PDF is painted from it.
    """

    file: str
    data: bytes
    alt: str
    limits: str = ""
    drawing: Drawing | None = None

    @property
    def html(self) -> Markup:
        """The element that shows it."""
        style = Markup(' style="{}"').format(self.limits) if self.limits else ""
        return Markup('<img src="{}" alt="{}"{}>').format(PICTURES + quote(self.file), self.alt, style)


def drawing_image(name: str, drawing: Drawing, alt: str = "") -> Image:
    """A recording in its true size; its own title tells what it shows when `alt` does not."""
    return Image(f"{name}.svg", to_svg(drawing, name).encode(), alt or drawing.title, drawing=drawing)
