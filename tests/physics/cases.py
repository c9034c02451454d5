"""Cases that several tests share, with everything filled in that they are not about."""

from __future__ import annotations

import math

from benchleaf.library.substances import SUBSTANCES
from benchleaf.physics.constants import DEFAULT
from benchleaf.physics.drying import Air
from benchleaf.physics.heat import Board, Heated, Tool
from benchleaf.physics.repeats import Touches
from benchleaf.physics.types import (
    Celsius,
    CubicMetres,
    Fraction,
    Kelvins,
    Metres,
    MetresPerSecond,
    PerSecond,
    Seconds,
)
from benchleaf.physics.vapour import Room

ROOM = Celsius(21.0)
BOARD = Board(Metres(0.8e-3))
HEAT, COOLING, DRYING = DEFAULT.heat, DEFAULT.cooling, DEFAULT.drying
VAPOUR, TORQUE = DEFAULT.vapour, DEFAULT.torque
ISOPROPANOL, ETHANOL, WATER = (SUBSTANCES[name] for name in ("isopropanol", "ethanol", "deionised-water"))


def iron(distance: float, times: int = 9, on: float = 3.0, pause: float = 4.0) -> Heated:
    """Return a joint touched with an iron at 350 °C in a room of 21 °C, *distance* mm away."""
    touches = Touches(Kelvins(329.0), Metres(1e-3), Seconds(on), times, Seconds(pause))
    return Heated(Metres(distance / 1e3), (touches,), Tool.IRON)


def hot_air(distance: float, seconds: float = 60.0) -> Heated:
    """Return a part brought to 245 °C under a nozzle of 8 mm, *distance* mm away."""
    touches = Touches(Kelvins(224.0), Metres(4e-3), Seconds(seconds))
    return Heated(Metres(distance / 1e3), (touches,))


def sized(area: float, thickness: float = 0.8) -> Board:
    """Return a square board of an area in cm²."""
    side = Metres(math.sqrt(area * 1e-4))
    return Board(Metres(thickness / 1e3), (side, side))


def air(temperature: float = 21.0, speed: float = 0.1, humidity: float = 0.5) -> Air:
    """Return air over a part."""
    return Air(Celsius(temperature), MetresPerSecond(speed), Fraction(humidity))


def room(volume: float = 45.0, changes: float = 3.0, temperature: float = 20.0) -> Room:
    """Return a room, its air changed so many times an hour."""
    return Room(CubicMetres(volume), PerSecond(changes / 3600), Celsius(temperature))


def millilitres(volume: float) -> CubicMetres:
    """Return a volume given in mL."""
    return CubicMetres(volume * 1e-6)
