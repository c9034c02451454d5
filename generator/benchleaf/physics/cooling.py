"""
How long a hot part takes to be cool, and what counts as cool. Bad end: high, the longer wait.

A part gives its heat to the zone of board that it sits on, and the zone gives its own to the air:
rise(t) = D exp(-t/tp) + Z tb/(tb - tp) (exp(-t/tb) - exp(-t/tp)). Against finite volumes with a part on the board
the bad end is never short, and long by 10 to 45 %.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from benchleaf.library.solids import SOLIDS, THRESHOLDS, Grip, Touch
from benchleaf.physics.constants import Constant, Constants, method
from benchleaf.physics.rounding import up
from benchleaf.physics.types import (
    Celsius,
    Estimate,
    Kelvins,
    Kilograms,
    Metres,
    OutOfRange,
    Seconds,
    SquareMetres,
    above,
    within,
)

if TYPE_CHECKING:
    from collections.abc import Callable

WARMEST_ROOM = 40.0
"""°C: in a warmer room nothing becomes cool by waiting."""
_TEXTBOOK = "lumped cooling, heat transfer textbooks; checked against finite volumes"


@dataclass(frozen=True, slots=True)
class OnBoard:
    """A part on its board: D and Z, the rise of the part and of its zone at the start, and their time constants."""

    part: Kelvins
    zone: Kelvins
    part_time: Seconds
    zone_time: Seconds

    def __post_init__(self) -> None:
        """Refuse a zone that is hotter than the source, and what does not cool."""
        above("the rise of the part", self.part, 0, "K", "it is as cool as the room")
        within("the rise of its zone", self.zone, (0.0, self.part), "K", "the board is no hotter than what heated it")
        above("a time constant", min(self.part_time, self.zone_time), 0, "s", "cooling takes time")


def rise_after(start: OnBoard, t: Seconds) -> Kelvins:
    """Return the rise of the part after *t* (two coupled lumps, solved; equal to the equations solved by steps)."""
    within("the time", t, (0.0, math.inf), "s", "it is counted from when the tool leaves")
    p, b = start.part_time, start.zone_time
    own, boards = math.exp(-t / p), math.exp(-t / b)
    if math.isclose(p, b, rel_tol=1e-6):  # the formula's own limit there
        return Kelvins(start.part * own + start.zone * t / p * own)
    return Kelvins(start.part * own + start.zone * b / (b - p) * (boards - own))


def time_to(start: OnBoard, rise: Kelvins) -> Seconds:
    """Return when the part's rise has come down to *rise*; 0 where it is there already."""
    above("the rise to come down to", rise, 0, "K", "nothing gets as cool as the room in any time")
    return Seconds(_falls_to(lambda t: rise_after(start, Seconds(t)), rise))


def _falls_to(falls: Callable[[float], float], level: float) -> float:
    """Return, rounded up by less than a millionth, when a falling function reaches *level*."""
    if falls(0.0) <= level:
        return 0.0
    high = 1.0
    while falls(high) > level:
        high *= 2
    low = 0.0
    while high - low > 1e-7 * high:
        middle = (low + high) / 2
        low, high = (middle, high) if falls(middle) > level else (low, middle)
    return high


def zone_time(thickness: Metres, loss: float, capacity: float) -> Seconds:
    """Return the time constant of the board's zone, s: rho c delta/(2 h). It goes with the board's thickness."""
    return Seconds(capacity * thickness / (2 * loss))


@dataclass(frozen=True, slots=True)
class Cooldown:
    """
    A part that was heated on its board: to what, in what room, on how thick a board, with what air over it.

    `zone` is the rise of the board around it (`heat.zone_rise` for an iron); None where the whole board was at the
    temperature of the source, as under hot air, on a mat, in an oven.
    """

    source: Celsius
    room: Celsius
    zone: Estimate | None = None
    thickness: Metres | None = None
    moving_air: bool = False


def cool_time(case: Cooldown, threshold: Celsius, constants: Constants) -> Estimate:
    """Return how long the part takes to come down to *threshold*, s: bad end from the slow constants, kind end else."""
    _can_cool(case.room, threshold)
    if case.source <= threshold:
        return Estimate(0.0, 0.0, 0.0, "s", "cool from the start", _TEXTBOOK)
    low, central, high = (
        time_to(_start(case, constants, end), Kelvins(threshold - case.room)) for end in ("best", "central", "worst")
    )
    how = method("part on a zone of board, two lumps", constants.cooling, constants.heat)
    return Estimate(central, low, high, "s", how, _TEXTBOOK)


def left_after(case: Cooldown, t: Seconds, constants: Constants) -> Estimate:
    """Return the temperature of the part after *t*, °C. Bad end: high."""
    low, central, high = (
        case.room + rise_after(_start(case, constants, end), t) for end in ("best", "central", "worst")
    )
    how = method("part on a zone of board, two lumps", constants.cooling, constants.heat)
    return Estimate(central, low, high, "°C", how, _TEXTBOOK)


def _start(case: Cooldown, constants: Constants, end: str) -> OnBoard:
    def pick(constant: Constant) -> float:
        return {"best": constant.best, "central": constant.central, "worst": constant.worst}[end]

    heat = constants.heat
    rise = Kelvins(case.source - case.room)
    thickness = Metres(heat.thickness.central if case.thickness is None else case.thickness)
    within("the thickness of the board", thickness * 1e3, (0.05, 3.0), "mm", "a thicker one is not warm throughout")
    gain = constants.cooling.moving_air_gain.central if case.moving_air else 1.0
    # The capacity is the central one at each end: its range is narrow beside that of the loss.
    board = zone_time(thickness, pick(heat.face_loss) * gain, heat.heat_capacity.central)
    if case.zone is None:
        zone = rise
    else:
        zone = Kelvins(min(rise, {"best": case.zone.low, "central": case.zone.central, "worst": case.zone.high}[end]))
    return OnBoard(rise, zone, Seconds(pick(constants.cooling.part_time)), board)


def _can_cool(room: Celsius, threshold: Celsius) -> None:
    within("the room", room, (-20.0, WARMEST_ROOM), "°C", "in a warmer one nothing becomes cool by waiting")
    above("the threshold", threshold, room, "°C", "nothing gets cooler than the room")


@dataclass(frozen=True, slots=True)
class FreePart:
    """A part that has left its board: mass, heat capacity (J/kgK), surface, half thickness, conductivity (W/mK)."""

    mass: Kilograms
    heat_capacity: float
    surface: SquareMetres
    half_thickness: Metres
    conductivity: float


def biot(part: FreePart, loss: float) -> float:
    """Return the Biot number h L/k: below 0.1 a body cools as one (Çengel, Heat and Mass Transfer, ch. 4)."""
    return loss * part.half_thickness / part.conductivity


def free_time(part: FreePart, loss: float, constants: Constants) -> Seconds:
    """Return the time constant m c/(h A) of a part in air; refuses one that does not cool as one body."""
    most = constants.cooling.biot.central
    within("the Biot number", biot(part, loss), (0.0, most), "", "its inside stays hotter than its surface")
    return Seconds(part.mass * part.heat_capacity / (loss * part.surface))


def free_cool_time(case: Cooldown, threshold: Celsius, constants: Constants, part: FreePart | None = None) -> Estimate:
    """Return how long a part that has left takes to come down to *threshold*, s; without its mass, by practice."""
    pace = constants.cooling.free_time
    ends: tuple[float, float, float] = (pace.low, pace.central, pace.high)
    if part is not None:
        own = free_time(part, constants.cooling.free_loss.central, constants)
        ends = (own / 1.5, own, own)  # the loss taken is the low one, so the wait is the long one
    return _one_lump(case, threshold, constants, ends)


def device_cool_time(case: Cooldown, threshold: Celsius, constants: Constants) -> Estimate:
    """Return how long a whole device that is warm throughout takes to come down to *threshold*, s."""
    pace = constants.cooling.device_time
    return _one_lump(case, threshold, constants, (pace.low, pace.central, pace.high))


def _one_lump(case: Cooldown, threshold: Celsius, constants: Constants, ends: tuple[float, float, float]) -> Estimate:
    _can_cool(case.room, threshold)
    if case.source <= threshold:
        return Estimate(0.0, 0.0, 0.0, "s", "cool from the start", _TEXTBOOK)
    fold = math.log((case.source - case.room) / (threshold - case.room))
    low, central, high = (end * fold for end in ends)
    return Estimate(central, low, high, "s", method("one lump in still air", constants.cooling), _TEXTBOOK)


def touch_class(material: str | None) -> Touch:
    """Return what a material is to a finger; one that is not known counts as metal."""
    solid = SOLIDS.get(material or "")
    return Touch.METAL if solid is None else solid.touch


def hand_threshold(material: str | None) -> Celsius:
    """Return the temperature up to which a part may be handled, °C: the row for 10 s to 1 min, nobody times a grip."""
    return Celsius(THRESHOLDS[Grip.HANDLING][touch_class(material)].value)


def burn_threshold(material: str | None) -> Celsius:
    """Return the temperature above which a hand is burned within seconds, °C."""
    return Celsius(THRESHOLDS[Grip.SECONDS][touch_class(material)].value)


COOL = Celsius(THRESHOLDS[Grip.HOLDING][Touch.METAL].value)
"""°C: cool enough to hand over, to close in, to join a battery."""


def shortest_wait(estimate: Estimate) -> Seconds:
    """Return a wait that is long enough by *estimate*: its worst end, whole seconds up."""
    if not math.isfinite(estimate.worst):
        raise OutOfRange("the wait", "without end", "what becomes dry or cool", "no wait is long enough")
    return Seconds(up(estimate.worst))
