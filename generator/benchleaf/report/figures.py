"""Numbers as a line of text: central with the range, rounded so that the range never gets narrower."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from benchleaf.units import show

if TYPE_CHECKING:
    from collections.abc import Callable

    from benchleaf.derive.number import Number

_MANY = 100  # A number from here on has its third figure.
_UNITS = ((3 * 3600.0, 3600.0, "h"), (120.0, 60.0, "min"))


def interval(time: Number) -> str:
    """Return an interval of time, the low end rounded down and the high end up."""
    return show.interval(time.low, time.high)


def limit(number: Number) -> str:
    """Return a limit, rounded down: what is written must be safe to work by."""
    return shown(number, math.floor)


def shown(number: Number, to: Callable[[float], int] = round) -> str:
    """
    Return *number* with its range in brackets: `28 °C (24–36)`; `≤ 70 %` where an end is open.

    The number itself is rounded by *to*; its range only ever gets wider.
    """
    scale, unit = _scale(number)
    value, low, high = (end / scale for end in (number.value, number.low, number.high))
    if low == high:
        return f"{show.digits(value, 4, to)} {unit}"
    if not math.isfinite(low):
        return f"≤ {show.digits(high, 4, math.floor)} {unit}"
    if not math.isfinite(high):
        return f"≥ {show.digits(low, 4, math.ceil)} {unit}"
    figures = 3 if max(abs(low), abs(high)) >= _MANY else 2
    ends = f"{show.digits(low, figures, math.floor)}–{show.digits(high, figures, math.ceil)}"
    return f"{show.digits(value, figures, to)} {unit} ({ends})"


def _scale(number: Number) -> tuple[float, str]:
    """Return how a time reads best: in hours from three on, in minutes from two on."""
    if number.unit == "s":
        longest = number.high if math.isfinite(number.high) else number.low
        for from_on, size, unit in _UNITS:
            if longest >= from_on:
                return size, unit
    return 1.0, number.unit
