"""Random statements, drawn from the model's own field types, and every place in one where a value can be changed."""

import types
from collections.abc import Mapping
from dataclasses import fields, is_dataclass, replace
from typing import Union, get_args, get_origin, get_type_hints

from hypothesis import strategies as st

from planbook.statement.model import FORM, Statement

WORDS = st.text(alphabet=st.characters(codec="utf-8", exclude_characters="\x00"), max_size=6)
KEYS = st.text(alphabet="abc_.", min_size=1, max_size=4)
SIMPLE = {
    str: WORDS,
    int: st.integers(0, 999),
    bool: st.booleans(),
    float: st.floats(-1e100, 1e100, allow_nan=False),
    type(None): st.none(),
}


def of_type(kind, max_size=2):
    """Values of a type of the model."""
    if kind in SIMPLE:
        return SIMPLE[kind]
    if is_dataclass(kind):
        hints = get_type_hints(kind)
        return st.builds(kind, **{field.name: of_type(hints[field.name], max_size) for field in fields(kind)})
    origin, inner = get_origin(kind), get_args(kind)
    if origin in (Union, types.UnionType):
        return st.one_of(*(of_type(each, max_size) for each in inner))
    if origin is tuple and inner[-1] is Ellipsis:
        return st.lists(of_type(inner[0], max_size), max_size=max_size).map(tuple)
    if origin is tuple:
        return st.tuples(*(of_type(each, max_size) for each in inner))
    assert origin is Mapping, kind
    return st.dictionaries(KEYS, of_type(inner[1], max_size), max_size=max_size)


def statements():
    return of_type(Statement).map(lambda statement: coherent(replace(statement, form=FORM, renamed={})))


def coherent(statement):
    """Names as the keys say, dimensions on parts that exist, ids that differ."""
    parts = {
        key: replace(part, key=key, features={name: replace(each, name=name) for name, each in part.features.items()})
        for key, part in statement.parts.items()
    }
    owners = list(parts) or ["gone"]
    dimensions = {
        f"{owners[i % len(owners)]}/f{i}/x": replace(
            each, id=f"{owners[i % len(owners)]}/f{i}/x", part=owners[i % len(owners)]
        )
        for i, each in enumerate(statement.dimensions.values())
    }
    return replace(
        statement,
        parts=parts,
        dimensions=dimensions,
        parameters={key: replace(each, name=key) for key, each in statement.parameters.items()},
        figures={key: replace(each, name=key) for key, each in statement.figures.items()},
        rules={key: replace(each, name=key) for key, each in statement.rules.items()},
        sheets={key: replace(each, number=key) for key, each in statement.sheets.items()},
        blocks=tuple(replace(each, id=f"p/s/{i}", page="p") for i, each in enumerate(statement.blocks)),
        fits=statement.fits
        and {
            key: replace(each, name=key, dimensions=tuple(f"p/f{i}/x" for i, _ in enumerate(each.dimensions)))
            for key, each in statement.fits.items()
        },
        assembly=statement.assembly
        and tuple(replace(each, name=f"component{i}") for i, each in enumerate(statement.assembly)),
        steps=tuple(replace(each, key=f"step{i}") for i, each in enumerate(statement.steps)),
        lists={
            name: tuple(replace(row, id=f"row{i}") for i, row in enumerate(rows))
            for name, rows in statement.lists.items()
        },
    )
