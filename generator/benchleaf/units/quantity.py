"""A quantity: the interval that was written, in the base unit of its dimension, with the text beside it."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import ClassVar


@dataclass(frozen=True, slots=True)
class Quantity:
    """
    An interval of one dimension.

    `low` and `high` are in the coherent SI unit (temperature in °C; a charge in coulombs, a ratio as a plain number,
    money in its currency). A single value has low = high; `> 10 kΩ` has high = infinity. `strict` says that
    the finite end itself does not belong to it (`<`, `>`). Two spellings of one amount are equal.
    """

    dimension: ClassVar[str] = ""

    low: float
    high: float
    text: str = field(compare=False)
    unit: str = field(compare=False)
    strict: bool = False

    @property
    def middle(self) -> float:
        """The midpoint; the finite end where the other is open."""
        if self.low == float("-inf"):
            return self.high
        if self.high == float("inf"):
            return self.low
        return (self.low + self.high) / 2

    def holds(self, value: float) -> bool:
        """Whether *value*, in the base unit, lies within the interval."""
        if self.strict:
            return self.low < value < self.high
        return self.low <= value <= self.high


class Temperature(Quantity):
    """A temperature, °C."""

    __slots__ = ()
    dimension = "temperature"


class Duration(Quantity):
    """A time that passes, s."""

    __slots__ = ()
    dimension = "time"


class Length(Quantity):
    """A length, m."""

    __slots__ = ()
    dimension = "length"


class Area(Quantity):
    """An area, m²."""

    __slots__ = ()
    dimension = "area"


class Volume(Quantity):
    """A volume, m³."""

    __slots__ = ()
    dimension = "volume"


class Mass(Quantity):
    """A mass, kg."""

    __slots__ = ()
    dimension = "mass"


class Torque(Quantity):
    """A torque, N·m."""

    __slots__ = ()
    dimension = "torque"


class Force(Quantity):
    """A force, N."""

    __slots__ = ()
    dimension = "force"


class Pressure(Quantity):
    """A pressure, Pa."""

    __slots__ = ()
    dimension = "pressure"


class Voltage(Quantity):
    """A voltage, V."""

    __slots__ = ()
    dimension = "voltage"


class Current(Quantity):
    """A current, A."""

    __slots__ = ()
    dimension = "current"


class Resistance(Quantity):
    """A resistance, Ω."""

    __slots__ = ()
    dimension = "resistance"


class Capacitance(Quantity):
    """A capacitance, F."""

    __slots__ = ()
    dimension = "capacitance"


class Charge(Quantity):
    """An electric charge, C."""

    __slots__ = ()
    dimension = "charge"


class Energy(Quantity):
    """An energy, J."""

    __slots__ = ()
    dimension = "energy"


class Power(Quantity):
    """A power, W."""

    __slots__ = ()
    dimension = "power"


class Frequency(Quantity):
    """A frequency, Hz."""

    __slots__ = ()
    dimension = "frequency"


class Ratio(Quantity):
    """A ratio, a plain number: 50 % is 0.5."""

    __slots__ = ()
    dimension = "ratio"


class Rate(Quantity):
    """How often something happens, per second."""

    __slots__ = ()
    dimension = "rate"


class Speed(Quantity):
    """A speed, m/s."""

    __slots__ = ()
    dimension = "speed"


class TemperatureRate(Quantity):
    """A rate of heating, K/s."""

    __slots__ = ()
    dimension = "temperature-rate"


class Conductivity(Quantity):
    """A thermal conductivity, W/mK."""

    __slots__ = ()
    dimension = "conductivity"


class HeatTransfer(Quantity):
    """A coefficient of heat transfer, W/m²K."""

    __slots__ = ()
    dimension = "heat-transfer"


class HeatCapacity(Quantity):
    """A heat capacity of a volume, J/m³K."""

    __slots__ = ()
    dimension = "heat-capacity"


class Money(Quantity):
    """An amount of money in the currency that `unit` names."""

    __slots__ = ()
    dimension = "money"


class MoneyRate(Quantity):
    """Money for an hour, in the currency that `unit` names."""

    __slots__ = ()
    dimension = "money-rate"


KINDS: dict[str, type[Quantity]] = {kind.dimension: kind for kind in (
    Temperature, Duration, Length, Area, Volume, Mass, Torque, Force, Pressure, Voltage, Current, Resistance,
    Capacitance, Charge, Energy, Power, Frequency, Ratio, Rate, Speed, TemperatureRate, Conductivity,
    HeatTransfer, HeatCapacity, Money, MoneyRate,
)}  # fmt: skip
