"""
How hot a neighbour gets on the board while something beside it is heated. Bad end of every estimate here: high.

Formula and its error: `repeats` and `plate`. Against a board heated on one face only, and with a tool that does not
touch perfectly, all of it lies on the safe side. A small board does not: its edge gives heat back, so where the
board's size is known its sides are mirrors (`rim`); where it is not, it has none, and the method says so. What lies
beside the board takes less than the board has there, and a battery stores it, but no less is said of either than a
board without sides would bring.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from enum import StrEnum

from benchleaf.physics import plate as board_heat
from benchleaf.physics.constants import Heat, method
from benchleaf.physics.plate import Plate
from benchleaf.physics.repeats import (
    Layer,
    Source,
    Touches,
    cheap_bound,
    highest,
    highest_behind,
    left_after,
    lowest_peak,
)
from benchleaf.physics.rim import Walls, walls
from benchleaf.physics.types import Celsius, Estimate, Kelvins, Metres, Seconds, above

_COARSE = 10
"""How many cells of time a rough bound takes together."""


class Tool(StrEnum):
    """What heats: a tip that is set down, or a stream that covers a part."""

    IRON = "iron"
    HOT_AIR = "hot-air"


@dataclass(frozen=True, slots=True)
class Board:
    """What is known of the board: None where it is not."""

    thickness: Metres | None = None
    size: tuple[Metres, Metres] | None = None


@dataclass(frozen=True, slots=True)
class Heated:
    """
    A part that is heated, `distance` from the edge of the neighbour: every heating step on it, in one list.

    `at_edge` says that the part lies on the board's rim, as sockets do; not knowing, leave it false. `beside` says that
    the neighbour is no part of the board, `pack` that it is a battery besides.
    """

    distance: Metres
    touches: tuple[Touches, ...]
    tool: Tool = Tool.HOT_AIR
    at_edge: bool = False
    pack: bool = False
    beside: bool = False


@dataclass(frozen=True, slots=True)
class _Ends:
    kind: Plate
    central: Plate
    worst: Plate


def _plates(board: Board, constants: Heat) -> _Ends:
    delta = Metres(constants.thickness.central if board.thickness is None else board.thickness)
    k, h, c = constants.conductivity, constants.face_loss, constants.heat_capacity
    return _Ends(
        Plate(k.best, c.best, h.best, delta),
        Plate(k.central, c.central, h.central, delta),
        Plate(k.worst, c.worst, h.worst, delta),
    )


def _walls(heated: Heated, board: Board) -> Walls | None:
    return None if board.size is None else walls(board.size, at_edge=heated.at_edge)


def _layer(constants: Heat) -> Layer:
    return Layer(constants.heater_contact.worst, constants.pack_back_loss.central, constants.pack_heat_capacity.central)


def _sources(places: tuple[Heated, ...], board: Board, constants: Heat) -> tuple[Source, ...]:
    """
    Return the places as sources on a board with its sides.

    What lies beside the board takes heat through a contact and loses it at its back: U/(U + h) of it, however long.
    """
    layer = _layer(constants)
    takes = layer.contact / (layer.contact + layer.back)
    return tuple(
        Source(
            place.distance,
            place.touches,
            _walls(place, board),
            takes if board.size is not None and (place.beside or place.pack) else 1.0,
        )
        for place in places
    )


def _endless(sources: tuple[Source, ...]) -> tuple[Source, ...]:
    return tuple(replace(source, mirrors=None, share=1.0) for source in sources)


def _highest(plate: Plate, places: tuple[Heated, ...], board: Board, constants: Heat, coarse: int = 1) -> Kelvins:
    """Return the upper bound, for what lies beside a board never less than a board without sides has."""
    sources = _sources(places, board, constants)
    if all(source.share == 1.0 for source in sources):
        return highest(plate, sources, coarse)
    if all(place.pack for place in places):
        found = highest_behind(
            plate, tuple(replace(source, share=1.0) for source in sources), _layer(constants), coarse
        )
    else:
        found = highest(plate, sources, coarse)
    return max(found, highest(plate, _endless(sources), coarse))


def neighbour_rise(places: tuple[Heated, ...], board: Board, constants: Heat) -> Estimate:
    """
    Return how far a neighbour rises above the room, K, at its hottest moment, also after the tools have left.

    central = sqrt(lower bound x upper bound) with the central constants, times what the sides of the board add to the
    upper bound (on rectangles within -3 and +21 % of finite differences); high = the upper bound with the bad ones;
    low = the lower bound with the kind ones. 5 to 60 ms the first time, with sides 0.3 s, nothing when asked again.
    Start from the room, or from the warmest thing that is said to be near: what earlier steps left is in the sum.
    """
    ends, sources = _plates(board, constants), _sources(places, board, constants)
    high = _highest(ends.worst, places, board, constants)
    upper = _highest(ends.central, places, board, constants)
    endless = highest(ends.central, _endless(sources))
    lower = min(lowest_peak(ends.central, sources), endless)
    central = min(high, upper * math.sqrt(lower / endless)) if endless > 0 else 0.0
    how = "held spot on a thin board with losses, touches summed between two bounds"
    if board.size is None:
        how += "; the board's size is not known, its edge is left out"
    elif all(place.pack for place in places):
        how += "; the battery stores what the board's edge gives back"
    return Estimate(
        central,
        min(central, lowest_peak(ends.kind, sources)),
        high,
        "K",
        method(how, constants),
        board_heat.SOURCE,
    )


def rise_bound(places: tuple[Heated, ...], board: Board, constants: Heat) -> Kelvins:
    """Return a bound on the worst end of `neighbour_rise` that costs a millisecond: every tool held for ever."""
    plate, sources = _plates(board, constants).worst, _sources(places, board, constants)
    return max(cheap_bound(plate, sources), cheap_bound(plate, _endless(sources)))


def worst_rise(places: tuple[Heated, ...], board: Board, constants: Heat) -> Kelvins:
    """Return the worst end of `neighbour_rise`, K, for a quarter of its time."""
    return _highest(_plates(board, constants).worst, places, board, constants)


def rough_rise(places: tuple[Heated, ...], board: Board, constants: Heat) -> Kelvins:
    """Return a bound on `worst_rise`, between it and `rise_bound`, for a tenth of its time."""
    return _highest(_plates(board, constants).worst, places, board, constants, _COARSE)


def stays_below(limit: Kelvins, places: tuple[Heated, ...], board: Board, constants: Heat) -> bool:
    """Say whether the worst end of the neighbour's rise is at most *limit*; cheap where that is plain."""
    bounds = (rise_bound, rough_rise, worst_rise)
    return any(bound(places, board, constants) <= limit for bound in bounds)


def rise_left(places: tuple[Heated, ...], board: Board, t: Seconds, constants: Heat) -> Kelvins:
    """Return the worst end of what is left of a neighbour's rise at the moment *t* of the touches' own clock."""
    above("the time", t, 0, "s", "nothing has happened yet")
    return left_after(_plates(board, constants).worst, _sources(places, board, constants), t)


def zone_rise(touches: tuple[Touches, ...], board: Board, constants: Heat, radius: Metres) -> Estimate:
    """
    Return how far the board within *radius* of an iron's joint has risen, K: what a part there cools on.

    `neighbour_rise` at that radius from the middle of the tip.
    """
    widest = max(touch.radius for touch in touches)
    place = Heated(Metres(radius - widest), touches, Tool.IRON)
    return neighbour_rise((place,), board, constants)


def hot_air_source(setting: Celsius, reaches: Celsius | None, constants: Heat) -> Celsius:
    """
    Return the temperature of a part under hot air: what it was measured to reach, else 250 °C or the setting.

    The lower of those two (common practice): a stream of 380 °C does not bring a part on a board to 380 °C.
    """
    return reaches if reaches is not None else Celsius(min(setting, constants.hot_air_source.worst))
