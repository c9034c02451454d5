"""
Vapour of solvents at the bench and in the room: a near field around the hands and the room beyond. Bad end: high.

dCn/dt = G/Vn - (beta/Vn)(Cn - Cf), dCf/dt = (beta/Vf)(Cn - Cf) - (Q/Vf) Cf (two-zone model of industrial hygiene,
from memory; solved exactly here and checked by steps). Vn is a half ball of 0.6 m over the bench; the room's whole
volume counts as far field. A puff is the bound for a 15-minute mean, however fast the liquid dries. Error: factor 2.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from benchleaf.library.value import Value
from benchleaf.physics.constants import Vapour, method
from benchleaf.physics.liquid import saturation, vapour_volume
from benchleaf.physics.types import (
    Celsius,
    CubicMetres,
    CubicMetresPerSecond,
    Estimate,
    Fraction,
    MetresPerSecond,
    OutOfRange,
    PerSecond,
    Seconds,
    above,
    within,
)

if TYPE_CHECKING:
    from collections.abc import Iterable

    from benchleaf.library.substance import Exposure, Substance

QUARTER_HOUR = 900.0
EIGHT_HOURS = 28800.0
_SOURCE = "near field and far field model of industrial hygiene (from memory); solved exactly"


@dataclass(frozen=True, slots=True)
class Room:
    """The room's air: its volume, air changes for each second, temperature, and the air speed over the bench."""

    volume: CubicMetres
    air_changes: PerSecond
    temperature: Celsius
    air_speed: MetresPerSecond | None = None

    def __post_init__(self) -> None:
        """Refuse what is no room."""
        within("the volume of the room", self.volume, (4.0, 1e5), "m³", "the model has a bench inside a room")
        within("the air changes", self.air_changes * 3600, (0.05, 100.0), "/h", "a room without air keeps all vapour")
        if self.air_speed is not None:
            within("the air speed", self.air_speed, (0.01, 5.0), "m/s", "air at a bench neither stands nor storms")

    @property
    def flow(self) -> CubicMetresPerSecond:
        """Q, m³/s: the room's volume times its air changes."""
        return CubicMetresPerSecond(self.volume * self.air_changes)


@dataclass(frozen=True, slots=True)
class Zones:
    """The two zones of a room: beta (m³/s) between them, their volumes, Q out of the far one."""

    exchange: float
    near: float
    far: float
    flow: float

    @property
    def rates(self) -> tuple[float, float]:
        """The two rates at which the pair empties, 1/s, the slow one first; both below 0."""
        a, b = self.exchange / self.near, self.exchange / self.far
        d = b + self.flow / self.far
        half, product = (a + d) / 2, a * self.flow / self.far
        root = math.sqrt(half**2 - product)
        # The slow one from the product, which keeps its figures: the difference would lose them.
        return -product / (half + root), -(half + root)

    def puff(self, t: Seconds) -> tuple[float, float]:
        """Return near and far concentration, 1/m³, at *t* after a release of one at once in the near field."""
        a = self.exchange / self.near
        slow, fast = self.rates
        first = (fast + a) / (fast - slow)
        second = 1 - first
        lasting, passing = first * math.exp(slow * t), second * math.exp(fast * t)
        return (lasting + passing) / self.near, (lasting * (slow + a) + passing * (fast + a)) / (a * self.near)

    def integral(self, t: Seconds) -> float:
        """Return the near concentration of a puff of one summed from 0 to *t*, s/m³; to infinity 1/Q + 1/beta."""
        a = self.exchange / self.near
        slow, fast = self.rates
        first = (fast + a) / (fast - slow)
        return (first * math.expm1(slow * t) / slow + (1 - first) * math.expm1(fast * t) / fast) / self.near

    def peak(self, release: Seconds) -> float:
        """
        Return the near concentration, 1/m³, at the end of a release of one spread evenly over *release*.

        The mean of the puff over that time: exact, where 1/(release beta) (1 - exp(-release beta/Vn)) would leave out
        what comes back from the room, 1 to 2 %.
        """
        return self.integral(release) / release


def zones(room: Room, speed: float, constants: Vapour) -> Zones:
    """Return the two zones of *room* at an air speed: beta = pi r² u, Vn = 2/3 pi r³."""
    radius = constants.radius.central
    return Zones(math.pi * radius**2 * speed, 2 / 3 * math.pi * radius**3, room.volume, room.flow)


def _speeds(room: Room, constants: Vapour) -> tuple[float, float, float]:
    """Return the air speed at its kind, central and bad end; a speed that is given carries the same doubt."""
    usual = constants.air_speed
    share = 1.0 if room.air_speed is None else room.air_speed / usual.central
    return usual.best * share, usual.central * share, usual.worst * share


def short_mean(substance: Substance, liquid: CubicMetres, room: Room, constants: Vapour) -> Estimate:
    """Return the 15-minute mean at the bench, ppm, of a liquid that all goes into the air: v/900 x the puff's sum."""
    return window_mean(substance, ((liquid, Seconds(0.0)),), room, constants)


def window_mean(
    substance: Substance, puffs: Iterable[tuple[CubicMetres, Seconds]], room: Room, constants: Vapour
) -> Estimate:
    """
    Return the 15-minute mean at the bench, ppm, of liquids that went into the air, each some time before its start.

    Dilution is linear: each gives v/900 x what its puff sums to in the window.
    """
    vapours = [(_vapour(substance, liquid, room), ago) for liquid, ago in puffs]
    kind, central, bad = (
        sum(vapour * _in_window(zones(room, speed, constants), ago) for vapour, ago in vapours) / QUARTER_HOUR * 1e6
        for speed in _speeds(room, constants)
    )
    # Of a puff of long ago slow and fast air leave nearly the same, and in any order.
    low, high = min(kind, central), max(bad, central)
    return Estimate(central, low, high, "ppm", method("two zones, 15-minute mean of a puff", constants), _SOURCE)


def _in_window(air: Zones, ago: Seconds) -> float:
    return air.integral(Seconds(ago + QUARTER_HOUR)) - air.integral(ago)


def day_mean(substance: Substance, liquid: CubicMetres, room: Room, constants: Vapour) -> Estimate:
    """Return the 8-hour mean at the bench, ppm, of all the liquid of a day: at most v (1/Q + 1/beta)/8 h."""
    vapour = _vapour(substance, liquid, room)
    low, central, high = (
        vapour * (1 / room.flow + 1 / zones(room, speed, constants).exchange) / EIGHT_HOURS * 1e6
        for speed in _speeds(room, constants)
    )
    return Estimate(central, low, high, "ppm", method("two zones, all of a day's release", constants), _SOURCE)


def peak(substance: Substance, liquid: CubicMetres, room: Room, constants: Vapour) -> Estimate:
    """
    Return the highest concentration at the bench, ppm, with the release spread over 10 s.

    A puff in the near field at once would be a false alarm: no liquid evaporates in no time.
    """
    vapour = _vapour(substance, liquid, room)
    release = Seconds(constants.release.central)
    low, central, high = (
        vapour * zones(room, speed, constants).peak(release) * 1e6 for speed in _speeds(room, constants)
    )
    full = saturation(substance, room.temperature) * 1e6
    how = method("near field, release over seconds", constants)
    return Estimate(min(central, full), min(low, full), min(high, full), "ppm", how, _SOURCE)


def _vapour(substance: Substance, liquid: CubicMetres, room: Room) -> CubicMetres:
    above("the volume of liquid", liquid, 0, "m³", "nothing evaporates")
    return vapour_volume(substance, liquid, room.temperature)


def explosive_share(substance: Substance, ppm: float) -> Fraction:
    """Return a concentration as a share of the lower explosive limit; refuses a liquid that has none."""
    return Fraction(ppm / lower_limit_ppm(substance))


def lower_limit_ppm(substance: Substance) -> float:
    """Return the lower explosive limit, ppm, the lowest that a source gives."""
    if substance.lel is None:
        raise OutOfRange("the liquid", substance.id, "a liquid whose vapour burns", "it has no explosive limit")
    return substance.lel.cautious.value * 1e4


def eight_hour_limit(exposure: Exposure, policy: str) -> Value | None:
    """Return the 8-hour limit, ppm, under the shop's *policy* (strictest, osha-pel, niosh-rel), or None."""
    found = {"osha-pel": (exposure.osha_pel,), "niosh-rel": (exposure.niosh_rel,)}.get(
        policy, (exposure.osha_pel, exposure.niosh_rel)
    )
    values = [cited.cautious for cited in found if cited is not None]
    return min(values, key=lambda value: value.value) if values else None


def short_limit(exposure: Exposure, policy: str, constants: Vapour) -> Value | None:
    """Return what a 15-minute mean is held against, ppm: a short-term or ceiling limit, else 3 x the 8-hour one."""
    if exposure.short_term is not None and policy != "osha-pel":
        return exposure.short_term.cautious
    whole = eight_hour_limit(exposure, policy)
    if whole is None:
        return None
    times = constants.times_eight_hour
    return Value(whole.value * times.central, "ppm", f"{times.central:g} x {whole.source}", times.status)
