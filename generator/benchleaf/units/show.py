"""Numbers for people: in the unit that is wanted, rounded to the side that is safe."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from benchleaf.units.dimensions import DIMENSIONS, spellings

if TYPE_CHECKING:
    from collections.abc import Callable

    from benchleaf.units.quantity import Quantity, Torque


def digits(value: float, figures: int, to: Callable[[float], int]) -> str:
    """Return *value* with *figures* significant figures, rounded by *to* (math.floor, math.ceil or round)."""
    if value == 0 or not math.isfinite(value):
        return "0" if value == 0 else str(value)
    places = figures - 1 - math.floor(math.log10(abs(value)))
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
    symbol = spellings("torque")[unit]
    low, high = (digits(symbol.from_base(end), 3, math.floor) for end in (written.low, written.high))
    return f"{low if low == high else f'{low}–{high}'} {symbol.symbol}", f"written {tidy(written.text)}"


def temperature(written: Quantity, unit: str) -> str:
    """Return a temperature limit or setting in the shop's *unit*: rounded down, the written value stays beside it."""
    if unit not in spellings("temperature") or unit == written.unit:
        return tidy(written.text)
    symbol = spellings("temperature")[unit]
    ends = [digits(symbol.from_base(end), 3, math.floor) for end in (written.low, written.high) if math.isfinite(end)]
    shown = "–".join(dict.fromkeys(ends))
    return f"{shown} {symbol.symbol} (written {tidy(written.text)})"


def tidy(text: str) -> str:
    """Return the written form with the signs that print well: `5-10 s` as `5–10 s`, `12 cN.m` as `12 cN·m`."""
    shown = text.replace("<=", "≤").replace(">=", "≥").replace("kohm", "kΩ").replace("Mohm", "MΩ").replace("ohm", "Ω")
    for before, after in (("N.m", "N·m"), ("N.cm", "N·cm"), ("f.cm", "f·cm"), ("f.in", "f·in"), ("cm2", "cm²"),
                          ("mm2", "mm²"), ("cm3", "cm³"), ("m3", "m³"), ("uL", "µL"), ("um", "µm")):  # fmt: skip
        shown = shown.replace(before, after)
    for unit in ("cN", "mN", "N"):
        if shown.endswith(f" {unit}m"):
            shown = shown[: -len(f"{unit}m")] + f"{unit}·m"
    left, dash, right = shown.partition("-")
    return f"{left}–{right}" if dash and left.strip()[-1:].isdigit() and right.strip()[:1].isdigit() else shown


_MINUTE = 60.0
_HOUR = 3600.0


def interval(low: float, high: float) -> str:
    """Return a stretch of time, in seconds, as people say it: the low end rounded down, the high end up."""
    if high <= 0:
        return "0 min"
    if high < 2 * _MINUTE:
        size, unit = 1.0, "s"
    elif high < 3 * _HOUR:
        size, unit = _MINUTE, "min"
    else:
        size, unit = _HOUR, "h"
    # Half hours matter in a plan, half minutes do not.
    figure = 2 if unit == "h" else 1
    ends = [math.floor(low / size * figure) / figure, math.ceil(high / size * figure - 1e-9) / figure]
    shown = [f"{end:g}" for end in ends]
    return f"{shown[0]} {unit}" if shown[0] == shown[1] else f"{shown[0]}–{shown[1]} {unit}"


def amount(value: float, dimension: str) -> str:
    """Return an amount, given in the base unit, in the unit of *dimension* that reads best; rounded up."""
    units = DIMENSIONS[dimension]
    best = units[0]
    if dimension == "volume" and value < 1e-8:
        best = spellings("volume")["µL"]
    if dimension == "mass" and value < 1e-5:
        best = spellings("mass")["mg"]
    return f"{digits(best.from_base(value), 3, math.ceil)} {best.symbol}"
