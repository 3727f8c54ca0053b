"""Positions that are measured from another feature, turned into positions from the datum corner."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from planbook.shape.bench import Bench
from planbook.shape.faces import FACES
from planbook.shape.model import Origin
from planbook.source.models.around import SweptModel
from planbook.source.models.bores import HoleModel, SlotModel
from planbook.source.models.part import AnyFeature, PlacedModel
from planbook.source.models.recesses import MortiseModel, OpeningModel
from planbook.source.text import Formula, Text

Features = Mapping[Text, AnyFeature]
Origins = Mapping[str, tuple[Origin | None, Origin | None]]


def settle(bench: Bench, features: Features, model: AnyFeature) -> tuple[AnyFeature, Origins] | None:
    """The feature with all positions from the datum corner, and what each was measured from.

    The formulas along the way are added up: `lever.crank` from a pivot at `lever.tail` is `lever.crank + (lever.tail)`.
    None when one of them has no value; a fault of another feature's formula is reported there.
    """
    if not isinstance(model, PlacedModel) or model.origin is None:
        return model, {}
    moved: dict[str, tuple[Formula, Formula]] = {}
    origins: dict[str, tuple[Origin | None, Origin | None]] = {}
    for key, pair in _positions(model).items():
        found = [_origin(bench, model, axis, pair[axis]) for axis in (0, 1)]
        chains = [list(_chain(features, model, axis)) for axis in (0, 1)]
        missing = any(origin is None and chain for origin, chain in zip(found, chains, strict=True))
        if missing or not all(bench.has_value(formula) for chain in chains for formula in chain):
            return None
        origins[key] = (found[0], found[1])
        moved[key] = (_sum(pair[0], chains[0]), _sum(pair[1], chains[1]))
    return model.model_copy(update=moved), origins


def _positions(model: PlacedModel) -> dict[str, tuple[Formula, Formula]]:
    """Its places by their key in the content, the one that others are measured from first."""
    if isinstance(model, SlotModel):
        return {"start": model.start, "end": model.end}
    assert isinstance(model, HoleModel | MortiseModel | OpeningModel | SweptModel)
    return {"at": model.at}


def _origin(bench: Bench, model: PlacedModel, axis: int, formula: Formula) -> Origin | None:
    other = _other(model, axis)
    value = None if other is None else bench.length(formula)
    return None if other is None or value is None else Origin(str(other), value)


def _other(model: PlacedModel, axis: int) -> Text | None:
    return None if model.origin is None else model.origin.along(FACES[model.on].names[axis])


def _chain(features: Features, model: PlacedModel, axis: int) -> Iterator[Formula]:
    """The positions to be added along an axis: of the feature it is measured from, of that one's, and so on."""
    letter = FACES[model.on].names[axis]
    while (other := None if model.origin is None else model.origin.along(letter)) is not None:
        found = features[other]
        assert isinstance(found, PlacedModel)
        model = found
        first = next(iter(_positions(model).values()))
        yield first[FACES[model.on].names.index(letter)]


def _sum(formula: Formula, chain: list[Formula]) -> Formula:
    return Formula(" + ".join([formula, *(f"({each})" for each in chain)]), formula.place)
