"""What sort of value a piece of a formula has, and the checks that refuse what does not fit together."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import Final

from planbook.design.faults import Fault
from planbook.design.syntax import Name, Node, is_bare
from planbook.measure.dimensionality import LENGTH, SCALAR, Dimensionality
from planbook.measure.units import USUAL_UNIT, in_words
from planbook.source.sentences import capital

Run = Callable[[Sequence[float]], float]
"""Gives a piece's value in base units from the values of all names, by slot."""


class Truth:
    """The kind of a comparison: true or false."""


TRUTH: Final = Truth()


@dataclass(frozen=True, slots=True)
class Typed:
    """A compiled piece. `kind` is None if it is faulty, or rests on what is: that was reported already."""

    node: Node
    kind: Dimensionality | Truth | None
    run: Run


@dataclass(slots=True)
class Checks:
    """Collects the faults of one formula."""

    text: str
    faults: list[Fault] = field(default_factory=list)

    def quote(self, node: Node) -> str:
        """The author's own words for a node."""
        return self.text[node.span.start : node.span.end]

    def report(self, code: str, node: Node, message: str, remedy: str) -> None:
        """A fault at the start of `node`."""
        self.faults.append(Fault(code, node.span.start, message, remedy))

    def alike(self, pieces: Sequence[Typed], doing: str) -> Dimensionality | None:
        """The kind that all pieces share. `doing` says what is done to them: `added`, `compared`."""
        if any(isinstance(piece.kind, Truth) for piece in pieces):
            self._refuse_truth(pieces)
            return None
        kinds = [piece.kind for piece in pieces if isinstance(piece.kind, Dimensionality)]
        if len(kinds) < len(pieces):
            return None
        if len(set(kinds)) == 1:
            return kinds[0]
        self._report_mixture(pieces, doing)
        return None

    def demand(self, piece: Typed, kind: Dimensionality, where: str) -> bool:
        """Whether the piece has `kind`; `where` names the spot that needs it: `the thickness`, `sin`."""
        if piece.kind is None:
            return False
        if isinstance(piece.kind, Truth):
            self._refuse_truth([piece])
            return False
        if piece.kind == kind:
            return True
        if is_bare(piece.node) and kind in USUAL_UNIT:
            self._report_missing_unit(piece.node, kind)
        else:
            message = (
                f"{capital(where)} takes {in_words(kind)}, but `{self.quote(piece.node)}` is {in_words(piece.kind)}."
            )
            self.report("wrong-kind", piece.node, message, self._remedy_for(piece, kind))
        return False

    def _report_mixture(self, pieces: Sequence[Typed], doing: str) -> None:
        kinds = [piece.kind for piece in pieces if isinstance(piece.kind, Dimensionality)]
        united = next((kind for kind in kinds if kind != SCALAR), SCALAR)
        bare = next((piece for piece in pieces if is_bare(piece.node)), None)
        if bare and united in USUAL_UNIT:
            self._report_missing_unit(bare.node, united)
            return
        odd = next(piece for piece in pieces if piece.kind != pieces[0].kind)
        named = (f"`{self.quote(piece.node)}` ({in_words(kind)})" for piece, kind in zip(pieces, kinds, strict=True))
        sides = " and ".join(named)
        self.report("mixed-units", odd.node, f"{sides} cannot be {doing}.", _LIKE)

    def _report_missing_unit(self, node: Node, kind: Dimensionality) -> None:
        number = self.quote(node)
        written = " or ".join(f"{number} {unit}" for unit in self._usual_units(kind))
        self.report("missing-unit", node, f"`{number}` needs a unit.", f"Did you mean {written}?")

    def _usual_units(self, kind: Dimensionality) -> tuple[str, ...]:
        """For a length the system that the formula speaks already, else both."""
        if kind != LENGTH:
            return (USUAL_UNIT[kind],)
        if re.search(r"\d *(in|ft)\b", self.text):
            return ("in",)
        return ("mm",) if re.search(r"\d *(mm|cm|m)\b", self.text) else ("mm", "in")

    def _remedy_for(self, piece: Typed, kind: Dimensionality) -> str:
        quoted = self.quote(piece.node)
        if piece.kind == SCALAR and kind in USUAL_UNIT:
            joined = quoted if isinstance(piece.node, Name) else f"({quoted})"
            return f"Give it a unit: `{joined} * 1 {USUAL_UNIT[kind]}`."
        return f"Write {in_words(kind)} here."

    def _refuse_truth(self, pieces: Sequence[Typed]) -> None:
        node = next(piece.node for piece in pieces if isinstance(piece.kind, Truth))
        message = f"`{self.quote(node)}` compares; a value is needed here."
        self.report("wrong-kind", node, message, "Use a comparison in a rule or as the condition of where(...).")


_LIKE = "Bring both to the same kind of quantity; an angle divided by 1 rad is a plain number."
