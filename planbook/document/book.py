"""The order of a plan set: its chapters, each with what its template sets and what the contents list."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Final

from markupsafe import Markup

from planbook.document.audit import audit_lead, audit_tables
from planbook.document.build_log import BuildLog, build_log
from planbook.document.buying import (
    StockShown,
    cost_words,
    cutting_table,
    shopping_table,
    stock_shown,
    tables_of,
    weight_words,
)
from planbook.document.calculations import Calculation, calculations_of
from planbook.document.changing import changing_tables
from planbook.document.drawn import Drawn
from planbook.document.fill import keep_together
from planbook.document.images import Image
from planbook.document.loads import load_table
from planbook.document.panels import shorten, with_anchor
from planbook.document.pinching import pinch_table, pinches_of_step
from planbook.document.questions import AskedGroup, questions_of
from planbook.document.small_hardware import SmallThing
from planbook.document.tables import LISTS, Table, change_tables, list_tables
from planbook.statement.hands import hands_of
from planbook.statement.model import PartStated, Statement, StepStated
from planbook.statement.stated import Prose, Stated

HOW_TO: Final = "how_to"
"""A page whose key begins so opens the chapter on how to use the plans."""


NOTHING: Final = Markup("")
_NEEDED: Final = frozenset(LISTS) - {"dimensions"}


@dataclass(frozen=True, slots=True)
class Entry:
    """A line of the contents and a bookmark; `label` stands before the title: a step's or sheet's number."""

    target: str
    title: str
    label: str = ""


@dataclass(frozen=True, slots=True)
class Step:
    """A build step ready to be set. `parts` are (key, title, number)."""

    number: int
    target: str
    title: str
    title_block: str
    parts: tuple[tuple[str, str, int], ...]
    tools: tuple[str, ...]
    cautions: Markup
    body: Markup
    hold: Markup
    dry_fit: Markup = NOTHING
    glue_order: tuple[tuple[str, str, int], ...] = ()
    """(key, title, number) of the parts as they are glued."""
    open_time: str = ""
    pinches: tuple[Markup, ...] = ()
    """Places that pinch fingers from this step on."""


@dataclass(frozen=True, slots=True)
class Sheet:
    """A drawing sheet; each of `images` is a whole page."""

    target: str
    number: str
    title: str
    part: str
    changed_in: str
    images: tuple[Markup, ...]


@dataclass(frozen=True, slots=True)
class Chapter:
    """One chapter: `template` sets it, links aim at `target`, `entries` go under it in the contents."""

    target: str
    title: str
    template: str
    body: Markup = NOTHING
    title_block: str = ""
    entries: tuple[Entry, ...] = ()
    tables: tuple[Table, ...] = ()
    steps: tuple[Step, ...] = ()
    sheets: tuple[Sheet, ...] = ()
    cautions: tuple[Markup, ...] = ()
    log: BuildLog | None = None
    calculations: tuple[Calculation, ...] = ()
    questions: tuple[AskedGroup, ...] = ()
    stocks: tuple[StockShown, ...] = ()
    notes: tuple[Markup, ...] = ()
    things: tuple[SmallThing, ...] = ()
    copied: bool = False


def plan_book(
    stated: Stated,
    filled: Mapping[str, str],
    sheets: Iterable[Sheet],
    placed_tables: frozenset[str],
    drawn: Drawn,
) -> tuple[Chapter, ...]:
    """The chapters after the contents, in order.

    `filled` is the finished HTML of each prose by its target; `placed_tables` stand on pages and are not repeated;
    `drawn` has the pictures of plans of cutting and of small hardware.
    """
    pages = {slot: tuple(prose for prose in stated.prose if prose.slot == slot) for slot in ("front", "build", "back")}
    guide = next((page for page in pages["front"] if page.key.startswith(HOW_TO)), None)
    chapters = [
        _how_to(guide, filled),
        _cautions(stated, placed_tables),
        *(_page(page, filled) for page in pages["front"] if page is not guide),
        _shopping(stated.statement),
        _lists("chapter.lists", "What you need", stated.statement, placed_tables | {"dimensions"}),
        _cutting(stated.statement, drawn.layouts),
        Chapter("chapter.small_hardware", "Small hardware", "small_hardware.html", things=drawn.things),
        _changing(stated.statement, placed_tables),
        _build(stated, pages["build"], filled),
        _sheets(tuple(sheets)),
        _lists("chapter.dimensions", "Named dimensions", stated.statement, placed_tables | _NEEDED),
        _calculations(stated.statement),
        _audit(stated),
        *(_page(page, filled) for page in pages["back"]),
        _questions(stated, filled),
        Chapter("chapter.versions", "Versions and changes", "versions.html", tables=change_tables(stated.statement)),
        _log(stated),
    ]
    return tuple(chapter for chapter in chapters if _holds_something(chapter))


def _holds_something(chapter: Chapter) -> bool:
    generated = chapter.template in {"how_to.html", "versions.html"}
    logged = chapter.log is not None and bool(chapter.log.parts)
    held = (chapter.body, chapter.tables, chapter.steps, chapter.sheets, chapter.cautions, chapter.calculations)
    return generated or logged or any((*held, chapter.questions, chapter.stocks, chapter.things))


def _page(page: Prose, filled: Mapping[str, str]) -> Chapter:
    body = Markup(filled[page.target])
    return Chapter(page.target, page.title, "page.html", body, page.title_block, copied=page.copied)


def _how_to(guide: Prose | None, filled: Mapping[str, str]) -> Chapter:
    entries = (Entry("chapter.print_scale", "Print scale"),)
    if guide is None:
        return Chapter("chapter.how_to", "How to use these plans", "how_to.html", entries=entries)
    body = Markup(filled[guide.target])
    return Chapter(guide.target, guide.title, "how_to.html", body, guide.title_block, entries)


def _cautions(stated: Stated, placed: frozenset[str]) -> Chapter:
    panels = tuple(Markup(with_anchor(html)) for html in stated.cautions_html.values())
    every = {**load_table(stated.statement), **pinch_table(stated.statement)}
    tables = tuple(table for name, table in every.items() if name not in placed)
    entries = tuple(Entry(f"table.{table.name}", table.title) for table in tables)
    return Chapter("chapter.cautions", "Cautions", "cautions.html", cautions=panels, tables=tables, entries=entries)


def _lists(target: str, title: str, statement: Statement, left_out: frozenset[str]) -> Chapter:
    tables = tuple(table for name, table in list_tables(statement).items() if name not in left_out)
    entries = tuple(Entry(f"table.{table.name}", LISTS[table.name]) for table in tables)
    return Chapter(target, title, "lists.html", entries=entries, tables=tables)


def _shopping(statement: Statement) -> Chapter:
    tables = tuple(tables_of(shopping_table(statement)))
    return Chapter(
        "chapter.shopping",
        "What to buy",
        "shopping.html",
        tables=tables,
        notes=(*weight_words(statement), *cost_words(statement)),
    )


def _cutting(statement: Statement, layouts: Mapping[str, Image]) -> Chapter:
    tables, stocks = tuple(tables_of(cutting_table(statement))), stock_shown(statement, layouts)
    entries = (
        *(Entry(f"table.{table.name}", table.title) for table in tables),
        *(Entry(stock.anchor, stock.title) for stock in stocks),
    )
    return Chapter("chapter.cutting", "How to cut it", "cutting.html", entries=entries, tables=tables, stocks=stocks)


def _changing(statement: Statement, placed: frozenset[str]) -> Chapter:
    tables = tuple(table for name, table in changing_tables(statement).items() if name not in placed)
    entries = tuple(Entry(f"table.{table.name}", table.title) for table in tables)
    return Chapter("chapter.changing", "Free and critical measures", "lists.html", entries=entries, tables=tables)


def _calculations(statement: Statement) -> Chapter:
    every = calculations_of(statement)
    entries = tuple(Entry(each.anchor, each.title.striptags()) for each in every)
    return Chapter("chapter.calculations", "Calculations", "calculations.html", entries=entries, calculations=every)


def _questions(stated: Stated, filled: Mapping[str, str]) -> Chapter:
    groups = questions_of(stated, filled)
    entries = tuple(Entry(each.target, each.title) for group in groups for each in group.asked)
    return Chapter("chapter.questions", "Questions and answers", "questions.html", entries=entries, questions=groups)


def _log(stated: Stated) -> Chapter:
    return Chapter("chapter.build_log", "Build log", "build_log.html", log=build_log(stated))


def _audit(stated: Stated) -> Chapter:
    tables = audit_tables(stated)
    entries = tuple(Entry(f"table.{table.name}", table.title) for table in tables)
    lead = audit_lead(stated) if tables else NOTHING
    return Chapter("chapter.audit", "Checked as printed", "audit.html", lead, entries=entries, tables=tables)


def _build(stated: Stated, pages: tuple[Prose, ...], filled: Mapping[str, str]) -> Chapter:
    """The build pages as an introduction, then the steps."""
    headed = (
        Markup('<h2 id="{}" data-block="{}">{}</h2>{}').format(
            page.target, page.title_block, page.title, Markup(filled[page.target])
        )
        for page in pages
    )
    steps = tuple(_steps(stated, filled))
    entries = (
        *(Entry(page.target, page.title) for page in pages),
        *(Entry(step.target, step.title, str(step.number)) for step in steps),
    )
    return Chapter("chapter.build", "Building", "build.html", NOTHING.join(headed), entries=entries, steps=steps)


def _steps(stated: Stated, filled: Mapping[str, str]) -> Iterator[Step]:
    stated_steps = {step.key: step for step in stated.statement.steps}
    for prose in stated.prose:
        if prose.slot == "step":
            cautions = Markup(shorten(prose.cautions_html, frozenset(stated.cautions_html)))
            yield _step(stated, stated_steps[prose.key], prose, Markup(filled[prose.target]), cautions)


def _step(stated: Stated, step: StepStated, prose: Prose, body: Markup, cautions: Markup) -> Step:
    parts = stated.statement.parts

    def named(keys: Iterable[str]) -> tuple[tuple[str, str, int], ...]:
        return tuple((key, _with_hands(parts[key]), parts[key].number) for key in keys if key in parts)

    head = next(each.head for each in stated.content.steps if each.key == step.key)
    return Step(
        number=step.number,
        target=prose.target,
        title=step.title,
        title_block=prose.title_block,
        parts=named(step.parts),
        tools=tuple(str(tool) for tool in head.tools),
        cautions=cautions,
        body=body,
        hold=Markup(keep_together(prose.hold_html)),
        dry_fit=Markup(keep_together(prose.dry_fit_html)),
        glue_order=named(step.glue_order),
        open_time=step.open_time,
        pinches=pinches_of_step(stated.statement, step.key),
    )


def _with_hands(part: PartStated) -> str:
    """`Front leg (left, right)`: whoever makes a pair marks each piece."""
    return f"{part.title} ({', '.join(hand.name for hand in hands_of(part))})" if part.marks else part.title


def _sheets(sheets: tuple[Sheet, ...]) -> Chapter:
    entries = tuple(Entry(sheet.target, sheet.title, sheet.number) for sheet in sheets)
    return Chapter("chapter.sheets", "Sheets", "sheets.html", entries=entries, sheets=sheets)
