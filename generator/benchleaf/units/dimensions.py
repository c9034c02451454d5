"""
Which units the format knows, by dimension, and what each is worth.

Factors are exact by definition (SI brochure; the inch, pound and ounce by the international yard and pound
agreement of 1959, standard gravity by the CGPM of 1901; sources from memory, checked against pint in the tests).
The base of each dimension is the coherent SI unit, except temperature, which stays in °C as the bench reads it.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

_G = 9.80665  # standard gravity, m/s²
_POUND = 0.45359237  # kg
_INCH = 0.0254  # m


@dataclass(frozen=True, slots=True)
class Unit:
    """One unit: its written form, other spellings that are read, and base = value * factor + offset."""

    symbol: str
    factor: float
    also: tuple[str, ...] = ()
    offset: float = 0.0

    def to_base(self, value: float) -> float:
        """Return *value*, given in this unit, in the base unit of its dimension."""
        return value * self.factor + self.offset

    def from_base(self, value: float) -> float:
        """Return *value*, given in the base unit, in this unit."""
        return (value - self.offset) / self.factor


def _newton_metre(prefix: str, factor: float) -> Unit:
    return Unit(f"{prefix}N·m", factor, (f"{prefix}N.m", f"{prefix}Nm"))


DIMENSIONS: dict[str, tuple[Unit, ...]] = {
    "temperature": (
        Unit("°C", 1.0),
        Unit("°F", 5 / 9, offset=-32 * 5 / 9),
        Unit("K", 1.0, offset=-273.15),
    ),
    "time": (Unit("s", 1.0), Unit("min", 60.0), Unit("h", 3600.0), Unit("d", 86400.0)),
    "length": (
        Unit("mm", 1e-3), Unit("µm", 1e-6, ("μm", "um")), Unit("cm", 1e-2), Unit("m", 1.0), Unit("in", _INCH),
    ),
    "area": (Unit("mm²", 1e-6, ("mm2",)), Unit("cm²", 1e-4, ("cm2",)), Unit("m²", 1.0, ("m2",))),
    "volume": (
        Unit("mL", 1e-6, ("ml",)), Unit("µL", 1e-9, ("μL", "uL", "µl", "μl", "ul")), Unit("L", 1e-3, ("l",)),
        Unit("cm³", 1e-6, ("cm3",)), Unit("m³", 1.0, ("m3",)),
    ),
    "mass": (Unit("g", 1e-3), Unit("mg", 1e-6), Unit("kg", 1.0)),
    "torque": (
        _newton_metre("c", 1e-2), _newton_metre("", 1.0), _newton_metre("m", 1e-3),
        Unit("N·cm", 1e-2, ("N.cm", "Ncm")),
        Unit("kgf·cm", _G * 1e-2, ("kgf.cm", "kgfcm")), Unit("gf·cm", _G * 1e-5, ("gf.cm", "gfcm")),
        Unit("lbf·in", _POUND * _G * _INCH, ("lbf.in", "lbfin")),
        Unit("ozf·in", _POUND / 16 * _G * _INCH, ("ozf.in", "ozfin")),
    ),
    "force": (Unit("N", 1.0), Unit("kgf", _G), Unit("lbf", _POUND * _G)),
    "pressure": (
        Unit("kPa", 1e3), Unit("Pa", 1.0), Unit("bar", 1e5), Unit("mbar", 1e2),
        Unit("psi", _POUND * _G / _INCH**2),
    ),
    "voltage": (Unit("V", 1.0), Unit("mV", 1e-3), Unit("µV", 1e-6, ("μV", "uV")), Unit("kV", 1e3)),
    "current": (Unit("A", 1.0), Unit("mA", 1e-3), Unit("µA", 1e-6, ("μA", "uA"))),
    "resistance": (
        Unit("Ω", 1.0, ("\u2126", "ohm")), Unit("mΩ", 1e-3, ("m\u2126", "mohm")),
        Unit("kΩ", 1e3, ("k\u2126", "kohm")), Unit("MΩ", 1e6, ("M\u2126", "Mohm")),
    ),
    "capacitance": (
        Unit("µF", 1e-6, ("μF", "uF")), Unit("pF", 1e-12), Unit("nF", 1e-9), Unit("mF", 1e-3), Unit("F", 1.0),
    ),
    "charge": (Unit("mAh", 3.6), Unit("Ah", 3600.0)),
    "energy": (Unit("J", 1.0), Unit("mJ", 1e-3), Unit("Wh", 3600.0)),
    "power": (Unit("W", 1.0), Unit("mW", 1e-3)),
    "frequency": (Unit("Hz", 1.0), Unit("kHz", 1e3), Unit("MHz", 1e6), Unit("GHz", 1e9)),
    "ratio": (Unit("%", 1e-2), Unit("ppm", 1e-6)),
    "rate": (Unit("/h", 1 / 3600),),
    "speed": (Unit("m/s", 1.0),),
    "temperature-rate": (Unit("K/s", 1.0), Unit("°C/s", 1.0)),
    "conductivity": (Unit("W/mK", 1.0),),
    "heat-transfer": (Unit("W/m²K", 1.0, ("W/m2K",)),),
    "heat-capacity": (Unit("MJ/m³K", 1e6, ("MJ/m3K",)),),
    "money": (),
    "money-rate": (),
}  # fmt: skip

# An amount of money keeps its currency as its unit: the tool knows no rates of exchange.
CURRENCY = {"money": "[A-Z]{3}", "money-rate": "[A-Z]{3}/h"}

EXAMPLES: dict[str, str] = {
    "temperature": "60 °C", "time": "4 min", "length": "5 mm", "area": "2 cm²", "volume": "2 mL", "mass": "0.3 g",
    "torque": "7 cN·m", "force": "10 N", "pressure": "20 kPa", "voltage": "3.7 V", "current": "0.4–1.2 A",
    "resistance": "> 10 kΩ", "capacitance": "470 µF", "charge": "2900 mAh", "energy": "10 J", "power": "20 W",
    "frequency": "40 kHz", "ratio": "50 %", "rate": "3 /h", "speed": "0.1 m/s", "temperature-rate": "2 K/s",
    "conductivity": "20 W/mK", "heat-transfer": "10 W/m²K", "heat-capacity": "2 MJ/m³K",
    "money": "60 EUR", "money-rate": "48 EUR/h",
}  # fmt: skip


@cache
def spellings(dimension: str) -> dict[str, Unit]:
    """Return each spelling that *dimension* knows with the unit it means."""
    return {name: unit for unit in DIMENSIONS[dimension] for name in (unit.symbol, *unit.also)}


def units_that_fit(*dimensions: str) -> tuple[str, ...]:
    """Return the written form of every unit of *dimensions*, the usual one first."""
    named = {"money": "an ISO 4217 code such as EUR", "money-rate": "a currency an hour such as EUR/h"}
    return tuple(
        symbol
        for dimension in dimensions
        for symbol in ([unit.symbol for unit in DIMENSIONS[dimension]] or [named[dimension]])
    )
