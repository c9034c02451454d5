"""How long a hot part takes to be cool, against equations solved by steps and a textbook's example."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchleaf.physics.constants import DEFAULT
from benchleaf.physics.cooling import (
    COOL,
    Cooldown,
    FreePart,
    OnBoard,
    biot,
    burn_threshold,
    cool_time,
    device_cool_time,
    free_cool_time,
    free_time,
    hand_threshold,
    left_after,
    rise_after,
    shortest_wait,
    time_to,
    zone_time,
)
from benchleaf.physics.heat import zone_rise
from benchleaf.physics.types import (
    Celsius,
    End,
    Estimate,
    Kelvins,
    Kilograms,
    Metres,
    OutOfRange,
    Seconds,
    SquareMetres,
)
from tests.physics.cases import BOARD, HEAT, ROOM, iron
from tests.physics.oracles import stepped


def start(part: float, zone: float, part_time: float = 40.0, board_time: float = 100.0) -> OnBoard:
    """Return a part on its board at the start."""
    return OnBoard(Kelvins(part), Kelvins(zone), Seconds(part_time), Seconds(board_time))


# scipy's solution by steps (2M); tolerance 0.5 %.
@pytest.mark.outside
@pytest.mark.parametrize(
    ("zone", "part", "t", "rise"),
    [(224, 224, 100, 125.1), (224, 224, 200, 49.52), (98, 329, 100, 73.69), (98, 329, 200, 23.22)],
)
def test_rise_after(zone: float, part: float, t: float, rise: float) -> None:
    """The rise after a time is the tabled one."""
    assert rise == pytest.approx(rise_after(start(part, zone), Seconds(t)), rel=0.005)


# The same, to 27 K above the room.
@pytest.mark.outside
@pytest.mark.parametrize(
    ("part", "zone", "part_time", "board_time", "t"),
    [(224, 224, 40, 100, 261.9), (224, 224, 20, 80, 192.3), (329, 98, 40, 100, 186.0), (329, 50, 20, 80, 84.5)],
)
def test_time_to(part: float, zone: float, part_time: float, board_time: float, t: float) -> None:
    """The time to come down to 27 K is the tabled one, and the part is there then."""
    found = time_to(start(part, zone, part_time, board_time), Kelvins(27.0))

    assert t == pytest.approx(found, rel=0.005)
    assert rise_after(start(part, zone, part_time, board_time), found) <= 27


@pytest.mark.outside
@pytest.mark.parametrize("part_time", [10.0, 40.0, 100.0, 100.00001])
@pytest.mark.parametrize("t", [5.0, 80.0, 400.0])
def test_by_steps(part_time: float, t: float) -> None:
    """Two lumps solved by steps agree, also where both time constants are one."""

    def slope(_: float, state: list[float]) -> list[float]:
        return [-(state[0] - state[1]) / part_time, -state[1] / 100]

    wanted = stepped(slope, [300.0, 120.0], t)[0]

    assert wanted == pytest.approx(rise_after(start(300, 120, part_time), Seconds(t)), rel=1e-5)


# 100 to 43 °C in 22 °C with a time constant of 300 s (arithmetic): 393.7 s, 0.1 %.
@pytest.mark.outside
def test_one_lump() -> None:
    """A part on no warm board cools as one lump does."""
    assert 393.7 == pytest.approx(time_to(start(78, 0, 300), Kelvins(21.0)), rel=0.001)


# rho c delta/(2 h): 53, 80, 100 s at 0.8 mm, 107, 160, 200 s at 1.6 mm (arithmetic).
@pytest.mark.outside
@pytest.mark.parametrize(("millimetres", "row"), [(0.8, (53, 80, 100)), (1.6, (107, 160, 200))])
def test_zone_time(millimetres: float, row: tuple[int, ...]) -> None:
    """The board's own time constant goes with its thickness."""
    assert row == tuple(round(zone_time(Metres(millimetres / 1e3), h, 2.0e6)) for h in (15, 10, 8))


# Hot air from 245 to 48 °C in 21 °C: 262 s at 0.8 mm, 468 s at 1.6 mm (2M); finite volumes: 111 to 189 s at 0.8 mm.
@pytest.mark.outside
@pytest.mark.parametrize(("millimetres", "worst"), [(0.8, 262), (1.6, 468)])
def test_after_hot_air(millimetres: float, worst: float) -> None:
    """After hot air the worst end is the tabled wait, and longer than finite volumes found."""
    found = cool_time(Cooldown(Celsius(245.0), ROOM, None, Metres(millimetres / 1e3)), COOL, DEFAULT)

    assert worst == pytest.approx(found.worst, rel=0.005)
    assert found.worst > 189


# Nine touches of an iron at 350 °C: 186 s given, 114 to 156 s by finite volumes (2M).
@pytest.mark.outside
def test_after_iron() -> None:
    """After an iron the worst end is the tabled wait, and longer than finite volumes found."""
    zone = zone_rise(iron(38).touches, BOARD, HEAT, Metres(15e-3))
    found = cool_time(Cooldown(Celsius(350.0), ROOM, zone, Metres(0.8e-3)), COOL, DEFAULT)

    assert 186 == pytest.approx(found.worst, rel=0.005)
    assert 84.5 == pytest.approx(found.central, rel=0.01)


# Thermocouple bead, an example of Çengel, Heat and Mass Transfer, ch. 4 (seen): Bi 0.001, 0.462 /s, 99 % in 10 s.
BEAD = FreePart(
    Kilograms(8500 * math.pi / 6 * 1e-9), 320.0, SquareMetres(math.pi * 1e-6), Metres(1e-3 / 6), conductivity=35.0
)


@pytest.mark.outside
def test_textbook_bead() -> None:
    """The textbook's bead has its Biot number, its rate and its ten seconds."""
    pace = free_time(BEAD, 210.0, DEFAULT)

    assert 0.001 == pytest.approx(biot(BEAD, 210.0), rel=0.01)
    assert 0.462 == pytest.approx(1 / pace, rel=0.01)
    assert 10 == pytest.approx(pace * math.log(100), rel=0.01)


def test_thick_part_is_refused() -> None:
    """A part whose inside stays hot is no lump, and the refusal names the Biot number."""
    block = FreePart(Kilograms(0.1), 1500.0, SquareMetres(0.01), Metres(0.02), conductivity=0.2)

    with pytest.raises(OutOfRange, match=r"Biot number is 0\.8"):
        free_time(block, 8.0, DEFAULT)


@pytest.mark.outside
def test_free_part_by_practice() -> None:
    """Without its mass a part that has left cools by practice: 300 s would take 393.7 s, 250 s takes 328.1 s."""
    case = Cooldown(Celsius(100.0), Celsius(22.0))
    found = free_cool_time(case, Celsius(43.0), DEFAULT)

    assert 393.7 * 250 / 300 == pytest.approx(found.worst, rel=0.001)


@pytest.mark.outside
def test_whole_device_by_practice() -> None:
    """A whole device cools as one lump, in its own time: 300 s would take 393.7 s, 1900 s takes 2493 s."""
    case = Cooldown(Celsius(100.0), Celsius(22.0))
    found = device_cool_time(case, Celsius(43.0), DEFAULT)

    assert 393.7 * 1900 / 300 == pytest.approx(found.worst, rel=0.001)
    assert 393.7 == pytest.approx(found.low, rel=0.001)


def test_free_part_with_its_mass() -> None:
    """With its mass known a part that has left cools by it."""
    shield = FreePart(Kilograms(2e-3), 450.0, SquareMetres(8e-4), Metres(0.1e-3), conductivity=50.0)
    found = free_cool_time(Cooldown(Celsius(200.0), ROOM), COOL, DEFAULT, shield)

    assert found.worst == pytest.approx(2e-3 * 450 / (8 * 8e-4) * math.log(179 / 27))


# IEC 62368-1 Table 38 TS1, rows of 10 s to 1 min and of 1 to 10 s; ISO 13732-1 gives the same for the first.
@pytest.mark.outside
@pytest.mark.parametrize(
    ("material", "hand", "burns"),
    [("brass", 51, 60), ("glass", 56, 71), ("polycarbonate", 60, 77), ("wood", 60, 107), (None, 51, 60), ("?", 51, 60)],
)
def test_thresholds(material: str | None, hand: float, burns: float) -> None:
    """A hand may take what its material allows; a material that is not known counts as metal."""
    assert [hand, burns, 48] == [float(hand_threshold(material)), float(burn_threshold(material)), float(COOL)]


def test_moving_air_halves_the_board() -> None:
    """Air moving over both faces shortens the wait, to no less than half."""
    still, moving = (
        cool_time(Cooldown(Celsius(245.0), ROOM, moving_air=moves), COOL, DEFAULT).worst for moves in (False, True)
    )

    assert still / 2 < moving < still


@settings(deadline=None, max_examples=60)
@given(source=st.floats(60, 400), room=st.floats(10, 35), zone=st.floats(0, 1), extra=st.floats(0, 300))
def test_longer_is_cooler(source: float, room: float, zone: float, extra: float) -> None:
    """After the wait that is named the part is cool at the worst end, and longer never makes it hotter."""
    rise = (source - room) * zone
    warm = Estimate(rise, rise, rise, "K", "", "")
    case = Cooldown(Celsius(source), Celsius(room), warm)
    wait = shortest_wait(cool_time(case, COOL, DEFAULT))

    there, later = (left_after(case, Seconds(wait + more), DEFAULT).worst for more in (0.0, extra))

    assert later <= there <= COOL
    assert float(wait).is_integer()


def test_cool_already() -> None:
    """A part below the threshold needs no wait."""
    case = Cooldown(Celsius(45.0), ROOM)

    assert (0.0, 0.0) == (cool_time(case, COOL, DEFAULT).worst, free_cool_time(case, COOL, DEFAULT).worst)


@pytest.mark.parametrize(
    ("room", "threshold", "named"),
    [(41, 48, "the room is 41"), (38, 38, "the threshold is 38"), (30, 25, "the threshold")],
)
def test_nothing_cools_in_heat(room: float, threshold: float, named: str) -> None:
    """In a room over 40 °C, or at the threshold, nothing becomes cool by waiting: that is refused."""
    with pytest.raises(OutOfRange, match=named):
        cool_time(Cooldown(Celsius(200.0), Celsius(room)), Celsius(threshold), DEFAULT)


def test_no_end_to_a_wait() -> None:
    """A wait without end is not rounded to a number."""
    with pytest.raises(OutOfRange, match="no wait is long enough"):
        shortest_wait(Estimate(1.0, 1.0, math.inf, "s", "", "", End.HIGH))
