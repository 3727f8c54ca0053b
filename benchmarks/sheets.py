"""What sheets look like, measured: two hundred generated parts, and all sheets of the plan sets in content/.

    python -m benchmarks.sheets [SET ...]        without sets: all of content/, then the generated parts

The SVG of every page is read by the tests' own reader, which shares nothing with the program's reckoning. Counted are
texts on texts, texts crossed by a stroke, texts that leave the frame, leaders over a view that they do not point at,
lettering under full height, sheets without room for a dimension, and pages on which the box round all views and their
dimensions takes less than a quarter of the field.
"""

from __future__ import annotations

import random
import sys
import tempfile
from collections import Counter
from collections.abc import Iterable, Iterator
from pathlib import Path

from planbook.drawing import draw_sheet, to_svg
from planbook.drawing.frame import page_of
from planbook.drawing.ink import Box
from planbook.release.compilation import Occasion, prepare, state_all
from planbook.source import Door, list_sets
from planbook.statement.model import Statement
from tests.drawing.checker import Picture, faults, read

WORKSPACE = Path(__file__).parents[1]
PARTS = 200
QUARTER = 0.25
LETTERING = 2.5
CAP_HEIGHT = 0.66
"""Of the font: OS/2 sCapHeight over units per em."""
COUNTED = ("on text", "crossed", "off frame", "strayed", "small", "no room", "small views")
SIZES = (
    (30, 20), (60, 60), (150, 40), (300, 200), (400, 90), (600, 600), (900, 350), (1500, 60), (2400, 30), (6000, 9),
)  # fmt: skip
"""Length and width in millimetres."""
THICK = "stock.sheet_12.thickness"


def main() -> None:
    keys = sys.argv[1:] or list_sets(Door(WORKSPACE))
    print(f"{'':28}{'pages':>6}" + "".join(f"{name:>13}" for name in COUNTED) + f"{'least cover':>13}")
    for key in keys:
        for statement in statements(WORKSPACE, key):
            report(f"{key}, {statement.edition.name}", statement)
    if not sys.argv[1:]:
        with tempfile.TemporaryDirectory() as folder:
            write_set(Path(folder))
            for statement in statements(Path(folder), "many"):
                report(f"{PARTS} parts, {statement.edition.name}", statement)


def statements(root: Path, key: str) -> Iterator[Statement]:
    """What each edition of a set tells."""
    door = Door(root)
    prepared, findings = prepare(door, key)
    assert prepared is not None, findings
    occasion = Occasion("", prepared.content.plan_set.issued, None)
    told, findings = state_all(door, prepared, occasion, prepared.editions)
    assert told, findings
    yield from (one.statement for one in told.values())


def report(title: str, statement: Statement) -> None:
    """One line of the table, and under it the pages with a fault."""
    total, least, pages, notes = Counter[str](), 1.0, 0, []
    field = page_of(statement.edition.paper).field
    for number in statement.sheets:
        drawings, findings = draw_sheet(statement, number)
        total["no room"] += len(findings)
        for place, drawing in enumerate(drawings, start=1):
            svg = to_svg(drawing, "s")
            found, cover = measure(svg, read(svg), field)
            total += found
            least, pages = min(least, cover), pages + 1
            if found:
                notes.append(f"    sheet {number}, page {place}: {dict(found)}, cover {cover:.2f}")
        notes += [f"    sheet {number}: {each.message}" for each in findings]
    print(f"{title:28}{pages:6}" + "".join(f"{total[name]:13}" for name in COUNTED) + f"{least:13.2f}")
    print("\n".join(notes), end="\n" if notes else "", flush=True)


def measure(svg: str, picture: Picture, field: Box) -> tuple[Counter[str], float]:
    """What is wrong with one page, and the share of the field that the box of its views takes."""
    found = Counter(_kind(fault) for fault in faults(svg))
    low = [text for text in picture.texts if text.size * CAP_HEIGHT < LETTERING - 0.01 and not text.words.isupper()]
    found["small"] += len(low)  # captions of the title block are smaller, and in capitals
    cover = covered(picture, field)
    found["small views"] += cover < QUARTER
    return +found, cover


def _kind(fault: str) -> str:
    """Under which head the reader's words come."""
    if fault.endswith("another view"):
        return "strayed"
    return "on text" if " on '" in fault else "off frame" if fault.endswith("frame") else "crossed"


def covered(picture: Picture, field: Box) -> float:
    """The share of the field that the box round everything drawn in it takes."""
    shapes = (*picture.strokes, *(text.ink for text in picture.texts))
    boxes = [shape.bounds for shape in shapes if not shape.is_empty]
    inside = [b for b in boxes if field.left - 1 < b[0] and b[2] < field.right + 1 and b[3] < field.bottom + 1]
    if not inside:
        return 0.0
    x0, y0, x1, y1 = (pick(b[k] for b in inside) for k, pick in enumerate((min, min, max, max)))
    return (x1 - x0) * (y1 - y0) / ((field.right - field.left) * (field.bottom - field.top))


def write_set(root: Path, numbers: Iterable[int] = range(PARTS)) -> None:
    """The tote with so many parts more, of every kind; the same on every run."""
    source, target = WORKSPACE / "content" / "tool-tote", root / "content" / "many"
    for path in sorted(source.rglob("*")):
        if path.is_file():
            (target / path.relative_to(source)).parent.mkdir(parents=True, exist_ok=True)
            (target / path.relative_to(source)).write_bytes(path.read_bytes())
    for number in numbers:
        (target / "parts" / f"trial-{number:03d}.yaml").write_text(part_text(number))


def part_text(number: int) -> str:
    """One part: its features stand in zones along it, so that none runs into another."""
    rng = random.Random(number)
    length, width = SIZES[number % len(SIZES)]
    zones = min(1 + number // len(SIZES) % 6, max(1, int(length / 28)))
    step = length / zones
    lines = [f"number: {500 + number}", f"title: Trial {number}", "stock: sheet_12", "quantity: 1"]
    lines += [f"size: [{length} mm, {width} mm, {THICK}]", "features:"]
    for zone in range(zones):
        lines.append(f"  f{zone}: {feature(rng, zone * step, step, width)}")
    if rng.random() < 0.25 and width >= 20:
        lines.append(f"  edge: {rng.choice(('{chamfer: 1.5 mm, edge: rear}', '{round_over: 2 mm, edge: rear}'))}")
    return "\n".join(lines) + "\n"


def feature(rng: random.Random, start: float, step: float, width: float) -> str:
    """A feature of any kind that lies between `start` and `start + step` along the part."""
    r = round(min(step, width) * 0.12 + 0.5, 1)
    x, y = round(start + step / 2), round(width * rng.choice((0.4, 0.5)), 1)
    low, high = round(start + step * 0.3), round(start + step * 0.7)
    at = f"at: [{x} mm, {y} mm]"
    kinds = [
        f"{{hole: {2 * r:.1f} mm, {at}}}",
        f"{{hole: {2 * r:.1f} mm, {at}, depth: 6 mm}}",
        f"{{hole: {r:.1f} mm, {at}, counterbore: {{diameter: {2 * r:.1f} mm, depth: 4 mm}}}}",
        f"{{hole: {r:.1f} mm, {at}, countersink: {{diameter: {r + 2:.1f} mm}}}}",
        f"{{groove: {r:.1f} mm, along: y, at: {x} mm, depth: 4 mm}}",
    ]
    if step >= 40:
        kinds += [
            f"{{slot: {r:.1f} mm, start: [{low} mm, {y} mm], end: [{high} mm, {y} mm]}}",
            f"{{mortise: [{high - low} mm, {2 * r:.1f} mm], {at}, depth: 5 mm}}",
            f"{{notch: [{high - low} mm, {r:.1f} mm], edge: rear, start: {low} mm}}",
            f"{{hole: {min(r, step / 12):.1f} mm, at: [{low} mm, {y} mm], "
            f"repeat: {{count: 3, pitch: {step / 6:.1f} mm, along: x}}}}",
        ]
    if step >= 60 and width >= 60:
        reach = min(step, width) * 0.25
        kinds += [
            f"{{pocket: {{a: [{low} mm, {y} mm], b: [{high} mm, {y} mm], c: [{low} mm, {y + reach:.1f} mm]}}, "
            "depth: 5 mm}",
            f"{{arc_slot: {r / 2:.1f} mm, at: [{x} mm, {y} mm], radius: {reach:.1f} mm, angles: [20 deg, 140 deg]}}",
            f"{{hole: {r / 3:.1f} mm, {at}, around: {{circle: {2 * reach:.1f} mm, count: 6}}}}",
        ]
    return rng.choice(kinds)


if __name__ == "__main__":
    main()
