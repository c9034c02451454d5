"""
What a battery holds, and as what it may travel. The thresholds are those of the transport rules (from memory).

A shop follows the rules of its own country and carrier; what stands here is a first answer.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from benchleaf.physics.types import AmpereHours, Celsius, End, Estimate, Fraction, Volts, WattHours, above, within

CELL_LIMIT = WattHours(20.0)
BATTERY_LIMIT = WattHours(100.0)
"""The small class of lithium-ion: 20 Wh a cell, 100 Wh a battery (SP188, section II; from memory)."""
AIR_CHARGE = Fraction(0.30)
"""Charge at the most of a lithium-ion battery that flies alone (US rule 2022-27563 and packing rules, seen)."""
OPENING_CHARGE = (Fraction(0.20), Fraction(0.50))
"""Charge at which a device is opened (common practice, no source)."""

WARM = Celsius(45.0)
"""From which a pack suffers beside the heat (common practice, no source)."""

_ION = frozenset({"li-ion", "lifepo4"})
_METAL = frozenset({"lithium-primary"})


def energy(voltage: Volts, capacity: AmpereHours) -> WattHours:
    """Return the energy, Wh: nominal voltage times capacity (exact)."""
    above("the voltage", voltage, 0, "V", "a battery has one")
    above("the capacity", capacity, 0, "Ah", "a battery has one")
    return WattHours(voltage * capacity)


def is_small(cells: int, holds: WattHours) -> bool:
    """Say whether a lithium-ion battery is of the small class; a pack of one cell counts as a cell."""
    within("the number of cells", cells, (1, 1000), "", "a battery has cells")
    return holds <= CELL_LIMIT if cells == 1 else holds <= BATTERY_LIMIT and holds / cells <= CELL_LIMIT


@dataclass(frozen=True, slots=True)
class Transport:
    """As what a battery travels: its UN number (None: not a lithium battery), and whether and why not by air."""

    un_number: str | None
    by_air: bool
    because: str


def transport(chemistry: str, *, alone: bool, sound: bool, charge: Fraction | None) -> Transport:
    """
    Return as what a battery travels; `charge` None where it is not known, which counts as too much.

    Lithium-ion alone is UN 3480, in or with equipment UN 3481; lithium metal UN 3090 and 3091. One that is swollen,
    got wet or was too hot does not fly at all.
    """
    ion, metal = chemistry in _ION, chemistry in _METAL
    if not (ion or metal):
        return Transport(None, by_air=sound, because="" if sound else "it is damaged")
    number = {(True, True): "UN 3480", (True, False): "UN 3481", (False, True): "UN 3090", (False, False): "UN 3091"}
    un_number = number[ion, alone]
    if not sound:
        return Transport(un_number, by_air=False, because="it is damaged or defective")
    if ion and alone and (charge is None or charge > AIR_CHARGE):
        how_full = "is not known" if charge is None else f"is {charge:.0%}"
        return Transport(
            un_number, by_air=False, because=f"alone it flies at 30 % at the most, and its charge {how_full}"
        )
    return Transport(un_number, by_air=True, because="")


def charge_at_rest(voltage: Volts) -> Estimate:
    """
    Return the charge of a lithium-ion cell with a cobalt cathode from its voltage at rest, as a share. Bad end: high.

    3.8 V is about half full and 3.9 V 60 to 70 % (common practice, no source); between and beside them a straight
    line, and ten points of doubt. From 3.6 to 4.2 V.
    """
    within("the voltage at rest", voltage, (3.6, 4.2), "V", "outside, a cell is empty, full or none of this kind")
    points = ((3.6, 0.10), (3.7, 0.30), (3.8, 0.50), (3.9, 0.65), (4.0, 0.80), (4.2, 1.00))
    central = next(
        y0 + (y1 - y0) * (voltage - x0) / (x1 - x0) for (x0, y0), (x1, y1) in pairwise(points) if voltage <= x1
    )
    low, high = max(0.0, central - 0.1), min(1.0, central + 0.1)
    return Estimate(central, low, high, "1", "voltage at rest", "common practice", End.HIGH)
