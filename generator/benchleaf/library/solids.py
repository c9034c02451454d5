"""The solids of the built-in library: how they burn a hand, carry heat, soften, and hold a thread."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from benchleaf.library.value import Cited, Status, Value, lower


class Touch(StrEnum):
    """What a surface is to a finger: metal gives its heat fastest, wood slowest."""

    METAL = "metal"
    GLASS = "glass"
    PLASTIC = "plastic"
    WOOD = "wood"


class Grip(StrEnum):
    """How long a hand stays."""

    BRUSH = "under 1 s"
    SECONDS = "1 to 10 s"
    HANDLING = "10 s to 1 min"
    HOLDING = "over 1 min"


_TABLE_38 = "IEC 62368-1 Table 38 TS1"
_WITH_ISO = f"{_TABLE_38}; ISO 13732-1"


def _touch(value: float, status: Status, source: str = _TABLE_38) -> Value:
    return Value(value, "°C", source, status)


_SEC, _MEM = Status.SECONDARY, Status.MEMORY

THRESHOLDS: dict[Grip, dict[Touch, Value]] = {
    Grip.BRUSH: {
        Touch.METAL: _touch(70, _MEM), Touch.GLASS: _touch(85, _MEM),
        Touch.PLASTIC: _touch(94, _MEM), Touch.WOOD: _touch(140, _MEM),
    },
    Grip.SECONDS: {
        Touch.METAL: _touch(60, _MEM), Touch.GLASS: _touch(71, _MEM),
        Touch.PLASTIC: _touch(77, _SEC), Touch.WOOD: _touch(107, _MEM),
    },
    Grip.HANDLING: {
        Touch.METAL: _touch(51, _SEC, _WITH_ISO), Touch.GLASS: _touch(56, _MEM, _WITH_ISO),
        Touch.PLASTIC: _touch(60, _SEC, _WITH_ISO), Touch.WOOD: _touch(60, _MEM, _WITH_ISO),
    },
    Grip.HOLDING: {
        Touch.METAL: _touch(48, _SEC, _WITH_ISO), Touch.GLASS: _touch(48, _MEM, _WITH_ISO),
        Touch.PLASTIC: _touch(48, _MEM, _WITH_ISO), Touch.WOOD: _touch(48, _MEM, _WITH_ISO),
    },
}  # fmt: skip
"""Surface temperatures, °C, above which a hand is burned, by how long it stays and what it touches."""


@dataclass(frozen=True, slots=True)
class Solid:
    """
    A material that parts are made of.

    `softens` is its glass transition, or its melting point where it has none below; `shear` is the stress at which
    a thread cut in it strips.
    """

    id: str
    touch: Touch
    conductivity: Value
    density: Value
    heat_capacity: Value
    softens: Cited | None
    shear: Value | None


_TEXTBOOK = "heat transfer textbooks"
_TABLED = "EN ISO 10456 as in ht 1.2.0"
_CALLISTER = "Callister, Fundamentals of Materials Science and Engineering 3e, App. E"
_POLYMERS = "polymer property tables"
_HANDBOOKS = "handbooks"


def _at(value: float, source: str, status: Status) -> Value:
    return Value(value, "°C", source, status)


@dataclass(frozen=True, slots=True)
class _Thermal:
    """Conductivity, density, heat capacity of one material, from one source."""

    values: tuple[float, float, float]
    source: str
    status: Status


def _tabled(*values: float) -> _Thermal:
    conductivity, density, heat_capacity = values
    return _Thermal((conductivity, density, heat_capacity), _TABLED, Status.LIBRARY)


def _remembered(*values: float) -> _Thermal:
    conductivity, density, heat_capacity = values
    return _Thermal((conductivity, density, heat_capacity), _TEXTBOOK, Status.MEMORY)


def _solid(
    name: str, touch: Touch, thermal: _Thermal, softens: tuple[Value, ...] = (), shear: float | None = None
) -> Solid:
    conductivity, density, heat_capacity = thermal.values
    return Solid(
        name,
        touch,
        Value(conductivity, "W/mK", thermal.source, thermal.status),
        Value(density, "kg/m³", thermal.source, thermal.status),
        Value(heat_capacity, "J/kgK", thermal.source, thermal.status),
        lower(*softens) if softens else None,
        None if shear is None else Value(shear * 1e6, "Pa", "common practice", Status.PRACTICE),
    )


_SEEN = Status.SEEN
_METALS = (
    _solid("aluminium", Touch.METAL, _tabled(160, 2800, 880), shear=165),
    _solid("brass", Touch.METAL, _tabled(120, 8400, 380), shear=200),
    _solid("steel", Touch.METAL, _tabled(50, 7800, 450), shear=300),
    _solid("stainless-steel", Touch.METAL, _tabled(17, 7900, 460), shear=300),
    _solid("copper", Touch.METAL, _tabled(380, 8900, 380)),
)
_PLASTICS = (
    _solid("polycarbonate", Touch.PLASTIC, _tabled(0.20, 1200, 1200), (_at(150, _CALLISTER, _SEEN),), 35),
    _solid("abs", Touch.PLASTIC, _remembered(0.18, 1050, 1400),
           (_at(90, _POLYMERS, _SEEN), _at(102, _POLYMERS, _SEEN)), 25),
    # Callister's own row for PMMA is odd and is not used.
    _solid("pmma", Touch.PLASTIC, _tabled(0.18, 1180, 1500), (_at(105, _HANDBOOKS, _MEM),)),
    _solid("pet", Touch.PLASTIC, _remembered(0.20, 1380, 1200),
           (_at(69, _CALLISTER, _SEEN), _at(73, _POLYMERS, _SEEN), _at(80, _POLYMERS, _SEEN))),
    _solid("nylon", Touch.PLASTIC, _tabled(0.25, 1150, 1600), (_at(50, _HANDBOOKS, _MEM),)),
    _solid("silicone", Touch.PLASTIC, _remembered(0.35, 1200, 1100)),
    _solid("fr4", Touch.PLASTIC, _remembered(0.3, 1850, 1080), (_at(130, "laminate data sheets", _MEM),)),
    # A plastic that nobody named is taken for the weakest that is common: ABS.
    _solid("plastic", Touch.PLASTIC, _remembered(0.2, 1100, 1300), (_at(90, "as ABS", Status.PRACTICE),), 25),
)  # fmt: skip
_OTHERS = (
    _solid("glass", Touch.GLASS, _tabled(1.0, 2500, 750), (_at(550, "handbooks, soda-lime", _MEM),)),
    _solid("ceramic", Touch.GLASS, _remembered(25, 3800, 850)),
    _solid("wood", Touch.WOOD, _tabled(0.13, 500, 1600)),
)

SOLIDS: dict[str, Solid] = {solid.id: solid for solid in (*_METALS, *_PLASTICS, *_OTHERS)}
"""The built-in solids by name."""

TIP_LIMITS_CHIP_CAPACITOR: dict[str, dict[bool, Value]] = {
    size: {
        True: Value(300, "°C", "a chip capacitor maker's common specification", Status.SEEN),
        False: Value(270 if size in {"0201", "0402", "0603", "0805"} else 250, "°C",
                     "a chip capacitor maker's common specification", Status.SEEN),
    }
    for size in ("0201", "0402", "0603", "0805", "1206", "1210")
}  # fmt: skip
"""Highest tip of an iron on a ceramic chip capacitor by its size, with the board preheated and without."""
