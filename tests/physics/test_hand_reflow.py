"""What a hand's heating says of a reflow profile, against profiles run step by step."""

from __future__ import annotations

from dataclasses import replace

import pytest

from benchleaf.physics.constants import DEFAULT
from benchleaf.physics.hand_reflow import (
    Held,
    fall,
    longest_heating,
    mean_ramp,
    shortest_heating,
    time_above,
    warm_up,
)
from benchleaf.physics.types import Celsius, Metres, OutOfRange, Seconds

LIQUIDUS = Celsius(217.0)


def held(seconds: float = 100, times: int = 1, pause: float = 0, fastest: float = 3.0) -> Held:
    """Return a package that is brought from 21 to 240 °C."""
    return Held(
        Celsius(21.0), Celsius(240.0), Seconds(seconds), Seconds(seconds), times, Seconds(pause), fastest,
        Metres(0.8e-3),
    )  # fmt: skip


def run(ramp: float, hold: float, part: float, board: float) -> tuple[float, float]:
    """Return the time above 217 °C and the steepest rise of a profile that is run in steps of 10 ms: the oracle."""
    temperature, zone, over, steepest, t, step = 21.0, 21.0, 0.0, 0.0, 0.0, 0.01
    while t < hold or temperature > LIQUIDUS:
        before = temperature
        if t < hold:
            temperature = zone = min(240.0, temperature + ramp * step)
        else:
            temperature, zone = temperature + step * (zone - temperature) / part, zone - step * (zone - 21.0) / board
        steepest, t = max(steepest, (temperature - before) / step), t + step
        over += step if temperature > LIQUIDUS else 0.0
    return over, steepest


# Run step by step with the slow constants (part 40 s, 0.8 mm board 100 s).
@pytest.mark.outside
@pytest.mark.parametrize(("seconds", "ramp"), [(100, 3.0), (160, 3.0), (160, 2.2), (250, 1.5)])
def test_time_above_liquidus(seconds: float, ramp: float) -> None:
    """The bad end is the time of a profile that is run as fast as it may, and no slower one stays above for longer."""
    found = time_above(held(seconds), LIQUIDUS, DEFAULT)
    fastest, _ = run(3.0, seconds, 40.0, 100.0)
    slower, _ = run(ramp, seconds, 40.0, 100.0)

    assert fastest == pytest.approx(found.worst, rel=0.005)
    assert slower <= found.worst * 1.005


# The central constants: part 20 s, board 80 s.
@pytest.mark.outside
def test_central_time_above_liquidus() -> None:
    """The central value is the time of a profile that cools at the central pace."""
    over, _ = run(3.0, 120, 20.0, 80.0)

    assert over == pytest.approx(time_above(held(120), LIQUIDUS, DEFAULT).central, rel=0.005)


@pytest.mark.outside
def test_mean_ramp() -> None:
    """However it is run, the steepest stretch is no gentler than the mean."""
    _, steepest = run(2.5, 100, 40.0, 100.0)

    assert mean_ramp(held(100)) == pytest.approx(2.19)
    assert mean_ramp(held(100)) <= steepest


# J-STD-020 (seen): 3 K/s at the most, so 73 s from 21 to 240 °C; checked by hand: 219 / 3.
@pytest.mark.outside
def test_shortest_heating() -> None:
    """No part that is rated for 3 K/s comes to 240 °C in less than 73 s, and in two heatings in half of that each."""
    assert Seconds(73.0) == shortest_heating(held(), 3.0)
    assert Seconds(31.5) == shortest_heating(held(times=2, pause=10), 3.0)
    assert 3.0 == pytest.approx(mean_ramp(held(73)))


@pytest.mark.parametrize("times", [1, 2, 5])
@pytest.mark.parametrize("pause", [0, 5, 30, 60, 300])
@pytest.mark.parametrize("most", [60, 150, 400])
def test_longest_heating_is_the_longest(times: int, pause: float, most: float) -> None:
    """The heating that is named stays within the limit, and one that is 1 % longer does not."""
    start = held(100, times, pause)
    longest = longest_heating(start, LIQUIDUS, Seconds(most), DEFAULT)
    above = [
        time_above(replace(start, longest=Seconds(longest * factor)), LIQUIDUS, DEFAULT).worst for factor in (1, 1.01)
    ]

    assert not longest or above[0] <= most + 1e-6 < above[1]


def test_pause_that_parts_two_passes() -> None:
    """After a pause in which the part comes down to the liquidus the next pass begins anew, and begins warm."""
    down = fall(held(), LIQUIDUS, DEFAULT).worst
    apart, together = held(60, 2, down + 1), held(60, 2, down - 1)

    assert time_above(apart, LIQUIDUS, DEFAULT).worst == pytest.approx(60 + down)
    assert time_above(together, LIQUIDUS, DEFAULT).worst == pytest.approx(120 + down - 1 - 196 / 3 + down)


def test_below_the_level() -> None:
    """What does not come to a temperature is above it for no time."""
    assert 0 == time_above(held(1000), Celsius(245.0), DEFAULT).worst
    assert 196 / 3 == warm_up(held(), LIQUIDUS)


def test_nothing_is_heated() -> None:
    """A part that reaches no more than the room is refused, and so is a ramp of nothing."""
    with pytest.raises(OutOfRange, match="no warmer than the room"):
        replace(held(), reaches=Celsius(20.0))
    with pytest.raises(OutOfRange, match="never gets there"):
        replace(held(), fastest=0.0)
