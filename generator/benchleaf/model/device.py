"""A device: its variants, what it is made of, what holds it together, and the way in and out."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

    from benchleaf.findings import Place
    from benchleaf.model.step import Step
    from benchleaf.model.words import OnlyFor, Said
    from benchleaf.units.quantity import Capacitance, Charge, Duration, Length, Money, Temperature, Torque, Voltage
    from benchleaf.units.quantity import Volume as AirVolume

CLOSED = "closed"
"""The root of every access tree: nothing opened."""


@dataclass(frozen=True, slots=True)
class Variant:
    """One make-up of a device, and how to tell it from the others."""

    id: str
    title: Said
    tell_by: str | None


@dataclass(frozen=True, slots=True)
class Limit:
    """A temperature that must not be passed, for a time at the most where one is given."""

    at: Temperature
    lasts: Duration | None
    place: Place


@dataclass(frozen=True, slots=True)
class Near:
    """A neighbour, edge to edge, and the way heat takes to it."""

    part: Said
    distance: Length | None
    via: str


@dataclass(frozen=True, slots=True)
class Stores:
    """Charge that a part keeps when the supply is gone."""

    capacitance: Capacitance
    voltage: Voltage


@dataclass(frozen=True, slots=True)
class Part:
    """A part. `paired` gives, per variant, what ties it to this one device."""

    id: str
    place: Place
    title: Said
    kind: str
    only: OnlyFor | None
    made_of: Said | None
    part_of: Said | None
    heat_limit: Limit | None
    joint_limit: Limit | None
    near: tuple[Near, ...] | None
    stores: Stores | None
    paired: Mapping[str, str]
    paired_for: tuple[Said, ...]
    single_use: bool
    keeps_out: str | None
    seals: tuple[Said, ...]
    keyed: bool
    no_bath: bool
    traps_liquid: bool
    price: Money | None
    lead_time: Duration | None


@dataclass(frozen=True, slots=True)
class Battery:
    """A battery: the part that it is, the plug that isolates it."""

    id: str
    place: Place
    only: OnlyFor | None
    title: str | None
    part: Said
    plug: Said | None
    soldered: bool
    chemistry: str
    cells: int
    voltage: Voltage | None
    capacity: Charge | None

    @property
    def energy(self) -> float | None:
        """Nominal energy, J: voltage times charge (exact)."""
        if self.voltage is None or self.capacity is None:
            return None
        return self.voltage.high * self.capacity.high


@dataclass(frozen=True, slots=True)
class Bond:
    """An adhesive joint that holds a part."""

    id: str
    place: Place
    only: OnlyFor | None
    title: Said
    part: Said
    softens: Temperature | None
    single_use: bool


@dataclass(frozen=True, slots=True)
class Connector:
    """Something that is unplugged; `serves` names the functions that go through it."""

    id: str
    place: Place
    only: OnlyFor | None
    title: Said
    serves: tuple[str, ...]
    before_isolation: str | None


@dataclass(frozen=True, slots=True)
class Fastener:
    """A kind of screw: `holes` says how many go into which hole, where lengths or places differ."""

    id: str
    place: Place
    only: OnlyFor | None
    title: Said
    thread: str | None
    length: Length | None
    grade: str | None
    drive: str | None
    count: int
    into: Said | None
    engagement: Length | None
    torque: Torque | None
    torque_by_hand: bool
    torque_place: Place
    because: str | None
    holes: Mapping[str, int]
    under: str | None
    captive: bool
    optional: bool


@dataclass(frozen=True, slots=True)
class Board:
    """The main board, for the flow of heat."""

    part: Said
    thickness: Length | None
    size: tuple[Length, Length] | None
    solder: Said | None


@dataclass(frozen=True, slots=True)
class Plan:
    """Where the screws are: millimetres from the top left, seen from the opened side."""

    size: tuple[Length, Length]
    at: Mapping[str, tuple[tuple[float, float], ...]]
    named: tuple[Said, ...]


@dataclass(frozen=True, slots=True)
class Access:
    """A level of access: how to get there from the level below, and back."""

    id: str
    place: Place
    only: OnlyFor | None
    title: Said
    parent: Said
    volume: AirVolume | None
    tools: tuple[Said, ...]
    opening: tuple[Step, ...]
    closing: tuple[Step, ...]


@dataclass(frozen=True, slots=True)
class Device:
    """A device as the knowledge base describes it, for all its variants."""

    id: str
    path: str
    title: Said
    about: str | None
    price: Money | None
    mains: bool
    variants: tuple[Variant, ...]
    batteries: Mapping[str, Battery]
    board: Board | None
    parts: Mapping[str, Part]
    bonds: Mapping[str, Bond]
    connectors: Mapping[str, Connector]
    fasteners: Mapping[str, Fastener]
    access: Mapping[str, Access]
    plan: Plan | None

    @property
    def variant_ids(self) -> tuple[str, ...]:
        """The names of the variants, in the order written."""
        return tuple(variant.id for variant in self.variants)

    def way_to(self, level: str) -> tuple[Access, ...]:
        """Return the levels from the first opened one to *level*; empty for closed, or for a name that is unknown."""
        way: list[Access] = []
        while level != CLOSED and level in self.access and self.access[level] not in way:
            way.append(self.access[level])
            level = self.access[level].parent.text
        return tuple(reversed(way))
