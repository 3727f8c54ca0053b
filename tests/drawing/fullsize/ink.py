"""What a PDF draws, from its content streams alone: straight pieces of every path, in millimetres from the top left."""

from __future__ import annotations

import io
from collections.abc import Iterator

from pypdf import PdfReader
from pypdf.generic import ContentStream

MM = 25.4 / 72
"""Millimetres in a PDF unit (ISO 32000-1, 8.3.2.3: 1/72 inch)."""
Matrix = tuple[float, float, float, float, float, float]
Piece = tuple[float, float, float, float]


def times(a: Matrix, b: Matrix) -> Matrix:
    """Apply `a`, then `b` (ISO 32000-1, 8.3.4)."""
    return (
        a[0] * b[0] + a[1] * b[2], a[0] * b[1] + a[1] * b[3],
        a[2] * b[0] + a[3] * b[2], a[2] * b[1] + a[3] * b[3],
        a[4] * b[0] + a[5] * b[2] + b[4], a[4] * b[1] + a[5] * b[3] + b[5],
    )  # fmt: skip


def pages(pdf: bytes) -> list[tuple[tuple[float, float], list[Piece]]]:
    """Of each page: its size, and its straight pieces as x0, y0, x1, y1."""
    reader = PdfReader(io.BytesIO(pdf))
    found = []
    for page in reader.pages:
        width, height = float(page.mediabox.width), float(page.mediabox.height)
        down: Matrix = (MM, 0, 0, -MM, 0, height * MM)
        found.append(((width * MM, height * MM), list(_pieces(page.get_contents(), page, reader, down))))
    return found


def _pieces(stream, owner, reader: PdfReader, matrix: Matrix) -> Iterator[Piece]:
    kept: list[Matrix] = []
    here = (0.0, 0.0)
    for operands, operator in ContentStream(stream, reader).operations:
        numbers = [float(value) for value in operands] if operator in (b"cm", b"m", b"l", b"c") else []
        if operator == b"q":
            kept.append(matrix)
        elif operator == b"Q":
            matrix = kept.pop()
        elif operator == b"cm":
            matrix = times(tuple(numbers), matrix)
        elif operator == b"m":
            here = (numbers[0], numbers[1])
        elif operator == b"l":
            there = (numbers[0], numbers[1])
            yield (*_at(here, matrix), *_at(there, matrix))
            here = there
        elif operator == b"c":
            here = (numbers[4], numbers[5])
        elif operator == b"Do":
            form = owner["/Resources"]["/XObject"][operands[0]]
            if form["/Subtype"] == "/Form":
                inner = tuple(float(value) for value in form.get("/Matrix", (1, 0, 0, 1, 0, 0)))
                yield from _pieces(form, form, reader, times(inner, matrix))


def _at(p: tuple[float, float], m: Matrix) -> tuple[float, float]:
    return p[0] * m[0] + p[1] * m[2] + m[4], p[0] * m[1] + p[1] * m[3] + m[5]
