"""A row of a list: the parts list, the materials or the hardware."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class ListRow:
    """`id` is the key of the part, stock or hardware use; `cells` are printed texts by column name, in column order."""

    id: str
    cells: Mapping[str, str]
