"""What a rule asks of two components, typed as if a function gave it: a clearance is asked in a way of its own."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from planbook.design.faults import Fault
from planbook.design.functions import FUNCTIONS
from planbook.design.syntax import Call, Comparison, Name

_AT_LEAST = (">=", ">")
_AT_MOST = ("<=", "<")


def asked_of_two(text: str, tree: Comparison, names: Collection[str], travels: Sequence[str]) -> Fault | None:
    """`min_clearance(flap, tread) >= 1 mm`, in which the function is none and the two are no `names` of formulas: told
    once, with the clearance to write in its place. None for any other comparison.
    """
    if len(tree.relations) != 1:
        return None
    left, right = tree.sides
    asked, least = (left, right) if tree.relations[0] in _AT_LEAST else (right, left)
    if tree.relations[0] not in (*_AT_LEAST, *_AT_MOST) or not isinstance(asked, Call) or asked.function in FUNCTIONS:
        return None
    between = [each.name for each in asked.arguments if isinstance(each, Name) and each.name not in names]
    if len(between) != 2 or len(asked.arguments) != 2:
        return None
    distance = text[least.span.start : least.span.end].strip()
    remedy = (
        f"What two components leave between them is asked along a travel: write `clearance: {{between: "
        f"[{', '.join(between)}], least: {distance}}}` in the place of `require`, and beside it {_over(travels)}."
    )
    return Fault("unknown-function", asked.span.start, f"There is no function `{asked.function}`.", remedy)


def _over(travels: Sequence[str]) -> str:
    if not travels:
        return "`over:` with a travel, which positions.yaml does not have yet"
    return " or ".join(f"`over: {each}`" for each in travels)
