"""A number as facts give it: with its unit, its range, how it came about and from what."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from benchleaf.units.dimensions import spellings

if TYPE_CHECKING:
    from benchleaf.library.value import Value
    from benchleaf.physics.types import Estimate
    from benchleaf.units.dimensions import Unit
    from benchleaf.units.quantity import Quantity

GIVEN = "given"
# The usual unit of a dimension is the first that the format knows, but for these.
_USUAL = {"area": "cm²"}
_PERCENT = "%"


@dataclass(frozen=True, slots=True)
class Number:
    """
    A number in the unit that its dimension is usually read in.

    What an author wrote has the `method` given, and the file as its `source`; a single value has no range. An end that
    is open is infinite.
    """

    value: float
    unit: str
    low: float
    high: float
    method: str
    source: str


def given(quantity: Quantity, source: str) -> Number:
    """Return a *quantity* that is written in the file *source*."""
    usual = _usual(quantity.dimension)
    if usual is None:  # Money stays in its currency.
        return Number(quantity.middle, quantity.unit, quantity.low, quantity.high, GIVEN, source)
    value, low, high = (usual.from_base(end) for end in (quantity.middle, quantity.low, quantity.high))
    return Number(value, usual.symbol, low, high, GIVEN, source)


def estimated(estimate: Estimate, dimension: str = "") -> Number:
    """Return an *estimate*; one in the base unit of *dimension* in the usual one."""
    usual = _usual(dimension) if dimension else None
    value, low, high = (
        usual.from_base(end) if usual else end for end in (estimate.central, estimate.low, estimate.high)
    )
    return Number(value, usual.symbol if usual else estimate.unit, low, high, estimate.method, estimate.source)


def _usual(dimension: str) -> Unit | None:
    known = spellings(dimension)
    return known[_USUAL[dimension]] if dimension in _USUAL else next(iter(known.values()), None)


def share(estimate: Estimate, of: float, method: str) -> Number:
    """Return *estimate* as a share of *of*, in percent."""
    value, low, high = (100 * end / of for end in (estimate.central, estimate.low, estimate.high))
    return Number(value, _PERCENT, low, high, f"{estimate.method}; {method}", estimate.source)


def percent(value: float, method: str, source: str) -> Number:
    """Return a single share, in percent."""
    return Number(100 * value, _PERCENT, 100 * value, 100 * value, method, source)


def published(value: Value) -> Number:
    """Return a limit as it was published."""
    return Number(value.value, value.unit, value.value, value.value, "published limit", value.source)


def between(low: float, high: float, unit: str, method: str, source: str) -> Number:
    """Return an interval with its midpoint; its other end where one is open."""
    middle = low if math.isinf(high) else high if math.isinf(low) else (low + high) / 2
    return Number(middle, unit, low, high, method, source)


def scaled(number: Number, by: float) -> Number:
    """Return *number*, of which a share *by* is left."""
    return Number(number.value * by, number.unit, number.low * by, number.high * by, number.method, number.source)
