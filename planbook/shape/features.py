"""From a feature in a part's file to a named feature: its cuts, repeated along a row, checked against its part."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from planbook.shape.around import make_arc_ramp, make_arc_slot, make_ring_sector
from planbook.shape.bench import Bench
from planbook.shape.board import Board, cut_volume
from planbook.shape.bores import make_hole, make_slot
from planbook.shape.channels import make_groove, make_rabbet, words
from planbook.shape.edges import make_chamfer, make_round_over
from planbook.shape.end_cuts import make_end_cut
from planbook.shape.faces import FACES
from planbook.shape.fitting import fits
from planbook.shape.laid import Laid
from planbook.shape.made import Fit, Made
from planbook.shape.model import Cut, Feature, Row
from planbook.shape.origins import Features, settle
from planbook.shape.recesses import make_mortise, make_notch, make_opening, make_pocket
from planbook.shape.slopes import make_ramp, make_taper
from planbook.shape.solids.checking import pieces_left
from planbook.shape.tenons import make_tenon
from planbook.shape.turning import make_round_tenon, make_turned
from planbook.shape.wording import said
from planbook.source.models.part import FEATURE_KEYS, AnyFeature
from planbook.source.models.recesses import GrooveModel, NotchModel, RabbetModel, TenonModel
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
    "arc_ramp": make_arc_ramp,
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
    laid = Laid(name, made, row, next(iter(origins.values()), (None, None)))
    cuts = laid.cuts
    if not fits(bench, board, laid) or (made.fit is not Fit.SETTLED and _removes_all(bench, board, name, cuts)):
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


def _removes_all(bench: Bench, board: Board, name: Text, cuts: tuple[Cut, ...]) -> bool:
    """Whether a feature whose cuts all lie in the blank takes the whole part away.

    The solid is asked only where the cuts together, which may overlap, are as much as all of it.
    """
    enough = sum(cut_volume(cut) for cut in cuts) >= board.volume * (1 - 1e-9)
    if not enough or pieces_left(board.blank, board.outline, cuts):
        return False
    bench.stop(
        "part-removed",
        name.place,
        f"`{name}` removes the whole of {board.title}, {said(board.size[0])} by {said(board.size[1])}.",
        "Make it smaller than the part.",
    )
    return True
