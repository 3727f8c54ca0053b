"""Shapes and dimensions of an edition in the form of the statement: resolved numbers, nothing left to evaluate."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from planbook.design import Design
from planbook.dimension.model import PartDimension
from planbook.measure import Units
from planbook.shape import method_words
from planbook.shape.geometry import Arc, Frame, Loop, Vec
from planbook.shape.model import Cut, Feature, Part, Surround
from planbook.source.sentences import capital
from planbook.statement.model import (
    CutStated,
    DetailStated,
    DimensionStated,
    EqualStated,
    FeatureStated,
    FrameStated,
    PartStated,
    SectionStated,
    SegmentStated,
)
from planbook.statement.printing import accepted_range, state_printed


@dataclass(frozen=True, slots=True)
class Wording:
    """A part's notes, and the remarks on its features by name, all values filled in.

    `called` are the features with a callout, of their own or shared, in which a remark stands; the others' stand among
    the notes.
    """

    notes: tuple[str, ...]
    remarks: Mapping[str, str]
    called: frozenset[str]

    def all_notes(self) -> tuple[str, ...]:
        """The notes, and after them the remarks that stand in no callout: `Left housing: square the top.`

        A remark that opens with a capital is a sentence of its own, and stands without the feature's name.
        """
        loose = ((name, words) for name, words in self.remarks.items() if words and name not in self.called)
        return (
            *self.notes,
            *(_sentence(words if words[0].isupper() else f"{_named(name)}: {words}") for name, words in loose),
        )


def _named(name: str) -> str:
    return capital(name.replace("_", " "))


def _sentence(words: str) -> str:
    return words if words.endswith((".", "!", "?")) else f"{words}."


def state_part(part: Part, parts: Mapping[str, Part], design: Design, units: Units, wording: Wording) -> PartStated:
    """A part as stated."""
    stock = design.stock.get(part.stock)
    return PartStated(
        key=part.key,
        number=part.number,
        title=part.title,
        kind=str(part.kind),
        sheet=part.sheet,
        stock=part.stock,
        stock_title=str(stock.model.title) if stock else "",
        material=str(stock.model.material) if stock else "",
        as_drawn=part.as_drawn,
        mirrored=part.mirrored,
        size=_triple(part.blank),
        outline=_loop(part.outline),
        features={name: _feature(each, parts, wording.remarks[name]) for name, each in part.features.items()},
        notes=wording.all_notes(),
        stock_note=accepted_range(stock, units),
        template=part.model.template,
        substance=str(stock.model.cut_face) if stock else "",
        marks=(str(marks.as_drawn), str(marks.mirrored)) if (marks := part.model.marks) else (),
        dimensioning={str(key): str(way) for key, way in part.model.dimensioning.items()},
        sections={letter: SectionStated(str(each.view), each.at) for letter, each in part.sections.items()},
        details={letter: _detail(each) for letter, each in part.details.items()},
    )


def _detail(each: Surround) -> DetailStated:
    return DetailStated(each.view, _triple(each.centre), each.radius, each.scale)


def state_dimension(dimension: PartDimension) -> DimensionStated:
    """A dimension as stated."""
    tolerance, value = dimension.tolerance, dimension.value
    return DimensionStated(
        id=dimension.id,
        part=dimension.part,
        feature=dimension.feature,
        characteristic=dimension.characteristic,
        kind=str(dimension.kind),
        view=str(dimension.view),
        axis=dimension.axis,
        points=tuple(_triple(point) for point in dimension.points),
        nominal=float(dimension.nominal),
        printed=state_printed(dimension.printed),
        tolerance=tolerance.text if tolerance else "",
        upper=float(tolerance.upper) if tolerance else None,
        lower=float(tolerance.lower) if tolerance else None,
        count=dimension.count,
        callout=dimension.callout,
        prefix=dimension.prefix,
        suffix=dimension.suffix,
        caliper=dimension.caliper,
        reference=dimension.reference,
        method=dimension.method,
        formula=value.formula if value else "",
        inputs=value.inputs if value else (),
        also=tuple(
            EqualStated(each.id, each.feature, tuple(_triple(point) for point in each.points))
            for each in dimension.also
        ),
        side=dimension.side,
        row=dimension.row,
    )


def _feature(feature: Feature, parts: Mapping[str, Part], remark: str) -> FeatureStated:
    return FeatureStated(
        name=str(feature.name),
        kind=str(feature.kind),
        face=str(feature.face),
        cuts=tuple(_cut(cut) for cut in feature.cuts),
        count=feature.count,
        note=remark,
        method=method_words(feature.method, parts),
        around=None if feature.ring is None else _pair(feature.ring.centre),
    )


def _cut(cut: Cut) -> CutStated:
    return CutStated(
        frame=_frame(cut.frame),
        loop=_loop(cut.loop),
        depth=float(cut.depth),
        islands=tuple(_loop(island) for island in cut.islands),
        bottom=None if cut.bottom is None else _loop(cut.bottom),
        lift=float(cut.lift),
        climbs=None if cut.climbs is None else _pair(cut.climbs),
    )


def _frame(frame: Frame) -> FrameStated:
    return FrameStated(_triple(frame.origin), _triple(frame.u), _triple(frame.v), _triple(frame.normal))


def _loop(loop: Loop) -> tuple[SegmentStated, ...]:
    names = loop.names or ("",) * len(loop.segments)
    return tuple(
        SegmentStated(
            start=_pair(segment.start),
            end=_pair(segment.end),
            centre=_pair(segment.centre) if isinstance(segment, Arc) else None,
            ccw=segment.ccw if isinstance(segment, Arc) else True,
            vertex=str(name),
        )
        for segment, name in zip(loop.segments, names, strict=True)
    )


def _pair(point: tuple[float, float]) -> tuple[float, float]:
    return float(point[0]), float(point[1])


def _triple(vector: Vec) -> tuple[float, float, float]:
    return float(vector.x), float(vector.y), float(vector.z)
