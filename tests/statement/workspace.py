"""A tiny plan set in a workspace of its own: a board with a hole, in two markets, with one of everything."""

import datetime
import textwrap

from planbook.design import plan_design, read_supposed, suppose
from planbook.source import Door, load
from planbook.source.findings import stops
from planbook.statement import state_edition

MARKETS = {"imperial": "here", "metric": "there", "mixed": "here"}
FILES = {
    "shared/markets/here.yaml": """
        title: Here
        stock:
          board:
            {kind: board, title: 3/4 in board, material: maple, thickness: 3/4 in, accepted: [47/64 in, 49/64 in]}
        hardware:
          bolt: {title: 1/4-20 bolt, measures: {diameter: 1/4 in, clearance: 9/32 in}}
        drills: [1/4 in, 9/32 in]
        """,
    "shared/markets/there.yaml": """
        title: There
        stock:
          board: {kind: board, title: 20 mm board, material: maple, thickness: 20 mm, accepted: [19.5 mm, 20.5 mm]}
        hardware:
          bolt: {title: M6 bolt, measures: {diameter: 6 mm, clearance: 6.6 mm}}
        drills: [6 mm, 6.6 mm]
        """,
    "content/tiny/set.yaml": """
        title: Tiny
        code: T
        summary: A board, {{ board.length }} long.
        workshop: {name: Larkhill}
        issued: 2026-03-02
        drawn_by: E. L.
        approved_by: T. M.
        editions:
          imperial:
            {title: Imperial, units: inch, paper: letter, projection: third_angle, market: here}
          metric:
            {title: Metric, units: millimetre, paper: a4, projection: first_angle, market: there}
          mixed:
            {title: Metric on Letter, units: millimetre, paper: letter, projection: third_angle, market: here}
        tolerances: {length: make.length, angle: make.angle, diagonals: make.diagonal, moisture: 6 to 9 %}
        cover: front
        cautions: [saws]
        tools: ["A drill of {{ hardware.bolt.clearance }}"]
        """,
    "content/tiny/cautions.yaml": """
        saws: {word: warning, title: Saws, text: They cut.}
        glue: {word: notice, title: Glue, text: "It sets; see {{ page.intro }}."}
        """,
    "content/tiny/parameters.yaml": """
        make:
          length: {by_market: {here: 1/32 in, there: 0.5 mm}}
          angle: 0.5 deg
          diagonal: {by_market: {here: 1/16 in, there: 1 mm}}
        board:
          length: {by_market: {here: 12 in, there: 300 mm}, means: length of the board, tolerance: 1 mm}
          width: {by_market: {here: 4 in, there: 100 mm}}
          half: board.length / 2
        lift: 0 mm
        """,
    "content/tiny/parts/board.yaml": """
        number: 7
        title: Board
        stock: board
        quantity: 2
        size: [board.length, board.width, stock.board.thickness]
        features:
          middle: {hole: hardware.bolt.clearance, at: [board.half, board.width / 2]}
        notes: ["Drill {{ dim.board.middle.diameter }} as on {{ sheet.board }}."]
        """,
    "content/tiny/assembly.yaml": """
        components:
          board: {part: board, at: [0 mm, 0 mm, lift]}
        """,
    "content/tiny/positions.yaml": """
        driver: lift
        positions: {low: 0 mm, high: 40 mm}
        """,
    "content/tiny/hardware.yaml": """
        bolt: {item: bolt, quantity: 4, use: in the middle, parts: [board]}
        """,
    "content/tiny/figures.yaml": """
        front: {elevation: front, caption: From the front., alt: A board.}
        high: {elevation: front, position: high, caption: "Raised, part {{ part.board }}.", alt: A board in the air.}
        room:
          chart: board.length
          start: 100 mm
          end: 300 mm
          steps: 4
          curves: [{value: board.half, label: half}]
          limits: [{value: board.width, label: width}]
          x_label: length
          y_label: half
          caption: Half of it.
          alt: A rising line.
        """,
    "content/tiny/rules.yaml": """
        board.long: {require: board.length >= 2 * board.width, because: a square board is dull}
        """,
    "content/tiny/pages/01-intro.md": """
        ---
        title: Intro
        ---
        The board is {{ board.length }} long; {{ see.high }} shows it.

        {{ figure.high }}
        """,
    "content/tiny/pages/02-end.md": """
        ---
        title: The end
        slot: back
        ---
        {{ figure.room }}
        """,
    "content/tiny/steps/01-cut.md": """
        ---
        title: Cut
        parts: [board]
        tools: [A saw]
        hold: It is {{ board.half }} to the hole.
        cautions: [saws]
        ---
        Cut {{ part.board }}.
        """,
}  # fmt: skip


def write(root, **changed):
    """The workspace in a folder, with some files (by the last part of the path, without ending) given other text."""
    for path, body in FILES.items():
        stem = path.rpartition("/")[2].partition(".")[0].replace("-", "_").lstrip("_0123456789")
        file = root / path
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(textwrap.dedent(changed.pop(stem, body)).lstrip("\n"), encoding="utf-8")
    assert not changed, changed
    return root


def edited(path, old, new):
    """The text of a file of the workspace with one passage replaced."""
    body = FILES[path]
    assert body.count(old) == 1, (path, old)
    return body.replace(old, new)


def state(root, edition, version="1.0"):
    """State an edition of the workspace: what came out, nothing where something stops it, and all findings."""
    stated, found = weigh(root, edition, version=version)
    return (None if stops(found) else stated), found


def weigh(root, edition, *supposed, version=""):
    """The same of a design that need not do, with a supposed change (`board.length = 310 mm`)."""
    door = Door(root)
    content, findings = load(door, "tiny")
    assert content is not None, findings
    plan, planned = plan_design(content)
    values, supposing = suppose(plan, MARKETS[edition], map(read_supposed, supposed))
    stated, told = state_edition(content, edition, door, plan, version, datetime.date(2026, 5, 1), values)
    return stated, (*findings, *planned, *supposing, *told)
