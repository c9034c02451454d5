"""Numbers that cure: rounded to the safe side, in a unit that people write."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from benchleaf.units.dimensions import spellings
from benchleaf.units.show import digits, time_at_least

if TYPE_CHECKING:
    from benchleaf.units.quantity import Quantity

__all__ = ["at_most", "percent", "ppm", "time_at_least"]


def at_most(value: float, written: Quantity, figures: int = 2) -> str:
    """Return an amount that is small enough, in the unit of *written*, rounded down."""
    return f"{digits(spellings(written.dimension)[written.unit].from_base(value), figures, math.floor)} {written.unit}"


def percent(share: float) -> str:
    """Return a share as a percentage with two figures, rounded up."""
    return f"{digits(share * 100, 2, math.ceil)} %"


def ppm(value: float) -> str:
    """Return a concentration with two figures, rounded up."""
    return f"{digits(value, 2, math.ceil)} ppm"
