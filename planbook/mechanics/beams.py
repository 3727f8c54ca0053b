"""Beams, shelves and strips of plates: sag, bending moment, stress, span allowed; creep."""

from __future__ import annotations

import math

from planbook.measure.dimensionality import FORCE, INERTIA, LENGTH, PRESSURE, SCALAR, STIFFNESS, TORQUE, VOLUME
from planbook.mechanics.calculator import Calculator, Input, Output, above_zero, not_negative, size

_AID = "American Wood Council, Design Aid No. 6: Beam Formulas"
_STIFF = (
    above_zero("modulus", "E", "modulus of elasticity", PRESSURE),
    above_zero("inertia", "I", "moment of inertia", INERTIA),
)
_SPAN = size("span", "L", "span")
_FORCE = not_negative("force", "P", "force", FORCE)
_LINE = not_negative("line_load", "w", "load for each length", STIFFNESS)
_WOOD = "small sag; wood along the grain, dry, load of a few minutes: for years multiply by creep"


def rectangle_inertia(width: float, thickness: float) -> float:
    """Second moment of area of a rectangle bent over its thickness: b h^3 / 12."""
    return width * thickness**3 / 12


def rectangle_section(width: float, thickness: float) -> float:
    """Section modulus of a rectangle bent over its thickness: b h^2 / 6."""
    return width * thickness**2 / 6


def beam_sag_middle(force: float, span: float, modulus: float, inertia: float) -> float:
    """Sag under a force in the middle, ends free to turn: P L^3 / (48 E I)."""
    return force * span**3 / (48 * modulus * inertia)


def beam_sag_even(line_load: float, span: float, modulus: float, inertia: float) -> float:
    """Sag in the middle under an even load, ends free to turn: 5 w L^4 / (384 E I)."""
    return 5 * line_load * span**4 / (384 * modulus * inertia)


def beam_sag_even_fixed(line_load: float, span: float, modulus: float, inertia: float) -> float:
    """Sag in the middle under an even load, both ends held: w L^4 / (384 E I)."""
    return line_load * span**4 / (384 * modulus * inertia)


def cantilever_sag_end(force: float, span: float, modulus: float, inertia: float) -> float:
    """Sag of the free end under a force there: P L^3 / (3 E I)."""
    return force * span**3 / (3 * modulus * inertia)


def cantilever_sag_even(line_load: float, span: float, modulus: float, inertia: float) -> float:
    """Sag of the free end under an even load: w L^4 / (8 E I)."""
    return line_load * span**4 / (8 * modulus * inertia)


def beam_moment_middle(force: float, span: float) -> float:
    """Greatest bending moment under a force in the middle: P L / 4."""
    return force * span / 4


def beam_moment_even(line_load: float, span: float) -> float:
    """Greatest bending moment under an even load: w L^2 / 8."""
    return line_load * span**2 / 8


def cantilever_moment_end(force: float, span: float) -> float:
    """Bending moment at the held end under a force at the free one: P L."""
    return force * span


def bending_stress(moment: float, section: float) -> float:
    """Stress at the edge: M / S."""
    return moment / section


def creep(sag: float, factor: float) -> float:
    """Sag after years: what it is at first times a factor."""
    return sag * factor


def span_for_sag_even(line_load: float, modulus: float, inertia: float, share: float) -> float:
    """Longest span whose sag under an even load is `share` of itself (1/360): cube root of 384 E I share / (5 w)."""
    return math.cbrt(384 * modulus * inertia * share / (5 * line_load))


def span_for_sag_middle(force: float, modulus: float, inertia: float, share: float) -> float:
    """Longest span whose sag under a force in the middle is `share` of itself: square root of 48 E I share / P."""
    return math.sqrt(48 * modulus * inertia * share / force)


def span_for_stress_even(line_load: float, stress: float, section: float) -> float:
    """Longest span at which an even load bends no further than to a stress: square root of 8 stress S / w."""
    return math.sqrt(8 * stress * section / line_load)


def span_for_stress_middle(force: float, stress: float, section: float) -> float:
    """Longest span at which a force in the middle bends no further than to a stress: 4 stress S / P."""
    return 4 * stress * section / force


_LINE_THERE = above_zero("line_load", "w", "load for each length", STIFFNESS)
_FORCE_THERE = above_zero("force", "P", "force", FORCE)
_SHARE = Input("share", "q", "sag over span", SCALAR, 0.0, 0.1, open_ended=True)
_ALLOWED = (
    above_zero("stress", "σ", "stress allowed", PRESSURE),
    above_zero("section", "S", "section modulus", VOLUME),
)
_NEVER_BREAKING = "take an allowable stress of the species, never its breaking strength"

BEAMS = (
    Calculator(
        "rectangle_inertia", "Moment of inertia of a board",
        (size("width", "b", "width"), size("thickness", "h", "thickness")), Output("I", "moment of inertia", INERTIA),
        "I = b · h³ / 12", _AID, "solid rectangle, bent over its thickness", rectangle_inertia,
    ),
    Calculator(
        "rectangle_section", "Section modulus of a board",
        (size("width", "b", "width"), size("thickness", "h", "thickness")), Output("S", "section modulus", VOLUME),
        "S = b · h² / 6", _AID, "solid rectangle, bent over its thickness", rectangle_section,
    ),
    Calculator(
        "beam_sag_middle", "Sag under a force in the middle", (_FORCE, _SPAN, *_STIFF), Output("f", "sag", LENGTH),
        "f = P · L³ / (48 · E · I)", _AID, f"the ends lie free; {_WOOD}", beam_sag_middle,
    ),
    Calculator(
        "beam_sag_even", "Sag under an even load", (_LINE, _SPAN, *_STIFF), Output("f", "sag", LENGTH),
        "f = 5 · w · L⁴ / (384 · E · I)", _AID, f"the ends lie free; {_WOOD}", beam_sag_even,
    ),
    Calculator(
        "beam_sag_even_fixed", "Sag under an even load, both ends held", (_LINE, _SPAN, *_STIFF),
        Output("f", "sag", LENGTH), "f = w · L⁴ / (384 · E · I)", _AID, f"the ends cannot turn; {_WOOD}",
        beam_sag_even_fixed,
    ),
    Calculator(
        "cantilever_sag_end", "Sag of a free end under a force", (_FORCE, _SPAN, *_STIFF), Output("f", "sag", LENGTH),
        "f = P · L³ / (3 · E · I)", _AID, f"the other end cannot turn; {_WOOD}", cantilever_sag_end,
    ),
    Calculator(
        "cantilever_sag_even", "Sag of a free end under an even load", (_LINE, _SPAN, *_STIFF),
        Output("f", "sag", LENGTH), "f = w · L⁴ / (8 · E · I)", _AID, f"the other end cannot turn; {_WOOD}",
        cantilever_sag_even,
    ),
    Calculator(
        "beam_moment_middle", "Bending moment under a force in the middle", (_FORCE, _SPAN),
        Output("M", "moment", TORQUE), "M = P · L / 4", _AID, "the ends lie free", beam_moment_middle,
    ),
    Calculator(
        "beam_moment_even", "Bending moment under an even load", (_LINE, _SPAN), Output("M", "moment", TORQUE),
        "M = w · L² / 8", _AID, "the ends lie free", beam_moment_even,
    ),
    Calculator(
        "cantilever_moment_end", "Bending moment of a free end under a force", (_FORCE, _SPAN),
        Output("M", "moment", TORQUE), "M = P · L", _AID, "the other end cannot turn", cantilever_moment_end,
    ),
    Calculator(
        "bending_stress", "Stress of a bent board",
        (not_negative("moment", "M", "bending moment", TORQUE), above_zero("section", "S", "section modulus", VOLUME)),
        Output("σ", "stress", PRESSURE), "σ = M / S", _AID,
        "compare with an allowable stress of the species, never with its breaking strength", bending_stress,
    ),
    Calculator(
        "creep", "Sag after years",
        (not_negative("sag", "f", "sag at first", LENGTH), Input("factor", "k", "factor of creep", SCALAR, 1.0, 5.0)),
        Output("f∞", "sag after years", LENGTH), "f∞ = k · f",
        "National Design Specification for Wood Construction, 3.5.2: long-term loading",
        "the load stays on; 1.5 for seasoned lumber, 2 for unseasoned, 3 at worst; more for boards of particles "
        "(from memory)", creep,
    ),
    Calculator(
        "span_for_sag_even", "Longest span for a sag that is a share of it",
        (_LINE_THERE, *_STIFF, _SHARE),
        Output("L", "span", LENGTH), "L³ = 384 · E · I · q / (5 · w)", _AID, f"the ends lie free; {_WOOD}",
        span_for_sag_even,
    ),
    Calculator(
        "span_for_sag_middle", "Longest span for a sag under a force that is a share of it",
        (_FORCE_THERE, *_STIFF, _SHARE), Output("L", "span", LENGTH), "L = √(48 · E · I · q / P)", _AID,
        f"the ends lie free; {_WOOD}", span_for_sag_middle,
    ),
    Calculator(
        "span_for_stress_even", "Longest span for a stress under an even load", (_LINE_THERE, *_ALLOWED),
        Output("L", "span", LENGTH), "L = √(8 · σ · S / w)", _AID, f"the ends lie free; {_NEVER_BREAKING}",
        span_for_stress_even,
    ),
    Calculator(
        "span_for_stress_middle", "Longest span for a stress under a force in the middle", (_FORCE_THERE, *_ALLOWED),
        Output("L", "span", LENGTH), "L = 4 · σ · S / P", _AID, f"the ends lie free; {_NEVER_BREAKING}",
        span_for_stress_middle,
    ),
)  # fmt: skip
