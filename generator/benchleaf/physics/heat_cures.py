"""
What would keep a neighbour below its limit: a distance, a setting, fewer touches, shorter ones, longer pauses.

Each answer is rounded to the safe side and then holds for the worst end of `heat.neighbour_rise`; None where none does.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from benchleaf.physics.heat import neighbour_rise, stays_below
from benchleaf.physics.rounding import down, up
from benchleaf.physics.types import Celsius, Kelvins, Metres, OutOfRange, Seconds

if TYPE_CHECKING:
    from collections.abc import Callable

    from benchleaf.physics.constants import Heat
    from benchleaf.physics.heat import Board, Heated
    from benchleaf.physics.repeats import Touches

_FARTHEST = 400
"""mm: beyond a board of ours; a bench has no longer one."""
_LONGEST_PAUSE = 600
"""s: who must wait longer between two touches is told to stop and let it cool."""


def least_distance(limit: Kelvins, place: Heated, board: Board, constants: Heat) -> Metres | None:
    """
    Return the distance, whole millimetres rounded up, from which on a neighbour of *place* stays below *limit*.

    None where no distance is enough: on a small board not even the farthest corner.
    """
    _must_be_real(limit)

    def safe(millimetres: int) -> bool:
        return stays_below(limit, (replace(place, distance=Metres(millimetres / 1000)),), board, constants)

    return Metres(_first(1, _FARTHEST, safe) / 1000) if safe(_FARTHEST) else None


def highest_source(limit: Kelvins, places: tuple[Heated, ...], room: Celsius, board: Board, constants: Heat) -> Celsius:
    """
    Return the highest temperature of the hottest source that keeps the neighbour below *limit*; whole °C, down.

    All sources are taken back by one share: the rise of the neighbour is proportional to theirs.
    """
    _must_be_real(limit)
    share = min(1.0, limit / neighbour_rise(places, board, constants).worst)
    hottest = max(touch.rise for place in places for touch in place.touches)
    return Celsius(down(room + hottest * share))


def most_touches(limit: Kelvins, place: Heated, board: Board, constants: Heat) -> int | None:
    """Return how many touches of the one kind on *place* may follow each other; None where one is too many."""
    return _last(_only(place).times, lambda times: _safe(limit, place, board, constants, times=times))


def longest_touch(limit: Kelvins, place: Heated, board: Board, constants: Heat) -> Seconds | None:
    """Return how long each touch on *place* may last, whole seconds down; None where one second is too long."""
    most = int(_only(place).on)
    found = _last(most, lambda on: _safe(limit, place, board, constants, on=Seconds(float(on))))
    return None if found is None else Seconds(float(found))


def shortest_pause(limit: Kelvins, place: Heated, board: Board, constants: Heat) -> Seconds | None:
    """Return the pause between the touches on *place*, whole seconds up; None where ten minutes do not help."""
    least = int(up(_only(place).pause))

    def safe(pause: int) -> bool:
        return _safe(limit, place, board, constants, pause=Seconds(float(pause)))

    if not safe(_LONGEST_PAUSE):
        return None
    return Seconds(float(_first(least, _LONGEST_PAUSE, safe)))


def _safe(limit: Kelvins, place: Heated, board: Board, constants: Heat, **change: float) -> bool:
    changed: Touches = replace(_only(place), **change)  # type: ignore[arg-type]  # each field is named by its caller
    return stays_below(limit, (replace(place, touches=(changed,)),), board, constants)


def _only(place: Heated) -> Touches:
    if len(place.touches) != 1:
        raise OutOfRange("the list of touches", f"{len(place.touches)} kinds", "one kind", "a cure changes one step")
    return place.touches[0]


def _must_be_real(limit: Kelvins) -> None:
    if limit <= 0:
        raise OutOfRange(
            "the limit", f"{limit:g} K above the room", "more than 0 K", "the room itself is too warm for the neighbour"
        )


def _first(low: int, high: int, holds: Callable[[int], bool]) -> int:
    """Return the first whole number from *low* on at which *holds*, given that it holds at *high* and stays so."""
    while low < high:
        middle = (low + high) // 2
        if holds(middle):
            high = middle
        else:
            low = middle + 1
    return high


def _last(high: int, holds: Callable[[int], bool]) -> int | None:
    """Return the last whole number from 1 to *high* at which *holds*, or None; it holds from 1 up to there."""
    if high < 1 or not holds(1):
        return None
    low = 1
    while low < high:
        middle = (low + high + 1) // 2
        if holds(middle):
            low = middle
        else:
            high = middle - 1
    return low
