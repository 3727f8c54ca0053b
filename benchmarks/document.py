"""What composing costs: against bare WeasyPrint on the same HTML, in memory, and for each sheet as a set grows.

    python benchmarks/document.py [SET]

Prints ratios of CPU times taken in the same run, so that they can be compared between machines.
"""

from __future__ import annotations

import resource
import shutil
import sys
import tempfile
import time
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

import weasyprint
from weasyprint.text.fonts import FontConfiguration
from weasyprint.urls import URLFetcher, URLFetcherResponse

from planbook.design import plan_design
from planbook.document import compose
from planbook.document.compose import style_sheets
from planbook.document.drawn import draw_all
from planbook.document.fetch import BASE, TEMPLATES, Fetcher, content_type
from planbook.release.collector import collector_paused
from planbook.release.compilation import compose_all, prepare, state_all
from planbook.release.occasion import Occasion
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
    """Bare WeasyPrint gets the finished HTML, the same style sheets and the same pictures: only the setting is left."""
    door = Door(WORKSPACE)
    stated = state(door, key)
    done, findings = compose(stated, door)
    assert done is not None, findings
    html, pictures = done.html, draw_all(stated, door)[0].served
    bare = best(lambda: set_bare(html, pictures, stated, door, None))
    tagged = best(lambda: set_bare(html, pictures, stated, door, "pdf/ua-1"))
    stating = best(lambda: state(Door(WORKSPACE), key))
    drawing = best(collector_paused()(lambda: draw_all(stated, door)))
    ours = best(collector_paused()(lambda: compose(stated, door)))
    whole = best(lambda: draft(key))
    print(f"{key}: {done.places.pages} pages, {len(stated.statement.sheets)} sheets, {len(done.pdf) / 1e6:.2f} MB")
    print(f"  bare WeasyPrint         {bare:6.2f} s of CPU")
    print(f"  the same, tagged        {tagged:6.2f} s   ratio {tagged / bare:.2f}   (as ours has to be)")
    print(f"  reading and stating     {stating:6.2f} s   ratio {stating / bare:.2f}")
    print(f"  sheets and figures      {drawing:6.2f} s   ratio {drawing / bare:.2f}")
    print(f"  pages from them         {ours - drawing:6.2f} s   ratio {(ours - drawing) / bare:.2f}")
    print(f"  from files to PDF       {whole:6.2f} s   ratio {whole / bare:.2f}   (aim: at most 1.5)")
    print(f"  peak memory             {peak():6.0f} MB  (aim: under 1024)")


def draft(key: str) -> None:
    """One edition, as the commands compile it."""
    door = Door(WORKSPACE)
    prepared, _ = prepare(door, key)
    assert prepared is not None
    told, _ = state_all(door, prepared, Occasion("", prepared.content.plan_set.issued, None), prepared.editions[:1])
    compiled, findings = compose_all(door, told, with_files=False)
    assert compiled, findings


def as_a_set_grows() -> None:
    """Sets of copies of one part: the time for each sheet must stay what it is."""
    first = 0.0
    for count in COUNTS:
        with tempfile.TemporaryDirectory() as folder:
            root = Path(folder)
            write_set(root, count)
            begin = time.process_time()
            door = Door(root)
            done, findings = compose(state(door, "many"), door)
            each = (time.process_time() - begin) / count
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


def set_bare(html: str, pictures: Mapping[str, bytes], stated: Stated, door: Door, variant: str | None) -> bytes:
    """The same pages by the shortest way that WeasyPrint has: no places, no checks, tags only if `variant` asks."""
    fetcher = Fetcher(door, pictures)

    class Served(URLFetcher):  # type: ignore[misc]
        def fetch(self, url: str, headers: object = None) -> Any:  # noqa: ARG002
            return URLFetcherResponse(url, fetcher.read(url), {"Content-Type": content_type(url)})

    fonts, served = FontConfiguration(), Served()
    sheets = [
        weasyprint.CSS(string=text, base_url=TEMPLATES, font_config=fonts, url_fetcher=served)
        for text in style_sheets(stated.statement, door).values()
    ]
    page = weasyprint.HTML(string=html, base_url=BASE, url_fetcher=served)
    pdf: bytes = page.write_pdf(font_config=fonts, stylesheets=sheets, pdf_variant=variant)
    return pdf


def best(work: Callable[[], object]) -> float:
    """Seconds of CPU of the fastest run: other work on the machine does not count."""
    times = []
    for _ in range(RUNS):
        begin = time.process_time()
        work()
        times.append(time.process_time() - begin)
    return min(times)


def peak() -> float:
    """Megabytes that this process has held at most so far."""
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024


if __name__ == "__main__":
    main()
