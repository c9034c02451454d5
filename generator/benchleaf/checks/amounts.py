"""Numbers that cure: rounded to the safe side, in a unit that people write."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from benchleaf.units.dimensions import spellings
from benchleaf.units.show import digits

if TYPE_CHECKING:
    from benchleaf.units.quantity import Quantity

_TEN, _MINUTE, _HOUR = 10.0, 60.0, 3600.0
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


def at_most(value: float, written: Quantity, figures: int = 2) -> str:
    """Return an amount that is small enough, in the unit of *written*, rounded down."""
    return f"{digits(spellings(written.dimension)[written.unit].from_base(value), figures, math.floor)} {written.unit}"


def percent(share: float) -> str:
    """Return a share as a percentage with two figures, rounded up."""
    return f"{digits(share * 100, 2, math.ceil)} %"


def ppm(value: float) -> str:
    """Return a concentration with two figures, rounded up."""
    return f"{digits(value, 2, math.ceil)} ppm"
