"""What the measures of a part are called where a builder reads of them."""

from __future__ import annotations

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


def feature_words(name: str) -> str:
    """`left_housing` as `left housing`; a corner of the outline as `outline at arch right`."""
    outline, _, corner = name.rpartition("outline.")
    return words(f"outline at {corner}" if corner != name else outline or name)


def dimension_words(name: str) -> str:
    """A dimension by its id: `end/left_housing/x` as `left housing, position along x`."""
    _part, feature, characteristic, *second = name.split("/")
    names = [feature_words(each) for each in (feature, *second) if each != "blank"]
    return ", ".join(filter(None, (" to ".join(names), _CHARACTERISTICS.get(characteristic, words(characteristic)))))
