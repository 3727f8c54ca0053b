"""Typesetting with WeasyPrint: HTML in, PDF and the position of every anchor out. With `painting` all that knows it."""

from __future__ import annotations

import logging
import tempfile
import warnings
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Any, Final
from urllib.parse import quote

from planbook.document.complaints import Complaint, as_findings
from planbook.document.fetch import BASE, PICTURES, TEMPLATES, Fetcher, content_type
from planbook.document.fonts import SANS, SERIF
from planbook.document.painting import Lettering, Painting
from planbook.source.findings import Finding, Severity

SYSTEM_LIBRARIES: Final = "libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0"
"""Debian's names of what WeasyPrint loads."""
_PX: Final = 25.4 / 96
"""Millimetres in a CSS pixel."""


@dataclass(frozen=True, slots=True)
class SetPage:
    """A page as laid out, in millimetres. `anchors`: left, top, right, bottom from the page's top left, by id."""

    width: float
    height: float
    anchors: Mapping[str, tuple[float, float, float, float]]


@dataclass(frozen=True, slots=True)
class Words:
    """An element that is to be found on the pages: its `anchor`, and its own id or its mark, and its text."""

    anchor: str
    id: str
    mark: str
    text: str


@dataclass(frozen=True, slots=True)
class Typeset:
    """A finished document."""

    pdf: bytes
    pages: tuple[SetPage, ...]
    words: tuple[Words, ...]


def typeset(html: str, style_sheets: Mapping[str, str], fetcher: Fetcher) -> tuple[Typeset | None, tuple[Finding, ...]]:
    """Lay out and write. `style_sheets` are CSS texts by file, "" for one that no author wrote.

    None, with a finding that says how to install them, when the system's text libraries are missing; and when there is
    no room for the files that it keeps while it works.
    """
    try:
        with warnings.catch_warnings():
            # It warns of a missing subsetting library on import; `subsetting_is_reproducible` reports that.
            warnings.simplefilter("ignore", DeprecationWarning)
            import weasyprint  # noqa: F401, PLC0415
    except OSError as error:
        return None, (_libraries_missing(error),)
    try:
        return _set(html, style_sheets, fetcher)
    except OSError as error:
        return None, (_without_room(error),)


def _set(html: str, style_sheets: Mapping[str, str], fetcher: Fetcher) -> tuple[Typeset, tuple[Finding, ...]]:
    """Raises OSError where fonts cannot be laid down for the while."""
    import weasyprint  # noqa: PLC0415
    from weasyprint.text.fonts import FontConfiguration  # noqa: PLC0415

    complaints: list[Complaint] = []
    fonts = FontConfiguration()
    served = _served_by(fetcher)
    sheets = []
    for file, text in style_sheets.items():
        with _listening(complaints, file):
            sheets.append(weasyprint.CSS(string=text, base_url=TEMPLATES, font_config=fonts, url_fetcher=served))
    with _listening(complaints, ""):
        page = weasyprint.HTML(string=html, base_url=BASE, url_fetcher=served)
        words = tuple(_mark_words(page.etree_element))
        document = page.render(
            font_config=fonts, stylesheets=sheets, pdf_variant="pdf/ua-1", cache=_paintings(fetcher, fonts)
        )
        pdf = document.write_pdf(finisher=_at_true_size, pdf_variant="pdf/ua-1")
    pages = tuple(_set_page(each) for each in document.pages)
    return Typeset(pdf, pages, words), as_findings((*complaints, *_foreign_fonts(document)))


def _without_room(error: OSError) -> Finding:
    return Finding(
        "pages-without-room",
        Severity.STOP,
        f"The pages cannot be set, for what is kept while that is done cannot be written: {error.strerror or error}.",
        f"Make room where temporary files go, {tempfile.gettempdir()}, or name another folder in TMPDIR.",
    )


def _at_true_size(_document: Any, pdf: Any) -> None:
    """Have a viewer offer to print at 100 %, not fitted to the page (PDF 1.7, 12.2, PrintScaling)."""
    pdf.catalog["ViewerPreferences"]["PrintScaling"] = "/None"


def subsetting_is_reproducible() -> bool:
    """Whether fonts are cut down by HarfBuzz; without it the same document gives other bytes on every run."""
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore", DeprecationWarning)
            from weasyprint.text.ffi import harfbuzz, harfbuzz_subset  # noqa: PLC0415
    except OSError:
        return False
    return bool(harfbuzz_subset) and bool(harfbuzz.hb_version_atleast(4, 1, 0))


def _served_by(fetcher: Fetcher) -> Any:
    """The fetcher in the form that WeasyPrint takes; what it raises is logged there and becomes a finding."""
    from weasyprint.urls import URLFetcher, URLFetcherResponse  # noqa: PLC0415

    class Served(URLFetcher):  # type: ignore[misc]
        def fetch(self, url: str, headers: object = None) -> Any:  # noqa: ARG002
            return URLFetcherResponse(url, fetcher.read(url), {"Content-Type": content_type(url)})

    return Served()


def _paintings(fetcher: Fetcher, fonts: Any) -> dict[str, Any]:
    """Drawings by their addresses, as images that WeasyPrint need not read any more."""
    lettering = Lettering(fonts)
    drawings = {PICTURES + quote(file): drawing for file, drawing in fetcher.drawings.items()}
    return {url: Painting(each, lettering) for url, each in drawings.items() if lettering.can_set(each)}


def _mark_words(root: Any) -> Iterator[Words]:
    """Give each marked element an id, so that the layout keeps its place. SVG has its own list of places."""
    count = 0
    for element in root.iter():
        if not isinstance(element.tag, str) or element.tag.startswith("{"):
            continue
        mark, own = element.get("data-mark", ""), element.get("id", "")
        if mark and not own:
            count += 1
            own = f"mark.{count}"
            element.set("id", own)
        if own:
            yield Words(
                own,
                own if not mark else "",
                mark,
                " ".join("".join(element.itertext()).replace("\N{WORD JOINER}", "").split()),
            )


def _set_page(page: Any) -> SetPage:
    anchors = {name: tuple(_PX * value for value in box) for name, box in page.anchors.items()}
    return SetPage(_PX * page.width, _PX * page.height, anchors)


@contextmanager
def _listening(complaints: list[Complaint], file: str) -> Iterator[None]:
    """Collect what WeasyPrint logs instead of letting it reach a screen."""

    class Ear(logging.Handler):
        def emit(self, record: logging.LogRecord) -> None:
            complaints.append(Complaint(record.getMessage(), file))

    logger, ear = logging.getLogger("weasyprint"), Ear(logging.WARNING)
    was = logger.propagate, logger.level
    logger.addHandler(ear)
    logger.propagate = False
    logger.setLevel(logging.WARNING)
    try:
        yield
    finally:
        logger.removeHandler(ear)
        logger.propagate = was[0]
        logger.setLevel(was[1])


def _foreign_fonts(document: Any) -> Iterator[Complaint]:
    """Letters that our faces lack are taken from whatever the machine has: they differ on another machine."""
    for font in document.fonts.values():
        if font.family not in {SANS, SERIF}:
            letters = "".join(sorted({letter for text in font.to_unicode.values() for letter in text}))
            yield Complaint(
                f"missing glyph: {letters!r} is not in the document's fonts and was set in {font.family}", ""
            )


def _libraries_missing(error: OSError) -> Finding:
    return Finding(
        "system-library", Severity.STOP,
        f"A library of the system that sets the pages is missing ({str(error).splitlines()[0]}).",
        f"On Debian or Ubuntu: `apt-get install {SYSTEM_LIBRARIES}`.",
    )  # fmt: skip
