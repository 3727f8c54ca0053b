"""Reading a PDF back, with pypdf and with poppler, in millimetres from each page's top left."""

from __future__ import annotations

import io
import re
import subprocess
from collections.abc import Iterator
from dataclasses import dataclass
from html import unescape
from typing import Any

from pypdf import PdfReader

POINT = 25.4 / 72


@dataclass(frozen=True)
class Word:
    page: int
    left: float
    top: float
    right: float
    bottom: float
    text: str

    @property
    def middle(self) -> float:
        return (self.top + self.bottom) / 2


def reader(pdf: bytes) -> PdfReader:
    return PdfReader(io.BytesIO(pdf))


def poppler(tool: str, *arguments: str, pdf: bytes) -> str:
    done = subprocess.run([tool, *arguments, "-", "-"], input=pdf, capture_output=True, check=True)
    return done.stdout.decode()


def info(pdf: bytes) -> dict[str, str]:
    done = subprocess.run(["pdfinfo", "-"], input=pdf, capture_output=True, check=True)
    pairs = (line.partition(":") for line in done.stdout.decode().splitlines())
    return {name.strip(): value.strip() for name, _, value in pairs}


def words(pdf: bytes) -> tuple[Word, ...]:
    """Every word with its box, as poppler finds it."""
    return tuple(_words(poppler("pdftotext", "-bbox", pdf=pdf)))


def _words(document: str) -> Iterator[Word]:
    page = 0
    for line in document.splitlines():
        page += "<page " in line
        found = re.search(r'<word xMin="(.*?)" yMin="(.*?)" xMax="(.*?)" yMax="(.*?)">(.*?)</word>', line)
        if found:
            left, top, right, bottom = (POINT * float(value) for value in found.groups()[:4])
            yield Word(page, left, top, right, bottom, unescape(found[5]))


def page_texts(pdf: bytes) -> tuple[str, ...]:
    return tuple(poppler("pdftotext", "-layout", pdf=pdf).split("\f")[:-1])


def outline(pdf: bytes) -> tuple[tuple[int, str, int], ...]:
    """Depth from 0, title and page from 1 of every bookmark."""
    book = reader(pdf)
    return tuple(_outline(book, book.outline, 0))


def _outline(book: PdfReader, items: Any, depth: int) -> Iterator[tuple[int, str, int]]:
    for item in items:
        if isinstance(item, list):
            yield from _outline(book, item, depth + 1)
        else:
            page = book.get_destination_page_number(item)
            assert page is not None
            yield depth, str(item.title), page + 1


def links(pdf: bytes) -> tuple[tuple[int, str], ...]:
    """(page from 1, name of the destination) of every link."""
    found = []
    for number, page in enumerate(reader(pdf).pages, start=1):
        for each in page.get("/Annots", ()):
            note = each.get_object()
            if note["/Subtype"] == "/Link":
                target = note.get("/Dest") or note["/A"]["/D"]
                found.append((number, str(target)))
    return tuple(found)


def destinations(pdf: bytes) -> dict[str, tuple[int, float]]:
    """Page from 1 and height in millimetres from its top of every named destination."""
    book = reader(pdf)
    found = {}
    for name, target in book.named_destinations.items():
        number = book.get_destination_page_number(target)
        assert number is not None
        page = book.pages[number]
        found[str(name)] = (number + 1, POINT * (float(page.mediabox.height) - float(target.top or 0)))
    return found


def fonts(pdf: bytes) -> tuple[dict[str, Any], ...]:
    found = {}
    for page in reader(pdf).pages:
        for name, font in page["/Resources"]["/Font"].items():
            found[name] = font.get_object()
    return tuple(found.values())


def tags(pdf: bytes) -> tuple[dict[str, Any], ...]:
    """All structure elements, in reading order."""
    root = reader(pdf).trailer["/Root"]["/StructTreeRoot"]
    return tuple(_tags(root["/K"]))


def _tags(kids: Any) -> Iterator[dict[str, Any]]:
    for kid in kids if isinstance(kids, list) else [kids]:
        element = kid.get_object() if hasattr(kid, "get_object") else kid
        if isinstance(element, dict) and "/S" in element:
            yield element
            yield from _tags(element.get("/K", []))


def straight_lines(pdf: bytes, page: int) -> tuple[tuple[float, float, float, float], ...]:
    """The straight strokes of a page's content stream in millimetres, as far as they are single `m ... l` paths."""
    content = reader(pdf).pages[page - 1].get_contents()
    assert content is not None
    matrix, stack, at, found = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0), [], (0.0, 0.0), []
    for operands, operator in content.operations:
        numbers = [float(value) for value in operands if isinstance(value, int | float)]
        if operator == b"q":
            stack.append(matrix)
        elif operator == b"Q":
            matrix = stack.pop()
        elif operator == b"cm":
            matrix = _times(tuple(numbers), matrix)
        elif operator == b"m":
            at = _apply(matrix, numbers)
        elif operator == b"l":
            end = _apply(matrix, numbers)
            found.append((POINT * at[0], POINT * at[1], POINT * end[0], POINT * end[1]))
            at = end
    return tuple(found)


def _times(first: tuple[float, ...], second: tuple[float, ...]) -> tuple[float, ...]:
    a, b, c, d, e, f = first
    g, h, i, j, k, m = second
    return (a * g + b * i, a * h + b * j, c * g + d * i, c * h + d * j, e * g + f * i + k, e * h + f * j + m)


def _apply(matrix: tuple[float, ...], point: list[float]) -> tuple[float, float]:
    a, b, c, d, e, f = matrix
    x, y = point
    return a * x + c * y + e, b * x + d * y + f
