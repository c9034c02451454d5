"""
How fast things dry and cool on a shop's bench, remembered by what goes in.

Rules, states and facts all ask here, so that none of them can round or choose differently. None is the answer where no
formula holds: then nobody can say, and only an observation ends what is wet or hot.
"""

from __future__ import annotations

from enum import Enum
from functools import lru_cache
from typing import TYPE_CHECKING, NamedTuple

from benchleaf.library.substances import SUBSTANCES
from benchleaf.physics import cooling, drying, heat
from benchleaf.physics.repeats import Touches
from benchleaf.physics.types import (
    Celsius,
    CubicMetres,
    Estimate,
    Fraction,
    Kelvins,
    Metres,
    MetresPerSecond,
    OutOfRange,
    Seconds,
    SquareMetres,
)

if TYPE_CHECKING:
    from collections.abc import Callable

    from benchleaf.physics.constants import Constants


class Lies(Enum):
    """Where a hot part is: on its board, by itself, or in a device that is as warm as it."""

    ON_BOARD = "on its board"
    FREE = "by itself"
    IN_WARM_DEVICE = "in a warm device"


_FIND: dict[Lies, Callable[[cooling.Cooldown, Celsius, Constants], Estimate]] = {
    Lies.ON_BOARD: cooling.cool_time,
    Lies.FREE: cooling.free_cool_time,
    Lies.IN_WARM_DEVICE: cooling.device_cool_time,
}


class Wetted(NamedTuple):
    """What lies on a part: whether it is trapped there, or in a socket; its volume, m³, and area, m², where known."""

    substance: str
    trapped: bool
    socket: bool
    volume: float | None
    area: float | None


class Around(NamedTuple):
    """The air over a part: its temperature, °C, its speed, m/s, and how much water it holds, as a share."""

    temperature: float
    speed: float
    humidity: float


class Heating(NamedTuple):
    """
    How a part was heated: to what, in what room (°C), on how thick a board (m), by what touches (m, s).

    `lies` says what it gives its heat to: its board, the air alone, or the device that is warm throughout.
    """

    iron: bool
    lies: Lies
    source: float
    room: float
    thickness: float | None
    radius: float
    lasts: float
    times: int
    pause: float
    material: str | None


@lru_cache(maxsize=4096)
def drying_time(wetted: Wetted, around: Around, constants: Constants) -> Estimate | None:
    """Return how long what lies on a part takes to dry, s."""
    substance = SUBSTANCES[wetted.substance]
    try:
        air = drying.Air(Celsius(around.temperature), MetresPerSecond(around.speed), Fraction(around.humidity))
        if wetted.trapped:
            return drying.trapped_time(substance, air)
        film = drying.Film.SOCKET if wetted.socket else drying.Film.FLOODED
        poured = CubicMetres(wetted.volume if wetted.volume is not None else 1.0)
        patch = drying.Patch(poured, SquareMetres(wetted.area) if wetted.area is not None else None, film)
        return drying.drying_time(substance, patch, air, constants.drying)
    except OutOfRange:
        return None


@lru_cache(maxsize=4096)
def cooling_times(heating: Heating, constants: Constants) -> tuple[Estimate, Estimate] | None:
    """Return how long a part stays too hot to hand over, and too hot for a hand, s."""
    source, room = Celsius(heating.source), Celsius(heating.room)
    if source <= room:
        cool = Estimate(0.0, 0.0, 0.0, "s", "no hotter than the room", "nothing is to cool")
        return cool, cool
    board = heat.Board(Metres(heating.thickness) if heating.thickness is not None else None)
    try:
        zone = None
        if heating.iron:
            touches = Touches(
                Kelvins(source - room), Metres(heating.radius), Seconds(heating.lasts), heating.times,
                Seconds(heating.pause),
            )  # fmt: skip
            zone = heat.zone_rise((touches,), board, constants.heat, Metres(constants.cooling.zone_radius.central))
        case = cooling.Cooldown(source, room, zone, board.thickness)
        find = _FIND[heating.lies]
        cool = find(case, cooling.COOL, constants)
        return cool, find(case, cooling.hand_threshold(heating.material), constants)
    except OutOfRange:
        return None
