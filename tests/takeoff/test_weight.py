"""Weight: solids by density, hardware by its own mass, a tenth for packing, and what it is without."""

from __future__ import annotations

import pytest

from planbook.measure import Units
from planbook.takeoff.weight import weight_list, weight_of
from tests.shape.making import plate, sound

# Wood Handbook (FPL-GTR-282), table 5-3: sugar maple has a specific gravity of 0.63 at 12 % moisture, on its volume
# then and its weight dry: 0.63 x 1.12 = 706 kg/m3. Base units are kilograms and nanometres.
SUGAR_MAPLE = 706e-27


def test_a_cubic_decimetre_of_sugar_maple_weighs_as_the_wood_handbook_says() -> None:
    block = sound(plate("100 mm", "100 mm", "100 mm", stock="board", quantity={"as_drawn": 2}))
    weight = weight_of({"block": block}, {"board": SUGAR_MAPLE}, (), {}, 3)
    assert weight is not None
    assert weight.parts == pytest.approx(6 * 0.706)
    assert weight.shipped == pytest.approx(6 * 0.706 * 1.1)
    assert weight.without == ()
    parts, shipped = weight_list(weight, Units.MILLIMETRE)
    assert (parts.cells["Weight"], shipped.cells["Note"]) == ("4.24 kg [9.34 lb]", "with a tenth for packing")


def test_what_has_no_density_is_named_and_jigs_are_not_shipped() -> None:
    parts = {
        "block": sound(plate("100 mm", "100 mm", "100 mm", stock="board")),
        "lid": sound(plate(stock="sheet")),
        "jig": sound(plate(stock="board", kind="jig")),
    }
    weight = weight_of(parts, {"board": SUGAR_MAPLE}, (), {"sheet": "18 mm plywood"}, 1)
    assert weight is not None
    assert weight.parts == pytest.approx(0.706)
    assert weight.without == ("18 mm plywood",)


def test_without_densities_nothing_is_weighed() -> None:
    assert weight_of({"block": sound(plate())}, {}, (), {}, 1) is None
