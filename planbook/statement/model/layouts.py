"""How the stock is cut: sheets, boards and rods with their pieces, cuts and offcuts."""

from __future__ import annotations

from dataclasses import dataclass

Box = tuple[float, float, float, float]
"""x along the stock, y across, length, width; nanometres from the corner of the stock as bought."""


@dataclass(frozen=True, slots=True)
class PieceStated:
    """A piece where it is cut, its rough size as printed. `turned`: its length lies across the stock."""

    part: str
    number: str
    text: str
    box: Box
    turned: bool = False
    outline: tuple[tuple[float, float], ...] = ()
    """Its corners where a router cuts along it; empty for a rectangle."""
    holes: tuple[tuple[tuple[float, float], ...], ...] = ()
    """The corners of its openings."""


@dataclass(frozen=True, slots=True)
class OffcutStated:
    """What is left and worth keeping."""

    box: Box
    text: str


@dataclass(frozen=True, slots=True)
class CutLineStated:
    """A cut, in the order of making: "rip" or "crosscut", what the fence is set to, from where to where it runs.

    `gives` names the near and the far side: a part's number, "offcut", or "" for what is cut on. A `trim` takes an
    edge off.
    """

    way: str
    at: str
    line: Box
    """Start x, start y, end x, end y."""
    trim: bool = False
    gives: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class LayoutStated:
    """A sheet, board or rod that is cut so, `times` over; `count` is how many of this stock are needed in all."""

    id: str
    stock: str
    title: str
    kind: str
    machine: str
    """"saw" or "router"."""
    times: int
    size: tuple[float, float]
    text: str
    count: int
    bound: str
    pieces: tuple[PieceStated, ...]
    offcuts: tuple[OffcutStated, ...] = ()
    cuts: tuple[CutLineStated, ...] = ()
    grain: bool = True
    """Whether there is grain to heed; it runs along the length."""
    kerf: str = ""
    """What each cut takes away, in both units."""
    radius: str = ""
    """What a router's cutter leaves in inside corners, in both units."""
    corners: tuple[str, ...] = ()
    """Inside corners that are wanted sharper than that, by part."""
