"""A small workspace whose plan set loads, to be spoilt file by file."""

from pathlib import Path

from planbook.source import Door, load
from planbook.source.content import Content
from planbook.source.findings import Finding

SET = "content/stool"
FILES: dict[str, str] = {
    f"{SET}/set.yaml": """\
title: Milking stool
code: MS
summary: A stool on three legs.
workshop: {name: Invented Workshop}
issued: 2026-02-28
drawn_by: A. Drawer
approved_by: B. Approver
editions:
  metric: {title: Metric edition, units: millimetre, paper: a4, projection: first_angle, market: europe}
  inch: {title: Inch edition, units: inch, paper: letter, projection: third_angle, market: north_america}
tolerances: {length: make.length, angle: make.angle, diagonals: make.length, moisture: 8 %}
cover: seat_view
cautions: [dust]
""",
    f"{SET}/parameters.yaml": """\
make:
  length: 0.5 mm
  angle: 0.5 deg
seat:
  width: {by_market: {europe: 300 mm, north_america: 12 in}, tolerance: 1 mm, means: across the grain}
  length: seat.width + 40 mm
""",
    f"{SET}/parts/seat.yaml": """\
number: 1
title: Seat
stock: board
quantity: 1
size: [seat.length, seat.width, stock.board.thickness]
features:
  socket: {hole: 25 mm, at: [40 mm, 40 mm], depth: 20 mm}
""",
    f"{SET}/parts/long-leg.yaml": """\
number: 2
title: Long leg
stock: board
quantity: {as_drawn: 2, mirrored: 1}
size: [400 mm, 40 mm, 40 mm]
outline: {a: [0 mm, 0 mm], b: {at: [400 mm, 0 mm]}, c: [400 mm, 40 mm], d: [0 mm, 40 mm]}
""",
    f"{SET}/hardware.yaml": "glue: {item: glue, quantity: 1, use: For the sockets, parts: [seat, long_leg]}\n",
    f"{SET}/figures.yaml": "seat_view: {part: seat, emphasise: [socket], caption: The seat, alt: A round seat.}\n",
    f"{SET}/rules.yaml": "seat.wide_enough: {require: seat.width >= 280 mm, because: People sit on it.}\n",
    f"{SET}/assembly.yaml": """\
components:
  seat: {part: seat, at: [0 mm, 0 mm, 400 mm]}
  pin: {rod: {title: Pin, diameter: 8 mm, length: 60 mm, along: x}, at: [0 mm, 0 mm, 0 mm]}
""",
    f"{SET}/positions.yaml": "driver: seat.width\npositions: {standing: 300 mm}\n",
    f"{SET}/changes.yaml": "1.0: {issued: 2026-02-01, summary: First.}\n",
    f"{SET}/pages/how-to.md": "---\ntitle: How to use the plans\nslot: front\n---\nRead *first*.\n",
    f"{SET}/steps/10-cut-the-legs.md": "---\ntitle: Cut the legs\nparts: [long_leg]\n---\nSaw.\n",
    f"{SET}/steps/20-bore.md": "---\ntitle: Bore the sockets\nparts: [seat]\ncautions: [dust]\n---\nBore.\n",
    "shared/cautions.yaml": "dust: {word: warning, title: Dust, text: Wear a mask.}\n",
    "shared/markets/europe.yaml": """\
title: Europe
stock: {board: {kind: board, title: Beech, material: beech, thickness: 40 mm}}
hardware: {glue: {title: Wood glue, measures: {}}}
drills: [1 mm, 2 mm]
""",
    "shared/markets/north_america.yaml": """\
title: North America
stock: {board: {kind: board, title: Maple, material: maple, thickness: 1 1/2 in}}
hardware: {glue: {title: Wood glue, measures: {}}}
""",
}


def write(root: Path, changes: dict[str, str | bytes | None] | None = None) -> Door:
    """The workspace in `root`, with files put in place of (or, for None, taken out of) the good ones."""
    for path, text in {**FILES, **(changes or {})}.items():
        if text is not None:
            file = root / path
            file.parent.mkdir(parents=True, exist_ok=True)
            file.write_bytes(text if isinstance(text, bytes) else text.encode())
    return Door(root, None)


def load_with(root: Path, changes: dict[str, str | bytes | None]) -> tuple[Content | None, tuple[Finding, ...]]:
    return load(write(root, changes), "stool")


def line_of(finding: Finding) -> str:
    """The place as `file:line:column`, the set's folder left off."""
    return str(finding.place).removeprefix(f"{SET}/")
