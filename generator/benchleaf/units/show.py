"""Numbers for people: in the unit that is wanted, rounded to the side that is safe."""

from __future__ import annotations

import math
import re
from typing import TYPE_CHECKING

from benchleaf.units.dimensions import CURRENCY, DIMENSIONS, spellings

if TYPE_CHECKING:
    from collections.abc import Callable

    from benchleaf.units.dimensions import Unit
    from benchleaf.units.quantity import Quantity, Torque

# Smaller parts of a unit than this mean nothing at a bench, and powers of ten beyond it nothing to a computer.
_FINEST = 12


def digits(value: float, figures: int, to: Callable[[float], int]) -> str:
    """Return *value* with *figures* significant figures, rounded by *to* (math.floor, math.ceil or round)."""
    if value == 0 or not math.isfinite(value):
        return "0" if value == 0 else str(value)
    places = min(figures - 1 - math.floor(math.log10(abs(value))), _FINEST)
    scaled = value * 10.0**places
    # A value that was written with few figures must not move by the error of its conversion.
    whole = round(scaled) if math.isclose(scaled, round(scaled), rel_tol=1e-9) else to(scaled)
    if places > 0:
        text = f"{whole / 10.0**places:.{places}f}"
        return text.rstrip("0").rstrip(".")
    return f"{whole * 10**-places}"


def torque(written: Torque, unit: str) -> tuple[str, str]:
    """
    Return *written* in the shop's *unit*, and the written form where it differs (else "").

    A torque is rounded down: a screw that is a little loose is found, one that has stripped its thread is not.
    """
    if unit not in spellings("torque") or spellings("torque")[unit].symbol == written.unit:
        return tidy(written.text), ""
    return _in_unit(written, spellings("torque")[unit]), f"written {tidy(written.text)}"


def temperature(written: Quantity, unit: str) -> str:
    """Return a temperature limit or setting in the shop's *unit*: rounded down, the written value stays beside it."""
    if unit not in spellings("temperature") or unit == written.unit:
        return tidy(written.text)
    return f"{_in_unit(written, spellings('temperature')[unit])} (written {tidy(written.text)})"


def _in_unit(written: Quantity, unit: Unit) -> str:
    """Return *written* in *unit* with three figures, rounded down; an open end keeps its sign."""
    ends = [digits(unit.from_base(end), 3, math.floor) for end in (written.low, written.high) if math.isfinite(end)]
    sign = ""
    if not math.isfinite(written.low):
        sign = "< " if written.strict else "≤ "
    elif not math.isfinite(written.high):
        sign = "> " if written.strict else "≥ "
    return f"{sign}{'–'.join(dict.fromkeys(ends))} {unit.symbol}"


_SYMBOLS = {
    name: unit.symbol
    for dimension in DIMENSIONS
    if dimension not in CURRENCY
    for name, unit in spellings(dimension).items()
}
_UNIT = re.compile(
    "(?<=[0-9]) ?("
    + "|".join(sorted(map(re.escape, _SYMBOLS), key=lambda name: (-len(name), name)))
    + r")(?![\w·./²³])"
)
_DASH = re.compile(r"(?<=[\w%²³]) ?- ?(?=[0-9.])")


def tidy(text: str) -> str:
    """Return a written quantity with the signs that print well: `5-10s` as `5–10 s`, `12 cN.m` as `12 cN·m`."""
    shown = text.replace("<=", "≤").replace(">=", "≥")
    shown = _UNIT.sub(lambda found: f" {_SYMBOLS[found[1]]}", shown)
    return _DASH.sub("–", shown)


_MINUTE = 60.0
_HOUR = 3600.0


def interval(low: float, high: float) -> str:
    """Return a stretch of time, in seconds, as people say it: the low end rounded down, the high end up."""
    low = max(low, 0.0)
    if math.isinf(high):
        size, unit = _scale(low)
        return f"{_whole(low, size, unit, math.floor)} {unit} or more"
    if high <= 0:
        return "0 min"
    size, unit = _scale(high)
    ends = [_whole(low, size, unit, math.floor), _whole(high, size, unit, math.ceil)]
    return f"{ends[0]} {unit}" if ends[0] == ends[1] else f"{ends[0]}–{ends[1]} {unit}"


def between(low: float, high: float) -> str:
    """
    Return the range of an estimate of a time, in seconds, to be put after `in`: the low end rounded down, the high up.

    Each end has its own unit where the low one would round to nothing.
    """
    low, high = shown_ends(low, high)
    if low <= 0:
        return f"{at_most(high)} at the most"
    return interval(low, high) if _scale(low) == _scale(high) else f"{at_most(low)} to {at_most(high)}"


def shown_ends(low: float, high: float) -> tuple[float, float]:
    """Return the ends of a time, in seconds, as they are shown: the low one rounded down, the high one up."""
    return _to_whole(low, math.floor), _to_whole(high, math.ceil)


def _to_whole(seconds: float, to: Callable[[float], int]) -> float:
    if not math.isfinite(seconds):
        return seconds
    size, unit = _scale(seconds)
    return float(_whole(seconds, size, unit, to)) * size


def at_most(seconds: float) -> str:
    """Return a time, in seconds, as people say it, rounded up."""
    size, unit = _scale(seconds)
    return f"{_whole(seconds, size, unit, math.ceil)} {unit}"


def _scale(seconds: float) -> tuple[float, str]:
    if seconds < 2 * _MINUTE:
        return 1.0, "s"
    return (_MINUTE, "min") if seconds < 3 * _HOUR else (_HOUR, "h")


def _whole(seconds: float, size: float, unit: str, to: Callable[[float], int]) -> str:
    # Half hours matter in a plan, half minutes do not. A sum of tenths must not move by its own error.
    figure = 2 if unit == "h" else 1
    scaled = seconds / size * figure
    whole = round(scaled) if math.isclose(scaled, round(scaled), rel_tol=1e-9) else to(scaled)
    return f"{whole / figure:g}"


def amount(value: float, dimension: str) -> str:
    """Return an amount, given in the base unit, in the unit of *dimension* that reads best; rounded up."""
    units = DIMENSIONS[dimension]
    best = units[0]
    if dimension == "volume" and value < 1e-8:
        best = spellings("volume")["µL"]
    if dimension == "mass" and value < 1e-5:
        best = spellings("mass")["mg"]
    return f"{digits(best.from_base(value), 3, math.ceil)} {best.symbol}"


_TEN = 10.0
# A sum of tenths must not move to the next minute by its own error.
_ERROR = 1e-6


def time_at_least(seconds: float) -> str:
    """Return a time that is long enough: whole tens of seconds, minutes or hours, rounded up."""
    size, unit = next(
        (size, unit) for size, unit, most in
        ((_TEN, "s", 2 * _MINUTE), (_MINUTE, "min", 3 * _HOUR), (_HOUR, "h", math.inf)) if seconds <= most
    )  # fmt: skip
    whole = max(1, math.ceil(seconds / size - _ERROR))
    return f"{whole * 10 if unit == 's' else whole} {unit}"
