"""The shop, what its customers say, its tools and its materials."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

    from benchleaf.findings import Place
    from benchleaf.model.words import Said
    from benchleaf.units.quantity import (
        Duration,
        Length,
        Money,
        MoneyRate,
        Quantity,
        Rate,
        Ratio,
        Speed,
        Temperature,
        Volume,
    )


@dataclass(frozen=True, slots=True)
class Room:
    """The air that vapour goes to."""

    volume: Volume | None
    air_changes: Rate | None
    temperature: Temperature | None
    humidity: Ratio | None


@dataclass(frozen=True, slots=True)
class Bench:
    """What a place of work has."""

    air_speed: Speed | None
    wrist_strap: bool
    mat: bool


@dataclass(frozen=True, slots=True)
class Monitor:
    """The screen at the bench, for the size of type."""

    distance: Length | None
    pixel_pitch: Length | None


@dataclass(frozen=True, slots=True)
class OwnConstant:
    """What the shop knows better than common practice, in SI units (a temperature in °C), and how it knows it."""

    name: str
    low: float
    central: float
    high: float
    because: str
    written: tuple[str, str, str]


@dataclass(frozen=True, slots=True)
class Shop:
    """The shop whose knowledge base this is."""

    name: str
    room: Room
    bench: Bench
    monitor: Monitor
    exposure_limit: str
    units: Mapping[str, str]
    labour: MoneyRate | None
    write_off: Money | None
    review_after: Duration | None
    constants: tuple[OwnConstant, ...]


@dataclass(frozen=True, slots=True)
class Symptom:
    """What a customer complains of."""

    id: str
    place: Place
    title: Said
    customers_say: tuple[str, ...]
    ask: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Tool:
    """A tool of the shop; `range` is what it can be set to, `measures` what it reads, by what is measured."""

    id: str
    place: Place
    title: Said
    kind: str
    range: Quantity | None
    resolution: Quantity | None
    contact: Length | None
    drives: tuple[str, ...]
    measures: Mapping[str, Quantity]
    vented: bool | None
    rated_for_solvents: bool | None
    conductive: bool | None
    notes: str | None


@dataclass(frozen=True, slots=True)
class Material:
    """A material of the shop's own; `contains` gives shares of other materials."""

    id: str
    place: Place
    title: Said
    kind: str
    contains: Mapping[str, Ratio]
    contains_at: tuple[Said, ...]
    alloy: Said | None
    fixture: Duration | None
    full: Duration | None
    exposure_limit: Quantity | None
    price: Money | None
    notes: str | None
