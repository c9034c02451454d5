"""Cited values: a number that remembers its unit, its source and how well that source was seen."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Status(StrEnum):
    """How well a number is known."""

    TWO_METHODS = "2M"  # computed in two independent ways that agree
    SEEN = "V-SRC"  # seen in a copy of the source that is named
    LIBRARY = "V-LIB"  # computed with the library and version that is named
    CALCULATED = "V-CALC"  # arithmetic from a formula whose source is named
    SECONDARY = "SEC"  # seen where someone else quotes the source
    MEMORY = "MEM"  # from memory, not seen
    PRACTICE = "CP"  # common practice, no source


class Safe(StrEnum):
    """Which of two numbers that differ is taken by one who does not want to be hurt."""

    LOWER = "lower"
    HIGHER = "higher"


@dataclass(frozen=True, slots=True)
class Value:
    """A number with its unit, where it comes from, and how well that was seen."""

    value: float
    unit: str
    source: str
    status: Status


@dataclass(frozen=True, slots=True)
class Cited:
    """One quantity as one source or several give it; all are kept, and `safe` says which side is the safe one."""

    values: tuple[Value, ...]
    safe: Safe

    @property
    def first(self) -> Value:
        """The value of the source that is named first."""
        return self.values[0]

    @property
    def cautious(self) -> Value:
        """The value on the safe side."""
        return self.towards(self.safe)

    def towards(self, side: Safe) -> Value:
        """Return the lowest or the highest value: for a use whose safe side is not the usual one."""
        pick = min if side is Safe.LOWER else max
        return pick(self.values, key=lambda value: value.value)


def lower(*values: Value) -> Cited:
    """Return a quantity of which the lowest value is the safe one."""
    return Cited(values, Safe.LOWER)


def higher(*values: Value) -> Cited:
    """Return a quantity of which the highest value is the safe one."""
    return Cited(values, Safe.HIGHER)
