"""Syntax faults in the author's words: what stands where it cannot, and the formula as it was probably meant."""

from __future__ import annotations

import re
from difflib import get_close_matches

from lark import Token, UnexpectedCharacters, UnexpectedInput, UnexpectedToken

from planbook.design.faults import Fault
from planbook.measure.units import UNITS

_SIGNS = {
    "×": "*",
    "·": "*",
    "÷": "/",
    "−": "-",
    "–": "-",
    "≤": "<=",
    "≥": ">=",
    "²": "^2",
    "³": "^3",
    "°": " deg",
    "″": " in",
    '"': " in",
    "′": " ft",
    "'": " ft",
    "µ": "u",
    "μ": "u",
    "½": " 1/2",
    "¼": " 1/4",
    "¾": " 3/4",
    "⅛": " 1/8",
    "⅜": " 3/8",
    "⅝": " 5/8",
    "⅞": " 7/8",
    "=": "==",
}
"""What authors type or paste, and how a formula writes it."""

_OTHER_UNITS = {
    "inch": "in",
    "inches": "in",
    "foot": "ft",
    "feet": "ft",
    "millimetre": "mm",
    "millimetres": "mm",
    "millimeter": "mm",
    "millimeters": "mm",
    "degree": "deg",
    "degrees": "deg",
    "pound": "lb",
    "pounds": "lb",
    "lbs": "lb",
    "newton": "N",
}
_TURNED = {"=<": "<=", "=>": ">="}
"""Comparisons with their two signs the wrong way round."""
_SPACED = re.compile(r"(\d+) */ *(\d+)")
"""The fraction of a mixed number, with blanks about its slash."""
_FORM = "Write it as ordinary arithmetic: `top.length / 2 + 3/4 in`."


def explain_syntax(text: str, error: UnexpectedInput) -> Fault:
    """The fault at the first spot where `text` cannot be read on."""
    if not text.strip():
        return Fault("syntax", 0, "A formula was expected here, and there is none.", "Write a value such as `18 mm`.")
    if isinstance(error, UnexpectedCharacters):
        return _strange_character(text, error.pos_in_stream or 0)
    if isinstance(error, UnexpectedToken) and error.token.type != "$END":
        return _strange_token(text, error.token)
    return Fault("syntax", len(text.rstrip()), f"`{text.strip()}` ends too early.", _unfinished(text))


def _unfinished(text: str) -> str:
    missing = text.count("(") - text.count(")")
    return f"Close it: `{text.strip()}{')' * missing}`." if missing > 0 else "Complete it, or drop its last sign."


def _strange_character(text: str, at: int) -> Fault:
    sign = text[at : at + 2] if text[at : at + 2] in _TURNED else text[at]
    meant = _TURNED.get(sign) or _SIGNS.get(sign)
    mended = " ".join(f"{text[:at]}{meant}{text[at + len(sign) :]}".split())
    return Fault("syntax", at, f"`{sign}` cannot stand in a formula.", f"Write `{mended}`." if meant else _FORM)


def _strange_token(text: str, token: Token) -> Fault:
    at = token.start_pos or 0
    before = text[:at].rstrip()
    if token.type == "NAME" and "." not in token and before[-1:].isdigit():
        return _not_a_unit(text, before, at, token)
    if token == "," and "(" not in before:
        mended = f"{before}.{text[at + 1 :].lstrip()}"
        return Fault("syntax", at, "A comma stands here.", f"Write a decimal point: `{mended}`.")
    if token == "*" and before.endswith("*"):
        return Fault("syntax", at, "`**` is no operation here.", f"Write a power with ^: `{before[:-1].rstrip()}^...`.")
    if before[-1:].isdigit() and (fraction := _SPACED.match(text, at)):
        mended = f"{before} {fraction[1]}/{fraction[2]}{text[fraction.end() :]}"
        return Fault("syntax", at, "A fraction stands in one piece, without blanks.", f"Write `{mended}`.")
    if token.type in {"NAME", "NUMBER", "MIXED", "QUANTITY", "LPAR"} and before:
        return Fault(
            "syntax",
            at,
            f"Between `{before.split()[-1]}` and `{token}` an operation is missing.",
            f"Say what joins them, for example `{before} * {text[at:]}`.",
        )
    return Fault("syntax", at, f"`{token}` cannot stand here.", _FORM)


def _not_a_unit(text: str, before: str, at: int, token: Token) -> Fault:
    word = str(token)
    lower_case = {sign.lower(): sign for sign in UNITS}
    close = [lower_case[sign] for sign in get_close_matches(word.lower(), lower_case, 1, 0.6)]
    meant = _OTHER_UNITS.get(word.lower()) or lower_case.get(word.lower()) or "".join(close)
    if meant:
        mended = f"{before} {meant}{text[at + len(word) :]}"
        return Fault("unknown-unit", at, f"`{word}` is not a unit here.", f"Did you mean `{mended}`?")
    known = ", ".join(UNITS)
    remedy = f"Use one of {known}; to multiply write `{before} * {text[at:]}`."
    return Fault("unknown-unit", at, f"`{word}` is not a unit.", remedy)
