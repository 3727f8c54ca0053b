"""How finely the value of a formula is printed."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from planbook.design.syntax import Call, Comparison, Name, Negation, Node, Number, Operation
from planbook.measure.systems import Precision

ROUNDING = ("round", "round_up", "round_down")


def fineness(tree: Node, known: Mapping[str, Precision]) -> Precision:
    """Caliper if any name in it is; but what is rounded to a step is only as fine as the step."""
    return Precision.CALIPER if Precision.CALIPER in _precisions(tree, known) else Precision.WOODWORK


def _precisions(tree: Node, known: Mapping[str, Precision]) -> Iterable[Precision]:
    waiting: list[Node] = [tree]
    while waiting:
        match waiting.pop():
            case Name(name=name):
                yield known.get(name, Precision.WOODWORK)
            case Negation(operand=operand):
                waiting.append(operand)
            case Operation(left=left, right=right):
                waiting += [left, right]
            case Call(function=function, arguments=(_, step)) if function in ROUNDING:
                waiting.append(step)
            case Call(arguments=nodes) | Comparison(sides=nodes):
                waiting += nodes
            case Number():
                pass
