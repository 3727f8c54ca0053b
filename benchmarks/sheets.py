"""What sheets look like, measured: three hundred generated parts, and all sheets of the plan sets in content/.

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
from planbook.release.compilation import prepare, state_all
from planbook.release.occasion import Occasion
from planbook.source import Door, list_sets
from planbook.statement.model import Statement
from tests.drawing.checker import Picture, faults, read

WORKSPACE = Path(__file__).parents[1]
PARTS = 300
PLAIN = 200
"""So many of them have recesses in zones; the others are shaped as a whole, or at their borders."""
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
    """One part."""
    return zoned(number) if number < PLAIN else shaped(number)


def shaped(number: int) -> str:
    """A part that is turned, tapered, rabbeted, cut at an angle or worked round a centre, or two of these."""
    rng = random.Random(number)
    kind = (turned, tapered, rabbeted, slanted, ringed)[number % 5]
    size, features = kind(rng)
    lines = [f"number: {500 + number}", f"title: Trial {number}", "stock: sheet_12", "quantity: 1"]
    lines += [f"size: [{', '.join(size)}]", "features:"]
    return "\n".join([*lines, *(f"  {name}: {what}" for name, what in features.items())]) + "\n"


Made = tuple[tuple[str, str, str], dict[str, str]]
"""The size and the features of a part."""


def turned(rng: random.Random) -> Made:
    """A pin with a neck, a rod with a hole across it, or a rail with round tenons."""
    length = rng.choice((24, 60, 140, 400, 900))
    size = (f"{length} mm", THICK, THICK)
    neck = f"{rng.choice((4, 5.5, 8))} mm"
    start, end = f"{round(length * rng.choice((0.1, 0.4, 0.7)))} mm", f"{round(length * 0.8)} mm"
    across = f"{{hole: 3 mm, at: [{round(length * 0.25)} mm, {THICK} / 2]}}"
    pin = f"round_tenon: [{neck}, {round(length * 0.15)} mm]"
    return size, rng.choice((
        {"body": f"{{turned: {THICK}}}", "neck": f"{{turned: {neck}, start: {start}, end: {end}}}"},
        {"body": f"{{turned: {THICK}}}", "across": across},
        {"neck": f"{{turned: {neck}, start: {start}}}"},
        {f"{side}_pin": f"{{{pin}, end: {side}}}" for side in ("left", "right")},
    ))  # fmt: skip


def tapered(rng: random.Random) -> Made:
    """A leg that narrows on one side or on two, all along or from some way up, with a tenon or a hole."""
    length, width = rng.choice(((160, 40), (420, 45), (700, 60), (240, 120)))
    start = round(length * rng.choice((0.0, 0.25, 0.5)))
    features = {"slim": f"{{taper: [{width} mm, {round(width * 0.6)} mm], side: rear, start: {start} mm}}"}
    if rng.random() < 0.5:
        features["thin"] = f"{{taper: [{THICK}, {THICK} / 2], side: back, start: {start} mm}}"
    other = rng.choice(("tenon", "hole", "ramp", "none"))
    if other == "tenon":
        features["stub"] = f"{{tenon: [{round(length * 0.1)} mm, {round(width * 0.5)} mm, 5 mm], end: left}}"
    if other == "hole":
        features["bolt"] = f"{{hole: 6 mm, at: [{round(length * 0.2)} mm, {round(width * 0.3)} mm], depth: 5 mm}}"
    if other == "ramp" and start > 0.2 * length:
        features["slide"] = f"{{ramp: [0 mm, 4 mm], along: x, start: {round(length * 0.05)} mm, end: {start - 8} mm}}"
    return (f"{length} mm", f"{width} mm", THICK), features


def rabbeted(rng: random.Random) -> Made:
    """A panel or a strip with rabbets along its edges, on the face or on the back, and a groove between them."""
    length, width = rng.choice(((90, 50), (350, 220), (600, 80), (1400, 45), (900, 700)))
    edges = rng.sample(("left", "right", "front", "rear"), rng.choice((1, 2, 3)))
    depth, on = rng.choice((3, 4.5, 6)), rng.choice(("face", "back"))
    features = {
        f"{edge}_lip": f"{{rabbet: {rng.choice((6, 9))} mm, edge: {edge}, depth: {depth} mm, on: {on}}}"
        for edge in edges
    }
    if rng.random() < 0.5:
        features["panel"] = f"{{groove: 5 mm, along: x, at: {round(width * 0.4)} mm, depth: 4 mm}}"
    if rng.random() < 0.4:
        features["soft"] = (
            f"{{hole: 5 mm, at: [{round(length * 0.5)} mm, {round(width * 0.6)} mm], countersink: {{diameter: 9 mm}}}}"
        )
    return (f"{length} mm", f"{width} mm", THICK), features


def slanted(rng: random.Random) -> Made:
    """A rail or a leg with compound cuts at one end or both, perhaps with leaning holes."""
    length, width = rng.choice(((120, 40), (380, 40), (450, 90), (1100, 60)))
    mitre, bevel = rng.choice((0, 8, 22.5, 45)), rng.choice((4, 7.5, 15))
    angles = f"mitre: {mitre} deg, bevel: {bevel} deg" if mitre else f"bevel: {bevel} deg"
    features = {"foot": f"{{end_cut: left, {angles}}}"}
    if rng.random() < 0.6:
        features["head"] = f"{{end_cut: right, {angles}}}"
    if rng.random() < 0.5:
        lean = rng.choice(("{x: 8 deg}", "{x: -5 deg, y: 10 deg}"))
        features["rung"] = (
            f"{{hole: 7 mm, at: [{round(length * 0.6)} mm, {round(width * 0.5)} mm], depth: 6 mm, lean: {lean}}}"
        )
    return (f"{length} mm", f"{width} mm", THICK), features


def ringed(rng: random.Random) -> Made:
    """A plate worked round its centre: ring sectors and arc slots, one or several, right through or not."""
    side = rng.choice((120, 200, 320))
    middle, start = side / 2, rng.choice((0, 15, 40))
    at = f"at: [{middle} mm, {middle} mm]"
    depth = rng.choice(("", ", depth: 5 mm"))
    rests = (
        f"ring_sector: [{round(side * 0.12)} mm, {round(side * 0.2)} mm], {at}, angles: [{start} deg, {start + 50} deg]"
    )
    ways = f"arc_slot: {round(side * 0.03) + 2} mm, {at}, radius: {round(side * 0.36)} mm"
    count = rng.choice((2, 3, 4))
    features = {"pivot": f"{{hole: {round(side * 0.04)} mm, {at}}}"}
    if rng.random() < 0.7:
        features["rests"] = f"{{{rests}, around: {{count: {count}}}{depth}}}"
    if "rests" not in features or rng.random() < 0.6:
        reach = rng.choice((25, 55))
        features["ways"] = (
            f"{{{ways}, angles: [{start + 10} deg, {start + 10 + reach} deg], around: {{count: {count}}}}}"
        )
    if rng.random() < 0.3:
        features["edge"] = "{chamfer: 2 mm, edge: front}"
    return (f"{side} mm", f"{side} mm", THICK), features


def zoned(number: int) -> str:
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
