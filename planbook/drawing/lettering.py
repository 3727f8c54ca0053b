"""Lettering measured with the font's own metrics, so that what is arranged here is what prints.

A label is set as runs: plain text, and real fractions built from raised and lowered figures. Each run has a size and a
rise; the SVG writer sets exactly these runs, so that text read back from a PDF still says `23 5/8`.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files
from typing import Final

from fontTools.ttLib import TTFont

from planbook.drawing.recording import Anchor, Label, Pt

FONT_FAMILY: Final = "Source Sans Pro"
_FILES: Final = {False: "SourceSansPro-Regular.ttf", True: "SourceSansPro-Semibold.ttf"}

FRACTION: Final = re.compile(r"(?<![\da-z./])(?:(\d+) )?(\d+)/(\d+)(?![\w/])")
"""A vulgar fraction with or without a whole number before it: `23 5/8`, `5/8`; also after a sign: `±1/32`."""

# Shape of a real fraction, in parts of the whole figures' size. Chosen by eye: the figures stay over 1.7 mm at the
# least lettering height of 2.5 mm, and the numerator stands a little over the capitals.
_FIGURE: Final = 0.7
_RAISE: Final = 0.28
_DROP: Final = -0.02
_SOLIDUS: Final = 0.82
_THIN: Final = 0.5
_WHOLE: Final = re.compile(
    r"(?<=\d) (?=\d+/\d|%|(?:in|mm)\b)|(?<=\b[Pp]art) (?=\d)|(?<=\b[Ss]tep) (?=\d)|(?<=\b[Ss]heet) (?=\d)"
)
"""Spaces at which no line breaks."""


@dataclass(frozen=True, slots=True)
class Run:
    """A piece of a line in one size: `x` is its start along the baseline, `rise` its own baseline over the line's."""

    text: str
    x: float
    size: float
    rise: float
    width: float


@dataclass(frozen=True, slots=True)
class Face:
    """Metrics of one font file in parts of its size."""

    cap_height: float
    advances: dict[str, float]
    lows: dict[str, float]
    highs: dict[str, float]

    def width(self, text: str) -> float:
        """Sum of advances; the SVG sets letters one by one, so there is no kerning to add."""
        return sum(self.advances.get(letter, self.advances["n"]) for letter in text)


@lru_cache(maxsize=2)
def face(bold: bool) -> Face:
    """The metrics of the regular or the semibold lettering."""
    path = files("font_source_sans_pro") / "files" / _FILES[bold]
    with path.open("rb") as stream:
        font = TTFont(stream, lazy=True)
        em = font["head"].unitsPerEm
        widths, outlines = font["hmtx"], font["glyf"]
        advances, lows, highs = {}, {}, {}
        for code, glyph in font.getBestCmap().items():
            if code > 0x2FFF:
                continue
            letter = chr(code)
            advances[letter] = widths[glyph][0] / em
            shape = outlines[glyph]
            lows[letter] = getattr(shape, "yMin", 0) / em
            highs[letter] = getattr(shape, "yMax", 0) / em
        return Face(font["OS/2"].sCapHeight / em, advances, lows, highs)


def size_of(height: float, bold: bool = False) -> float:
    """Font size in millimetres whose capitals are `height` millimetres high."""
    return height / face(bold).cap_height


@lru_cache(maxsize=4096)
def set_runs(text: str, height: float, bold: bool = False) -> tuple[Run, ...]:
    """A line of text as runs from x = 0, fractions built."""
    metrics, size = face(bold), size_of(height, bold)
    runs: list[Run] = []
    x = 0.0

    def add(piece: str, share: float, rise: float) -> None:
        nonlocal x
        if piece:
            width = metrics.width(piece) * size * share
            runs.append(Run(piece, x, size * share, rise * size, width))
            x += width

    last = 0
    for found in FRACTION.finditer(text):
        whole, over, under = found.groups()
        add(text[last : found.start()] + (whole or ""), 1.0, 0.0)
        if whole:
            add(" ", _THIN, 0.0)
        add(over, _FIGURE, _RAISE)
        add("/", _SOLIDUS, 0.0)
        add(under, _FIGURE, _DROP)
        last = found.end()
    add(text[last:], 1.0, 0.0)
    return tuple(runs)


def text_width(text: str, height: float, bold: bool = False) -> float:
    """Width in millimetres of a line as set."""
    runs = set_runs(text, height, bold)
    return runs[-1].x + runs[-1].width if runs else 0.0


@lru_cache(maxsize=4096)
def text_reach(text: str, height: float, bold: bool = False) -> tuple[float, float]:
    """How far the ink goes under and over the baseline, in millimetres: (low <= 0, high > 0)."""
    metrics = face(bold)
    lows, highs = [0.0], [height]
    for run in set_runs(text, height, bold):
        for letter in run.text:
            lows.append(run.rise + metrics.lows.get(letter, 0.0) * run.size)
            highs.append(run.rise + metrics.highs.get(letter, 0.0) * run.size)
    return min(lows), max(highs)


def label_start(label: Label) -> Pt:
    """Where the first letter's origin stands, whatever the anchor."""
    shift = {Anchor.START: 0.0, Anchor.MIDDLE: 0.5, Anchor.END: 1.0}[label.anchor]
    back = shift * text_width(label.text, label.height, label.bold)
    turn = math.radians(label.angle)
    return Pt(label.at.x - back * math.cos(turn), label.at.y + back * math.sin(turn))


def label_corners(label: Label) -> tuple[Pt, Pt, Pt, Pt]:
    """The box round a label's ink: baseline-left-low, right-low, right-high, left-high; turned with the label."""
    start = label_start(label)
    width = text_width(label.text, label.height, label.bold)
    low, high = text_reach(label.text, label.height, label.bold)
    turn = math.radians(label.angle)
    cos, sin = math.cos(turn), math.sin(turn)

    def corner(along: float, up: float) -> Pt:
        return Pt(start.x + along * cos - up * sin, start.y - along * sin - up * cos)

    return corner(0, low), corner(width, low), corner(width, high), corner(0, high)


def wrap(text: str, height: float, width: float, bold: bool = False) -> tuple[str, ...]:
    """Lines of at most `width` millimetres, broken at spaces; a longer word stands alone.

    Neither a measure is parted nor a part, step or sheet from its number: `5 5/8 in`, `[3 mm]`, `(part 17)`.
    """
    lines: list[str] = []
    for word in _WHOLE.sub("\N{NO-BREAK SPACE}", text).split(" "):
        if lines and text_width(f"{lines[-1]} {word}", height, bold) <= width:
            lines[-1] = f"{lines[-1]} {word}"
        else:
            lines.append(word)
    return tuple(line.replace("\N{NO-BREAK SPACE}", " ") for line in lines if line)
