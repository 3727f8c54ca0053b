"""Names of a chart's limits: within the frame, on no curve where there is room, apart, and led to their levels."""

from __future__ import annotations

from itertools import combinations

from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, Polygon, box

from planbook.document.limit_names import Name, Spot, place_names

FRAME = box(40, 30, 440, 190)
WIDTH, HEIGHT = 60.0, 9.0


def covered(spot: Spot) -> Polygon:
    return box(spot.x, spot.y, spot.x + WIDTH, spot.y + HEIGHT)


def level_at(y: float) -> LineString:
    return LineString([(40, y), (440, y)])


def names_at(*levels: float) -> list[Name]:
    return [Name(WIDTH, HEIGHT, level) for level in levels]


def test_a_name_alone_stands_on_its_level_without_a_leader() -> None:
    (spot,) = place_names(FRAME, [LineString([(40, 40), (440, 60)])], names_at(150))
    assert spot.leader is None
    assert 150 < spot.y < 156


def test_under_the_upper_edge_it_stands_under_its_level() -> None:
    (spot,) = place_names(FRAME, [LineString([(40, 40), (440, 60)])], names_at(187))
    assert spot.leader is None
    assert spot.y + HEIGHT < 187


def test_levels_that_lie_close_lead_their_names_to_free_places_and_hide_no_curve() -> None:
    """Three limits within 6 points, and a curve on one of them: the chart of a desk's clearances."""
    levels = (38.0, 41.0, 44.0)
    curves = [level_at(41), LineString([(200, 190), (260, 46), (440, 46)])]
    spots = place_names(FRAME, curves, names_at(*levels))
    for spot, level in zip(spots, levels, strict=True):
        assert not any(covered(spot).intersects(curve) for curve in curves)
        assert not any(covered(spot).intersects(level_at(other)) for other in levels if other != level)
    assert sum(spot.leader is not None for spot in spots) >= 2
    for one, other in combinations(spots, 2):
        assert covered(one).distance(covered(other)) >= 4


HEIGHTS = st.lists(st.floats(32, 100), min_size=5, max_size=5)


@given(st.lists(HEIGHTS, min_size=1, max_size=4), st.lists(st.floats(35, 185), min_size=1, max_size=4))
def test_with_the_upper_half_free_nothing_is_hidden_and_nothing_leaves_the_frame(
    curves: list[list[float]], levels: list[float]
) -> None:
    drawn = [LineString(zip((40, 140, 240, 340, 440), heights, strict=True)) for heights in curves]
    spots = place_names(FRAME, drawn, names_at(*levels))
    assert len(spots) == len(levels)
    for spot in spots:
        assert FRAME.contains(covered(spot))
        assert not any(covered(spot).intersects(curve) for curve in drawn)
    for one, other in combinations(spots, 2):
        assert not covered(one).intersects(covered(other))


def test_without_room_every_name_still_has_a_place() -> None:
    curves = [level_at(y) for y in range(32, 190, 4)]
    (spot,) = place_names(FRAME, curves, names_at(100))
    assert FRAME.contains(covered(spot))
