"""All the words of an edition: pages, steps, notes, captions, cautions, reasons, with every name filled in."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field

from planbook.source.content import Content, Step
from planbook.source.findings import Finding, Place, Severity
from planbook.source.mentions import names_in
from planbook.source.models.page import Slot
from planbook.source.text import Text
from planbook.statement.asking import answered, question_page
from planbook.statement.loads import LoadWords
from planbook.statement.model import BlockStated, RowStated, StepStated
from planbook.statement.prose import (
    Line,
    Named,
    Names,
    Read,
    Sort,
    Written,
    caution,
    caution_html,
    number_figures,
    read_line,
    read_pages,
)
from planbook.statement.stated import Prose


@dataclass(frozen=True, slots=True)
class Told:
    """The words of an edition. `numbers` are those of the figures that pages show; `paths` all names that are printed.

    `notes` are by part, `remarks` on its features by part and feature, `captions` and `alts` by figure, `because` by
    rule, `cautions` and `loads` by key; `reasons`, why a measure is critical or free, by the text as written.
    """

    prose: tuple[Prose, ...]
    blocks: tuple[BlockStated, ...]
    steps: tuple[StepStated, ...]
    numbers: Mapping[str, int]
    cautions: Mapping[str, Named]
    notes: Mapping[str, tuple[str, ...]]
    remarks: Mapping[str, Mapping[str, str]]
    captions: Mapping[str, str]
    alts: Mapping[str, str]
    because: Mapping[str, str]
    loads: Mapping[str, LoadWords]
    reasons: Mapping[str, str]
    tools: tuple[RowStated, ...]
    summary: str
    paths: frozenset[str]


@dataclass
class _Lines:
    """Reads lines and keeps what was found and printed on the way."""

    names: Names
    found: list[Finding] = field(default_factory=list)
    paths: set[str] = field(default_factory=set)

    def read(self, text: Text) -> Line:
        line, findings = read_line(text, self.names)
        self.found += findings
        self.paths |= line.paths
        return line

    def plain(self, text: Text) -> str:
        return self.read(text).plain


def tell(content: Content, names: Names) -> tuple[Told, tuple[Finding, ...]]:
    """Read everything that the content says in words. `names` are all but the cautions'."""
    written = _written(content)
    every = names.with_named(*(Named(f"caution.{key}", Sort.CAUTION, str(key)) for key in content.cautions))
    numbers = number_figures(written, every)
    lines = _Lines(names.numbered(numbers))
    captions = {str(name): lines.plain(figure.caption) for name, figure in content.figures.items()}
    figures = (Named(f"figure.{name}", Sort.FIGURE, name, caption) for name, caption in captions.items())
    cautions = _cautions(content, lines)
    known = lines.names.with_named(*figures, *cautions.values())
    pages, found = read_pages(written, known)
    told = Told(
        prose=tuple(_prose(content, pages, cautions, lines)),
        blocks=tuple(block for page in pages for block in page.blocks),
        steps=tuple(_step(step, lines) for step in content.steps),
        numbers=numbers,
        cautions=cautions,
        notes={key: tuple(lines.plain(note) for note in part.notes) for key, part in content.parts.items()},
        remarks={
            key: {str(name): lines.plain(feature.note) for name, feature in part.features.items()}
            for key, part in content.parts.items()
        },
        captions=captions,
        alts={str(name): lines.plain(figure.alt) for name, figure in content.figures.items()},
        because={str(name): lines.plain(rule.because) for name, rule in content.rules.items()},
        loads=_loads(content, lines),
        reasons={str(text): lines.plain(text) for text in _reasons(content)},
        tools=tuple(_tools(content, lines)),
        summary=lines.plain(content.plan_set.summary),
        paths=frozenset().union(lines.paths, *(page.paths for page in pages)),
    )
    return told, (*_twice(content), *found, *dict.fromkeys(lines.found))


def _written(content: Content) -> tuple[Written, ...]:
    """Pages and steps in the order of reading."""
    pages = {
        slot: [Written(page.key, str(page.head.title), page.body) for page in content.pages if page.head.slot is slot]
        for slot in Slot
    }
    steps = [Written(step.key, str(step.head.title), step.body) for step in content.steps]
    answers = [Written(question_page(each.key), str(each.head.question), each.body) for each in answered(content)]
    return (*pages[Slot.FRONT], *pages[Slot.BUILD], *steps, *pages[Slot.BACK], *answers)


def _cautions(content: Content, lines: _Lines) -> dict[str, Named]:
    """The cautions that this plan set uses; shared ones that it does not use are not read."""
    heads = [step.head.cautions for step in content.steps]
    bodies = names_in([each.body for each in content.pages] + [each.body for each in content.steps])
    used = {*map(str, content.plan_set.cautions), *(str(key) for head in heads for key in head)}
    used |= {name.partition(".")[2] for name in bodies if name.startswith("caution.")}
    return {
        str(key): caution(str(key), str(model.word), lines.plain(model.title), lines.read(model.text))
        for key, model in content.cautions.items()
        if key in used
    }


def _loads(content: Content, lines: _Lines) -> dict[str, LoadWords]:
    return {
        str(name): LoadWords(*map(lines.plain, (load.title, load.weakest, load.how, load.assumes)))
        for name, load in content.loads.items()
    }


def _prose(content: Content, pages: Iterable[Read], cautions: Mapping[str, Named], lines: _Lines) -> Iterable[Prose]:
    slots = {page.key: str(page.head.slot) for page in content.pages}
    slots |= {question_page(each.key): "question" for each in answered(content)}
    steps = {step.key: step for step in content.steps}
    copied = {page.key for page in content.pages if page.head.copied}
    for page in pages:
        step = steps.get(page.key)
        yield Prose(
            key=page.key,
            target=_target(page.key, "step" if step else slots[page.key]),
            title=page.title,
            slot="step" if step else slots[page.key],
            number=step.number if step else 0,
            title_block=page.blocks[0].id,
            html=page.html,
            copied=page.key in copied,
            hold_html=lines.read(step.head.hold).html if step else "",
            dry_fit_html=lines.read(step.head.dry_fit).html if step else "",
            cautions_html="".join(
                caution_html(cautions[str(key)]) for key in (step.head.cautions if step else ()) if key in cautions
            ),
        )


def _target(key: str, slot: str) -> str:
    return {"step": f"step.{key}", "question": key}.get(slot, f"page.{key}")


def _step(step: Step, lines: _Lines) -> StepStated:
    glue = step.head.glue_up
    return StepStated(
        key=step.key,
        number=step.number,
        title=str(step.head.title),
        parts=tuple(map(str, step.head.parts)),
        hold=lines.plain(step.head.hold),
        tools=tuple(lines.plain(tool) for tool in step.head.tools),
        cautions=tuple(map(str, step.head.cautions)),
        dry_fit=lines.plain(step.head.dry_fit),
        glue_order=tuple(map(str, glue.order)) if glue else (),
        open_time=str(glue.open_time) if glue else "",
    )


def _reasons(content: Content) -> Iterator[Text]:
    """Why measures are critical or free, in the order of the files."""
    said = [
        *content.parameters.values(),
        *(each for part in content.parts.values() for each in part.dimensions.values()),
    ]
    for each in said:
        if each.critical is not None:
            yield each.critical
        if each.free is not None:
            yield each.free.because
    yield from (fit.because for fit in content.fits.values() if not fit.fitted)


def _tools(content: Content, lines: _Lines) -> Iterable[RowStated]:
    for tool in content.plan_set.tools:
        words = lines.plain(tool)
        yield RowStated(words, {"Tool": words})


def _twice(content: Content) -> Iterable[Finding]:
    """A page and a step of one name would have the same ids."""
    pages = {page.key: page for page in content.pages}
    for step in content.steps:
        if step.key in pages:
            message = f"{step.file} and {pages[step.key].file} have the same name, {step.key}."
            remedy = f"Rename one of the files, for example to {step.key.replace('_', '-')}-step.md."
            yield Finding("key-twice", Severity.STOP, message, remedy, Place(step.file, 1, 1))
