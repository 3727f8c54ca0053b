"""What composing costs: against bare WeasyPrint on the same HTML, in memory, and for each sheet as a set grows.

    python benchmarks/document.py [SET]

Prints ratios of times taken in the same run, so that they can be compared between machines.
"""

from __future__ import annotations

import resource
import shutil
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import weasyprint
from weasyprint.text.fonts import FontConfiguration
from weasyprint.urls import URLFetcher, URLFetcherResponse

from planbook.design import plan_design
from planbook.document import compose
from planbook.document.fetch import BASE, FONTS, TEMPLATES, Fetcher
from planbook.document.figures import Room, draw_figure
from planbook.document.fonts import font_faces
from planbook.document.papers import COLUMN, FIGURE_HEIGHT, PAPERS, page_rules
from planbook.drawing import draw_sheet
from planbook.source import Door, load
from planbook.statement import state_edition
from planbook.statement.stated import Stated

WORKSPACE = Path(__file__).parents[1]
RUNS = 2
COUNTS = (50, 100, 200)


def main() -> None:
    against_weasyprint(sys.argv[1] if len(sys.argv) > 1 else "sewing-desk")
    as_a_set_grows()


def against_weasyprint(key: str) -> None:
    door = Door(WORKSPACE)
    stated = state(door, key)
    done, findings = compose(stated, door)
    assert done is not None, findings
    bare = best(lambda: set_bare(done.html, stated, door))
    drawing = best(lambda: draw_all(stated, door))
    ours = best(lambda: compose(stated, door))
    whole = best(lambda: compose(state(Door(WORKSPACE), key), door))
    print(f"{key}: {done.places.pages} pages, {len(stated.statement.sheets)} sheets, {len(done.pdf) / 1e6:.2f} MB")
    print(f"  bare WeasyPrint         {bare:6.2f} s")
    print(f"  sheets and figures      {drawing:6.2f} s   ratio {drawing / bare:.2f}")
    print(f"  pages from them         {ours - drawing:6.2f} s   ratio {(ours - drawing) / bare:.2f}")
    print(f"  compose                 {ours:6.2f} s   ratio {ours / bare:.2f}")
    print(f"  from files to PDF       {whole:6.2f} s   ratio {whole / bare:.2f}   (aim: at most 1.5)")
    print(f"  peak memory             {peak():6.0f} MB  (aim: under 1024)")


def draw_all(stated: Stated, door: Door) -> None:
    for number in stated.statement.sheets:
        draw_sheet(stated.statement, number)
    for name, figure in stated.statement.figures.items():
        if figure.number:
            draw_figure(stated, door, name, Room(COLUMN, FIGURE_HEIGHT))


def as_a_set_grows() -> None:
    """Sets of copies of one part: the time for each sheet must stay what it is."""
    first = 0.0
    for count in COUNTS:
        with tempfile.TemporaryDirectory() as folder:
            root = Path(folder)
            write_set(root, count)
            begin = time.perf_counter()
            door = Door(root)
            done, findings = compose(state(door, "many"), door)
            each = (time.perf_counter() - begin) / count
            assert done is not None, findings
            first = first or each
            times = f"{1000 * each:6.1f} ms for each sheet, {each / first:.2f} of the first"
            print(f"{count:4d} parts: {times}, {peak():.0f} MB")


def write_set(root: Path, count: int) -> None:
    """The tote with so many more copies of its side."""
    shutil.copytree(WORKSPACE / "content" / "tool-tote", root / "content" / "many")
    parts = root / "content" / "many" / "parts"
    lines = (parts / "side.yaml").read_text().splitlines(keepends=True)
    body = [line for line in lines if not line.startswith(("number:", "title:"))]
    for place in range(count):
        text = f"number: {1000 + place}\ntitle: Side {place}\n" + "".join(body)
        (parts / f"side-{place:04d}.yaml").write_text(text)


def state(door: Door, key: str) -> Stated:
    content, found = load(door, key)
    assert content is not None, found
    plan, planning = plan_design(content)
    assert plan is not None, planning
    edition = next(iter(content.plan_set.editions))
    stated, stating = state_edition(content, str(edition), door, plan, "", content.plan_set.issued)
    assert stated is not None, stating
    return stated


def set_bare(html: str, stated: Stated, door: Door) -> bytes:
    """The same pages by the shortest way that WeasyPrint has: no tags, no places, no checks."""
    fetcher = Fetcher(door)

    class Served(URLFetcher):  # type: ignore[misc]
        def fetch(self, url: str, headers: object = None) -> Any:  # noqa: ARG002
            return URLFetcherResponse(url, fetcher.read(url))

    fonts, served = FontConfiguration(), Served()
    styles = [
        font_faces(FONTS) + page_rules(PAPERS[stated.statement.edition.paper]),
        door.read_text("templates/book.css"),
    ]
    sheets = [weasyprint.CSS(string=text, base_url=TEMPLATES, font_config=fonts, url_fetcher=served) for text in styles]
    page = weasyprint.HTML(string=html, base_url=BASE, url_fetcher=served)
    pdf: bytes = page.write_pdf(font_config=fonts, stylesheets=sheets)
    return pdf


def best(work: Callable[[], object]) -> float:
    """Seconds of the fastest run."""
    times = []
    for _ in range(RUNS):
        begin = time.perf_counter()
        work()
        times.append(time.perf_counter() - begin)
    return min(times)


def peak() -> float:
    """Megabytes that this process has held at most so far."""
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024


if __name__ == "__main__":
    main()
