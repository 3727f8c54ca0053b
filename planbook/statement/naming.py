"""What the measures of a part are called where a builder reads of them."""

from __future__ import annotations

from typing import Final

_TIGHT: Final = ("Ø", "R", "SR", "□")
"""Signs that stand close to their number (ISO 129-1); any other prefix is a word and takes a space."""
_CHARACTERISTICS = {
    "x": "position along x",
    "y": "position along y",
    "z": "position along z",
    "end_x": "far end along x",
    "end_y": "far end along y",
    "through_x": "arc's middle along x",
    "through_y": "arc's middle along y",
    "arc_radius": "radius of the arc",
}


def words(name: str) -> str:
    """A key as words."""
    return name.replace("_", " ")


def with_prefix(prefix: str, number: str) -> str:
    """A dimension's prefix before its number: `Ø8`, `counterbore Ø12`, `slot 8`."""
    return f"{prefix}{'' if not prefix or prefix.endswith(_TIGHT) else ' '}{number}"


def feature_words(name: str) -> str:
    """`left_housing` as `left housing`; a corner of the outline as `outline at arch right`."""
    outline, _, corner = name.rpartition("outline.")
    return words(f"outline at {corner}" if corner != name else outline or name)


def dimension_words(name: str) -> str:
    """A dimension by its id: `end/left_housing/x` as `left housing, position along x`."""
    _part, feature, characteristic, *second = name.split("/")
    names = [feature_words(each) for each in (feature, *second) if each != "blank"]
    return ", ".join(filter(None, (" to ".join(names), _CHARACTERISTICS.get(characteristic, words(characteristic)))))


def spoken(title: str) -> str:
    """A title as it reads inside a sentence: `Ramp bar` as `ramp bar`; a name like `T-nut` or `MDF shim` as it is."""
    first = title.partition(" ")[0].rstrip(",")
    return title[:1].lower() + title[1:] if first[1:].isalpha() and first[1:].islower() else title
