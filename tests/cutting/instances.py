"""The published instances, read from tests/reference/packing; see the README there for sources."""

from __future__ import annotations

from pathlib import Path

from planbook.cutting import Job, Piece, Stock

FOLDER = Path(__file__).parents[1] / "reference" / "packing"


def numbers(name: str) -> list[int]:
    kind = "1d" if name.startswith(("u120", "cutstock")) else "2d"
    return [int(word) for word in (FOLDER / kind / f"{name}.txt").read_text(encoding="utf-8").split()]


def sheet_job(name: str, turnable: bool = False) -> tuple[Job, tuple[int, ...]]:
    """A job of all its pieces from its sheet, without kerf, and the published value of each kind."""
    _, length, width, *rest = numbers(name)
    rows = [tuple(rest[at : at + 4]) for at in range(0, len(rest), 4)]
    pieces = tuple(
        Piece(f"{at}", row[0], row[1], row[2], turnable and row[0] != row[1]) for at, row in enumerate(rows, 1)
    )
    return Job(pieces, (Stock("sheet", length, width),), 0), tuple(row[3] for row in rows)


def length_job(name: str) -> tuple[Job, int]:
    """A job of lengths, all of width 1, and the published number of stock lengths."""
    whole, _, best, *rest = numbers(name)
    if name.startswith("cutstock"):
        lengths = list(zip(rest[::2], rest[1::2], strict=True))
    else:
        lengths = [(each, rest.count(each)) for each in sorted(set(rest), reverse=True)]
    pieces = tuple(Piece(f"{length}", length, 1, demand) for length, demand in lengths)
    return Job(pieces, (Stock("length", whole, 1),), 0), best
