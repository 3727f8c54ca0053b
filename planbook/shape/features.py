"""From a feature in a part's file to a named feature: its cuts, repeated along a row, checked against its part."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from typing import Any

from planbook.shape.around import make_arc_slot, make_ring_sector
from planbook.shape.bench import FINE, Bench
from planbook.shape.board import Board, Overshoot, beyond_outline, cut_volume, meets_wood, overshoot
from planbook.shape.bores import make_hole, make_slot
from planbook.shape.channels import make_groove, make_rabbet, words
from planbook.shape.edges import make_chamfer, make_round_over
from planbook.shape.end_cuts import make_end_cut
from planbook.shape.faces import FACES, UNITS
from planbook.shape.geometry import Point, Vec
from planbook.shape.loops import shift, turned
from planbook.shape.made import Fit, Made
from planbook.shape.model import Cut, Feature, Origin, Row
from planbook.shape.origins import Features, settle
from planbook.shape.recesses import make_mortise, make_notch, make_opening, make_pocket
from planbook.shape.slopes import make_ramp, make_taper
from planbook.shape.tenons import make_tenon
from planbook.shape.turning import make_round_tenon, make_turned
from planbook.shape.wording import in_both, like, ordinal, said
from planbook.source.models.part import (
    FEATURE_KEYS,
    AnyFeature,
    FaceName,
    GrooveModel,
    NotchModel,
    RabbetModel,
    TenonModel,
)
from planbook.source.models.slanted import EndCutModel, RoundTenonModel, TurnedModel
from planbook.source.models.slopes import ChamferModel, RampModel, RoundOverModel, TaperModel
from planbook.source.text import Text

_MAKERS: dict[str, Callable[[Bench, Board, Text, Any], Made | None]] = {
    "hole": make_hole,
    "slot": make_slot,
    "groove": make_groove,
    "rabbet": make_rabbet,
    "notch": make_notch,
    "mortise": make_mortise,
    "opening": make_opening,
    "tenon": make_tenon,
    "arc_slot": make_arc_slot,
    "ring_sector": make_ring_sector,
    "pocket": make_pocket,
    "taper": make_taper,
    "ramp": make_ramp,
    "chamfer": make_chamfer,
    "round_over": make_round_over,
    "round_tenon": make_round_tenon,
    "turned": make_turned,
    "end_cut": make_end_cut,
}
_KINDS = {model: kind for kind, model in FEATURE_KEYS.items()}


def shape_feature(bench: Bench, board: Board, features: Features, name: Text) -> Feature | None:
    """The feature of this name, or None when the bench has a finding that says why."""
    settled = settle(bench, features, features[name])
    if settled is None:
        return None
    model, origins = settled
    kind = _KINDS[type(model)]
    made = _MAKERS[kind](bench, board, name, model)
    sound, row = _row(bench, name, model)
    if made is None or not sound:
        return None
    laid = _Laid(name, made, row, next(iter(origins.values()), (None, None)))
    cuts = laid.cuts
    if not _fits(bench, board, laid) or (made.fit is not Fit.SETTLED and _removes_all(bench, board, name, cuts)):
        return None
    note = str(model.note)
    return Feature(
        str(name), kind, made.face, made.shape, cuts, row, model.precision, model.method, note, origins, made.ring
    )


def _row(bench: Bench, name: Text, model: AnyFeature) -> tuple[bool, Row | None]:
    """Whether the row is sound, and the row if there is one."""
    repeat = model.repeat
    if repeat is None:
        return True, None
    pitch = bench.size(repeat.pitch, f"the pitch of `{name}`")
    letter = repeat.along.value
    problem = _not_repeatable(model, letter)
    if problem:
        bench.stop(
            "row-not-possible", repeat.pitch.place, f"`{name}` cannot be repeated along {letter}: {problem}.", _ROW
        )
        return False, None
    return pitch is not None, None if pitch is None else Row(repeat.count, pitch, letter)


_ROW = "Repeat it along another axis, or write each one as a feature of its own."


def _not_repeatable(model: AnyFeature, along: str) -> str:
    if isinstance(model, ChamferModel | RoundOverModel | TaperModel | RampModel):
        return "it belongs to one edge or side of the part"
    if isinstance(model, TenonModel | RabbetModel | RoundTenonModel | TurnedModel | EndCutModel):
        return "a part has only one such border"
    if along not in FACES[model.on].names:
        return f"that axis does not lie in the {words(model.on)}"
    if isinstance(model, NotchModel) and (model.corner or (along == "x") != (model.edge in ("front", "rear"))):
        return "the next ones would not open on the same edge"
    if isinstance(model, GrooveModel) and along == model.along and not (model.start and model.end):
        return "it runs out in that direction"
    return ""


@dataclass(frozen=True, slots=True)
class _Laid:
    """A feature with all cuts of its row."""

    name: Text
    made: Made
    row: Row | None
    origins: tuple[Origin | None, Origin | None]

    @property
    def cuts(self) -> tuple[Cut, ...]:
        ring = self.made.ring
        if ring is not None:
            turns = [k * ring.turn for k in range(ring.count)]
            return tuple(_turned(cut, ring.centre, turn) for turn in turns for cut in self.made.cuts)
        if self.row is None:
            return self.made.cuts
        return tuple(_shifted(cut, self.made.face, *move) for move in self._moves for cut in self.made.cuts)

    @property
    def prints(self) -> Iterator[tuple[int, Cut]]:
        """Which of the row, and its cut with the loop that it takes on its face."""
        each = len(self.made.cuts)
        for index, cut in enumerate(self.cuts):
            repeat = index // each
            if not self.made.prints:
                yield repeat, cut
            for loop in self.made.prints:
                yield repeat, replace(cut, loop=shift(loop, *self._moves[repeat]))

    @property
    def _moves(self) -> list[tuple[float, float]]:
        """From the first of the row to each, along the face's two axes."""
        if self.row is None:
            return [(0.0, 0.0)]
        axis = FACES[self.made.face].names.index(self.row.along)
        steps = [k * self.row.pitch.number for k in range(self.row.count)]
        return [(step, 0.0) if axis == 0 else (0.0, step) for step in steps]

    def which(self, repeat: int) -> str:
        """`pegs`, or the 2nd of 4 `pegs`."""
        pattern = self.row or self.made.ring
        return f"the {ordinal(repeat + 1)} of {pattern.count} `{self.name}`" if pattern else f"`{self.name}`"


def _shifted(cut: Cut, face: FaceName, dx: float, dy: float) -> Cut:
    """A tilted cut moves with its frame, any other within it."""
    if cut.lift:
        (u, v), (x, y, z) = (UNITS[axis] for axis in (FACES[face].u, FACES[face].v)), cut.frame.origin
        there = Vec(x + u.x * dx + v.x * dy, y + u.y * dx + v.y * dy, z + u.z * dx + v.z * dy)
        return replace(cut, frame=replace(cut.frame, origin=there))
    bottom = None if cut.bottom is None else shift(cut.bottom, dx, dy)
    return replace(cut, loop=shift(cut.loop, dx, dy), bottom=bottom)


def _turned(cut: Cut, centre: Point, degrees: float) -> Cut:
    bottom = None if cut.bottom is None else turned(cut.bottom, centre, degrees)
    return replace(cut, loop=turned(cut.loop, centre, degrees), bottom=bottom) if degrees else cut


def _fits(bench: Bench, board: Board, laid: _Laid) -> bool:
    """Whether each cut lies in the part as its kind must; the first that does not is reported."""
    made = laid.made
    if made.fit is Fit.SETTLED:
        return True
    place = made.at[0].place if made.at else laid.name.place
    for repeat, cut in laid.prints:
        over = overshoot(board, made.face, cut.loop)
        if over is not None:
            _report_outside(bench, board, laid, over, repeat)
            return False
        past = beyond_outline(board, made.face, cut.loop) if made.fit is Fit.INSIDE else 0.0
        if past > FINE:
            bench.stop(
                "feature-outside-part",
                place,
                f"{laid.which(repeat)} reaches {in_both(past)} past the outline of {board.title}.",
                f"Move it at least {in_both(past)} into the wood, or change the outline.",
            )
            return False
        if not meets_wood(board, made.face, cut):
            bench.stop(
                "feature-outside-part",
                place,
                f"{laid.which(repeat)} meets no wood: the outline of {board.title} is already cut away there.",
                "Move it into the wood, or leave it out.",
            )
            return False
    return True


def _report_outside(bench: Bench, board: Board, laid: _Laid, over: Overshoot, repeat: int) -> None:
    axes = FACES[laid.made.face]
    whole = board.size[(axes.u, axes.v)[over.axis]]
    letter = axes.names[over.axis]
    border = "the datum border" if over.direction < 0 else "the far border"
    beyond = f"{in_both(over.amount)} past {border} of the {words(laid.made.face)} along {letter}"
    if laid.row is not None and repeat > 0:
        pitch = laid.row.pitch.number
        count = repeat + 1 - math.ceil(over.amount / pitch - 1e-9)
        bench.stop(
            "row-outside-part",
            laid.row.pitch.place,
            f"{laid.which(repeat)} reaches {beyond}, which is {said(whole)}; the pitch is {said(laid.row.pitch)}.",
            f"Make the pitch at most {like(laid.row.pitch, pitch - over.amount / repeat)} for {repeat + 1}, or the "
            f"count {max(count, 1)}.",
        )
        return
    origin = laid.origins[over.axis]
    at = origin.value if origin else laid.made.at[over.axis] if laid.made.at else whole
    corrected = like(at, at.number - over.direction * over.amount)
    measured = f" from `{origin.feature}`" if origin else ""
    bench.stop(
        "feature-outside-part",
        at.place,
        f"{laid.which(repeat)} is at {letter} {said(at)}{measured} and reaches {beyond}, which is {said(whole)}.",
        f"Make {letter} at {'most' if over.direction > 0 else 'least'} {corrected}{measured}, or make the feature "
        "smaller.",
    )


def _removes_all(bench: Bench, board: Board, name: Text, cuts: tuple[Cut, ...]) -> bool:
    """Whether a feature whose cuts all lie in the blank takes the whole part away."""
    if sum(cut_volume(cut) for cut in cuts) < board.volume * (1 - 1e-9):
        return False
    bench.stop(
        "part-removed",
        name.place,
        f"`{name}` removes the whole of {board.title}, {said(board.size[0])} by {said(board.size[1])}.",
        "Make it smaller than the part.",
    )
    return True
