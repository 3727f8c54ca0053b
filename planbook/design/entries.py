"""Everything with a formula that one market's design evaluates: parameters, stock, hardware, tolerances, drills."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from planbook.design.faults import Fault
from planbook.measure.dimensionality import DENSITY, LENGTH, SCALAR, Dimensionality
from planbook.measure.dimensionality import MASS as KILOGRAMS
from planbook.measure.systems import Precision
from planbook.source.content import Content
from planbook.source.findings import Finding, Place
from planbook.source.models.market import MarketModel
from planbook.source.models.parameters import ParameterModel, ToleranceModel
from planbook.source.text import Formula, Text

PLUS, MINUS = "#plus", "#minus"
"""After a parameter's name: its tolerance. No formula can write such a name."""
LEAST, GREATEST = "#least", "#greatest"
"""After `stock.<key>.thickness`: the accepted range."""
DRILL = "#drill"
CENTRE: Final = {"x": "from the left", "y": "from the front", "z": "from the floor"}
"""Where a centre of gravity lies, by axis."""
PHASE = "phase."
TALLY = "tally."
HANDBOOK = "handbook."
MASS = "mass."
NOT_THE_AUTHORS: Final = ("stock.", "hardware.", TALLY, HANDBOOK, MASS)
"""How names begin that no parameter of the set has: the market's, those counted, the handbook's, and those weighed."""


@dataclass(frozen=True, slots=True)
class Entry:
    """A name and its formula in one market. A name with # is no one's but the plan's."""

    name: str
    formula: Text
    expect: Dimensionality | None = None
    like: str = ""
    """Another entry whose kind this one must have."""
    means: str = ""
    precision: Precision | None = None

    @property
    def is_hidden(self) -> bool:
        """Whether formulas cannot name it."""
        return "#" in self.name

    @property
    def subject(self) -> str:
        """What it is, at the start of a message."""
        if self.name.endswith((PLUS, MINUS)):
            return f"the tolerance of `{self.like}`"
        return "a drill" if self.name.startswith(DRILL) else f"`{self.name.partition('#')[0]}`"


def market_entries(market: MarketModel) -> Iterator[Entry]:
    """The names that a market gives: its stock and hardware, and its drills."""
    for key, stock in market.stock.items():
        name = f"stock.{key}.thickness"
        yield Entry(name, stock.thickness, LENGTH, means=str(stock.title))
        if stock.accepted:
            yield Entry(name + LEAST, stock.accepted[0], LENGTH)
            yield Entry(name + GREATEST, stock.accepted[1], LENGTH)
        if stock.density is not None:
            yield Entry(f"stock.{key}.density", stock.density, DENSITY, means=str(stock.title))
        for measure, formula in zip(("length", "width"), stock.sizes[0] if stock.sizes else (), strict=False):
            yield Entry(f"stock.{key}.{measure}", formula, LENGTH, means=str(stock.title))
    for key, item in market.hardware.items():
        for measure, formula in item.measures.items():
            yield Entry(f"hardware.{key}.{measure}", formula, means=str(item.title))
    for number, drill in enumerate(market.drills):
        yield Entry(f"{DRILL}{number}", drill, LENGTH)


def parameter_entries(content: Content, market: str) -> Iterator[Entry]:
    """The parameters that have a value in one market, each followed by its tolerance."""
    for name, model in content.parameters.items():
        formula = _formula_in(model, market)
        if formula is None:
            continue
        yield Entry(str(name), formula, means=str(model.means), precision=model.precision)
        for suffix, text in _sides(model.tolerance.within(market) if model.tolerance else None):
            yield Entry(f"{name}{suffix}", text, like=str(name))


def phase_entries(content: Content) -> Iterator[Entry]:
    """`phase.<name>`, from 0 to 1 while the driver runs through it, after its two ends."""
    positions = content.positions
    if positions is None:
        return
    for name, phase in positions.phases.items():
        start, end = f"{PHASE}{name}_from", f"{PHASE}{name}_to"
        yield Entry(start, phase.start, means=f"the driver where the phase {name} begins")
        yield Entry(end, phase.end, means=f"the driver where the phase {name} ends")
        share = f"clamp(({positions.driver} - {start}) / ({end} - {start}), 0, 1)"
        yield Entry(f"{PHASE}{name}", Text(share, name.place), SCALAR, means=f"how far the phase {name} has gone")


def tally_entries(content: Content) -> Iterator[Entry]:
    """`tally.part.<key>`, how many of a part are made; `tally.hardware.<key>`, as how many placed rods it is bought."""
    for key, part in content.parts.items():
        made = part.quantity.as_drawn + part.quantity.mirrored
        means = f"how many of {part.title} are made"
        yield Entry(f"{TALLY}part.{key}", Text(str(made), part.title.place), SCALAR, means=means)
    components = content.assembly.components if content.assembly is not None else {}
    items = [each.rod.item for each in components.values() if each.rod is not None and each.rod.item is not None]
    for item in dict.fromkeys(items):
        means = "how many are placed in the assembly"
        yield Entry(f"{TALLY}hardware.{item}", Text(str(items.count(item)), item.place), SCALAR, means=means)


def handbook_entries(content: Content) -> Iterator[Entry]:
    """The shared published numbers."""
    for name, model in content.handbook.items():
        yield Entry(f"{HANDBOOK}{name}", model.value, means=str(model.means))


def mass_entries(content: Content) -> Iterator[Entry]:
    """`mass.<name>` and the place of its centre, which are weighed once the parts are shaped, and nothing before."""
    for name, model in content.assembly.masses.items() if content.assembly is not None else ():
        yield Entry(f"{MASS}{name}", Text("0 kg", name.place), KILOGRAMS, means=str(model.means))
        for axis, words in CENTRE.items():
            means = f"centre of {model.means}, {words}"
            yield Entry(f"{MASS}{name}_{axis}", Text("0 mm", name.place), LENGTH, means=means)


def check_leaves(content: Content) -> tuple[Finding, ...]:
    """Parameters without a value for a market that an edition uses, and tolerances that cannot be read."""
    markets = list(dict.fromkeys(str(edition.market) for edition in content.plan_set.editions.values()))
    return tuple(
        fault.found_in(place)
        for name, model in content.parameters.items()
        for place, fault in _leaf_faults(name, model, markets)
    )


def _leaf_faults(name: Text, model: ParameterModel, markets: list[str]) -> Iterator[tuple[Text, Fault]]:
    for market in markets:
        if model.by_market is not None and market not in model.by_market:
            given = ", ".join(f"`{key}`" for key in model.by_market) or "no market"
            message = f"`{name}` has no value for the market `{market}`, only for {given}."
            yield name, Fault("market-missing", 0, message, f"Add `{market}: ...` to its by_market.")
    yield from _tolerance_faults(name, model.tolerance, markets)
    if "{" in model.means:
        message = f"What `{name}` means is printed as it stands: names in braces are not filled in there."
        yield model.means, Fault("means-with-names", 0, message, "Say it without names or numbers, in words only.")


def _tolerance_faults(name: Text, tolerance: ToleranceModel | None, markets: list[str]) -> Iterator[tuple[Text, Fault]]:
    """A market without a tolerance where others have one, and texts that are none; each text once."""
    if tolerance is None:
        return
    texts = {market: tolerance.within(market) for market in markets}
    for market in (market for market, text in texts.items() if text is None):
        message = f"The tolerance of `{name}` has no value for the market `{market}`."
        yield name, Fault("market-missing", 0, message, f"Add `{market}: ...` to its by_market.")
    for text in {text.place: text for text in texts.values() if text is not None and not _sides(text)}.values():
        remedy = "Write `1/32 in` for plus or minus, or two sides such as `+0.5 mm/0` and `0/-0.5 mm`."
        yield text, Fault("bad-tolerance", 0, f"`{text}` is no tolerance.", remedy)


def _formula_in(model: ParameterModel, market: str) -> Formula | None:
    return model.value if model.by_market is None else model.by_market.get(Text(market))


_EQUAL = re.compile(r"\s*(?:±|\+/-)?\s*(?P<both>[^+\-−±/\s].*)")
_TWO_SIDED = re.compile(r"\s*\+(?P<plus>.+?)\s*/\s*(?:0|[-−](?P<minus>.+?))\s*")
_BELOW = re.compile(r"\s*0\s*/\s*[-−](?P<minus>.+?)\s*")


def _sides(tolerance: Text | None) -> tuple[tuple[str, Text], ...]:
    """The formulas of the plus and minus side, with their own places; nothing if the text is no tolerance.

    A side that is not given is 0 and has no formula.
    """
    if tolerance is None:
        return ()
    for form in (_TWO_SIDED, _BELOW, _EQUAL):
        if match := form.fullmatch(tolerance):
            group = {PLUS: "plus", MINUS: "minus"} if form is not _EQUAL else {PLUS: "both", MINUS: "both"}
            given = {suffix: name for suffix, name in group.items() if match.groupdict().get(name)}
            return tuple(
                (suffix, _cut(tolerance, match.start(name), match.end(name))) for suffix, name in given.items()
            )
    return ()


def _cut(text: Text, start: int, end: int) -> Text:
    place = text.place
    return Text(text[start:end].rstrip(), Place(place.file, place.line, place.column + start))
