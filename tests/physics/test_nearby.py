"""Heat through the board, through the air and from a mat, against equations solved by steps."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.linalg import solve_banded

from benchleaf.physics.nearby import (
    AreaHeater,
    Stream,
    air_in_plume,
    along_heater_rise,
    behind_heater,
    followed_rise,
    heater_rise,
    longest_on_heater,
    stream_rise,
    through_rise,
)
from benchleaf.physics.repeats import Touches
from benchleaf.physics.types import Celsius, Kelvins, Metres, OutOfRange, Seconds
from tests.physics.cases import HEAT, ROOM
from tests.physics.oracles import stepped

MAT = AreaHeater(Celsius(80.0), ROOM)
NOW = Seconds(0.0)


def test_other_side() -> None:
    """What touches the heated part is judged by the source's own temperature."""
    assert 329 == through_rise(Kelvins(329.0)).worst
    with pytest.raises(OutOfRange):
        through_rise(Kelvins(0.0))


# Setting 380 °C, room 21 °C (arithmetic from common practice: f 0.16, 0.24, 0.32).
@pytest.mark.outside
def test_plume() -> None:
    """The air beside a nozzle at 380 °C is at 78, 107 and 136 °C."""
    found = air_in_plume(Celsius(380.0), ROOM, Metres(0.015), HEAT)

    assert (78, 107, 136) == (round(found.low), round(found.central), round(found.high))


# A pack at 38 mm, f 0.32, 60 s: 10.9 K on top of the board's rise (arithmetic).
@pytest.mark.outside
def test_pack_in_plume() -> None:
    """A pack 38 mm from the nozzle takes 10.9 K from the air in a minute."""
    air = air_in_plume(Celsius(380.0), ROOM, Metres(0.038), HEAT)

    found = followed_rise(air, ROOM, Seconds(60.0), Seconds(HEAT.follow_pack.central))

    assert 10.9 == pytest.approx(found.worst, abs=0.1)


# A plug at f 0.30 after 60 s with tau 30 s: 114 °C (arithmetic); the same lump solved by steps.
@pytest.mark.outside
@pytest.mark.parametrize("t", [10.0, 60.0])
def test_follows(t: float) -> None:
    """A part in warm air follows as one lump does that is solved by steps."""
    air = air_in_plume(Celsius(380.0), ROOM, Metres(0.01), HEAT)
    wanted = stepped(lambda _, state: [(air.central - state[0]) / 30], [ROOM], t)[0]

    assert wanted - ROOM == pytest.approx(followed_rise(air, ROOM, Seconds(t), Seconds(30.0)).central, rel=1e-6)
    assert 114 == round(ROOM + 0.30 * (380 - ROOM) * -math.expm1(-60 / 30))


def test_plume_ends() -> None:
    """Beyond 60 mm there is no plume, and it is nowhere cooler nearer by."""
    airs = [air_in_plume(Celsius(380.0), ROOM, Metres(mm / 1e3), HEAT).high for mm in (5, 20, 30, 60, 61)]

    assert sorted(airs, reverse=True) == airs
    assert ROOM == airs[-1]


# Mat at 80 °C, room 21 °C: 2M, scipy's solution by steps. Bad end: contact 100 W/m²K.
@pytest.mark.outside
@pytest.mark.parametrize(
    ("t", "row"), [(180, (29.9, 43.7, 67.2)), (300, (34.3, 51.9, 72.7)), (600, (41.6, 61.2, 74.6))]
)
def test_behind_heater(t: float, row: tuple[float, ...]) -> None:
    """The pack behind a part on a mat is as warm as was tabled."""
    found = behind_heater(MAT, Seconds(t), HEAT)

    assert row == pytest.approx((found.low, found.central, found.high), abs=0.06)


@pytest.mark.outside
@pytest.mark.parametrize(("contact", "end"), [(10, "low"), (30, "central"), (100, "high")])
def test_behind_heater_by_steps(contact: float, end: str) -> None:
    """The same layer solved by steps ends at the same temperature."""

    def slope(_: float, state: list[float]) -> list[float]:
        return [(contact * (80 - state[0]) - 10 * (state[0] - ROOM)) / 1e4]

    wanted = stepped(slope, [ROOM], 300.0)[0]

    assert wanted == pytest.approx(getattr(behind_heater(MAT, Seconds(300.0), HEAT), end), rel=1e-6)


@settings(deadline=None, max_examples=60)
@given(limit=st.floats(25, 72))
def test_longest_on_heater(limit: float) -> None:
    """After the longest time the pack is still below its limit, and five seconds later it may not be."""
    found = longest_on_heater(Celsius(limit), MAT, HEAT)
    assert found is not None

    assert float(found) == 0 or behind_heater(MAT, found, HEAT).worst <= limit
    assert behind_heater(MAT, Seconds(found + 5), HEAT).worst > limit


def test_heater_that_may_stay() -> None:
    """A mat that cannot bring the pack to its limit may stay for ever; a room above the limit is refused."""
    assert longest_on_heater(Celsius(79.0), MAT, HEAT) is None
    with pytest.raises(OutOfRange):
        longest_on_heater(Celsius(20.0), MAT, HEAT)


def spells(rise: float, on: float, times: int = 1, pause: float = 0.0, start: float = 0.0) -> Touches:
    """Return a tool that is *rise* hotter than the room, so often and so long."""
    return Touches(Kelvins(rise), Metres(4e-3), Seconds(on), times, Seconds(pause), Seconds(start))


def lump(target: float, pace: float, on: float, cooling: float, off: float) -> float:
    """Return the rise of a lump that strives for *target* and then for nothing, solved by steps."""
    warm = stepped(lambda _, state: [pace * (target - state[0])], [0.0], on)
    return stepped(lambda _, state: [-cooling * state[0]], warm, off)[0]


# The equation of one lump, solved by steps: in the stream towards its air, between two four times more slowly back.
@pytest.mark.outside
def test_streams_one_after_the_other() -> None:
    """A pack in two streams, a minute apart, keeps at the bad end what the still air between them did not take."""
    near, far = (air_in_plume(Celsius(380.0), ROOM, Metres(mm), HEAT).high - ROOM for mm in (0.03, 0.038))
    cooled = lump(near, 1 / 300, 60.0, 1 / 1200, 60.0)
    wanted = stepped(lambda _, state: [(far - state[0]) / 300], [cooled], 90.0)[0]

    found = stream_rise(
        (Stream(Metres(0.03), spells(359.0, 60.0)), Stream(Metres(0.038), spells(359.0, 90.0, start=120.0))),
        Seconds(300.0),
        NOW,
        HEAT,
    )

    assert wanted == pytest.approx(found.worst, rel=1e-6)


def test_what_is_left_of_a_stream() -> None:
    """From a later moment on a stream counts for what still air has left of it."""
    stream = (Stream(Metres(0.03), spells(359.0, 60.0)),)

    peak, later = (stream_rise(stream, Seconds(300.0), Seconds(since), HEAT) for since in (0.0, 360.0))

    assert later.worst == pytest.approx(peak.worst * math.exp(-300 / 1200))
    assert later.low == pytest.approx(peak.low * math.exp(-300 / 300))


def test_one_stream() -> None:
    """One stream warms a part as it follows the air, and the same in three parts with no pause does."""
    air = air_in_plume(Celsius(380.0), ROOM, Metres(0.038), HEAT)
    wanted = followed_rise(air, ROOM, Seconds(60.0), Seconds(300.0))

    one, three = (
        stream_rise((Stream(Metres(0.038), spells(359.0, 60.0 / times, times)),), Seconds(300.0), NOW, HEAT)
        for times in (1, 3)
    )

    assert (wanted.low, wanted.central, wanted.high) == pytest.approx((one.low, one.central, one.high))
    assert one.high == pytest.approx(three.high)


# The equation of one layer, solved by steps: warmed through its contact, cooled at its back.
@pytest.mark.outside
def test_heater_twice() -> None:
    """A pack behind a part that lies twice on a mat starts the second time from what its back has not lost."""
    ends_at, pace = 100 * 59 / 110, 110 / 1e4
    cooled = lump(ends_at, pace, 120.0, 10 / 1e4, 60.0)
    wanted = stepped(lambda _, state: [pace * (ends_at - state[0])], [cooled], 120.0)[0]

    found = heater_rise((spells(59.0, 120.0, 2, 60.0),), NOW, HEAT)

    assert wanted == pytest.approx(found.worst, rel=1e-6)


def test_heater_once() -> None:
    """A pack behind a part that lies on a mat once is as warm as one hold makes it."""
    once = behind_heater(MAT, Seconds(300.0), HEAT)

    found = heater_rise((spells(59.0, 300.0),), NOW, HEAT)

    assert (once.low, once.central, once.high) == pytest.approx(
        (found.low + ROOM, found.central + ROOM, found.high + ROOM)
    )


# The fin's equation k delta T'' = 2 h T on 0.4 m, cut into 4,000 pieces (finite differences).
@pytest.mark.outside
def test_along_a_heater() -> None:
    """Beside a wide heater the board falls off as a fin does that was cut into pieces."""
    count, piece = 4000, 1e-4
    across, loss = 20.0 * 0.8e-3 / piece**2, 2 * 10.0
    bands = np.zeros((3, count))
    bands[0, 1:], bands[1], bands[2, :-1] = -across, 2 * across + loss, -across
    bands[1, -1] = across + loss
    load = np.zeros(count)
    load[0] = across * 54.0
    fin = solve_banded((1, 1), bands, load)

    found = along_heater_rise(Kelvins(54.0), Metres(0.04), None, HEAT)

    assert float(fin[399]) == pytest.approx(found.central, rel=1e-3)
    assert found.low < found.central < found.high < 54
