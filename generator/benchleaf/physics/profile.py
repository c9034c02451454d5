"""
Whether a reflow profile stays within what a part is rated for: IPC/JEDEC J-STD-020, on the side of the user.

The standard's limits are upper bounds for parts, not a recipe for a board. The maker proves at least the
classification temperature, the user stays at it or below. Bad end: low. Also J-STD-033 floor life.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from benchleaf.library.alloys import (
    CLASSIFICATION_LEAD_FREE,
    CLASSIFICATION_TIN_LEAD_C,
    CLASSIFICATION_TIN_LEAD_D,
    FLOOR_LIFE_HOURS,
    Alloy,
    ProfileLimits,
)
from benchleaf.library.solids import TIP_LIMITS_CHIP_CAPACITOR
from benchleaf.library.value import Safe
from benchleaf.physics.types import Celsius, CubicMetres, Kelvins, Metres, OutOfRange, Seconds, above

if TYPE_CHECKING:
    from collections.abc import Iterator

IRON_OVER_LIQUIDUS = Kelvins(60.0)
"""How far an iron is set above the liquidus at the least (common practice, no source)."""
MOST_OVER_LIQUIDUS = Kelvins(150.0)
"""How far at the most: tip at liquidus + 100 to 150 K (common practice, no source)."""
LONGEST_TOUCH = Seconds(5.0)
"""How long an iron stays on a joint at the most, s: 2 to 5 s (common practice, no source)."""
LONGEST_AIR = Seconds(180.0)
"""How long hot air stays on the joints of one part at the most, s: a minute or two (common practice, no source)."""
NEAR_PEAK = Kelvins(5.0)
"""How close to its limit a part counts as at its peak (J-STD-020: within 5 °C)."""
PREHEAT_GAP = Kelvins(130.0)
"""How much hotter than a preheated chip the tip may be: 150 K, 130 K for the largest (one maker, seen)."""


@dataclass(frozen=True, slots=True)
class Profile:
    """A profile as it was run or is planned; None for what is not known. Rates in K/s, both as positive numbers."""

    peak: Celsius | None = None
    ramp_up: float | None = None
    ramp_down: float | None = None
    soak: Seconds | None = None
    above_liquidus: Seconds | None = None
    near_peak: Seconds | None = None
    to_peak: Seconds | None = None


@dataclass(frozen=True, slots=True)
class Excess:
    """One number of a profile that is beyond its limit."""

    what: str
    is_: float
    most: float
    unit: str
    source: str


def reflow_limits(alloy: Alloy) -> ProfileLimits:
    """Return the limits of the alloy's table; refuses an alloy that the standard does not speak of."""
    if alloy.reflow is None:
        raise OutOfRange("the alloy", alloy.id, "tin-lead and lead-free solders of J-STD-020", "no profile is given")
    return alloy.reflow


def classification_temperature(thickness: Metres, volume: CubicMetres, *, lead_free: bool) -> Celsius:
    """
    Return T_c, °C, of a package by its thickness and volume (J-STD-020 tables 4-1, 4-2).

    For tin-lead the lower of revisions C and D.
    """
    above("the thickness of the package", thickness, 0, "m", "a package has one")
    above("the volume of the package", volume, 0, "m³", "a package has one")
    millimetres, cubic = thickness * 1e3, volume * 1e9
    if lead_free:
        row = 0 if millimetres < 1.6 else 1 if millimetres < 2.5 else 2
        column = 0 if cubic < 350 else 1 if cubic <= 2000 else 2
        return Celsius(float(CLASSIFICATION_LEAD_FREE[row][column]))
    row, column = int(millimetres >= 2.5), int(cubic >= 350)
    return Celsius(float(min(CLASSIFICATION_TIN_LEAD_C[row][column], CLASSIFICATION_TIN_LEAD_D[row][column])))


def excesses(profile: Profile, limits: ProfileLimits, classification: Celsius | None) -> tuple[Excess, ...]:
    """Return everything in *profile* that is beyond its limit; where two revisions differ, the shorter time counts."""
    return tuple(_excesses(profile, limits, classification))


def _excesses(profile: Profile, limits: ProfileLimits, classification: Celsius | None) -> Iterator[Excess]:
    if profile.peak is not None and classification is not None and profile.peak > classification:
        yield Excess("peak", profile.peak, classification, "°C", "J-STD-020 classification temperature")
    for what, given, limit in (
        ("ramp up", profile.ramp_up, limits.ramp_up),
        ("ramp down", profile.ramp_down, limits.ramp_down),
        ("soak", profile.soak, limits.soak_time.cautious),
        ("time above liquidus", profile.above_liquidus, limits.above_liquidus),
        ("time near the peak", profile.near_peak, limits.near_peak.cautious),
        ("time to the peak", profile.to_peak, limits.to_peak),
    ):
        if given is not None and given > limit.value:
            yield Excess(what, given, limit.value, limit.unit, limit.source)


def least_iron(alloy: Alloy) -> Celsius:
    """Return the lowest sensible setting of an iron, °C: 60 K above the higher liquidus (common practice)."""
    return Celsius(alloy.liquidus.cautious.value + IRON_OVER_LIQUIDUS)


def most_iron(alloy: Alloy) -> Celsius:
    """Return the highest sensible setting of an iron, °C: 150 K above the lower liquidus (common practice)."""
    return Celsius(alloy.liquidus.towards(Safe.LOWER).value + MOST_OVER_LIQUIDUS)


def highest_class(*, lead_free: bool) -> Celsius:
    """Return the highest classification temperature, °C, of any package: nothing is rated above it (J-STD-020)."""
    return classification_temperature(Metres(1e-3), CubicMetres(100e-9), lead_free=lead_free)


def chip_tip_limit(*, preheated: bool) -> Celsius:
    """Return the hottest tip, °C, that a ceramic chip of any size bears: that of the largest."""
    return min(capacitor_tip_limit(size, preheated=preheated) for size in TIP_LIMITS_CHIP_CAPACITOR)


def melts(alloy: Alloy, setting: Celsius) -> bool:
    """Say whether a setting reaches the alloy's liquidus, the higher where sources differ."""
    return setting >= alloy.liquidus.cautious.value


def floor_life_over(level: str, out_of_bag: Seconds) -> bool:
    """Say whether a part of a moisture sensitivity level has been out of its bag too long (J-STD-033)."""
    if level == "1":
        return False
    if level not in FLOOR_LIFE_HOURS:
        raise OutOfRange("the moisture level", level, "1, 2, 2a, 3, 4, 5, 5a", "6 is baked before each use")
    return out_of_bag > FLOOR_LIFE_HOURS[level] * 3600


def capacitor_tip_limit(size: str, *, preheated: bool) -> Celsius:
    """Return the hottest tip for a ceramic chip capacitor, °C, by one maker's common specification."""
    if size not in TIP_LIMITS_CHIP_CAPACITOR:
        known = ", ".join(TIP_LIMITS_CHIP_CAPACITOR)
        raise OutOfRange("the size of the capacitor", size, known, "the maker gives no other")
    return Celsius(TIP_LIMITS_CHIP_CAPACITOR[size][preheated].value)
