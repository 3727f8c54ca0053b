"""Each sort of thing in a statement by its facets: what it tells, in the words in which a change of it is reported."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace

from planbook.measure import Units, print_gauged
from planbook.measure.printed import Printed
from planbook.statement.comparison import Kind, Touch
from planbook.statement.extents import read_cuts, read_outline, read_size
from planbook.statement.facets import Facet, Thing
from planbook.statement.model import (
    ComponentStated,
    DimensionStated,
    EditionStated,
    FeatureStated,
    FigureStated,
    FitStated,
    ParameterStated,
    PartStated,
    PrintedStated,
    RuleStated,
    SetStated,
    SheetStated,
    StepStated,
)
from planbook.statement.naming import dimension_words, with_prefix


def full(printed: PrintedStated) -> str:
    """A printed value as in prose: `23 5/8 in [600 mm]`."""
    return Printed(printed.text, printed.other, printed.value, printed.unit, printed.other_unit).full


def read_dimension(dimension: DimensionStated) -> str:
    """A dimension as it reads: `4x Ø8 mm [5/16 in] ±0.1 through`."""
    count = f"{dimension.count}x" if dimension.count != 1 else ""
    value = with_prefix(dimension.prefix, full(dimension.printed))
    return " ".join(word for word in (count, value, dimension.tolerance, dimension.suffix) if word)


def read_part(part: PartStated) -> str:
    """A part by number and title: `part 9, Handle`."""
    return f"part {part.number}, {part.title}"


def read_quantity(part: PartStated) -> str:
    """How many to make: `2`, `1 as drawn, 1 mirrored`."""
    return f"{part.as_drawn} as drawn, {part.mirrored} mirrored" if part.mirrored else str(part.as_drawn)


def _field(name: str) -> Callable[[object], str]:
    def text(thing: object) -> str:
        value = getattr(thing, name)
        return ", ".join(map(str, value)) if isinstance(value, tuple) else _yes_no(value)

    return text


def _yes_no(value: object) -> str:
    return ("yes" if value else "no") if isinstance(value, bool) else str(value)


def _texts(touch: Touch, names: Mapping[str, str], counting: Iterable[str] = ()) -> tuple[Facet[object], ...]:
    counted = frozenset(counting)
    return tuple(Facet(touch, (name,), _field(name), words, counts=name in counted) for name, words in names.items())


def _standing(each: ParameterStated | DimensionStated) -> str:
    """`critical: the panel slides in it`, `free, 250 mm to 400 mm: to your reach`."""
    standing = each.standing
    if standing is None or not standing.kind:
        return ""
    least, most = standing.least, standing.most
    limits = f", {full(least)} to {full(most)}" if least is not None and most is not None else ""
    return f"{standing.kind}{limits}: {standing.because}"


def _sign(each: ParameterStated | DimensionStated) -> str:
    """What stands after its number on a sheet."""
    return each.standing.kind if each.standing is not None else ""


_STANDING: Facet[ParameterStated | DimensionStated] = Facet(
    Touch.TEXT, ("standing",), _standing, "standing", counts=True, later=True
)


def _rule(rule: RuleStated) -> str:
    return f"{rule.stated}{'' if rule.holds else ', which does not hold'}"


_PARAMETER: tuple[Facet[ParameterStated], ...] = (
    Facet(Touch.NUMBER, ("printed",), lambda each: full(each.printed), leads=True),
    Facet(Touch.NUMBER, ("tolerance",), lambda each: each.tolerance, "tolerance"),
    *_texts(Touch.TEXT, {"means": "meaning"}),
    _STANDING,
    Facet(Touch.RECORD, ("value", "dimensionality"), lambda each: full(each.printed), follows=True),
    Facet(Touch.RECORD, ("formula", "inputs", "given", "moving"), lambda each: each.formula, "formula"),
)
_DIMENSION: tuple[Facet[DimensionStated], ...] = (
    Facet(Touch.NUMBER, ("printed", "tolerance", "count"), read_dimension, leads=True),
    Facet(Touch.NUMBER, ("upper", "lower"), read_dimension, "limits of", follows=True),
    Facet(Touch.TEXT, ("prefix", "suffix"), read_dimension, follows=True),
    *_texts(Touch.TEXT, {"method": "method"}),
    replace(_STANDING, shown=_sign),
    Facet(
        Touch.TEXT,
        ("kind", "view", "axis", "callout", "caliper", "reference", "part", "feature", "characteristic", "side", "row"),
        lambda each: f"{each.kind} in the {each.view} view",
        "drawn as",
    ),
    Facet(Touch.RECORD, ("nominal", "points", "also"), read_dimension, "drawn at", follows=True),
    Facet(Touch.RECORD, ("formula", "inputs"), lambda each: each.formula, "formula"),
)
PICTURE = "picture"
_SHEET: tuple[Facet[SheetStated], ...] = _texts(Touch.TEXT, {"title": "title", "part": "part"})
_FIGURE: tuple[Facet[FigureStated], ...] = (
    *_texts(Touch.TEXT, {"caption": "caption", "alt": "text", "number": "figure", "shows_version": "version shown"}),
    Facet(Touch.TEXT, ("content",), lambda each: each.content[:12], PICTURE),
)
_RULE: tuple[Facet[RuleStated], ...] = (
    Facet(Touch.TEXT, ("holds",), _rule, leads=True),
    Facet(Touch.TEXT, ("require",), _rule, leads=True, follows=True, quiet=True),
    Facet(Touch.RECORD, ("stated",), _rule, follows=True),
    *_texts(Touch.TEXT, {"because": "because"}),
    *_texts(Touch.RECORD, {"weight": "weight"}),
)
_STEP: tuple[Facet[StepStated], ...] = _texts(
    Touch.TEXT,
    {
        "number": "step", "title": "title", "parts": "parts", "dry_fit": "dry fit", "glue_order": "glue-up order",
        "open_time": "open time", "hold": "hold", "tools": "tools", "cautions": "cautions",
    },
)  # fmt: skip
_COMPONENT: tuple[Facet[ComponentStated], ...] = (
    Facet(
        Touch.RECORD,
        ("part", "origin", "x", "y", "z", "mirrored", "rod"),
        lambda each: each.part or each.name,
        "placed",
    ),
)
PARAMETER = Thing(Kind.PARAMETER, _PARAMETER, lambda each: full(each.printed))
DIMENSION = Thing(Kind.DIMENSION, _DIMENSION, read_dimension, lambda each: each.part, Touch.NUMBER)
SHEET = Thing(Kind.SHEET, _SHEET, lambda each: each.title, lambda each: each.part)
FIGURE = Thing(Kind.FIGURE, _FIGURE, lambda each: each.caption)
RULE = Thing(Kind.RULE, _RULE, lambda each: each.stated)
COMPONENT = Thing(Kind.COMPONENT, _COMPONENT, lambda each: each.name, coming=Touch.RECORD)
STEP = Thing(Kind.STEP, _STEP, lambda each: each.title)
EDITION: tuple[Facet[EditionStated], ...] = _texts(
    Touch.TEXT,
    {
        "name": "name", "title": "title", "units": "units", "paper": "paper", "projection": "projection",
        "market": "market", "market_title": "market", "language": "language", "built": "built",
    },
)  # fmt: skip
SET: tuple[Facet[SetStated], ...] = _texts(
    Touch.TEXT,
    {
        "key": "key", "code": "code", "title": "title", "subtitle": "subtitle", "summary": "summary",
        "workshop": "workshop", "workshop_place": "place", "rights": "rights", "drawn_by": "drawn by",
        "approved_by": "approved by", "general_tolerance": "general tolerance",
        "caliper_tolerance": "caliper tolerance", "overall": "size over all",
    },
    counting=("general_tolerance", "caliper_tolerance"),
)  # fmt: skip


def _dimensioning(each: PartStated) -> str:
    return ", ".join(f"{view} {way}" for view, way in sorted(each.dimensioning.items()))


def _showing(each: PartStated) -> str:
    sections = (f"section {letter} in the {section.view}" for letter, section in sorted(each.sections.items()))
    details = (f"detail {letter} of {detail.view}" for letter, detail in sorted(each.details.items()))
    return ", ".join((*sections, *details)).replace("_", " ")


def part(units: Units) -> Thing[PartStated]:
    """A part, with its measures in the unit of the edition."""
    return Thing(
        Kind.PART,
        (
            Facet(Touch.SHAPE, ("size",), lambda each: read_size(each.size, units), "size"),
            Facet(Touch.SHAPE, ("outline",), lambda each: read_outline(each, units), "outline"),
            Facet(Touch.SHAPE, ("as_drawn", "mirrored"), read_quantity, "make"),
            Facet(Touch.SHAPE, ("stock",), lambda each: each.stock_title or each.stock, "stock", leads=True),
            Facet(Touch.TEXT, ("stock_title",), lambda each: each.stock_title, "stock", follows=True, counts=True),
            *_texts(Touch.TEXT, {"stock_note": "stock range"}, counting=("stock_note",)),
            Facet(Touch.TEXT, ("notes",), lambda each: "\n".join(each.notes), "notes", counts=True),
            *_texts(
                Touch.TEXT,
                {
                    "material": "material",
                    "number": "number",
                    "title": "title",
                    "kind": "kind",
                    "sheet": "sheet",
                    "template": "full-size template",
                    "marks": "marks",
                },
            ),
            *_texts(Touch.RECORD, {"substance": "hatching"}),
            Facet(Touch.TEXT, ("dimensioning",), _dimensioning, "dimensioning"),
            Facet(Touch.TEXT, ("sections", "details"), _showing, "shown", quiet=True),
        ),
        read_part,
        lambda each: each.key,
        Touch.SHAPE,
    )


def feature(units: Units) -> Thing[FeatureStated]:
    """A feature, with its measures in the unit of the edition."""
    cuts: Facet[FeatureStated] = Facet(
        Touch.SHAPE, ("kind", "face", "cuts", "count", "around"), lambda each: read_cuts(each, units)
    )
    facets: tuple[Facet[FeatureStated], ...] = (cuts, *_texts(Touch.TEXT, {"note": "note", "method": "method"}))
    return Thing(Kind.FEATURE, facets, lambda each: each.kind, lambda _: "", Touch.SHAPE)


def fit(units: Units) -> Thing[FitStated]:
    """A fit, with its gap in the unit of the edition."""

    def gap(each: FitStated) -> str:
        least, most = (print_gauged(end, units) for end in (each.least, each.most))
        return f"{least.text} to {most.text} {most.unit}"

    def made_of(each: FitStated) -> str:
        return "; ".join(map(dimension_words, each.dimensions))

    facets: tuple[Facet[FitStated], ...] = (
        Facet(Touch.TEXT, ("least", "most"), gap, "gap", quiet=True),
        Facet(Touch.TEXT, ("dimensions",), made_of, "made of", quiet=True),
        *_texts(Touch.TEXT, {"because": "because", "fitted": "fitted by hand"}),
    )
    return Thing(Kind.FIT, facets, gap)


ON_EVERY_SHEET = frozenset(
    {"units", "paper", "projection", "language", "code", "title", "workshop", "rights", "drawn_by", "approved_by"}
    | {"general_tolerance", "caliper_tolerance"}
)
"""Fields of the edition and the set that stand in the frame and title block of each sheet."""
