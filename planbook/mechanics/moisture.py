"""Wood and the air: moisture content by climate, and movement across the grain."""

from __future__ import annotations

from planbook.measure.dimensionality import DENSITY, LENGTH, SCALAR
from planbook.mechanics.calculator import Calculator, Input, Output, above_zero, size

_HANDBOOK = "Wood Handbook (FPL-GTR-282), chapter 4"


def moisture_at(humidity: float, celsius: float) -> float:
    """Moisture content that wood takes on in air of a relative humidity (0 to 1) and temperature in degrees Celsius.

    Equation 4-5 of the Wood Handbook, which is written for degrees Fahrenheit and per cent.
    """
    t, h = celsius * 9 / 5 + 32, humidity
    w = 330 + 0.452 * t + 0.00415 * t * t
    k = 0.791 + 0.000463 * t - 8.44e-7 * t * t
    k1 = 6.34 + 0.000775 * t - 9.35e-5 * t * t
    k2 = 1.09 + 0.0284 * t - 9.04e-5 * t * t
    kh = k * h
    both = k1 * kh + 2 * k1 * k2 * kh * kh
    per_cent = 1800 / w * (kh / (1 - kh) + both / (1 + k1 * kh + k1 * k2 * kh * kh))
    return per_cent / 100


def wood_movement(width: float, coefficient: float, before: float, after: float) -> float:
    """Change of a width across the grain between two moisture contents: width times coefficient times per cent.

    `coefficient` is the dimensional change for each per cent of moisture content (table 13-5); swelling is more than 0.
    """
    return width * coefficient * (after - before) * 100


def wood_density(gravity: float, moisture: float) -> float:
    """Density at a moisture content from the specific gravity at that content: 1000 kg/m3 G (1 + M)."""
    return _WATER * gravity * (1 + moisture)


_WATER = 1000e-27
"""Kilograms in a cubic nanometre of water."""


def _content(name: str, symbol: str, words: str) -> Input:
    """Moisture contents for which the linear law of movement holds."""
    return Input(name, symbol, words, SCALAR, 0.06, 0.14)


MOISTURE = (
    Calculator(
        "moisture_at", "Moisture content that wood takes on",
        (Input("humidity", "h", "relative humidity", SCALAR, 0.0, 0.98),
         Input("celsius", "T", "degrees Celsius", SCALAR, -1.0, 71.0)),
        Output("M", "moisture content", SCALAR), "M after equation 4-5", _HANDBOOK,
        "long enough in that air: weeks for a board, months for a beam", moisture_at,
    ),
    Calculator(
        "wood_movement", "Movement across the grain",
        (size("width", "D", "width across the grain"),
         Input("coefficient", "C", "change for each % of moisture content", SCALAR, 0.0, 0.01, open_ended=True),
         _content("before", "M₁", "moisture content before"), _content("after", "M₂", "moisture content after")),
        Output("ΔD", "change of width", LENGTH), "ΔD = D · C · (M₂ − M₁) · 100",
        "Wood Handbook (FPL-GTR-190), equation 13-2 and table 13-5",
        "solid wood, 6 to 14 % of moisture; boards cut from the tree's side move more than quarter-sawn ones",
        wood_movement,
    ),
    Calculator(
        "wood_density", "Density of wood with its moisture",
        (above_zero("gravity", "G", "specific gravity", SCALAR),
         Input("moisture", "M", "moisture content", SCALAR, 0.0, 0.3)),
        Output("ρ", "density", DENSITY), "ρ = 1000 kg/m³ · G · (1 + M)",
        "Wood Handbook (FPL-GTR-190), chapter 4: density",
        "the specific gravity is that at this moisture content", wood_density,
    ),
)  # fmt: skip
