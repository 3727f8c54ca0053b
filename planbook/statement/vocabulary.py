"""The names that the prose of an edition may use, made from its content, design and dimensions."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from planbook.design import Design
from planbook.design.entries import NOT_THE_AUTHORS
from planbook.dimension.model import PartDimension
from planbook.measure import Printed
from planbook.measure.dimensionality import ANGLE, LENGTH
from planbook.source.content import Content
from planbook.source.mentions import names_in
from planbook.source.models.plan_set import EditionModel
from planbook.statement.naming import spoken
from planbook.statement.prose import BRIEF, TABLES, Named, Names, Sort
from planbook.statement.using import mentioning


def vocabulary(
    content: Content,
    edition: tuple[str, EditionModel],
    design: Design,
    printed: Mapping[str, Printed],
    dimensions: Mapping[str, PartDimension],
) -> Names:
    """All names but the cautions', whose texts use these. `printed` are all parameters as printed."""
    named = (
        *_quantities(design, printed),
        *_market_words(design),
        *_dimensions(dimensions.values()),
        *_parts(content),
        *_pages(content),
        *_figures(content),
        *(Named(f"see.{key}", Sort.LINK, f"table.{key}", title, paged=True) for key, title in TABLES.items()),
        *(Named(f"table.{key}", Sort.TABLE, key) for key in (*TABLES, *BRIEF)),
    )
    return Names(
        {each.path: each for each in named},
        _edition_words(*edition),
        _absent(content, design, dimensions),
        _idle(content, (each.path for each in named)),
    )


def _idle(content: Content, paths: Iterable[str]) -> frozenset[str]:
    """The market's names of what no part is made of, no use asks for and no formula or page mentions."""
    used = {f"stock.{part.stock}" for part in content.parts.values()}
    used |= {f"hardware.{use.item}" for use in content.hardware.values()}
    used |= {".".join(name.split(".")[:2]) for name in names_in(mentioning(content))}
    return frozenset(
        path for path in paths if path.startswith(NOT_THE_AUTHORS) and ".".join(path.split(".")[:2]) not in used
    )


def _edition_words(name: str, model: EditionModel) -> dict[str, str]:
    words = {"name": name, "title": model.title, "units": model.units, "paper": model.paper, "market": model.market}
    return {f"edition.{key}": str(value) for key, value in words.items()}


def _quantities(design: Design, printed: Mapping[str, Printed]) -> Iterator[Named]:
    for name, text in printed.items():
        kind = design.parameters[name].value.quantity.dimensionality
        yield Named(name, Sort.QUANTITY, f"parameter:{name}", printed=text, dimensionality=kind)


def _market_words(design: Design) -> Iterator[Named]:
    for key, stock in design.stock.items():
        yield Named(f"stock.{key}.title", Sort.WORDS, plain=str(stock.model.title))
        yield Named(f"stock.{key}.material", Sort.WORDS, plain=str(stock.model.material))
    for key, item in design.hardware.items():
        yield Named(f"hardware.{key}.title", Sort.WORDS, plain=str(item.model.title))


def _dimensions(dimensions: Iterable[PartDimension]) -> Iterator[Named]:
    for each in dimensions:
        path = f"dim.{each.id.replace('/', '.')}"
        kind = ANGLE if each.printed.unit == "°" else LENGTH
        yield Named(path, Sort.QUANTITY, f"dimension:{each.id}", printed=each.printed, dimensionality=kind)


def _parts(content: Content) -> Iterator[Named]:
    for key, part in content.parts.items():
        sheet = str(part.sheet or part.number)
        words = f"{spoken(str(part.title))} (part {part.number})"
        yield Named(f"part.{key}", Sort.LINK, f"part.{key}", words)
        yield Named(f"sheet.{key}", Sort.LINK, f"sheet.{sheet}", f"sheet {sheet}", paged=True)


def _pages(content: Content) -> Iterator[Named]:
    for page in content.pages:
        yield Named(f"page.{page.key}", Sort.LINK, f"page.{page.key}", str(page.head.title), paged=True)
    for step in content.steps:
        yield Named(f"step.{step.key}", Sort.LINK, f"step.{step.key}", f"step {step.number}", paged=True)


def _figures(content: Content) -> Iterator[Named]:
    for name in content.figures:
        yield Named(f"figure.{name}", Sort.FIGURE, str(name))
        yield Named(f"see.{name}", Sort.SEE, f"figure.{name}", paged=True)


def _absent(content: Content, design: Design, dimensions: Mapping[str, PartDimension]) -> frozenset[str]:
    """What exists but has a fault that is reported elsewhere: a parameter, the dimensions of a part or a feature."""
    parts = {each.part for each in dimensions.values()}
    features = {f"{each.part}.{each.feature}" for each in dimensions.values()}
    written = [f"{key}.{name}" for key, part in content.parts.items() for name in part.features]
    return frozenset(
        [str(name) for name in (*design.plan.scope.names, *content.parameters) if name not in design.parameters]
        + [f"dim.{key}" for key in content.parts if key not in parts]
        + [f"dim.{name}" for name in written if name not in features]
    )
