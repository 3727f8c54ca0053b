"""Full-size templates as PDFs of their own: each page one drawing, edge to edge, at its true size."""

from __future__ import annotations

from collections.abc import Sequence
from html import escape

from planbook.document.fetch import FONTS, Fetcher
from planbook.document.fonts import font_faces
from planbook.document.images import drawing_image
from planbook.document.typeset import typeset
from planbook.drawing.recording import Drawing
from planbook.source import Door
from planbook.source.findings import Finding


def full_size_pdf(
    pages: Sequence[Drawing], title: str, language: str, issued: str, door: Door
) -> tuple[bytes | None, tuple[Finding, ...]]:
    """A PDF of drawings that all have one size. None, with findings, when it could not be set."""
    images = [drawing_image(f"page-{number}", page) for number, page in enumerate(pages, start=1)]
    width, height = pages[0].width, pages[0].height
    style = (
        f"@page{{size:{width}mm {height}mm;margin:0}}html,body{{margin:0;padding:0}}"
        f"img{{display:block;width:{width}mm;height:{height}mm;break-after:page}}img:last-child{{break-after:auto}}"
    )
    head = (
        f'<meta charset="utf-8"><title>{escape(title)}</title>'
        f'<meta name="dcterms.created" content="{issued}"><meta name="dcterms.modified" content="{issued}">'
    )
    body = "".join(str(image.html) for image in images)
    html = f'<!DOCTYPE html><html lang="{escape(language)}"><head>{head}</head><body>{body}</body></html>'
    served = {image.file: image.data for image in images}
    drawings = {image.file: page for image, page in zip(images, pages, strict=True)}
    done, findings = typeset(html, {"": font_faces(FONTS) + style}, Fetcher(door, served, drawings))
    return (done.pdf if done else None), findings
