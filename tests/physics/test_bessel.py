"""Bessel functions and the inverse Laplace transform, against mpmath with thirty digits and scipy."""

from __future__ import annotations

import math

import mpmath
import pytest
from scipy import special

from benchleaf.physics.bessel import inverse_laplace, k0_scaled, k1_over_k0, k1_scaled
from benchleaf.physics.types import OutOfRange

ARGUMENTS = (0.001, 0.01, 0.05, 0.1, 0.3679, 0.4, 1.0, 2.7, 5.0, 30.0, 147.0, 700.0)


@pytest.mark.outside
@pytest.mark.parametrize("x", ARGUMENTS)
@pytest.mark.parametrize(("order", "scaled"), [(0, k0_scaled), (1, k1_scaled)])
def test_scaled_against_mpmath(x: float, order: int, scaled: object) -> None:
    """K0 and K1 without their exponential agree with mpmath to thirteen figures from 0.001 to 700."""
    assert callable(scaled)
    with mpmath.workdps(30):
        wanted = float(mpmath.besselk(order, x) * mpmath.exp(x))

    assert wanted == pytest.approx(scaled(x), rel=1e-13)


# Tables of Bessel functions; also computed in two ways (2M).
@pytest.mark.outside
@pytest.mark.parametrize(("x", "k0"), [(0.1, 2.427069), (1.0, 0.421024), (5.0, 0.003691)])
def test_k0_in_tables(x: float, k0: float) -> None:
    """K0 is what the tables print."""
    assert k0 == pytest.approx(k0_scaled(x) * math.exp(-x), abs=6e-7)


@pytest.mark.outside
@pytest.mark.parametrize("x", ARGUMENTS)
def test_ratio_against_scipy(x: float) -> None:
    """K1/K0 agrees with scipy's scaled functions."""
    assert special.k1e(x) / special.k0e(x) == pytest.approx(k1_over_k0(x), rel=1e-13)


@pytest.mark.outside
@pytest.mark.parametrize("t", [0.3, 1.0, 4.0])
def test_inverse_of_known_pairs(t: float) -> None:
    """Three pairs from a table of Laplace transforms come back: 1/(s (s + 1)), 1/s², exp(-sqrt s)/s."""
    grown = inverse_laplace(lambda s: 1 / (s * (s + 1)), t)
    ramp = inverse_laplace(lambda s: 1 / s**2, t)
    diffused = inverse_laplace(lambda s: math.exp(-math.sqrt(s)) / s, t)

    assert -math.expm1(-t) == pytest.approx(grown, abs=2e-4)
    assert t == pytest.approx(ramp, rel=1e-6)
    assert special.erfc(0.5 / math.sqrt(t)) == pytest.approx(diffused, abs=3e-4)


def test_nothing_at_zero() -> None:
    """K0 of nothing and a moment that is none are refused, and the refusal says where the formula holds."""
    with pytest.raises(OutOfRange, match="K0 is 0, and this holds for more than 0"):
        k0_scaled(0.0)
    with pytest.raises(OutOfRange, match="the time is 0 s"):
        inverse_laplace(lambda s: 1 / s, 0.0)
