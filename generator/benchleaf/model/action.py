"""What a step does to the device, one type for each action of the format; `place` is the action's value."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeAlias

if TYPE_CHECKING:
    from benchleaf.findings import Place
    from benchleaf.model.words import Said
    from benchleaf.units.quantity import (
        Area,
        Current,
        Duration,
        Speed,
        Temperature,
        TemperatureRate,
        Torque,
        Voltage,
        Volume,
    )


@dataclass(frozen=True, slots=True)
class Power:
    """Switches the device on or off."""

    on: bool
    place: Place


@dataclass(frozen=True, slots=True)
class Supply:
    """Feeds the device from outside; `source` is None where the feed is taken away."""

    source: str | None
    at: Voltage | None
    limit: Current | None
    into: Said | None
    needs: tuple[Said, ...]
    place: Place


@dataclass(frozen=True, slots=True)
class Unplug:
    """Opens a connector."""

    connector: Said
    place: Place


@dataclass(frozen=True, slots=True)
class Plug:
    """Closes a connector."""

    connector: Said
    place: Place


@dataclass(frozen=True, slots=True)
class Screws:
    """A number of screws of one kind, with the torque that the step gives where it gives one."""

    fastener: Said
    count: int
    torque: Torque | None
    place: Place


@dataclass(frozen=True, slots=True)
class Unscrew:
    """Takes screws to the tray."""

    screws: tuple[Screws, ...]
    place: Place


@dataclass(frozen=True, slots=True)
class Screw:
    """Brings screws back from the tray."""

    screws: tuple[Screws, ...]
    place: Place


@dataclass(frozen=True, slots=True)
class Remove:
    """Takes a part off with all that is part of it."""

    part: Said
    place: Place


@dataclass(frozen=True, slots=True)
class Fit:
    """Puts a part back."""

    part: Said
    place: Place


@dataclass(frozen=True, slots=True)
class Replace:
    """Puts a new part in."""

    part: Said
    place: Place


@dataclass(frozen=True, slots=True)
class Release:
    """Frees an adhesive bond."""

    bond: Said
    by: tuple[str, ...]
    tool: Said | None
    place: Place


@dataclass(frozen=True, slots=True)
class Renew:
    """Makes an adhesive bond anew."""

    bond: Said
    material: Said | None
    place: Place


@dataclass(frozen=True, slots=True)
class Hold:
    """A neighbour kept below a temperature by measuring it."""

    part: Said
    below: Temperature
    instrument: Said | None


@dataclass(frozen=True, slots=True)
class Heat:
    """Heats a part, or reworks its joints (`kind` heat, desolder or solder)."""

    kind: str
    on: Said
    tool: Said
    at: Temperature
    lasts: Duration
    times: int
    pause: Duration | None
    reaches: Temperature | None
    hold: Hold | None
    ramp: TemperatureRate | None
    shield: str | None
    place: Place


@dataclass(frozen=True, slots=True)
class Solvent:
    """Wets a part with a solvent, whose vapour enters the room."""

    material: Said
    volume: Volume
    on: Said
    area: Area | None
    place: Place


@dataclass(frozen=True, slots=True)
class Bath:
    """Wets a part and all that is part of it."""

    material: Said
    on: Said
    lasts: Duration
    at: Temperature | None
    tool: Said | None
    place: Place


@dataclass(frozen=True, slots=True)
class Work:
    """Handling that changes no other state."""

    kind: str
    on: Said | None
    place: Place


@dataclass(frozen=True, slots=True)
class Discharge:
    """Empties what a part stores."""

    part: Said
    place: Place


@dataclass(frozen=True, slots=True)
class Store:
    """Takes a part off the bench to its safe place."""

    part: Said
    use_again: bool
    place: Place


@dataclass(frozen=True, slots=True)
class Wait:
    """Time passes."""

    lasts: Duration
    until: str | None
    at: Temperature | None
    tool: Said | None
    air_speed: Speed | None
    place: Place


Action: TypeAlias = (
    Power | Supply | Unplug | Plug | Unscrew | Screw | Remove | Fit | Replace | Release | Renew | Heat | Solvent
    | Bath | Work | Discharge | Store | Wait
)  # fmt: skip
