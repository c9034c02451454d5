"""
Constants of the bench that a shop may set its own: low, central, high, and which of them is the bad one.

A shop's own is put in with `dataclasses.replace`; every estimate that goes by one then says so in its method.
"""

# ruff: noqa: RUF009  (what the defaults call makes frozen values)

from __future__ import annotations

from dataclasses import dataclass, field, fields, replace
from functools import lru_cache
from typing import TYPE_CHECKING, Literal

from benchleaf.library.value import Status

if TYPE_CHECKING:
    from collections.abc import Iterable

_PRACTICE = "common practice"
_MEASURED = "finite volumes and arithmetic"


@dataclass(frozen=True, slots=True)
class Constant:
    """A constant with its range; `bad` names the end by which a verdict goes."""

    low: float
    central: float
    high: float
    unit: str
    source: str
    status: Status
    bad: Literal["low", "central", "high"] = "high"

    @property
    def worst(self) -> float:
        """The end by which a verdict goes."""
        return {"low": self.low, "central": self.central, "high": self.high}[self.bad]

    @property
    def best(self) -> float:
        """The end that is kindest."""
        return {"low": self.high, "central": self.central, "high": self.low}[self.bad]


def _range(ends: tuple[float, float, float], unit: str, bad: Literal["low", "central", "high"] = "high") -> Constant:
    return Constant(*ends, unit, _PRACTICE, Status.PRACTICE, bad)


def _fixed(value: float, unit: str, source: str = _PRACTICE, status: Status = Status.PRACTICE) -> Constant:
    return Constant(value, value, value, unit, source, status)


# Groups are compared by identity: answers are remembered by them, and hashing sixty numbers would cost more than most.
@dataclass(frozen=True, slots=True, eq=False)
class Heat:
    """How heat goes through a board and the air over it."""

    conductivity: Constant = _range((10.0, 20.0, 50.0), "W/mK")  # along the board; by its layers of copper
    face_loss: Constant = Constant(
        8.0, 10.0, 15.0, "W/m²K", "free convection and radiation, textbook correlations", Status.MEMORY, "low"
    )
    heat_capacity: Constant = _range((1.8e6, 2.0e6, 2.2e6), "J/m³K", "central")
    thickness: Constant = _fixed(0.8e-3, "m")
    hot_air_source: Constant = _fixed(250.0, "°C")
    plume_share: Constant = _range((0.16, 0.24, 0.32), "1")
    plume_reach: Constant = _fixed(20e-3, "m")
    plume_end: Constant = _fixed(60e-3, "m")
    follow_small: Constant = _fixed(30.0, "s")
    follow_pack: Constant = _fixed(300.0, "s")
    still_air: Constant = Constant(
        1.0, 2.0, 4.0, "1", "heat transfer of a stream over that of still air, textbook correlations", Status.MEMORY
    )
    heater_contact: Constant = _range((10.0, 30.0, 100.0), "W/m²K")
    pack_back_loss: Constant = _fixed(10.0, "W/m²K")
    pack_heat_capacity: Constant = _fixed(1.0e4, "J/m²K")


@dataclass(frozen=True, slots=True, eq=False)
class Cooling:
    """How fast a part gives its heat to the board and the board to the air."""

    part_time: Constant = _range((10.0, 20.0, 40.0), "s")
    free_time: Constant = _range((120.0, 180.0, 250.0), "s")
    # A handheld device of 0.1 to 0.35 kg that is warm throughout: m c/(h A) with 1100 J/kgK, 8 to 15 W/m²K, 0.026 m².
    device_time: Constant = _range((300.0, 900.0, 1900.0), "s")
    free_loss: Constant = _fixed(8.0, "W/m²K", "textbook", Status.MEMORY)
    biot: Constant = _fixed(0.1, "1", "heat transfer textbooks", Status.SEEN)
    moving_air_gain: Constant = _fixed(2.0, "1", "forced convection on both faces, textbook", Status.MEMORY)
    zone_radius: Constant = _fixed(15e-3, "m", _MEASURED, Status.TWO_METHODS)


@dataclass(frozen=True, slots=True, eq=False)
class Drying:
    """How thick a film is left, and how air moves over it."""

    wiped: Constant = _fixed(20e-6, "m")
    flooded: Constant = _fixed(50e-6, "m")
    socket: Constant = _fixed(200e-6, "m")
    shortest: Constant = _fixed(60.0, "s")
    viscosity: Constant = _fixed(1.5e-5, "m²/s", "kinematic viscosity of air at 20 °C, textbook", Status.MEMORY)
    diffusion_solvent: Constant = _fixed(1.0e-5, "m²/s", "textbook tables", Status.MEMORY)
    diffusion_water: Constant = _fixed(2.5e-5, "m²/s", "textbook tables", Status.MEMORY)
    runoff_film: Constant = _fixed(0.2e-3, "m")
    duster: Constant = _fixed(3.0, "m/s")
    extraction: Constant = _fixed(0.3, "m/s")


@dataclass(frozen=True, slots=True, eq=False)
class Vapour:
    """How vapour leaves the bench."""

    air_speed: Constant = _range((0.05, 0.1, 0.3), "m/s", "low")
    radius: Constant = _fixed(0.6, "m")
    release: Constant = _fixed(10.0, "s")
    share_bench: Constant = _fixed(0.25, "1")
    share_case: Constant = _fixed(0.10, "1")
    times_eight_hour: Constant = _fixed(3.0, "1", "excursion limit of the ACGIH", Status.MEMORY)


@dataclass(frozen=True, slots=True, eq=False)
class Torque:
    """How much of a screw's or a thread's strength is used, and what friction takes."""

    nut_factor: Constant = _range((0.13, 0.18, 0.30), "1")
    nut_factor_strip: Constant = _fixed(0.15, "1")
    shear_share: Constant = _fixed(0.75, "1")
    breaking_recommended: Constant = _fixed(0.5, "1")
    breaking_error: Constant = _fixed(0.6, "1")
    strip_recommended: Constant = _fixed(0.7, "1")
    driver_tolerance: Constant = _fixed(1.06, "1", "tolerance of torque drivers, ISO 6789", Status.MEMORY)
    locking_patch: Constant = _range((0.02, 0.02, 0.03), "N·m")


@dataclass(frozen=True, slots=True, eq=False)
class Constants:
    """All constants; the default is common bench practice with its sources."""

    heat: Heat = field(default_factory=Heat)
    cooling: Cooling = field(default_factory=Cooling)
    drying: Drying = field(default_factory=Drying)
    vapour: Vapour = field(default_factory=Vapour)
    torque: Torque = field(default_factory=Torque)


DEFAULT = Constants()

# What a shop may know better; the shares of a limit that are kept are nobody's to change.
_OWN = {
    "board-conductivity": ("heat", "conductivity"),
    "face-loss": ("heat", "face_loss"),
    "board-heat-capacity": ("heat", "heat_capacity"),
    "hot-air-source": ("heat", "hot_air_source"),
    "plume-share": ("heat", "plume_share"),
    "heater-contact": ("heat", "heater_contact"),
    "part-cooling": ("cooling", "part_time"),
    "free-cooling": ("cooling", "free_time"),
    "wiped-film": ("drying", "wiped"),
    "flooded-film": ("drying", "flooded"),
    "socket-film": ("drying", "socket"),
}


@lru_cache(maxsize=16)
def with_own(own: tuple[tuple[str, float, float, float, str], ...]) -> Constants:
    """Return the default constants with a shop's *own*: name, low, central, high in SI units, and how it knows."""
    groups: dict[str, dict[str, Constant]] = {}
    for name, low, central, high, because in own:
        group, entry = _OWN[name]
        usual: Constant = getattr(getattr(DEFAULT, group), entry)
        source = f"the shop's own: {because}"
        groups.setdefault(group, {})[entry] = Constant(
            low, central, high, usual.unit, source, Status.PRACTICE, usual.bad
        )
    changed = {name: replace(getattr(DEFAULT, name), **entries) for name, entries in groups.items()}
    return replace(DEFAULT, **changed) if changed else DEFAULT


Group = Heat | Cooling | Drying | Vapour | Torque


def replaced(*groups: Group) -> tuple[str, ...]:
    """Return the names of the constants of *groups* that are not the default ones."""
    return tuple(name for group in groups for name in _replaced(group))


def _replaced(group: Group) -> Iterable[str]:
    usual = type(group)()
    return (entry.name for entry in fields(group) if getattr(group, entry.name) != getattr(usual, entry.name))


def method(text: str, *groups: Group) -> str:
    """Return *text* as the method of an estimate, with the constants of the shop's own named behind it."""
    own = ", ".join(name.replace("_", " ") for name in replaced(*groups))
    return f"{text}; with the shop's own {own}" if own else text
