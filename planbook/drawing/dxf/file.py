"""A DXF file's frame: units, line kinds, lettering, layers made when first asked for; and its bytes."""

from __future__ import annotations

import io
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Final

import ezdxf
from ezdxf import units as dxf_units
from ezdxf.document import Drawing as Document
from ezdxf.layouts import Modelspace

RELEASE: Final = "R2010"
LETTERING: Final = "lettering"
_FONT: Final = "SourceSansPro-Regular.ttf"
_CROSS: Final = 3
"""$PDMODE: points are shown as small crosses."""


@dataclass(frozen=True, slots=True)
class Units:
    """The unit that a file counts in. `factor` turns millimetres into it; `digits` are printed after the point."""

    code: int
    """Of $INSUNITS."""
    sign: str
    words: str
    factor: float
    digits: int

    def text(self, millimetres: float) -> str:
        """A length as a decimal number with its unit, for names and titles."""
        number = f"{millimetres * self.factor:.{self.digits}f}"
        return f"{number.rstrip('0').rstrip('.')} {self.sign}"


MILLIMETRES: Final = Units(dxf_units.MM, "mm", "millimetres", 1.0, 3)
INCHES: Final = Units(dxf_units.IN, "in", "inches", 1 / 25.4, 5)


def units_of(edition_units: str) -> Units:
    """The unit of a file, from an edition's `units`."""
    return INCHES if edition_units == "inch" else MILLIMETRES


@dataclass(frozen=True, slots=True)
class Look:
    """How a layer shows: colour index of DXF, line width in hundredths of a millimetre, dashes in millimetres."""

    colour: int
    weight: int
    dashes: tuple[float, ...] = ()


class File:
    """A DXF document in the making, in one unit."""

    def __init__(self, units: Units, names: dict[str, str]) -> None:
        """`names` are written into the file's properties: what is drawn, of which plan set and version."""
        with _fixed():
            self.document: Document = ezdxf.new(RELEASE, units=units.code)
        self.units = units
        header = self.document.header
        header["$MEASUREMENT"] = int(units is MILLIMETRES)
        header["$PDMODE"] = _CROSS
        header["$PDSIZE"] = 3.0 * units.factor
        for name, value in names.items():
            header.custom_vars.append(name, value)
        self.document.styles.add(LETTERING, font=_FONT)

    @property
    def space(self) -> Modelspace:
        """Where everything is drawn."""
        return self.document.modelspace()

    def layer(self, name: str, look: Look) -> str:
        """The layer's name, once it is sure that there is such a layer."""
        if name not in self.document.layers:
            if look.dashes:
                self._line_kind(name, look.dashes)
            kind = name if look.dashes else "Continuous"
            self.document.layers.add(name, color=look.colour, linetype=kind, lineweight=look.weight)
        return name

    def _line_kind(self, name: str, dashes: tuple[float, ...]) -> None:
        factor = self.units.factor
        pattern = [length * factor * (-1) ** place for place, length in enumerate(dashes)]
        self.document.linetypes.add(name, [sum(map(abs, pattern)), *pattern], description=name)

    def write(self) -> bytes:
        """The file. Neither clock nor chance is in it."""
        stream = io.StringIO()
        # Left to itself, ezdxf lists the classes of what is in use in the order of a set.
        for name in sorted(self.document.entitydb.dxf_types_in_use()):
            self.document.classes.add_class(name)
        with _fixed():
            self.document.write(stream)
        return stream.getvalue().encode()


@contextmanager
def _fixed() -> Iterator[None]:
    """Let ezdxf write a fixed date and fixed identifiers instead of the clock's and random ones."""
    before = ezdxf.options.write_fixed_meta_data_for_testing
    ezdxf.options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        ezdxf.options.write_fixed_meta_data_for_testing = before
