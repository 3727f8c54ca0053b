"""Clearances with every measure at its adverse end: as the shop may make it, from stock as it is sold.

The least of a gap is not enough to find the adverse ends by: where a part passes between two others, what is worst on
the one side is best on the other. So each side is looked at by itself, the one component shifted a little towards it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import product
from typing import Final

from planbook.measure import Quantity, Units
from planbook.motion import NO_SHIFT, Shift, Standing
from planbook.source.findings import Finding
from planbook.statement.clearances import Clearance
from planbook.statement.judging import gap_text
from planbook.statement.shop import Held
from planbook.statement.stacking import is_sheet

_TOLD: Final = 3
_LEAST_LOSS: Final = 0.005
"""Millimetres under which a measure takes nothing of a clearance."""
_ASIDE: Final = 5.0
"""Millimetres: a side that is further away than this and the gap is no concern; tolerances do not take so much."""
_WIDER: Final = 0.1
"""Millimetres up to which it is measured how much wider a gap becomes."""
_STRIDES: Final = 5
_HALVINGS: Final = 6


@dataclass(frozen=True, slots=True)
class Loss:
    """What a measure at its adverse end takes of a clearance, in millimetres, and the value that it has there."""

    name: str
    end: Quantity
    taken: float


def check_adverse(found: tuple[Clearance, ...], held: Mapping[str, Held], units: Units) -> tuple[Finding, ...]:
    """A finding for each that does not hold with everything at its adverse end at once. `held` is between which limits
    the measures of the design are made.
    """
    return tuple(finding for clearance in found for finding in _check(clearance, held, units))


def _check(clearance: Clearance, held: Mapping[str, Held], units: Units) -> Iterator[Finding]:
    counting = {
        name: held[name]
        for name in clearance.hangs_on
        if name in held and (held[name].stated or not clearance.model.fitted)
    }
    worst = _worst(clearance, counting)
    if worst is None or not clearance.fails_at(worst.gap):
        return
    losses = worst.losses
    told = ", ".join(f"`{loss.name}` takes {gap_text(loss.taken, units)}" for loss in losses[:_TOLD])
    left = len(losses) - _TOLD
    more = f", and {left} other{'s' if left > 1 else ''} less" if left > 0 else ""
    message = (
        f"The rule {clearance.name} holds as drawn, and not with every measure at its adverse end: "
        f"{clearance.short((worst.gap, worst.place), units)}; {told}{more}."
    )
    most = losses[0].name
    closer = f"accept a narrower range of `{most}`" if is_sheet(most) else f"hold `{most}` closer"
    general = any(not counting[loss.name].stated for loss in losses)
    fitted = ", or say `fitted: true` where one is made to the other in hand" if general else ""
    yield clearance.finding("clearance-at-limits", message, f"make room, {closer}{fitted}.")


@dataclass(frozen=True, slots=True)
class _Worst:
    """The least gap in millimetres with everything at its adverse end, at a place of the travel."""

    gap: float
    place: int
    losses: tuple[Loss, ...]


def _worst(clearance: Clearance, held: Mapping[str, Held]) -> _Worst | None:
    """Of all sides; None where nothing takes anything."""
    made = {name: each.made for name, each in held.items()}
    found = []
    for losses in _losses(clearance, held, made):
        there = clearance.gap_with({**made, **{loss.name: loss.end for loss in losses}}) if losses else None
        if there is not None:
            found.append(_Worst(*there, losses))
    return min(found, key=lambda worst: worst.gap, default=None)


def _losses(clearance: Clearance, held: Mapping[str, Held], made: Mapping[str, Quantity]) -> Iterator[tuple[Loss, ...]]:
    """For each side towards which the two may come nearer, what takes something there, the most first."""
    base = clearance.pair.stand(clearance.place, made)
    if base is None:
        return
    sides = {shift: base.gap(shift) for shift in _sides(base)}
    taken: dict[Shift, list[Loss]] = {shift: [] for shift in sides}
    for name, each in held.items():
        at_high = _at_end(clearance, made, name, each.high, sides)
        if not any(abs(loss) > _LEAST_LOSS for loss in at_high.values()) and each.high != each.made:
            continue
        at_low = _at_end(clearance, made, name, each.low, sides)
        for shift in sides:
            loss, end = max((at_high[shift], each.high), (at_low[shift], each.low), key=lambda at: at[0])
            if loss > _LEAST_LOSS:
                taken[shift].append(Loss(name, end, loss))
    yield from (tuple(sorted(losses, key=lambda loss: -loss.taken)) for losses in taken.values())


def _at_end(
    clearance: Clearance, made: Mapping[str, Quantity], name: str, end: Quantity, sides: Mapping[Shift, float]
) -> dict[Shift, float]:
    """What one measure takes at one of its ends, by side."""
    stands = clearance.pair.stand(clearance.place, {**made, name: end})
    return {shift: 0.0 if stands is None else gap - stands.gap(shift, gap + _WIDER) for shift, gap in sides.items()}


def _sides(base: Standing) -> Iterator[Shift]:
    """Where it is, and along each axis half of the gap towards what is nearest that way."""
    yield NO_SHIFT
    gap = base.gap()
    for axis, way in product(range(3), (1.0, -1.0)) if gap > 0 else ():
        by = _half_closed(base, gap, axis, way)
        if by is not None:
            yield _along(axis, way * by)


def _along(axis: int, by: float) -> Shift:
    return (by * (axis == 0), by * (axis == 1), by * (axis == 2))


def _half_closed(base: Standing, gap: float, axis: int, way: float) -> float | None:
    """How far the one may be shifted so that half of the gap is left; None where nothing is near that way."""

    def leaves(by: float) -> bool:
        return base.gap(_along(axis, way * by), gap) > gap / 2

    stride = _ASIDE / _STRIDES
    closed = next((stride * k for k in range(1, _STRIDES + 1) if not leaves(stride * k)), None)
    if closed is None:
        return None
    clear = closed - stride
    for _ in range(_HALVINGS):
        middle = (clear + closed) / 2
        clear, closed = (middle, closed) if leaves(middle) else (clear, middle)
    return clear
