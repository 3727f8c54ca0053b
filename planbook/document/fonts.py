"""The faces that a document is set in: which files they are, and how a style sheet names them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

SANS: Final = "Source Sans Pro"
SERIF: Final = "Source Serif Pro"


@dataclass(frozen=True, slots=True)
class Face:
    """One font file of the packaged families and the style that it is set for."""

    file: str
    family: str
    weight: int
    italic: bool = False


# TrueType outlines: drawings measure the same files, so that what they arrange is what prints.
FACES: Final = (
    Face("SourceSansPro-Regular.ttf", SANS, 400),
    Face("SourceSansPro-It.ttf", SANS, 400, italic=True),
    Face("SourceSansPro-Semibold.ttf", SANS, 600),
    Face("SourceSerifPro-Regular.ttf", SERIF, 400),
    Face("SourceSerifPro-It.ttf", SERIF, 400, italic=True),
    Face("SourceSerifPro-Semibold.ttf", SERIF, 600),
)


def font_faces(base: str) -> str:
    """The @font-face rules; `base` is the address that the fonts are served under."""
    return "\n".join(
        f'@font-face{{font-family:"{face.family}";font-weight:{face.weight};'
        f'font-style:{"italic" if face.italic else "normal"};src:url("{base}{face.file}")}}'
        for face in FACES
    )
