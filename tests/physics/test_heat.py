"""How hot a neighbour gets: house distances, small boards, a shop's own constants, and what would cure it."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchleaf.physics import heat_cures
from benchleaf.physics.constants import Heat
from benchleaf.physics.heat import (
    Board,
    Heated,
    hot_air_source,
    neighbour_rise,
    rise_bound,
    rise_left,
    rough_rise,
    stays_below,
    worst_rise,
    zone_rise,
)
from benchleaf.physics.plate import Plate
from benchleaf.physics.types import Celsius, Kelvins, Metres, OutOfRange, Seconds
from tests.physics.cases import BOARD, HEAT, ROOM, hot_air, iron, sized
from tests.physics.oracles import Layer, Rings

PACK = Kelvins(39.0)
"""A pack that bears 60 °C, in a room of 21 °C."""
HELD = Kelvins(24.0)
"""The same at 45 °C."""


# House distances, mm, rounded: another program of the same formulas (2M), bounded by finite volumes.
@pytest.mark.outside
@pytest.mark.parametrize(
    ("limit", "place", "central", "worst"),
    [
        (PACK, iron(1), 17, 31),
        (HELD, iron(1), 24, 43),
        (PACK, hot_air(1), 24, 37),
        (HELD, hot_air(1), 32, 51),
        (PACK, hot_air(1, 120), 26, 41),
        (HELD, hot_air(1, 120), 36, 57),
    ],
    ids=["iron-60", "iron-45", "air-60", "air-45", "long-60", "long-45"],
)
def test_house_distances(limit: Kelvins, place: Heated, central: float, worst: float) -> None:
    """At the tabled distance the neighbour is just at its limit: within a millimetre, central and at the bad end."""

    def rise(millimetres: float) -> tuple[float, float]:
        found = neighbour_rise((replace(place, distance=Metres(millimetres / 1e3)),), BOARD, HEAT)
        return found.central, found.worst

    assert rise(central + 1)[0] <= limit <= rise(central - 1)[0]
    assert rise(worst + 1)[1] <= limit <= rise(worst - 1)[1]


def test_house_distance_is_found() -> None:
    """The least distance is the tabled one, whole millimetres up, and the neighbour stays below its limit there."""
    found = heat_cures.least_distance(PACK, iron(1), BOARD, HEAT)

    assert Metres(0.031) <= (found or 0) <= Metres(0.032)
    assert neighbour_rise((replace(iron(1), distance=Metres(found or 0)),), BOARD, HEAT).worst <= PACK


# Finite volumes with an insulated rim at R, k 50, h 8. The bound, raised for the rim, is never below them.
@pytest.mark.outside
@pytest.mark.parametrize(
    ("place", "r", "rim"),
    [
        *[(iron(38), 39, 45), (iron(38), 39, 60), (iron(38), 39, 70), (hot_air(20), 24, 45), (hot_air(20), 24, 60)],
        *[(hot_air(38), 42, 45), (hot_air(38), 42, 60), (hot_air(38), 42, 80)],
    ],
    ids=lambda value: f"{value:g}" if isinstance(value, int) else value.tool.value,
)
def test_small_board(place: Heated, r: float, rim: float) -> None:
    """On a small round board with the part in its middle the bound still holds what finite volumes show."""
    plate = Plate(50.0, 2.0e6, 8.0, Metres(0.8e-3))
    touches = place.touches[0]
    truth = Rings(plate, touches.radius, rim / 1e3).peak(touches, r / 1e3, touches.end + 90)

    found = neighbour_rise((place,), sized(math.pi * (rim / 10) ** 2), HEAT)

    assert found.worst >= 0.995 * truth


# Finite volumes, rim at R against none (2M): what the rim adds.
@pytest.mark.outside
@pytest.mark.parametrize(("r", "rim", "times"), [(39, 45, 2.4), (39, 60, 1.4), (39, 70, 1.17), (39, 100, 1.01)])
def test_what_the_rim_adds(r: float, rim: float, times: float) -> None:
    """A board cut into rings shows again what the rim of a small board adds under an iron."""
    plate = Plate(50.0, 2.0e6, 8.0, Metres(0.8e-3))
    touches = iron(38).touches[0]

    with_rim, without = (
        Rings(plate, touches.radius, edge).peak(touches, r / 1e3, touches.end + 60) for edge in (rim / 1e3, 0.3)
    )

    assert times == pytest.approx(with_rim / without, rel=0.04)


# The same for longer holds, more touches and smaller boards, where the rim gives back more.
@pytest.mark.outside
@pytest.mark.parametrize(
    ("place", "rim"),
    [
        *[(hot_air(38, 120), 60), (hot_air(20, 300), 45), (hot_air(12), 35), (hot_air(20, 120), 60)],
        *[(iron(30, times=20), 45), (iron(24, times=20), 60), (iron(20), 35), (iron(40, times=20), 60)],
    ],
    ids=["air-38", "air-20", "air-12", "air-20-large", "iron-30", "iron-24", "iron-20", "iron-40"],
)
def test_small_board_for_long(place: Heated, rim: float) -> None:
    """A small round board that is heated for long is held as well."""
    plate = Plate(50.0, 2.0e6, 8.0, Metres(0.8e-3))
    touches = place.touches[0]
    truth = Rings(plate, touches.radius, rim / 1e3).peak(touches, place.distance + touches.radius, touches.end + 90)

    found = neighbour_rise((place,), sized(math.pi * (rim / 10) ** 2), HEAT)

    assert found.worst >= 0.99 * truth


# A battery over the rim: a layer of 1e4 J/m²K that takes heat at 10 to 100 W/m²K and loses 10 W/m²K at its back.
@pytest.mark.outside
@pytest.mark.parametrize("contact", [10, 30, 100])
@pytest.mark.parametrize(
    ("place", "rim"),
    [(iron(38), 58.6), (iron(45), 70), (iron(38, times=27), 58.6), (hot_air(30), 45), (hot_air(42, 300), 60)],
    ids=["iron-38", "iron-45", "iron-long", "air-30", "air-long"],
)
def test_battery_beside_small_board(place: Heated, rim: float, contact: float) -> None:
    """A battery that lies over the rim of a small board stays below the bound, which is below the board's own."""
    plate = Plate(50.0, 2.0e6, 8.0, Metres(0.8e-3))
    touches = place.touches[0]
    board = sized(math.pi * (rim / 10) ** 2)
    layer = Layer(place.distance + touches.radius, contact, 1.0e4, 10.0)
    truth = Rings(plate, touches.radius, rim / 1e3, layer).layer_peak(touches, touches.end + 300)

    found = neighbour_rise((replace(place, pack=True),), board, HEAT)

    assert truth <= found.worst < neighbour_rise((place,), board, HEAT).worst


def test_method_says_what_is_not_known() -> None:
    """With the board's size not known the method says that its edge is left out; with it known it does not."""
    unknown, known = (neighbour_rise((iron(38),), board, HEAT).method for board in (BOARD, sized(200)))

    assert "size is not known" in unknown
    assert "size is not known" not in known


def test_method_says_that_a_battery_is_beside_the_board() -> None:
    """Where the rim is left out for a battery the method says so."""
    place, board = replace(iron(38), at_edge=True), sized(54)

    beside, on = (neighbour_rise((replace(place, pack=pack),), board, HEAT) for pack in (True, False))

    assert "the battery stores what the board's edge gives back" in beside.method
    assert "battery" not in on.method
    assert beside.worst < on.worst


def test_own_constant_is_said() -> None:
    """A shop's own conductivity changes the number and stands in the method by name."""
    own = replace(HEAT, conductivity=replace(HEAT.conductivity, high=30.0))

    found, usual = neighbour_rise((iron(30),), BOARD, own), neighbour_rise((iron(30),), BOARD, Heat())

    assert found.worst < usual.worst
    assert found.method.endswith("with the shop's own conductivity")
    assert "shop's own" not in usual.method


def test_thickness_of_board_counts() -> None:
    """A board of unknown thickness is taken for 0.8 mm, and one that is not thin is refused."""
    assert neighbour_rise((iron(30),), Board(), HEAT) == neighbour_rise((iron(30),), BOARD, HEAT)
    with pytest.raises(OutOfRange, match=r"thickness of the board is 3\.5 mm"):
        neighbour_rise((iron(30),), Board(Metres(3.5e-3)), HEAT)


# Rise of the zone within 15 mm of an iron at 350 °C, nine touches: 50 K central, 98 K at worst (2M).
@pytest.mark.outside
def test_zone() -> None:
    """The zone around an iron's joint rises as far as the cooling table starts from."""
    found = zone_rise(iron(38).touches, BOARD, HEAT, Metres(15e-3))

    assert pytest.approx(50, rel=0.01) == found.central
    assert pytest.approx(98, rel=0.01) == found.worst


def test_left_over() -> None:
    """What a step left is little after some minutes, and never more than its peak."""
    peak = neighbour_rise((iron(38),), BOARD, HEAT).worst
    left = [rise_left((iron(38),), BOARD, Seconds(59.0 + after), HEAT) for after in (180.0, 240.0)]

    assert 1.5 > left[0] > left[1] > 0
    assert left[0] < peak


@pytest.mark.parametrize(("setting", "reaches", "source"), [(380, None, 250), (200, None, 200), (380, 245, 245)])
def test_hot_air_source(setting: float, reaches: float | None, source: float) -> None:
    """Hot air brings a part to what was measured, else to 250 °C or its setting."""
    measured = None if reaches is None else Celsius(reaches)

    assert source == hot_air_source(Celsius(setting), measured, HEAT)


def test_cheap_answer_is_the_same() -> None:
    """Whether a limit holds is answered alike by the cheap bound and by the sum."""
    limit = Kelvins(rise_bound((iron(60),), BOARD, HEAT))

    assert stays_below(limit, (iron(60),), BOARD, HEAT)
    assert neighbour_rise((iron(60),), BOARD, HEAT).worst <= limit
    assert not stays_below(Kelvins(1.0), (iron(10),), BOARD, HEAT)


@settings(deadline=None, max_examples=20)
@given(near=st.floats(3, 80), area=st.sampled_from([None, 24.0, 77.0]), pack=st.booleans(), air=st.booleans())
def test_rough_bound_is_on_the_safe_side(near: float, area: float | None, *, pack: bool, air: bool) -> None:
    """The rough bound is never below the bad end, also where a battery follows slowly, so no verdict hangs on it."""
    board = BOARD if area is None else sized(area)
    place = replace(hot_air(near) if air else iron(near), pack=pack, beside=pack)

    worst, rough = (bound((place,), board, HEAT) for bound in (worst_rise, rough_rise))
    assert worst <= rough * (1 + 1e-9)
    assert rough <= 1.6 * worst + 1


@settings(deadline=None, max_examples=12)
@given(near=st.floats(3, 50), farther=st.floats(1, 30))
def test_farther_is_cooler(near: float, farther: float) -> None:
    """Moved away, a neighbour is cooler at each end of the estimate (a percent for the grid of time)."""
    close = neighbour_rise((iron(near),), BOARD, HEAT)
    far = neighbour_rise((iron(near + farther),), BOARD, HEAT)

    assert far.low <= 1.01 * close.low
    assert far.central <= 1.01 * close.central
    assert far.high <= 1.01 * close.high


# ---- what would cure it: each number is written back in


@pytest.mark.parametrize("board", [BOARD, sized(250), sized(500)], ids=["unknown", "small", "large"])
@pytest.mark.parametrize("place", [iron(10), hot_air(10)], ids=["iron", "hot-air"])
def test_least_distance(board: Board, place: Heated) -> None:
    """From the least distance on the limit holds, on a small board too, and a millimetre nearer it does not."""
    found = heat_cures.least_distance(PACK, place, board, HEAT)
    assert found is not None

    def holds(extra: float) -> bool:
        there = replace(place, distance=Metres(found + extra / 1e3))
        return neighbour_rise((there,), board, HEAT).worst <= PACK

    assert [True] * 6 == [holds(extra) for extra in (0, 1, 5, 20, 40, 80)]
    assert not holds(-1)


def test_highest_source() -> None:
    """The highest temperature of the source is one at which the neighbour stays below its limit."""
    found = heat_cures.highest_source(PACK, (hot_air(20),), ROOM, BOARD, HEAT)
    place = hot_air(20)
    again = replace(place, touches=(replace(place.touches[0], rise=Kelvins(found - ROOM)),))

    assert neighbour_rise((again,), BOARD, HEAT).worst <= PACK
    assert 100 < found < 245


def test_most_touches() -> None:
    """So many touches hold the limit, and one more does not."""
    found = heat_cures.most_touches(PACK, iron(25, times=30), BOARD, HEAT)
    assert found is not None

    assert neighbour_rise((iron(25, times=found),), BOARD, HEAT).worst <= PACK
    assert neighbour_rise((iron(25, times=found + 1),), BOARD, HEAT).worst > PACK


def test_longest_touch() -> None:
    """Touches of so many seconds hold the limit, and a second more does not."""
    found = heat_cures.longest_touch(PACK, hot_air(30), BOARD, HEAT)
    assert found is not None

    assert neighbour_rise((hot_air(30, found),), BOARD, HEAT).worst <= PACK
    assert neighbour_rise((hot_air(30, found + 1),), BOARD, HEAT).worst > PACK


def test_shortest_pause() -> None:
    """A pause of so many seconds holds the limit."""
    found = heat_cures.shortest_pause(PACK, iron(25), BOARD, HEAT)
    assert found is not None

    assert neighbour_rise((iron(25, pause=found),), BOARD, HEAT).worst <= PACK
    assert found > 4


def test_no_cure() -> None:
    """Where one touch is too many and no pause helps, no number is given."""
    assert heat_cures.most_touches(Kelvins(5.0), iron(3), BOARD, HEAT) is None
    assert heat_cures.longest_touch(Kelvins(1.0), iron(1), BOARD, HEAT) is None
    assert heat_cures.shortest_pause(Kelvins(5.0), iron(3), BOARD, HEAT) is None
    with pytest.raises(OutOfRange, match="the room itself is too warm"):
        heat_cures.least_distance(Kelvins(0.0), iron(10), BOARD, HEAT)
