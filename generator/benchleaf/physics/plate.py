"""A thin board that loses heat from both faces, and one round spot on it that is held hot."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from benchleaf.physics.bessel import inverse_laplace, k0_scaled, k1_over_k0
from benchleaf.physics.types import (
    Fraction,
    JoulesPerKelvin,
    KelvinsPerJoule,
    Metres,
    Seconds,
    above,
    within,
)

if TYPE_CHECKING:
    from collections.abc import Callable

THICKEST = 3e-3
"""m: a thicker board is not thin any more."""
SOURCE = "conduction in a thin plate with losses (Carslaw and Jaeger, Conduction of Heat in Solids; from memory)"


@dataclass(frozen=True, slots=True)
class Plate:
    """An endless board: k along it (W/mK), rho c (J/m³K), loss h from each face (W/m²K), thickness (m)."""

    conductivity: float
    heat_capacity: float
    face_loss: float
    thickness: Metres

    def __post_init__(self) -> None:
        """Refuse a board that is not thin."""
        within("the thickness of the board", self.thickness * 1e3, (0.05, THICKEST * 1e3), "mm", "it must be thin")

    @property
    def diffusivity(self) -> float:
        """The diffusivity, m²/s: k/(rho c)."""
        return self.conductivity / self.heat_capacity

    @property
    def loss_rate(self) -> float:
        """How fast the board by itself cools, 1/s: 2 h/(rho c delta)."""
        return 2 * self.face_loss / (self.heat_capacity * self.thickness)


@dataclass(frozen=True, slots=True)
class Spot:
    """The round spot that a tool holds hot (radius r0), and how far from its edge one looks."""

    radius: Metres
    distance: Metres

    def __post_init__(self) -> None:
        """Refuse a place under the tool."""
        above("the radius of the spot", self.radius, 0, "m", "heat must enter somewhere")
        above("the distance", self.distance, 0, "m", "what touches takes the temperature of the tool itself")


def _ratio(spot: Spot, q: float) -> float:
    """Return K0(q r)/K0(q r0), whose exponentials are taken out so that neither underflows."""
    inner = q * spot.radius
    outer = q * (spot.radius + spot.distance)
    return math.exp(inner - outer) * k0_scaled(outer) / k0_scaled(inner)


def steady(plate: Plate, spot: Spot) -> Fraction:
    """
    Return the rise at the distance in the end, per kelvin that the spot is held at: K0(m r)/K0(m r0).

    m² = 2 h/(k delta). No hold of any length takes an endless board higher.
    """
    return Fraction(_ratio(spot, math.sqrt(plate.loss_rate / plate.diffusivity)))


def step(plate: Plate, spot: Spot, t: Seconds) -> Fraction:
    """
    Return the rise after a hold of *t*, per kelvin that the spot is held at.

    The inverse transform of K0(r q)/(s K0(r0 q)), q = sqrt((s + b)/a). Within 0.4 % of finite volumes on the same
    plate; a real board, warmed on one face, stays below it (the safe side).
    """
    above("the time", t, 0, "s", "nothing has happened yet")
    a, b = plate.diffusivity, plate.loss_rate
    if spot.distance**2 / (4 * a * t) > 30:  # exp(-30): nothing has come yet, and Stehfest would ring
        return Fraction(0.0)
    value = inverse_laplace(lambda s: _ratio(spot, math.sqrt((s + b) / a)) / s, t)
    return Fraction(min(1.0, max(0.0, value)))


def dose(plate: Plate, radius: Metres, t: Seconds) -> JoulesPerKelvin:
    """
    Return the heat that a hold of *t* puts into the board, per kelvin that the spot is held at.

    What the spot itself takes and loses, and what flows out over its rim. A tool with a contact of its own gives
    1.2 to 3.5 times less (the safe side).
    """
    above("the radius of the spot", radius, 0, "m", "heat must enter somewhere")
    if t <= 0:
        return JoulesPerKelvin(0.0)
    a, b = plate.diffusivity, plate.loss_rate

    def through_rim(s: float) -> float:
        q = math.sqrt((s + b) / a)
        return q * k1_over_k0(radius * q) / s**2

    under = plate.heat_capacity * plate.thickness * math.pi * radius**2 * (1 + b * t)
    rim = 2 * math.pi * radius * plate.conductivity * plate.thickness * inverse_laplace(through_rim, t)
    return JoulesPerKelvin(under + rim)


def arriving(plate: Plate, distance: Metres) -> Callable[[float], float]:
    """
    Return the rise at *distance* from one joule that entered at a point, as a function of the joule's age.

    exp(-d²/(4 a u) - b u)/(4 pi rho c delta a u). The distance from the spot's edge is taken, as if all heat had
    entered at the nearest point (the safe side).
    """
    reach = distance**2 / (4 * plate.diffusivity)
    loss = plate.loss_rate
    strength = 1 / (4 * math.pi * plate.conductivity * plate.thickness)
    exp = math.exp
    return lambda age: strength * exp(-reach / age - loss * age) / age if age > 0 else 0.0


def kernel(plate: Plate, distance: Metres, age: Seconds) -> KelvinsPerJoule:
    """Return `arriving` at one age."""
    return KelvinsPerJoule(arriving(plate, distance)(age))


def peak_age(plate: Plate, distance: Metres) -> Seconds:
    """Return the age at which `kernel` is highest: (sqrt(1 + b d²/a) - 1)/(2 b)."""
    a, b = plate.diffusivity, plate.loss_rate
    return Seconds((math.sqrt(1 + b * distance**2 / a) - 1) / (2 * b))
