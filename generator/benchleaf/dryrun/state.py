"""What is true of the device and the bench at one moment."""

from __future__ import annotations

from dataclasses import dataclass
from types import MappingProxyType
from typing import TYPE_CHECKING, Any, NamedTuple, TypeAlias

if TYPE_CHECKING:
    from collections.abc import Mapping

    from benchleaf.model.action import Supply

OUT, STORED, DISCARDED = "out", "stored", "discarded"
FREE, TORN = "free", "torn"


@dataclass(frozen=True, slots=True)
class Wet:
    """
    A liquid on a part.

    `volume` in m³ and `area` in m² where they are known; `left` is the share of the drying that is still to come, at
    the high end; `trapped` liquid ends by time alone.
    """

    liquid: str
    volume: float | None
    area: float | None
    trapped: bool
    flooded: bool
    left: float = 1.0


@dataclass(frozen=True, slots=True)
class Hot:
    """
    A part that was heated: how hot at the most, °C, and how long it stays so at the bad end, s.

    `cool` is the time to the temperature of handing over, `hand` to that of its material in a hand; `elapsed` the time
    since the heat ended, at the low end.
    """

    peak: float
    cool: float
    hand: float
    elapsed: float = 0.0


@dataclass(frozen=True, slots=True)
class Beside:
    """
    A part beside one that is heated: how far, m, 0 where they touch, and the way heat takes.

    `kept` is what it is kept below by measuring, °C, where the step does.
    """

    part: str
    distance: float
    via: str
    kept: float | None = None


@dataclass(frozen=True, slots=True)
class Touch:
    """
    One heating step: what was heated, from when, s, how long and often, how hot (°C), how wide (m), and what is beside.

    Touches have a clock of their own, which makes heat add up: each lasts as long as it may and what is between two of
    them as short as it may. `done` is when it ended by the low end of the device's clock.
    """

    part: str
    start: float
    lasts: float
    times: int
    pause: float
    source: float
    radius: float
    tool_kind: str
    setting: float
    shielded: bool
    done: float
    beside: tuple[Beside, ...]

    @property
    def end(self) -> float:
        """When it ends on the touches' clock."""
        return self.start + self.times * self.lasts + (self.times - 1) * self.pause


@dataclass(frozen=True, slots=True)
class Fume:
    """
    A liquid that burns and can still give off vapour, put on in the step `step`.

    It ends by time alone: an eye that sees a part dry (`seen`) does not see the trace that fills a small case.
    `carrier` says that it came with a flux.
    """

    wet: Wet
    step: str
    carrier: bool
    seen: bool = False


Fumes: TypeAlias = "tuple[tuple[tuple[str, str], Fume], ...]"
"""What may burn, each with the part that carries it and the liquid that it is."""


@dataclass(frozen=True, slots=True)
class Release:
    """A substance that enters the air of the room with a material: its volume, m³ of liquid, from when on, s."""

    material: str
    substance: str
    volume: float
    at: float
    step: str


_NOTHING: Mapping[str, Any] = MappingProxyType({})
_NO_FUMES: Mapping[tuple[str, str], Fume] = MappingProxyType({})


class State(NamedTuple):
    """
    The device and the bench. A named tuple: each step makes one or two of them, and it changes ten times faster.

    Maps hold only what differs from a closed, complete, dry, cool device: `away` the parts that are not in, `unplugged`
    the open connectors, `tray` the screws that are out, `freed` the bonds that do not hold ("free", or "torn"
    where their part was taken off them) or have not cured ("setting"). `alone` are the parts that left by themselves:
    they do not come back with what they are part of.
    `charged` are the parts that may hold charge, `unread` those that were emptied and not read since, in that order.
    `old` are the packs of which the one that was replaced lies on the bench: nothing puts it away any more.
    `fumes` are what may burn, by the part that carries it ("" where a step does not say) and the liquid.
    """

    power: bool
    supplied: Supply | None = None
    isolated: frozenset[str] = frozenset()
    unplugged: frozenset[str] = frozenset()
    tray: Mapping[str, int] = _NOTHING
    away: Mapping[str, str] = _NOTHING
    alone: frozenset[str] = frozenset()
    freed: Mapping[str, str] = _NOTHING
    setting: Mapping[str, float] = _NOTHING
    wet: Mapping[str, Wet] = _NOTHING
    fumes: Mapping[tuple[str, str], Fume] = _NO_FUMES
    hot: Mapping[str, Hot] = _NOTHING
    charged: frozenset[str] = frozenset()
    unread: tuple[str, ...] = ()
    spent: frozenset[str] = frozenset()
    renewed: frozenset[str] = frozenset()
    old: frozenset[str] = frozenset()
    damaged: Mapping[str, str] = _NOTHING
    looked: bool = False
    recorded: bool = False
    battery_seen: frozenset[str] = frozenset()
    touches: tuple[Touch, ...] = ()
    releases: tuple[Release, ...] = ()
    opened: tuple[str, ...] = ()
    low: float = 0.0
    high: float = 0.0

    def is_in(self, part: str) -> bool:
        """Whether *part* is in its place."""
        return part not in self.away

    def moving(self, part: str, family: Mapping[str, frozenset[str]]) -> frozenset[str]:
        """Return what comes and goes with *part*, itself among it: its *family* but for what left by itself."""
        own = family.get(part, frozenset({part}))
        return own.difference(*(family[name] for name in self.alone & own if name != part and name in family))

    def joined(self, batteries: Mapping[str, object]) -> tuple[str, ...]:
        """Return those of *batteries* that are joined to the device."""
        return tuple(name for name in batteries if name not in self.isolated)

    @property
    def live(self) -> bool:
        """Whether the device is switched on or fed from outside."""
        return self.power or self.supplied is not None
