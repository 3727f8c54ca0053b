"""What the style sheet promises: colours that can be told apart, and read in black and white."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

STYLE = (Path(__file__).parents[2] / "templates" / "book.css").read_text()
INK, QUIET, ACCENT, PANEL, WHITE = "#1d1d1b", "#5b5a56", "#8a3a1c", "#f4f2ee", "#ffffff"


def luminance(colour: str) -> float:
    """Relative luminance as WCAG 2.2 defines it."""
    channels = (int(colour[place : place + 2], 16) / 255 for place in (1, 3, 5))
    linear = [value / 12.92 if value <= 0.04045 else ((value + 0.055) / 1.055) ** 2.4 for value in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(first: str, second: str) -> float:
    """WCAG 2.2: (L1 + 0.05) / (L2 + 0.05), the lighter first."""
    light, dark = sorted((luminance(first), luminance(second)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def test_contrast_is_reckoned_as_wcag_does() -> None:
    # WCAG 2.2: black on white is 21:1; #767676 on white is the well-known 4.54:1.
    assert contrast("#000000", WHITE) == pytest.approx(21)
    assert contrast("#767676", WHITE) == pytest.approx(4.54, abs=0.01)


@pytest.mark.parametrize("paper", [WHITE, PANEL])
@pytest.mark.parametrize("ink", [INK, QUIET, ACCENT])
def test_lettering_reaches_aa_on_paper_and_panels(ink: str, paper: str) -> None:
    # WCAG 2.2, success criterion 1.4.3: at least 4.5:1 for text of ordinary size.
    assert ink in STYLE
    assert contrast(ink, paper) >= 4.5


def test_lettering_on_the_band_of_the_cover_reaches_aa() -> None:
    assert contrast(WHITE, ACCENT) >= 4.5


@pytest.mark.parametrize("word", ["danger", "warning", "caution", "notice"])
def test_signal_words_reach_aa_on_their_colours(word: str) -> None:
    rule = re.search(rf"\.caution-{word} > \.caution-word {{([^}}]*)}}", STYLE)
    assert rule is not None
    ground = re.search(r"background(?:-color)?: (#\w{6})", rule[1])
    ink = re.search(r"(?<!-)color: (#\w{6})", rule[1])
    assert ground is not None
    assert contrast(ink[1] if ink else INK, ground[1]) >= 4.5


def test_signal_words_are_told_apart_without_colour_by_word_and_frame() -> None:
    frame = re.search(r"\.caution {([^}]*)}", STYLE)
    assert frame is not None
    assert f"solid {INK}" in frame[1]


def test_every_colour_is_of_the_palette() -> None:
    palette = {INK, QUIET, ACCENT, PANEL, WHITE, "#bdb8ae", "#d8d4cc", "#c8102e", "#ff8200", "#ffcd00", "#0057b8"}
    assert set(re.findall(r"#[0-9a-f]{6}\b", STYLE)) <= palette


def test_every_size_is_of_the_scale() -> None:
    sizes = set(re.findall(r"font-size: ([\d.]+pt)", STYLE)) | set(re.findall(r"font: ([\d.]+pt)", STYLE))
    assert sizes <= {"6.5pt", "7.5pt", "9pt", "10.5pt", "14pt", "24pt", "44pt"}
