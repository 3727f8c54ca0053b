"""Whether a feature lies in its part as its kind must; if not, what measure, spacing or count would."""

from __future__ import annotations

import math

from planbook.design.values import Value
from planbook.measure import Direction
from planbook.shape.bench import FINE, Bench
from planbook.shape.board import Board, Overshoot, beyond_outline, meets_wood, overshoot
from planbook.shape.channels import words
from planbook.shape.faces import FACES
from planbook.shape.laid import Laid
from planbook.shape.made import Fit
from planbook.shape.model import Row
from planbook.shape.wording import in_both, like, said


def fits(bench: Bench, board: Board, laid: Laid) -> bool:
    """Whether each cut lies in the part as its kind must; the first that does not is reported."""
    made = laid.made
    if made.fit is Fit.SETTLED:
        return True
    for repeat, cut in laid.prints:
        over = overshoot(board, made.face, cut.loop)
        if over is not None:
            _report_outside(bench, board, laid, over, repeat)
            return False
        past = beyond_outline(board, made.face, cut.loop) if made.fit is Fit.INSIDE else 0.0
        if past > FINE:
            message = f"{laid.which(repeat)} reaches {in_both(past)} past the outline of {board.title}."
            _report_outline(bench, laid, repeat, message, f"Move it at least {in_both(past)} into the wood")
            return False
        if not meets_wood(board, made.face, cut):
            message = f"{laid.which(repeat)} meets no wood: the outline of {board.title} is already cut away there."
            _report_outline(bench, laid, repeat, message, "Move it into the wood")
            return False
    return True


def _report_outline(bench: Bench, laid: Laid, repeat: int, message: str, move: str) -> None:
    """Those before the first of a row that leaves the outline fit, whatever its form."""
    if laid.row is not None and repeat > 0:
        remedy = f"Make {_count(repeat)}, or change the pitch or the outline."
        bench.stop("row-outside-part", laid.row.pitch.place, message, remedy)
        return
    place = laid.made.at[0].place if laid.made.at else laid.name.place
    bench.stop("feature-outside-part", place, message, f"{move}, or change the outline.")


def _report_outside(bench: Bench, board: Board, laid: Laid, over: Overshoot, repeat: int) -> None:
    axes = FACES[laid.made.face]
    whole = board.size[(axes.u, axes.v)[over.axis]]
    letter = axes.names[over.axis]
    border = "the datum border" if over.direction < 0 else "the far border"
    beyond = f"{in_both(over.amount)} past {border} of the {words(laid.made.face)} along {letter}"
    if laid.row is not None and laid.row.along == letter and repeat > 0:
        pitch = laid.row.pitch
        low, high = laid.reach(over.axis, 1)
        bench.stop(
            "row-outside-part",
            pitch.place,
            f"{laid.which(repeat)} reaches {beyond}, which is {said(whole)}; the pitch is {said(pitch)}.",
            f"Make {_spacing(laid.row, whole.number - high, high - low)}.",
        )
        return
    origin = laid.origins[over.axis]
    at = origin.value if origin else laid.made.at[over.axis] if laid.made.at else whole
    measured = f" from `{origin.feature}`" if origin else ""
    bench.stop(
        "feature-outside-part",
        at.place,
        f"{laid.which(repeat)} is at {letter} {said(at)}{measured} and reaches {beyond}, which is {said(whole)}.",
        _place(laid, over, letter, at, measured, whole.number),
    )


def _place(laid: Laid, over: Overshoot, letter: str, at: Value, measured: str, whole: float) -> str:
    """Where all of a feature or row fits along one axis, which is `whole` long; of a row too long, with its spacing."""
    low, high = laid.reach(over.axis)
    limit, rounded, shift = ("least", Direction.UP, -low)
    if over.direction > 0:
        limit, rounded, shift = ("most", Direction.DOWN, whole - high)
    if high - low <= whole + FINE:
        there = like(at, at.number + shift, rounded)
        return f"Make {letter} at {limit} {there}{measured}, or make the feature smaller."
    start, end = laid.reach(over.axis, 1)
    if laid.row is None or laid.row.along != letter or end - start > whole:
        return f"Make it smaller: along {letter} it takes {in_both(high - low)}."
    there = like(at, at.number - start, Direction.UP)
    return f"Make {letter} {there}{measured}, and {_spacing(laid.row, whole - (end - start), end - start)}."


def _spacing(row: Row, room: float, size: float) -> str:
    """The pitch or the count with which a row of features of this size fits: `room` is what it has after the first."""
    fitting = math.floor(room / row.pitch.number + 1e-9) + 1
    pitch = room / (row.count - 1)
    if pitch < size:  # so close that they would run into one another
        return _count(fitting)
    return f"the pitch at most {like(row.pitch, pitch, Direction.DOWN)} for {row.count}, or {_count(fitting)}"


def _count(fitting: int) -> str:
    return f"the count {fitting}" if fitting > 1 else "it a single one, without `repeat`"
