"""`from:` of features: each must lead to a feature with a place, on an axis that both faces have, and in no circle."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from graphlib import CycleError, TopologicalSorter

from planbook.source.findings import Finding, Related, Severity
from planbook.source.models.origin import FromModel
from planbook.source.models.part import FACE_AXES, AnyFeature, FeatureModel, PlacedModel
from planbook.source.names import choice_remedy
from planbook.source.text import Text

Features = Mapping[Text, AnyFeature]


def check_origins(key: str, features: Features) -> tuple[Finding, ...]:
    """What is wrong with `from` in the part `key`. Circles are looked for once each name leads somewhere."""
    found = [
        finding
        for name, feature in features.items()
        if isinstance(feature, PlacedModel) and feature.origin is not None
        for finding in _check(key, features, name, feature, feature.origin)
    ]
    return tuple(found or _circles(features))


def named_origins(feature: FeatureModel) -> dict[str, Text]:
    """The features that this one is measured from, by axis."""
    if not isinstance(feature, PlacedModel) or feature.origin is None:
        return {}
    along = {axis: feature.origin.along(axis) for axis in FACE_AXES[feature.on]}
    return {axis: name for axis, name in along.items() if name is not None}


def _check(key: str, features: Features, name: Text, feature: PlacedModel, origin: FromModel) -> Iterator[Finding]:
    axes = FACE_AXES[feature.on]
    for axis, other in origin.single.items():
        if axis not in axes:
            yield _stop(
                "from-axis",
                other,
                f"`{name}` is on the {_words(feature)}, where positions are measured along {' and '.join(axes)}, "
                f"not along {axis}.",
                f"Write `from: {{{axes[0]}: {other}}}` or `from: {{{axes[1]}: {other}}}`.",
            )
    for axis, other in named_origins(feature).items():
        finding = _check_name(key, features, (name, feature), axis, other)
        if finding is not None:
            yield finding
            return


def _check_name(key: str, features: Features, own: tuple[Text, PlacedModel], axis: str, other: Text) -> Finding | None:
    name, feature = own
    placed = [str(each) for each, model in features.items() if isinstance(model, PlacedModel) and each != name]
    if other not in features:
        return _stop(
            "feature-unknown", other, f"There is no feature `{other}`.", choice_remedy(other, placed, f"`{key}`")
        )
    target = features[other]
    if not isinstance(target, PlacedModel):
        message = f"`{name}` is measured from `{other}`, which has no place of its own."
        return _stop("from-without-place", other, message, choice_remedy("", placed, f"`{key}`"))
    if axis not in FACE_AXES[target.on]:
        shared = [each for each in FACE_AXES[feature.on] if each in FACE_AXES[target.on]]
        message = f"`{other}` is on the {_words(target)} and has no position along {axis}."
        return _stop("from-axis", other, message, f"Write `from: {{{shared[0]}: {other}}}`, or name another feature.")
    return None


def _circles(features: Features) -> Iterator[Finding]:
    """One finding for the first circle along each axis; the same circle along two axes is told once."""
    told: set[frozenset[str]] = set()
    for axis in ("x", "y", "z"):
        needs = {name: [other] for name, each in features.items() if (other := named_origins(each).get(axis))}
        try:
            TopologicalSorter(needs).prepare()
        except CycleError as error:
            ring: list[Text] = error.args[1][:0:-1]
            if frozenset(ring) not in told:
                told.add(frozenset(ring))
                yield _circle(ring, needs)


def _circle(ring: list[Text], needs: Mapping[Text, Iterable[Text]]) -> Finding:
    start = ring.index(next(name for name in needs if name in ring))
    names = [*ring[start:], *ring[:start]]
    steps = [(name, next(iter(needs[name]))) for name in names]
    told = ", ".join(f"`{name}` from `{other}`" for name, other in steps)
    return Finding(
        "from-circle",
        Severity.STOP,
        f"These features are measured from one another in a circle: {told}.",
        f"Measure one of them, such as `{names[0]}`, from the datum corner: delete its `from`.",
        steps[0][1].place,
        related=tuple(Related(other.place, f"`{name}` is measured from `{other}`") for name, other in steps[1:]),
    )


def _words(feature: PlacedModel) -> str:
    return str(feature.on).replace("_", " ")


def _stop(code: str, name: Text, message: str, remedy: str) -> Finding:
    return Finding(code, Severity.STOP, message, remedy, name.place)
