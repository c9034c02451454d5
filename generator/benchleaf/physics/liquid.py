"""What a liquid does at the temperature of the room: its vapour pressure, and how much vapour a drop makes."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from benchleaf.physics.types import ATMOSPHERE, GAS, ZERO_CELSIUS, Celsius, CubicMetres, Fraction, Pascals, within

if TYPE_CHECKING:
    from benchleaf.library.substance import Substance

COLDEST, WARMEST = -30.0, 65.0
"""°C: where the straight line for the vapour pressure is used; the cold end only for wet bulbs."""


def vapour_pressure(substance: Substance, temperature: Celsius) -> Pascals:
    """
    Return the pressure of the saturated vapour, Pa: ln P as a straight line of 1/T through 20 and 25 °C.

    Clausius and Clapeyron. Within 2.5 % of equations of state from 0 to 40 °C; at 60 °C 3 to 6 % high.
    """
    within("the temperature", temperature, (COLDEST, WARMEST), "°C", "the line was fitted at room temperature")
    first, second = (
        math.log(cited.first.value) for cited in (substance.vapour_pressure_20, substance.vapour_pressure_25)
    )
    at_20, at_25, here = (1 / (ZERO_CELSIUS + celsius) for celsius in (20.0, 25.0, temperature))
    return Pascals(math.exp(first + (second - first) * (here - at_20) / (at_25 - at_20)))


def saturation(substance: Substance, temperature: Celsius) -> Fraction:
    """Return the share of air that the saturated vapour takes: no more vapour than that can stand over the liquid."""
    return Fraction(min(1.0, vapour_pressure(substance, temperature) / ATMOSPHERE))


def vapour_volume(substance: Substance, liquid: CubicMetres, temperature: Celsius) -> CubicMetres:
    """
    Return the volume of vapour that a volume of liquid makes: V rho/M * R T/101325 (ideal gas).

    The denser value of the library is taken, so the volume is on the safe side.
    """
    within("the temperature", temperature, (-20.0, WARMEST), "°C", "a bench is neither colder nor warmer")
    moles = liquid * substance.density.cautious.value / substance.molar_mass.first.value
    return CubicMetres(moles * GAS * (ZERO_CELSIUS + temperature) / ATMOSPHERE)


def liquid_volume(substance: Substance, vapour: CubicMetres, temperature: Celsius) -> CubicMetres:
    """Return the volume of liquid that makes a volume of vapour: `vapour_volume` the other way round."""
    return CubicMetres(vapour / vapour_volume(substance, CubicMetres(1.0), temperature))


def milligrams_per_cubic_metre(ppm: float, substance: Substance) -> float:
    """Return ppm as mg/m³ at 25 °C: ppm M/24.45 (the convention of exposure limits)."""
    return ppm * substance.molar_mass.first.value * 1000 / 24.45
