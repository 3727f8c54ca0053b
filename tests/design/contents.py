"""Small contents made by hand: parameters as an author types them, each on a line of its own."""

from datetime import date

from planbook.measure import Precision
from planbook.source.content import Content
from planbook.source.findings import Place
from planbook.source.models.market import HardwareItemModel, MarketModel, StockKind, StockModel
from planbook.source.models.parameters import ParameterModel
from planbook.source.models.plan_set import SetModel
from planbook.source.text import Formula, Text

FILE = "content/small/parameters.yaml"
EUROPE, AMERICA = "europe", "north_america"


def text(words, line, column=1, of=Text):
    return of(words, Place(FILE, line, column))


def leaf(line, name, said):
    """`said` is a formula, or a mapping of `is`, `by_market` (name to formula), `tolerance`, `precision`."""
    column = len(name) + 3
    said = {"is": said} if isinstance(said, str) else said
    value = {"is": text(said["is"], line, column, Formula)} if "is" in said else {}
    if "by_market" in said:
        value["by_market"] = {
            text(market, line): text(formula, line, column, Formula) for market, formula in said["by_market"].items()
        }
    tolerance = {"tolerance": text(said["tolerance"], line, 40)} if "tolerance" in said else {}
    return ParameterModel(**value, **tolerance, precision=said.get("precision"), means=Text(said.get("means", "")))


def content(parameters, markets=None, used=(EUROPE,)):
    """`parameters` maps names to formulas; the n-th stands on line n."""
    given = markets or {key: market() for key in used}
    leaves = {text(name, line): leaf(line, name, said) for line, (name, said) in enumerate(parameters.items(), 1)}
    return Content("small", plan_set(used), leaves, {}, {}, {Text(key): model for key, model in given.items()})


def market(stock=None, hardware=None, drills=()):
    return MarketModel(
        title=Text("A market"),
        stock={Text(key): stock_model(*said) for key, said in (stock or {}).items()},
        hardware={Text(key): hardware_model(measures) for key, measures in (hardware or {}).items()},
        drills=tuple(Formula(drill) for drill in drills),
    )


def stock_model(thickness, *accepted):
    ends = {"accepted": tuple(Formula(end) for end in accepted)} if accepted else {}
    return StockModel(
        kind=StockKind.SHEET, title=Text("sheet"), material=Text("wood"), thickness=Formula(thickness), **ends
    )


def hardware_model(measures):
    return HardwareItemModel(
        title=Text("thing"), measures={Text(name): Formula(formula) for name, formula in measures.items()}
    )


def plan_set(used):
    editions = {
        f"edition_{key}": {
            "title": key, "units": "millimetre", "paper": "a4", "projection": "first_angle", "market": key,
        }
        for key in used
    }  # fmt: skip
    return SetModel.model_validate(
        {
            "title": "Small", "code": "S", "summary": "small", "workshop": {"name": "w"}, "issued": date(2026, 1, 1),
            "drawn_by": "a", "approved_by": "b", "editions": editions, "cover": "c", "cautions": [],
            "tolerances": {"length": "1 mm", "angle": "1 deg", "diagonals": "1 mm", "moisture": "9 %"},
        }
    )  # fmt: skip


CALIPER = Precision.CALIPER
