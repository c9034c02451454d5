"""A quantity as it is typed, made larger, smaller, or given another unit."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable

_NUMBER = re.compile(r"\d+(?:\.\d+)?")
_UNIT = re.compile(r"[^\d\s≤≥<>±–.,-][^\s≤≥<>±]*$")


def unit_of(text: str) -> str:
    """Return the unit that *text* ends in, or ""."""
    found = _UNIT.search(text)
    return found[0] if found else ""


def each_number(text: str, change: Callable[[float], float]) -> str:
    """Return *text* with each of its numbers changed."""
    return _NUMBER.sub(lambda match: f"{change(float(match[0])):.6g}", text)


def times(text: str, factor: float) -> str:
    """Return the quantity *text*, *factor* times as large."""
    return each_number(text, lambda number: number * factor)


def plus(text: str, more: float) -> str:
    """Return the quantity *text* with *more* added to each end."""
    return each_number(text, lambda number: number + more)


def in_unit(text: str, unit: str) -> str:
    """Return *text* with its numbers as they are and *unit* after them."""
    return _UNIT.sub(unit, text)


def numbers_of(text: str) -> str:
    """Return what stands before the unit."""
    return _UNIT.sub("", text).rstrip()


_LARGER = {"mV": 1e-3, "kPa": 1e3, "mA": 1e-3, "kΩ": 1e3, "MΩ": 1e6}


def size(text: str) -> float:
    """Return the upper end of the quantity *text* in the base unit, to compare two readings of one kind."""
    number, unit = float(_NUMBER.findall(text)[-1]), unit_of(text)
    return (number - 32) / 1.8 if unit == "°F" else number * _LARGER.get(unit, 1.0)
