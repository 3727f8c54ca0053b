"""The published instances, read from tests/reference/packing; see the README there for sources."""

from __future__ import annotations

from math import cos, pi, sin
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


SAWN_LIMITED = {"cgcut1": 244, "cgcut2": 2892}
SAWN = {
    "cgcut1": 249,
    "cgcut2": 3076,
    "gcut1": 56460,
    "gcut2": 60536,
    "gcut3": 61036,
    "gcut4": 61698,
    "gcut5": 246000,
    "gcut6": 238998,
}
SAWN_TURNED = {"gcut1": 58136, "gcut2": 60611, "gcut3": 61626, "gcut4": 62265, "gcut5": 246000, "gcut6": 240951}
FREE = {"ngcut1": 164, "ngcut2": 230, "ngcut3": 247, "ngcut4": 268, "ngcut5": 358, "ngcut6": 289}
PERFECT = ("C1_1", "C1_2", "C1_3", "C2_1", "C2_2", "C2_3", "C3_1", "C3_2")
LENGTHS = ("cutstock100", *(f"u120_{number:02}" for number in range(10)))


# Equal discs in a square of side 1, the greatest radius known: E. Specht, "The best known packings of equal circles in
# a square" (from memory).
DISCS = {5: 0.207106781187, 10: 0.148204322565, 13: 0.133993513500, 20: 0.111382347512, 30: 0.091671057986}


def disc_job(count: int, percent: int) -> Job:
    """So many discs of this share of that radius on one square metre, each in a polygon of 120 sides round it."""
    side = 1_000_000_000
    across = round(2 * DISCS[count] * side * percent / 100)
    reach = across / 2 / cos(pi / 120)
    turns = ((each + 0.5) * pi / 60 for each in range(120))
    corners = ((across / 2 + reach * cos(turn), across / 2 + reach * sin(turn)) for turn in turns)
    outline = tuple((min(across, max(0, round(x))), min(across, max(0, round(y)))) for x, y in corners)
    return Job((Piece("disc", across, across, count, outline=outline),), (Stock("square", side, side, available=1),), 0)
