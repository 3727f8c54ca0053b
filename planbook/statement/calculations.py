"""Calculations with their working: formula, what goes into it in the edition's units, result, assumptions, source."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Final

from planbook.design import Design
from planbook.design.faults import Fault
from planbook.design.syntax import Call, Comparison, Name, Negation, Node, Number, Operation, parse
from planbook.measure import Quantity, Units, print_calculated
from planbook.measure.dimensionality import FORCE, MASS, PRESSURE, TORQUE
from planbook.mechanics import CALCULATORS, Input
from planbook.source.content import Content
from planbook.source.mentions import names_in
from planbook.source.models.rules import RuleModel
from planbook.source.sentences import capital
from planbook.source.text import Text
from planbook.statement.factors import factor
from planbook.statement.judging import requirement
from planbook.statement.model import RowStated, RuleStated

CALCULATIONS: Final = "calculations"
"""The list of a statement that holds them."""
RESULT: Final = "Result"
"""The column of what comes out."""
WAYS: Final = "Ways"
"""The column of the ways of which the least counts, and of the one that governs."""
_LOADS: Final = (FORCE, TORQUE, PRESSURE, MASS)
_MINUS: Final = "\N{MINUS SIGN}"
_SIGNS: Final = {"+": " + ", "-": f" {_MINUS} ", "*": " · ", "/": " / ", "^": "^"}
_BINDS: Final = {"+": 1, "-": 1, "*": 2, "/": 2, "^": 4}
_NEGATION: Final = 3


def state_calculations(
    content: Content, design: Design, units: Units, rules: Mapping[str, RuleStated]
) -> tuple[RowStated, ...]:
    """A row for each calculation that has a value in this edition. `rules` as judged."""
    demands = {str(name): _demand(rule, content.rules[Text(name)], design) for name, rule in rules.items()}
    return tuple(
        RowStated(
            str(name),
            _cells(name, str(model.title), str(model.assumes), design, units)
            | _asked(demand for key, demand in demands.items() if str(name) in names_in([Text(rules[key].require)])),
        )
        for name, model in content.calculations.items()
        if str(name) in design.parameters
    )


def _cells(name: Text, title: str, assumes: str, design: Design, units: Units) -> dict[str, str]:
    value = design.parameters[str(name)].value
    result = print_calculated(value.quantity, units)
    tree = parse(value.formula)
    calls = () if isinstance(tree, Fault) else tuple(_calls(tree))
    used = tuple(dict.fromkeys(CALCULATORS[call.function] for call in calls))
    working = _Working(design, units, value.formula)
    cells = {"Calculation": title, "Name": str(name)}
    if isinstance(tree, Call) and tree.function in CALCULATORS:
        calculator = CALCULATORS[tree.function]
        cells |= {"Formula": calculator.formula, "With": working.explained(working.inserted(tree), calls[1:])}
        cells |= {RESULT: f"{calculator.gives.symbol} = {result.full}"}
    elif not isinstance(tree, Fault):
        formula = _as_typed(_with_symbols(value.formula, calls))
        cells |= {"Formula": formula, "With": working.explained(working.text(tree), calls), RESULT: result.full}
    cells[WAYS] = " ".join(filter(None, (_weighed(call, value.formula, design, working) for call in calls)))
    taken = [each.assumes for each in used] + [assumes]
    cells["Assumes"] = capital("; ".join(dict.fromkeys(each.rstrip(".") for each in taken if each)))
    cells["Source"] = "; ".join(dict.fromkeys(each.source for each in used))
    return {head: text for head, text in cells.items() if text}


def _asked(demands: Iterable[str]) -> dict[str, str]:
    told = "; ".join(demands)
    return {"Must": told} if told else {}


def _demand(rule: RuleStated, model: RuleModel, design: Design) -> str:
    """What a rule asks, as judged; of loads with the factor that is left."""
    relation = {"<=": "≤", ">=": "≥"}
    stated = " ".join(relation.get(word, word) for word in rule.stated.split(" "))
    left = _factor(model, design)
    return f"{stated}{'' if left is None else f', a factor of {left:.2f}'}: {rule.because}"


def _factor(model: RuleModel, design: Design) -> float | None:
    """How many times a force, torque, stress or mass goes into its limit, rounded down; None of anything else, and of
    what is judged along a travel, where it is another at every place.
    """
    require = requirement(model, design.market)
    judgement = design.judge(require)[0] if require is not None and model.over is None else None
    if judgement is None or len(judgement.sides) != 2 or not judgement.holds:
        return None
    less, more = sorted(side.number for side in judgement.sides)
    if judgement.sides[0].quantity.dimensionality not in _LOADS or less <= 0:
        return None
    return factor(more, less)


def _weighed(call: Call, formula: str, design: Design, working: _Working) -> str:
    """`I 900 N; II 414 N. II governs: it leans.`, where the result of a calculator is the least of several.

    Nothing where it has none, as in a branch of `where` that is not taken.
    """
    calculator = CALCULATORS[call.function]
    if calculator.ways is None:
        return ""
    typed = (Text(formula[each.span.start : each.span.end]) for each in call.arguments)
    solved = [design.solve(text, each.kind)[0] for text, each in zip(typed, calculator.takes, strict=True)]
    inputs = [value.number for value in solved if value is not None]
    if len(inputs) < len(solved) or not all(map(Input.admits, calculator.takes, inputs)):
        return ""
    ways = calculator.ways(*inputs)
    governs = min(ways, key=lambda way: way.value)
    each = "; ".join(f"{way.name} {working.printed(Quantity(way.value, calculator.gives.kind))}" for way in ways)
    return f"{each}. {governs.name} governs: {governs.words}."


def _calls(node: Node) -> Iterator[Call]:
    """Of calculators, the outer before what stands in it."""
    if isinstance(node, Call):
        if node.function in CALCULATORS:
            yield node
        for each in node.arguments:
            yield from _calls(each)
    elif isinstance(node, Operation):
        yield from _calls(node.left)
        yield from _calls(node.right)
    elif isinstance(node, Negation):
        yield from _calls(node.operand)
    elif isinstance(node, Comparison):
        for each in node.sides:
            yield from _calls(each)


def _with_symbols(formula: str, calls: Sequence[Call]) -> str:
    """As typed, but the calculators that stand in it named by the symbol of what they give."""
    told, end = "", 0
    for call in sorted(calls, key=lambda call: call.span.start):
        if call.span.start >= end:
            told += formula[end : call.span.start] + CALCULATORS[call.function].gives.symbol
            end = call.span.end
    return told + formula[end:]


def _as_typed(formula: str) -> str:
    """With the signs of print; a formula has no other use for a star."""
    return formula.replace("*", "·").replace("-", _MINUS)


class _Working:
    """A formula with the values of its names inserted, and with those of the calculators that stand in it."""

    def __init__(self, design: Design, units: Units, formula: str) -> None:
        self._design, self._units, self._formula = design, units, formula

    def explained(self, told: str, calls: Iterable[Call]) -> str:
        """What is told of a formula, then how the values come about that calculators in it give:
        `M = 15 N·m, bending moment. M = P · L / 4: P = 200 N, force; L = 300 mm, span`.
        """
        inner = (f"{CALCULATORS[call.function].formula}: {self.inserted(call)}" for call in calls)
        return ". ".join(dict.fromkeys((told, *inner)))

    def inserted(self, call: Call) -> str:
        """`W = 180 N, load that is lifted; α = 13.5°, slope`."""
        calculator = CALCULATORS[call.function]
        pairs = zip(calculator.takes, call.arguments, strict=True)
        return "; ".join(f"{each.symbol} = {self.text(argument)}, {each.words}" for each, argument in pairs)

    def text(self, node: Node, binds: int = 0) -> str:
        """In parentheses where what stands round it binds more strongly."""
        match node:
            case Number():
                return self._value(Quantity(node.value, node.kind), binds)
            case Name():
                return self._value(self._design.parameters[node.name].value.quantity, binds)
            case Negation():
                return _bracketed(f"{_MINUS}{_unsigned(self.text(node.operand, _NEGATION))}", binds > _NEGATION)
            case Operation():
                own = _BINDS[node.operator]
                left = self.text(node.left, own + 1 if node.operator == "^" else own)
                right = _unsigned(self.text(node.right, own if node.operator in "+*" else own + 1))
                return _bracketed(f"{left}{_SIGNS[node.operator]}{right}", own < binds)
            case Call():
                return self._called(node, binds)
            case Comparison():
                words = [self.text(node.sides[0])]
                for relation, side in zip(node.relations, node.sides[1:], strict=True):
                    words += [relation, self.text(side)]
                return " ".join(words)

    def _called(self, call: Call, binds: int) -> str:
        """What a calculator gives; in words where it has no value, as in a branch of `where` that is not taken."""
        if call.function not in CALCULATORS:
            return f"{call.function.replace('_', ' ')}({_listed(self.text(each) for each in call.arguments)})"
        gives = CALCULATORS[call.function].gives
        value = self._design.solve(Text(self._formula[call.span.start : call.span.end]), gives.kind)[0]
        return gives.words if value is None else self._value(value.quantity, binds)

    def _value(self, quantity: Quantity, binds: int) -> str:
        """A power is that of the number with its unit and sign: `(300 mm)^2`."""
        text = self.printed(quantity)
        return _bracketed(text, binds > _BINDS["^"] and not text.replace(".", "").isdecimal())

    def printed(self, quantity: Quantity) -> str:
        """With its unit, as a calculation prints it."""
        printed = print_calculated(quantity, self._units)
        space = "" if printed.unit in {"", "°"} else " "
        return f"{printed.text}{space}{printed.unit}"


def _listed(texts: Iterable[str]) -> str:
    return "; ".join(texts)


def _unsigned(text: str) -> str:
    """Where another sign stands before it."""
    return _bracketed(text, text.startswith(_MINUS))


def _bracketed(text: str, brackets: bool) -> str:
    return f"({text})" if brackets else text
