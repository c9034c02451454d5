"""Modified Bessel functions K0 and K1 without their exponential, and the way back from a Laplace transform."""

from __future__ import annotations

import math
from fractions import Fraction
from functools import lru_cache
from typing import TYPE_CHECKING

from benchleaf.physics.types import above

if TYPE_CHECKING:
    from collections.abc import Callable


def _nodes(x: float) -> list[tuple[float, float]]:
    """
    Return cosh u and the weighted integrand exp(-x (cosh u - 1)) at the trapezoid's points.

    The step 0.3/sqrt(4 + x) keeps the relative error at 1e-14 from x = 0.001 to 700; a coarser fixed one fails there.
    """
    step = 0.3 / math.sqrt(4 + x)
    end = math.acosh(1 + 45 / x)
    exp, cosh = math.exp, math.cosh
    points = [(1.0, step / 2)]
    for index in range(1, int(end / step) + 1):
        widened = cosh(index * step)
        points.append((widened, step * exp(-x * (widened - 1))))
    return points


@lru_cache(maxsize=64)
def _series(order: int, piece: int) -> tuple[float, ...]:
    """
    Return exp(x) K(x) of *order* 0 or 1, for ln x from *piece* to *piece* + 1, as a series of Chebyshev's polynomials.

    As a function of ln x it has no singularity nearer than pi to the real line, so that each term is a twelfth of the
    one before it: sixteen give all that a float holds. A sum over the trapezoid's points takes ten times as long.
    Returned are the coefficients of a plain polynomial, the highest first: quicker to sum than the recurrence, and with
    terms that fall so fast no less exact.
    """
    angles = [math.pi * (index + 0.5) / _SERIES for index in range(_SERIES)]
    values = [_integral(order, math.exp(piece + 0.5 + 0.5 * math.cos(angle))) for angle in angles]
    terms = [
        (1 if term == 0 else 2) / _SERIES
        * math.fsum(value * math.cos(term * angle) for value, angle in zip(values, angles, strict=True))
        for term in range(_SERIES)
    ]  # fmt: skip
    powers = zip(*([term * part for part in polynomial] for term, polynomial in zip(terms, _POLYNOMIALS, strict=True)),
                 strict=True)  # fmt: skip
    return tuple(math.fsum(parts) for parts in powers)[::-1]


def _chebyshev(count: int) -> tuple[tuple[int, ...], ...]:
    """Return the first *count* polynomials of Chebyshev by the coefficients of 1, x, x² ...: T = 2 x T' - T''."""
    found = [[1, *[0] * (count - 1)], [0, 1, *[0] * (count - 2)]]
    while len(found) < count:
        found.append([2 * up - down for up, down in zip([0, *found[-1][:-1]], found[-2], strict=True)])
    return tuple(map(tuple, found))


_SERIES = 16
_POLYNOMIALS = _chebyshev(_SERIES)


def _integral(order: int, x: float) -> float:
    return math.fsum((widened if order else 1.0) * weight for widened, weight in _nodes(x))


def _scaled(order: int, x: float) -> float:
    """Return exp(x) K(x) of *order* 0 or 1 by its series (Horner's scheme)."""
    place = math.log(x)
    piece = math.floor(place)
    within = 2 * (place - piece) - 1
    total = 0.0
    for term in _series(order, piece):
        total = total * within + term
    return total


def k0_scaled(x: float) -> float:
    """Return exp(x) K0(x): the integral over u >= 0 of exp(-x (cosh u - 1)) (DLMF 10.32.9); x > 0."""
    above("the argument of K0", x, 0, "", "K0 is without bound at 0")
    return _scaled(0, x)


def k1_scaled(x: float) -> float:
    """Return exp(x) K1(x): as K0 with a factor cosh u (DLMF 10.32.9); x > 0."""
    above("the argument of K1", x, 0, "", "K1 is without bound at 0")
    return _scaled(1, x)


def k1_over_k0(x: float) -> float:
    """Return K1(x)/K0(x); x > 0."""
    above("the argument of K1/K0", x, 0, "", "K0 is without bound at 0")
    return _scaled(1, x) / _scaled(0, x)


_TERMS = 12


def _weight(k: int) -> float:
    """Return Stehfest's k-th weight for twelve terms, computed exactly before it becomes a float."""
    half = _TERMS // 2
    total = Fraction(0)
    for j in range((k + 1) // 2, min(k, half) + 1):
        below = [half - j, j, j - 1, k - j, 2 * j - k]
        total += Fraction(j**half * math.factorial(2 * j), math.prod(math.factorial(n) for n in below))
    return float((-1) ** (k + half) * total)


_WEIGHTS = tuple(_weight(k) for k in range(1, _TERMS + 1))


def inverse_laplace(transform: Callable[[float], float], t: float) -> float:
    """
    Return f(t) from its Laplace transform by Stehfest's twelve terms.

    Source: Stehfest, Communications of the ACM 13 (1970) 47. Right to 0.03 % for the smooth, rising functions that it
    is used for here (against Talbot's method with 30 digits); it rings where f is still nearly nothing. t > 0.
    """
    above("the time", t, 0, "s", "nothing has happened yet")
    scale = math.log(2) / t
    return scale * math.fsum(weight * transform(k * scale) for k, weight in enumerate(_WEIGHTS, 1))
