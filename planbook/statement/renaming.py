"""An old statement in the names of a newer one, so that a renamed thing is compared with itself.

`Statement.renamed` maps "part:old" to "part:new"; the sorts are parameter, part, feature ("feature:<part>/<name>"),
page and step. Dimensions, blocks and steps follow from these.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from planbook.source.content import Content
from planbook.source.text import Text
from planbook.statement.model import (
    BlockStated,
    ComponentStated,
    DimensionStated,
    FitStated,
    ParameterStated,
    PartStated,
    Statement,
    StepStated,
)

_NAME = re.compile(r"[A-Za-z_]\w*(?:\.[A-Za-z_]\w*)*")


def renamed(content: Content, dimensions: Iterable[str]) -> dict[str, str]:
    """Old names to new ones from `was:`, as `in_new_names` reads them; dimensions by their bare ids."""
    names = {f"parameter:{old}": f"parameter:{name}" for name, each in content.parameters.items() for old in each.was}
    for key, part in content.parts.items():
        names |= {f"part:{old}": f"part:{key}" for old in part.was}
        for name, feature in part.features.items():
            names |= {f"feature:{key}/{old}": f"feature:{key}/{name}" for old in feature.was}
    names |= {f"page:{old}": f"page:{page.key}" for page in content.pages for old in page.head.was}
    names |= {f"step:{old}": f"step:{step.key}" for step in content.steps for old in step.head.was}
    for each in dimensions:
        names |= dict.fromkeys(_former_ids(content, each), each)
    return names


def _former_ids(content: Content, dimension: str) -> Iterable[str]:
    part, feature, *rest = dimension.split("/")
    model = content.parts[part]
    keys = [part, *model.was]
    features = [feature, *(model.features[Text(feature)].was if Text(feature) in model.features else ())]
    former = ("/".join((key, name, *rest)) for key in keys for name in features)
    return (each for each in former if each != dimension)


@dataclass(frozen=True, slots=True)
class Renaming:
    """What things of an older statement are called in a newer one."""

    names: Mapping[str, str]

    def of(self, sort: str, name: str) -> str:
        """The newer name of a parameter, part, page or step."""
        return self.names.get(f"{sort}:{name}", f"{sort}:{name}").partition(":")[2]

    def feature(self, part: str, name: str) -> str:
        """The newer name of a feature; `part` is the newer key of its part."""
        return self.of("feature", f"{part}/{name}").rpartition("/")[2]

    def dimension(self, name: str) -> str:
        """The newer id of a dimension, or of the callout (`part/feature`) that it stands in."""
        part, *rest = name.split("/")
        part = self.of("part", part)
        # Features stand second and fourth; the characteristic between them keeps its name.
        return "/".join((part, *(each if at == 1 else self.feature(part, each) for at, each in enumerate(rest))))

    def formula(self, text: str) -> str:
        """A formula in the newer names."""
        return _NAME.sub(lambda match: self.of("parameter", match[0]), text)


def in_new_names(old: Statement, renamed: Mapping[str, str]) -> Statement:
    """The old statement with everything called as the newer one calls it."""
    if not renamed:
        return old
    renaming = Renaming(renamed)
    parameters = (_parameter(each, renaming) for each in old.parameters.values())
    parts = (_part(each, renaming) for each in old.parts.values())
    dimensions = (_dimension(each, renaming) for each in old.dimensions.values())
    return replace(
        old,
        parameters={each.name: each for each in parameters},
        parts={each.key: each for each in parts},
        dimensions={each.id: each for each in dimensions},
        blocks=tuple(_block(each, renaming) for each in old.blocks),
        steps=tuple(_step(each, renaming) for each in old.steps),
        sheets={name: replace(each, part=renaming.of("part", each.part)) for name, each in old.sheets.items()},
        lists={
            name: tuple(replace(row, id=renaming.of("part", row.id)) for row in rows)
            for name, rows in old.lists.items()
        },
        assembly=None if old.assembly is None else tuple(_component(each, renaming) for each in old.assembly),
        fits=None if old.fits is None else {name: _fit(each, renaming) for name, each in old.fits.items()},
    )


def _component(each: ComponentStated, renaming: Renaming) -> ComponentStated:
    return replace(each, part=each.part and renaming.of("part", each.part))


def _fit(each: FitStated, renaming: Renaming) -> FitStated:
    return replace(each, dimensions=tuple(renaming.dimension(name) for name in each.dimensions))


def _inputs(names: tuple[str, ...], renaming: Renaming) -> tuple[str, ...]:
    return tuple(renaming.of("parameter", name) for name in names)


def _parameter(each: ParameterStated, renaming: Renaming) -> ParameterStated:
    return replace(
        each,
        name=renaming.of("parameter", each.name),
        formula=renaming.formula(each.formula),
        inputs=_inputs(each.inputs, renaming),
    )


def _part(each: PartStated, renaming: Renaming) -> PartStated:
    key = renaming.of("part", each.key)
    features = {
        name: replace(feature, name=name)
        for name, feature in ((renaming.feature(key, old), feature) for old, feature in each.features.items())
    }
    return replace(each, key=key, features=features)


def _dimension(each: DimensionStated, renaming: Renaming) -> DimensionStated:
    name = renaming.dimension(each.id)
    part, feature = name.split("/")[:2]
    return replace(
        each,
        id=name,
        part=part,
        feature=feature,
        callout=renaming.dimension(each.callout),
        formula=renaming.formula(each.formula),
        inputs=_inputs(each.inputs, renaming),
    )


def _block(each: BlockStated, renaming: Renaming) -> BlockStated:
    page = renaming.of("step", renaming.of("page", each.page))
    return replace(each, page=page, id=page + each.id[len(each.page) :])


def _step(each: StepStated, renaming: Renaming) -> StepStated:
    parts = tuple(renaming.of("part", part) for part in each.parts)
    glued = tuple(renaming.of("part", part) for part in each.glue_order)
    return replace(each, key=renaming.of("step", each.key), parts=parts, glue_order=glued)
