"""
What is known of the profile that a hand runs: the tool is on for so long, and the part was measured to reach so much.

The way there is not recorded. As fast as it may go and held at the top from then on is the longest that a part can stay
above a temperature; straight up is the gentlest that it can have come. Bad end: the longer time, the steeper way.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from benchleaf.physics.constants import Constants, method
from benchleaf.physics.cooling import Cooldown, cool_time
from benchleaf.physics.types import Celsius, Estimate, Metres, Seconds, above, within

_SOURCE = "arithmetic on J-STD-020's own limit of the ramp; lumped cooling"


@dataclass(frozen=True, slots=True)
class Held:
    """
    A part that a tool heats `times` times from `shortest` to `longest` s each, `pause` s apart, until it `reaches` °C.

    `fastest` is how fast it may warm at the most, K/s: as it was set, else the limit of the profile.
    """

    room: Celsius
    reaches: Celsius
    shortest: Seconds
    longest: Seconds
    times: int
    pause: Seconds
    fastest: float
    thickness: Metres | None = None

    def __post_init__(self) -> None:
        """Refuse what heats nothing."""
        above("what the part reaches", self.reaches, self.room, "°C", "it is no warmer than the room")
        within("the times", self.times, (1, math.inf), "", "it is heated at least once")
        above("the ramp", self.fastest, 0, "K/s", "it never gets there")


def mean_ramp(held: Held) -> float:
    """Return the least that the steepest stretch can have been, K/s: straight up, in the shortest time (mean value)."""
    total = held.times * held.shortest + (held.times - 1) * held.pause
    return math.inf if total <= 0 else (held.reaches - held.room) / total


def shortest_heating(held: Held, most: float) -> Seconds:
    """Return how long each heating lasts at the least if the part warms no faster than *most*, K/s."""
    above("the ramp", most, 0, "K/s", "it never gets there")
    total = (held.reaches - held.room) / most
    return Seconds(max(0.0, (total - (held.times - 1) * held.pause) / held.times))


def warm_up(held: Held, level: Celsius) -> Seconds:
    """Return how long the part takes to come to *level* at the least."""
    return Seconds(max(0.0, level - held.room) / held.fastest)


def fall(held: Held, level: Celsius, constants: Constants) -> Estimate:
    """Return how long the part takes to come down to *level* when the tool has left, s, on its board."""
    return cool_time(Cooldown(held.reaches, held.room, None, held.thickness), level, constants)


def time_above(held: Held, level: Celsius, constants: Constants) -> Estimate:
    """
    Return for how long the part may stay above *level* in one pass, s.

    Pauses in which it comes down to *level* part one pass from the next; the next one begins warm.
    """
    down = fall(held, level, constants)
    low, central, high = (_above(held, level, Seconds(end)) for end in (down.low, down.central, down.high))
    how = method(
        "heated as fast as allowed, then held; falls as a part on its board", constants.cooling, constants.heat
    )
    return Estimate(central, min(low, central), max(high, central), "s", how, _SOURCE)


def _above(held: Held, level: Celsius, down: Seconds) -> float:
    if held.reaches <= level:
        return 0.0
    warm = warm_up(held, level)
    if held.times == 1:
        return max(0.0, held.longest - warm) + down
    if held.pause >= down:
        return held.longest + down
    return max(0.0, held.times * held.longest + (held.times - 1) * held.pause - warm) + down


def longest_heating(held: Held, level: Celsius, most: Seconds, constants: Constants) -> Seconds:
    """Return how long each heating may last so that `time_above` *level* is at most *most*, s; 0 where none may."""
    down = Seconds(fall(held, level, constants).worst)
    if held.times == 1:
        return Seconds(max(0.0, most - down + warm_up(held, level)) if most >= down else 0.0)
    if held.pause >= down:
        return Seconds(max(0.0, most - down))
    rest = most - down + warm_up(held, level) - (held.times - 1) * held.pause
    return Seconds(max(0.0, rest / held.times) if most >= down else 0.0)
