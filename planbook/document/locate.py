"""Where each thing was printed: the places record, from the anchors of the layout and the labels of the sheets."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence

from planbook.document.typeset import SetPage, Typeset, Words
from planbook.drawing import label_places
from planbook.drawing.recording import Drawing
from planbook.statement.places import PlaceOnPage, Places

_TARGETS = ("sheet.", "part.", "page.", "step.", "figure.", "table.", "question.", "caution.")
_DIMENSION, _PARAMETER = "dimension:", "parameter:"


def locate(done: Typeset, sheets: Mapping[str, Sequence[Drawing]]) -> Places:
    """All places of a document. `sheets` are the drawings by sheet number; each fills a page from corner to corner.

    The pages of a sheet follow one another.
    """
    anchors = _first_anchors(done.pages)
    marked: dict[str, list[PlaceOnPage]] = defaultdict(list)
    targets: dict[str, PlaceOnPage] = {}
    for words in done.words:
        place = _place(words, anchors)
        if place is not None and words.mark:
            marked[words.mark].append(place)
        elif place is not None and words.id.startswith(_TARGETS):
            targets.setdefault(words.id, place)
    for number, drawings in sheets.items():
        for page, drawing in enumerate(drawings, start=targets[f"sheet.{number}"].page):
            for mark, x, y, text in label_places(drawing):
                marked[mark].append(PlaceOnPage(page, _mm(x), _mm(y), text, number))
    return Places(
        pages=len(done.pages),
        page_sizes=tuple((_mm(page.width), _mm(page.height)) for page in done.pages),
        dimensions=_of(marked, _DIMENSION),
        parameters=_of(marked, _PARAMETER),
        targets=dict(sorted(targets.items())),
    )


def _first_anchors(pages: tuple[SetPage, ...]) -> Mapping[str, tuple[int, float, float]]:
    """Page from 1, left and middle of the first box of each anchor."""
    found: dict[str, tuple[int, float, float]] = {}
    for number, page in enumerate(pages, start=1):
        for anchor, (left, top, _, bottom) in page.anchors.items():
            found.setdefault(anchor, (number, _mm(left), _mm((top + bottom) / 2)))
    return found


def _place(words: Words, anchors: Mapping[str, tuple[int, float, float]]) -> PlaceOnPage | None:
    if words.anchor not in anchors:
        return None
    page, x, y = anchors[words.anchor]
    sheet = words.id.removeprefix("sheet.") if words.id.startswith("sheet.") else ""
    return PlaceOnPage(page, x, y, words.text if words.mark else "", sheet)


def _of(marked: Mapping[str, list[PlaceOnPage]], kind: str) -> Mapping[str, tuple[PlaceOnPage, ...]]:
    return {
        mark.removeprefix(kind): tuple(sorted(places, key=lambda place: (place.page, place.y, place.x)))
        for mark, places in sorted(marked.items())
        if mark.startswith(kind)
    }


def _mm(value: float) -> float:
    """To a micrometre, so that the record does not hang on the last bit of a float."""
    return round(value, 3)
