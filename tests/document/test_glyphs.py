"""Every sign that a calculator prints is in the document's own fonts: none is set in whatever a computer has."""

from __future__ import annotations

import io
from pathlib import Path

from fontTools.ttLib import TTFont

from planbook.document.fonts import FACES
from planbook.mechanics import CALCULATORS
from planbook.source import Door


def test_every_sign_of_a_calculator_is_in_the_fonts() -> None:
    door = Door(Path.cwd())
    cuts = [set(TTFont(io.BytesIO(door.read_font(face.file))).getBestCmap()) for face in FACES if not face.italic]
    for each in CALCULATORS.values():
        inputs = [text for given in each.takes for text in (given.symbol, given.words)]
        printed = "".join((each.formula, each.source, each.assumes, each.gives.symbol, each.gives.words, *inputs))
        assert {sign for sign in printed if not all(ord(sign) in cut for cut in cuts)} == set(), each.name
