"""What an edition tells since a former release: how it differs, and what that means for wood that is cut."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from planbook.impact import EditionImpact, weigh
from planbook.statement import Comparison


@dataclass(frozen=True)
class Since:
    """A comparison with its impact, which is worked out when somebody asks for it."""

    comparison: Comparison

    @cached_property
    def impact(self) -> EditionImpact:
        """On the builders of the older version."""
        return weigh(self.comparison)


Sinces = Mapping[str, Since]
"""By edition."""
