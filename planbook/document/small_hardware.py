"""The chapter of small hardware: an outline at 1:1 of each thing that is bought, with what it is and how many."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from markupsafe import Markup

from planbook.document.images import Image, drawing_image
from planbook.document.words import as_html
from planbook.drawing.small_hardware import NEEDS, draw_small_hardware
from planbook.measure import MILLIMETRE, Units
from planbook.measure.dimensionality import LENGTH
from planbook.takeoff.hardware import Use
from planbook.takeoff.printing import print_size

_LONGEST: Final = 130.0
"""Millimetres of what is laid on a page to be recognised; longer things are told by their length."""


@dataclass(frozen=True, slots=True)
class SmallThing:
    """A thing at full size: its picture, what it is, how long, how many, and which parts it goes into."""

    image: Image
    title: str
    text: Markup


def small_things(uses: Sequence[Use], units: Units) -> tuple[SmallThing, ...]:
    """Each item of each length once, in the order of the hardware list; without those that have no outline."""
    return tuple(_things(uses, units))


def _things(uses: Sequence[Use], units: Units) -> Iterator[SmallThing]:
    alike: dict[tuple[str, float], list[Use]] = {}
    for use in uses:
        alike.setdefault((use.item.key, _length(use)), []).append(use)
    for (key, length), same in alike.items():
        item = same[0].item
        outline, measures = item.model.outline, _measures(same[0])
        long = length or measures.get("length", 0.0)
        if outline is None or long > _LONGEST or not all(any(n in measures for n in some) for some in NEEDS[outline]):
            continue
        words = str(item.model.title)
        drawing = draw_small_hardware(outline, measures, long, f"{words}, at full size.")
        name = f"hardware-{key.replace('_', '-')}-{round(length * 1000)}"
        yield SmallThing(drawing_image(name, drawing), words, as_html(_told(same, units)))


def _told(same: Sequence[Use], units: Units) -> str:
    first = same[0]
    printed = print_size(first.length, None, units) if first.length is not None else None
    parts = sorted({number for use in same for number in use.parts})
    told = (
        f"{printed.text} {printed.unit} [{printed.other} {printed.other_unit}] long" if printed is not None else "",
        f"{sum(use.bought for use in same)} to buy",
        f"{'part' if len(parts) == 1 else 'parts'} {', '.join(map(str, parts))}" if parts else "",
    )
    return "; ".join(filter(None, told))


def _length(use: Use) -> float:
    return use.length.number / MILLIMETRE if use.length is not None else 0.0


def _measures(use: Use) -> Mapping[str, float]:
    lengths = use.item.measures.items()
    return {name: each.value / MILLIMETRE for name, each in lengths if each.dimensionality == LENGTH}
