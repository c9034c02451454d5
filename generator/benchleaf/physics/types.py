"""Units in types, an estimate with its ends, and the refusal of a question that a formula cannot answer."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import NewType

Metres = NewType("Metres", float)
SquareMetres = NewType("SquareMetres", float)
CubicMetres = NewType("CubicMetres", float)
Seconds = NewType("Seconds", float)
PerSecond = NewType("PerSecond", float)
MetresPerSecond = NewType("MetresPerSecond", float)
CubicMetresPerSecond = NewType("CubicMetresPerSecond", float)
Kilograms = NewType("Kilograms", float)
Kelvins = NewType("Kelvins", float)
"""A difference of temperature."""
Celsius = NewType("Celsius", float)
"""A temperature."""
Pascals = NewType("Pascals", float)
Newtons = NewType("Newtons", float)
NewtonMetres = NewType("NewtonMetres", float)
Joules = NewType("Joules", float)
JoulesPerKelvin = NewType("JoulesPerKelvin", float)
KelvinsPerJoule = NewType("KelvinsPerJoule", float)
WattHours = NewType("WattHours", float)
Volts = NewType("Volts", float)
Farads = NewType("Farads", float)
AmpereHours = NewType("AmpereHours", float)
Fraction = NewType("Fraction", float)
"""A share of a whole: 1.0 is all of it."""
PartsPerMillion = NewType("PartsPerMillion", float)
ArcMinutes = NewType("ArcMinutes", float)
Pixels = NewType("Pixels", float)

ZERO_CELSIUS = 273.15
"""0 °C in kelvins (exact)."""
GAS = 8.314462618
"""The gas constant, J/mol K (SI, exact)."""
ATMOSPHERE = 101325.0
"""The standard atmosphere, Pa (exact)."""


class End(StrEnum):
    """An end of an estimate."""

    LOW = "low"
    HIGH = "high"


@dataclass(frozen=True, slots=True)
class Estimate:
    """
    A number with the range it may lie in.

    A page shows `central` with the range; a verdict goes by `worst`, the end at `bad`: the one that is worse for a
    person or a device if it is the true one.
    """

    central: float
    low: float
    high: float
    unit: str
    method: str
    source: str
    bad: End = End.HIGH

    def __post_init__(self) -> None:
        """Refuse ends in the wrong order: that is a mistake of ours."""
        if not self.low <= self.central <= self.high:
            raise ValueError(f"{self.low} <= {self.central} <= {self.high} does not hold ({self.method})")

    @property
    def worst(self) -> float:
        """The end that a verdict goes by."""
        return self.low if self.bad is End.LOW else self.high


class OutOfRange(ValueError):  # noqa: N818  (says what the argument is; callers word the finding)
    """A formula does not hold for an argument: which one, what it is, where the formula holds, and why there."""

    def __init__(self, argument: str, given: str, holds: str, why: str) -> None:
        """Say it in one sentence."""
        super().__init__(f"{argument} is {given}, and this holds for {holds}: {why}")
        self.argument = argument
        self.given = given
        self.holds = holds
        self.why = why


def within(argument: str, value: float, ends: tuple[float, float], unit: str, why: str) -> None:
    """Refuse *value* outside *ends*, both of which still belong to the range."""
    low, high = ends
    if not low <= value <= high:  # also true of a number that is none
        raise OutOfRange(argument, f"{value:g} {unit}".rstrip(), f"{low:g} to {high:g} {unit}".rstrip(), why)


def above(argument: str, value: float, low: float, unit: str, why: str) -> None:
    """Refuse *value* unless it lies above *low*."""
    if not value > low:
        raise OutOfRange(argument, f"{value:g} {unit}".rstrip(), f"more than {low:g} {unit}".rstrip(), why)
