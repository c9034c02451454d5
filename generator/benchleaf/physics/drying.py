"""
How long a wetted part takes to dry. Bad end: high, the longer wait. An estimate: a factor of 2 either way.

Film: t = rho min(V/A, film)/E with E = km M/R (Ps/T - RH Ps/T), a laminar boundary layer over the wetted patch.
The liquid cools itself while it dries; the bad end takes it at the wet-bulb temperature. Pools of a metre dry 3 to 7
times more slowly than this; it is for patches of a part.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from benchleaf.physics.constants import Drying, method
from benchleaf.physics.liquid import COLDEST, vapour_pressure
from benchleaf.physics.types import (
    GAS,
    ZERO_CELSIUS,
    Celsius,
    CubicMetres,
    Estimate,
    Fraction,
    Metres,
    MetresPerSecond,
    OutOfRange,
    Seconds,
    SquareMetres,
    above,
    within,
)

if TYPE_CHECKING:
    from benchleaf.library.substance import Substance

_HALF = Fraction(0.5)
_SOURCE = "laminar boundary layer over a flat plate (textbook; 0.664 checked by solving it) and wet-bulb balance"
_AIR_DENSITY, _AIR_HEAT, _AIR_THERMAL = 1.19, 1006.0, 2.2e-5  # kg/m³, J/kgK, m²/s: air at 20 °C, textbook


class Film(StrEnum):
    """How the liquid was left on the part."""

    WIPED = "wiped"
    FLOODED = "flooded"
    SOCKET = "socket"


@dataclass(frozen=True, slots=True)
class Patch:
    """What was wetted: how much liquid on what area, left how. With no area known, the liquid's own at full film."""

    volume: CubicMetres
    area: SquareMetres | None = None
    film: Film = Film.FLOODED


@dataclass(frozen=True, slots=True)
class Air:
    """The air over the patch; humidity counts for water alone."""

    temperature: Celsius
    speed: MetresPerSecond
    humidity: Fraction = _HALF

    def __post_init__(self) -> None:
        """Refuse what no bench and no drying cabinet is."""
        within("the temperature of the air", self.temperature, (0.0, 65.0), "°C", "the vapour pressure holds there")
        within("the air speed", self.speed, (0.0, 20.0), "m/s", "faster air blows the liquid off")
        within("the humidity", self.humidity, (0.0, 1.0), "", "air holds no more than all it can")


def mass_transfer(substance: Substance, area: SquareMetres, air: Air, constants: Drying) -> float:
    """
    Return km, m/s: Sh D/L, Sh = max(0.664 Re^0.5 Sc^(1/3), 2), L = sqrt(A).

    A flat plate in laminar air; never less than still air over a sphere gives. A from 1 mm² to 1000 cm².
    """
    within("the wetted area", area * 1e4, (0.01, 1000.0), "cm²", "a larger one is a pool and dries more slowly")
    diffusion = (constants.diffusion_water if substance.is_water else constants.diffusion_solvent).central
    viscosity = constants.viscosity.central
    length = math.sqrt(area)
    reynolds, schmidt = air.speed * length / viscosity, viscosity / diffusion
    sherwood = max(0.664 * math.sqrt(reynolds) * math.cbrt(schmidt), 2.0)
    return sherwood * diffusion / length


def _excess(substance: Substance, surface: Celsius, air: Air) -> float:
    """Return Ps/T at the surface less what the air holds, Pa/K; negative where vapour settles."""
    held = 0.0
    if substance.is_water:
        held = air.humidity * vapour_pressure(substance, air.temperature) / (ZERO_CELSIUS + air.temperature)
    return vapour_pressure(substance, surface) / (ZERO_CELSIUS + surface) - held


def evaporation(substance: Substance, area: SquareMetres, air: Air, constants: Drying) -> float:
    """Return E, kg/m²s, at the temperature of the air; refuses water in air that takes up no more."""
    excess = _excess(substance, air.temperature, air)
    if excess <= 0:
        raise OutOfRange("the humidity", f"{air.humidity:.0%}", "less than 100 %", "water never dries in full air")
    return mass_transfer(substance, area, air, constants) * substance.molar_mass.first.value / GAS * excess


def wet_bulb(substance: Substance, air: Air) -> Celsius:
    """
    Return the temperature that a drying film falls to when it draws all its heat from the air, °C.

    lambda M/R (Ps(Tw)/Tw - RH Ps(Ta)/Ta) = 1.19 x 1006 (2.2e-5/Dv)^(2/3) (Ta - Tw), by bisection.
    """
    heat = substance.latent_heat.first.value * substance.molar_mass.first.value / GAS
    lewis = math.cbrt(_AIR_THERMAL / substance.diffusion.first.value) ** 2

    def too_warm(surface: float) -> bool:
        gained = _AIR_DENSITY * _AIR_HEAT * lewis * (air.temperature - surface)
        return heat * _excess(substance, Celsius(surface), air) > gained

    low, high = COLDEST, float(air.temperature)
    while high - low > 1e-6:
        middle = (low + high) / 2
        low, high = (low, middle) if too_warm(middle) else (middle, high)
    return Celsius(low)


def wet_bulb_factor(substance: Substance, air: Air) -> float:
    """Return F, how many times more slowly a film dries at its wet-bulb temperature: E(Ta)/E(Tw)."""
    return _excess(substance, air.temperature, air) / _excess(substance, wet_bulb(substance, air), air)


def film_time(substance: Substance, patch: Patch, air: Air, constants: Drying) -> Seconds:
    """Return the central time in which the film dries, s, at the temperature of the air."""
    above("the volume of liquid", patch.volume, 0, "m³", "nothing was wetted")
    if patch.area is not None:
        above("the wetted area", patch.area, 0, "m²", "nothing was wetted")
    film = {Film.WIPED: constants.wiped, Film.FLOODED: constants.flooded, Film.SOCKET: constants.socket}[patch.film]
    thickness = film.central if patch.area is None else min(film.central, patch.volume / patch.area)
    area = SquareMetres(max(1e-6, patch.volume / thickness)) if patch.area is None else patch.area
    mass = substance.density.cautious.value * thickness
    return Seconds(mass / evaporation(substance, area, air, constants))


def drying_time(substance: Substance, patch: Patch, air: Air, constants: Drying) -> Estimate:
    """
    Return how long an open wetted patch takes to dry, s: the worst end is at least a minute.

    For d-limonene that is 12 minutes and more: never take the minute for granted.
    """
    central = film_time(substance, patch, air, constants)
    high = max(constants.shortest.central, central * wet_bulb_factor(substance, air))
    how = method("film under a laminar boundary layer, at the wet-bulb temperature at worst", constants)
    return Estimate(central, central / 2, high, "s", how, _SOURCE)


@dataclass(frozen=True, slots=True)
class _Trap:
    """How long trapped liquid takes at 21 °C and in warm air, h; each `halves` kelvins between halve it."""

    cold: float
    warm_at: float
    warm: float
    halves: float


_FAST = _Trap(12.0, 60.0, 2.0, 15.0)
_SLOW = _Trap(48.0, 65.0, 3.0, 11.0)
_COLD_AT = 21.0


def trapped_time(substance: Substance, air: Air) -> Estimate:
    """
    Return how long liquid under a part or in a button takes to dry, s; common practice.

    Diffusion through a gap of 2 to 10 mm² lets 0.05 mL of isopropanol out in 4 to 11 h cold and 0.4 to 1.1 h warm.
    Between the two temperatures it halves for each 15 K (water and d-limonene 11 K), and goes on so below 21 °C.
    In air over half full of water the time of water grows as what the air still takes falls.
    """
    within("the temperature of the air", air.temperature, (10.0, 65.0), "°C", "nobody has timed it elsewhere")
    trap = _SLOW if substance.is_water or substance.id == "d-limonene" else _FAST
    hours = max(trap.warm, trap.cold * 0.5 ** ((air.temperature - _COLD_AT) / trap.halves))
    if substance.is_water:
        if air.humidity >= 1:
            raise OutOfRange("the humidity", "100 %", "less than 100 %", "water never dries in full air")
        hours *= max(1.0, 0.5 / (1 - air.humidity))
    high = hours * 3600
    return Estimate(high / 2, high / 3, high, "s", "trapped liquid, by practice", "common practice")


def runoff_reach(volume: CubicMetres, constants: Drying) -> Metres:
    """Return how far a liquid may run over a board, m: a disc 0.2 mm deep (common practice). Bad end: this one."""
    above("the volume of liquid", volume, 0, "m³", "nothing was wetted")
    return Metres(math.sqrt(volume / (math.pi * constants.runoff_film.low)))


def most_runoff(distance: Metres, constants: Drying) -> CubicMetres:
    """Return the volume of liquid that runs just as far as *distance*, m³: `runoff_reach` the other way round."""
    return CubicMetres(math.pi * constants.runoff_film.low * distance**2)
