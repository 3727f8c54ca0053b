"""Weight: solids by density, hardware by its own mass, a tenth for packing, and what it is without."""

from __future__ import annotations

from math import pi

import pytest

from planbook.measure import Units
from planbook.takeoff.weight import Weight, mass_of, weight_list, weight_of
from tests.shape.making import plate, sound

from .taken import SOLD, small_set, taken

# Wood Handbook (FPL-GTR-282), table 5-3: sugar maple has a specific gravity of 0.63 at 12 % moisture, on its volume
# then and its weight dry: 0.63 x 1.12 = 706 kg/m3. Base units are kilograms and nanometres.
SUGAR_MAPLE = 706e-27


def test_a_cubic_decimetre_of_sugar_maple_weighs_as_the_wood_handbook_says() -> None:
    block = sound(plate("100 mm", "100 mm", "100 mm", stock="board", quantity={"as_drawn": 2}))
    weight = weight_of({"block": block}, {"board": SUGAR_MAPLE}, (), {})
    assert weight is not None
    assert weight.parts == pytest.approx(2 * 0.706)
    assert weight.shipped == pytest.approx(2 * 0.706 * 1.1)
    assert weight.without == ()
    parts, shipped = weight_list(weight, Units.MILLIMETRE)
    assert (parts.cells["Weight"], shipped.cells["Note"]) == ("1.41 kg [3.11 lb]", "with a tenth for packing")


def test_what_has_no_density_is_named_and_jigs_are_not_shipped() -> None:
    parts = {
        "block": sound(plate("100 mm", "100 mm", "100 mm", stock="board")),
        "lid": sound(plate(stock="sheet")),
        "jig": sound(plate(stock="board", kind="jig")),
    }
    weight = weight_of(parts, {"board": SUGAR_MAPLE}, (), {"sheet": "18 mm plywood"})
    assert weight is not None
    assert weight.parts == pytest.approx(0.706)
    assert weight.without == ("18 mm plywood",)


def test_hardware_weighs_what_it_is_and_what_its_length_adds() -> None:
    """A bar of steel 12 mm round weighs 0.888 kg a metre: pi / 4 x 12 mm x 12 mm x 7850 kg/m3."""
    market = {
        **SOLD,
        "hardware": {
            "bar": {"title": "12 mm bar", "measures": {"diameter": "12 mm", "mass_by_length": "888 g / 1 m"}},
            "bolt": {"title": "Bolt", "measures": {"mass": "4 g", "mass_by_length": "0.18 g / 1 mm"}},
            "cap": {"title": "Cap", "measures": {"mass": "2 g"}},
            "tape": {"title": "Tape", "measures": {"mass_by_length": "6 g / 1 m"}},
            "foot": {"title": "Foot", "measures": {"width": "20 mm"}},
        },
    }
    hardware = {
        "bars": {"item": "bar", "quantity": "2", "length": "500 mm", "use": "x"},
        "bolts": {"item": "bolt", "quantity": "10", "length": "50 mm", "spares": 3, "use": "x"},
        "caps": {"item": "cap", "quantity": "4", "use": "x"},
        "tapes": {"item": "tape", "quantity": "1", "use": "x"},
        "feet": {"item": "foot", "quantity": "4", "use": "x"},
    }
    found = taken(small_set({"rail": plate("300 mm", "50 mm")}, hardware=hardware, market=market), times=2)
    masses = {use.key: mass_of(use) for use in found.uses}
    assert masses["bars"] == pytest.approx(2 * pi / 4 * 0.012**2 * 7850, rel=1e-3)
    assert masses["bolts"] == pytest.approx(2 * 10 * (0.004 + 0.009))
    assert masses["caps"] == pytest.approx(0.016)
    assert (masses["tapes"], masses["feet"]) == (None, None)
    parts = {"block": sound(plate("100 mm", "100 mm", "100 mm", stock="board"))}
    weight = weight_of(parts, {"board": SUGAR_MAPLE}, found.uses, {})
    assert weight is not None
    assert weight.hardware == pytest.approx(1.776 + 0.26 + 0.016, rel=1e-3)
    assert weight.without == ("Tape", "Foot")
    feet = [use for use in found.uses if use.key == "feet"]
    only = weight_of(parts, {"board": SUGAR_MAPLE}, feet, {})
    assert only is not None
    assert only.without == ("hardware",)


def test_a_few_grams_of_hardware_get_no_row_but_count() -> None:
    told = weight_list(Weight(5.0, 0.004, ()), Units.MILLIMETRE)
    assert [row.id for row in told] == ["parts", "shipped"]
    assert Weight(5.0, 0.004, ()).shipped == pytest.approx(5.004 * 1.1)


def test_without_densities_nothing_is_weighed() -> None:
    assert weight_of({"block": sound(plate())}, {}, (), {}) is None
