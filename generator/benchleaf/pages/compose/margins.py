"""How far what is reached stays below a limit: the same numbers as the facts have, in the shop's units."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from benchleaf.units.dimensions import spellings
from benchleaf.units.show import digits

if TYPE_CHECKING:
    from collections.abc import Callable

    from benchleaf.derive.number import Number

_BASE = "°C"


def temperature(value: float, unit: str, to: Callable[[float], int]) -> str:
    """Return a temperature, given in °C, in whole degrees of *unit*, rounded by *to*."""
    wanted = spellings("temperature").get(unit) or spellings("temperature")[_BASE]
    return f"{_whole(wanted.from_base(value), to)} {wanted.symbol}"


def kelvins(limit: Number, reached: Number, unit: str) -> str:
    """Return how far *reached*, at its bad end, is from *limit*: rounded down where below it, up where above."""
    wanted = spellings("temperature").get(unit) or spellings("temperature")[_BASE]
    apart = (limit.low - reached.high) / wanted.factor
    return _apart(apart, "°F" if wanted.symbol == "°F" else "K", _whole)


def seconds(limit: Number, reached: Number) -> str:
    """Return how far a time, at its long end, is from the longest that is borne."""
    return _apart(limit.low - reached.high, "s", lambda value, to: digits(value, 2, to))


def torque(number: Number, unit: str) -> str:
    """Return the most that is recommended, in *unit*, rounded down."""
    known = spellings("torque")
    wanted = known.get(unit) or known[number.unit]
    return f"{digits(wanted.from_base(known[number.unit].to_base(number.value)), 3, math.floor)} {wanted.symbol}"


def _apart(apart: float, unit: str, shown: Callable[[float, Callable[[float], int]], str]) -> str:
    if apart < 0:
        return f"{shown(-apart, math.ceil)} {unit} above"
    return f"{shown(apart, math.floor)} {unit} below"


def _whole(value: float, to: Callable[[float], int]) -> str:
    # A difference of written numbers must not move by the error of its conversion.
    return str(round(value) if math.isclose(value, round(value), rel_tol=1e-9, abs_tol=1e-9) else to(value))
