"""
How hot a neighbour gets on the board while something beside it is heated. Bad end of every estimate here: high.

Formula and its error: `repeats` and `plate`. Against a board heated on one face only, and with a tool that does not
touch perfectly, all of it lies on the safe side. A small board does not: its edge gives heat back, so where the
board's size is known the bound is raised by what finite volumes show (`rim_factor`); where it is not, it is not,
and the method says so. A battery beside the board takes the heat of its rim as slowly as it warms itself.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from enum import StrEnum

from benchleaf.physics import plate as board_heat
from benchleaf.physics.constants import Heat, method
from benchleaf.physics.plate import Plate
from benchleaf.physics.repeats import Source, Touches, cheap_bound, highest, left_after, lowest_peak
from benchleaf.physics.types import Celsius, Estimate, Kelvins, Metres, Seconds, SquareMetres, above


class Tool(StrEnum):
    """What heats: a tip that is set down, or a stream that covers a part."""

    IRON = "iron"
    HOT_AIR = "hot-air"


@dataclass(frozen=True, slots=True)
class Board:
    """What is known of the board: None where it is not."""

    thickness: Metres | None = None
    area: SquareMetres | None = None


@dataclass(frozen=True, slots=True)
class Heated:
    """
    A part that is heated, `distance` from the edge of the neighbour: every heating step on it, in one list.

    `at_edge` says that the part lies on the board's rim, as sockets do; not knowing, leave it false. `pack` says that
    the neighbour is a battery that is no part of the board.
    """

    distance: Metres
    touches: tuple[Touches, ...]
    tool: Tool = Tool.HOT_AIR
    at_edge: bool = False
    pack: bool = False


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


# Up to here the two steps hold that were found on boards of this radius or more, m, within this tool time, s.
_LARGE = 0.055
_SHORT = {Tool.IRON: 30.0, Tool.HOT_AIR: 60.0}
# After such a break, s, a board has lost nearly all of its heat, and what follows begins anew.
_BREAK = 300.0


def rim_factor(heated: Heated, board: Board) -> float:
    """
    Return what the rim of a small board adds to the bound.

    The board is a disc of its area with the part in the middle, R = sqrt(A/pi), or half a disc with the part on its
    straight edge, R = sqrt(2 A/pi). From finite volumes with an insulated rim at R against the bound: r/R from 0.8 2.6;
    from 0.6 for an iron, 0.4 for hot air, 1.5. That is for up to 30 s of an iron or 60 s of hot air and R of 55 mm or
    more; a longer or smaller one gives back more: from 0.6 2.6, from 0.4 2, from 0.3 1.5.

    A battery that is no part of the board and lies against its rim takes heat as it comes and stores it: within the
    same time and size, up to r/R 0.8, it stays below the bound without any rim (finite volumes with a layer of
    1e4 J/m²K at a contact of 10 to 100 W/m²K beyond r: at most 0.8 of the bound).
    """
    if board.area is None:
        return 1.0
    above("the area of the board", board.area, 0, "m²", "a part sits on a board")
    radius = math.sqrt((2 if heated.at_edge else 1) * board.area / math.pi)
    share = (heated.distance + max(touch.radius for touch in heated.touches)) / radius
    steps: tuple[tuple[float, float], ...]
    if radius < _LARGE or _longest(heated.touches) > _SHORT[heated.tool]:
        steps = ((0.6, 2.6), (0.4, 2.0), (0.3, 1.5))
    elif heated.pack:
        steps = ((0.8, 2.6),)
    else:
        steps = ((0.8, 2.6), (0.6 if heated.tool is Tool.IRON else 0.4, 1.5))
    # Where the share is just that, finite volumes already show more than the bound (hot air, 24 mm of 60).
    return next((factor for beyond, factor in steps if share > beyond - 1e-9), 1.0)


def _longest(touches: tuple[Touches, ...]) -> float:
    """Return the longest time that the tool is on the part, s, of what no long break parts."""
    longest = total = 0.0
    end = -math.inf
    for touch in sorted(touches, key=lambda touch: touch.start):
        total = (total if touch.start - end < _BREAK else 0.0) + touch.on * touch.times
        end = max(end, touch.end)
        longest = max(longest, total)
    return longest


def _sources(places: tuple[Heated, ...], board: Board) -> tuple[Source, ...]:
    return tuple(Source(place.distance, place.touches, rim_factor(place, board)) for place in places)


def neighbour_rise(places: tuple[Heated, ...], board: Board, constants: Heat) -> Estimate:
    """
    Return how far a neighbour rises above the room, K, at its hottest moment, also after the tools have left.

    central = sqrt(lower bound x upper bound) with the central constants; high = the upper bound with the bad ones;
    low = the lower bound with the kind ones. 5 to 60 ms the first time, nothing when asked again. Start from the
    room, or from the warmest thing that is said to be near: what earlier steps left is in the sum.
    """
    ends, sources = _plates(board, constants), _sources(places, board)
    high = highest(ends.worst, sources)
    upper = highest(ends.central, sources)
    central = min(high, math.sqrt(min(lowest_peak(ends.central, sources), upper) * upper))
    how = "held spot on a thin board with losses, touches summed between two bounds"
    if board.area is None:
        how += "; the board's size is not known, its edge is left out"
    elif any(rim_factor(place, board) != rim_factor(replace(place, pack=False), board) for place in places):
        how += "; the board's edge is left out, the battery stores what it gives back"
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
    return cheap_bound(_plates(board, constants).worst, _sources(places, board))


def worst_rise(places: tuple[Heated, ...], board: Board, constants: Heat) -> Kelvins:
    """Return the worst end of `neighbour_rise`, K, for a quarter of its time."""
    return highest(_plates(board, constants).worst, _sources(places, board))


def stays_below(limit: Kelvins, places: tuple[Heated, ...], board: Board, constants: Heat) -> bool:
    """Say whether the worst end of the neighbour's rise is at most *limit*; cheap where that is plain."""
    return rise_bound(places, board, constants) <= limit or worst_rise(places, board, constants) <= limit


def rise_left(places: tuple[Heated, ...], board: Board, t: Seconds, constants: Heat) -> Kelvins:
    """Return the worst end of what is left of a neighbour's rise at the moment *t* of the touches' own clock."""
    above("the time", t, 0, "s", "nothing has happened yet")
    return left_after(_plates(board, constants).worst, _sources(places, board), t)


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


def moved(places: tuple[Heated, ...], change: Metres) -> tuple[Heated, ...]:
    """Return *places* with the neighbour that much farther from each."""
    return tuple(replace(place, distance=Metres(place.distance + change)) for place in places)
