"""
The Beta distribution without a library: what share lies below a value, and which value a share lies below.

The regularised incomplete beta function by its continued fraction (DLMF 8.17.22, by Lentz's method), its inverse by
halving the interval. Range: a and b from 0.5 to 10⁶. Error: 10⁻¹⁰, checked against scipy in the tests.
"""

from __future__ import annotations

import math

_TINY = 1e-300
_CLOSE = 1e-15
_TERMS = 10_000
_HALVINGS = 60


def below(x: float, a: float, b: float) -> float:
    """Return how much of Beta(*a*, *b*) lies below *x*."""
    if x <= 0:
        return 0.0
    if x >= 1:
        return 1.0
    # The fraction closes quickly on this side of the middle alone.
    if x > (a + 1) / (a + b + 2):
        return 1 - below(1 - x, b, a)
    front = math.lgamma(a + b) - math.lgamma(a) - math.lgamma(b) + a * math.log(x) + b * math.log1p(-x)
    return math.exp(front) / (a * _fraction(x, a, b))


def quantile(share: float, a: float, b: float) -> float:
    """Return the value that *share* of Beta(*a*, *b*) lies below."""
    low, high = 0.0, 1.0
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        low, high = (middle, high) if below(middle, a, b) < share else (low, middle)
    return (low + high) / 2


def _fraction(x: float, a: float, b: float) -> float:
    """Return 1 + d1 / (1 + d2 / (1 + ...)) with the terms of DLMF 8.17.23."""
    value, upper, lower = 1.0, 1.0, 0.0
    for number in range(1, _TERMS):
        term = _term(number, x, a, b)
        lower = 1 / _nonzero(1 + term * lower)
        upper = _nonzero(1 + term / upper)
        value *= upper * lower
        if abs(upper * lower - 1) < _CLOSE:
            break
    return value


def _term(number: int, x: float, a: float, b: float) -> float:
    m, odd = divmod(number, 2)
    if odd:
        return -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1))
    return m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m))


def _nonzero(value: float) -> float:
    return value if abs(value) > _TINY else _TINY
