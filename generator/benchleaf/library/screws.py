"""Small metric screws: their threads, and how strong each property class makes them."""

from __future__ import annotations

import re
from dataclasses import dataclass

from benchleaf.library.value import Status, Value

_THREADS = "ISO 724 dimensions"
_LIMITS = "ISO 965 limits of screw threads, a tool maker's table"
_CLASSES = "ISO 898-7 form; factors confirmed by recomputing its table"
_STAINLESS = "ISO 3506-1 as a fastener supplier's table gives it"


@dataclass(frozen=True, slots=True)
class Thread:
    """A coarse thread, in metres; the pitch diameter is that of a screw, from its largest to its smallest."""

    name: str
    diameter: Value
    pitch: Value
    pitch_diameter_max: Value
    pitch_diameter_min: Value

    @property
    def root_min(self) -> float:
        """The smallest root diameter, m: d2min - 0.616025 P (from the thread's triangle; calculated)."""
        return self.pitch_diameter_min.value - 0.616025 * self.pitch.value

    @property
    def pitch_diameter(self) -> float:
        """The basic pitch diameter, m: d - 0.649519 P (ISO 724)."""
        return self.diameter.value - 0.649519 * self.pitch.value

    @property
    def root(self) -> float:
        """The basic root diameter of the screw, m: d - 1.226869 P (ISO 724)."""
        return self.diameter.value - 1.226869 * self.pitch.value

    @property
    def minor(self) -> float:
        """The basic minor diameter of the nut, m: d - 1.082532 P (ISO 724)."""
        return self.diameter.value - 1.082532 * self.pitch.value


def _thread(name: str, pitch: float, largest: float, smallest: float) -> Thread:
    def value(millimetre: float, source: str, status: Status) -> Value:
        return Value(millimetre / 1000, "m", source, status)

    return Thread(
        name,
        value(float(name.removeprefix("M")), _THREADS, Status.MEMORY),
        value(pitch, _THREADS, Status.SECONDARY),
        value(largest, _LIMITS, Status.SEEN),
        value(smallest, _LIMITS, Status.SEEN),
    )


THREADS: dict[str, Thread] = {
    thread.name: thread
    for thread in (
        _thread("M1", 0.25, 0.838, 0.785),
        _thread("M1.2", 0.25, 1.038, 0.985),
        _thread("M1.4", 0.30, 1.205, 1.149),
        _thread("M1.6", 0.35, 1.354, 1.291),
        _thread("M2", 0.40, 1.721, 1.654),
        _thread("M2.5", 0.45, 2.188, 2.117),
        _thread("M3", 0.50, 2.655, 2.580),
        _thread("M3.5", 0.60, 3.089, 3.004),
        _thread("M4", 0.70, 3.523, 3.433),
        _thread("M5", 0.80, 4.456, 4.361),
    )
}
"""The coarse threads that the library knows, by name."""


@dataclass(frozen=True, slots=True)
class PropertyClass:
    """
    A property class of steel screws: shear strength = `ratio` x `tensile`.

    `in_scope` says whether ISO 898-7 speaks of the class itself; for another one its form is only carried over.
    """

    name: str
    ratio: Value
    tensile: Value
    yields: Value | None
    in_scope: bool


def _steel(name: str, ratio: float, tensile: float, yields: float) -> PropertyClass:
    return PropertyClass(
        name,
        Value(ratio, "1", _CLASSES, Status.MEMORY),
        Value(tensile * 1e6, "Pa", _CLASSES, Status.MEMORY),
        Value(yields * 1e6, "Pa", "ISO 898-1", Status.MEMORY),
        in_scope=True,
    )


def _carried_over(name: str, tensile: float, source: str) -> PropertyClass:
    return PropertyClass(
        name,
        Value(0.84, "1", "as for class 8.8", Status.PRACTICE),
        Value(tensile * 1e6, "Pa", source, Status.MEMORY),
        None,
        in_scope=False,
    )


CLASSES: dict[str, PropertyClass] = {
    entry.name: entry
    for entry in (
        _carried_over("4.8", 400, "ISO 898-1"),
        _steel("8.8", 0.84, 800, 640),
        _steel("9.8", 0.815, 900, 720),
        _steel("10.9", 0.79, 1040, 940),
        _steel("12.9", 0.75, 1220, 1100),
    )
}
"""Classes of carbon and alloy steel, by name."""

STAINLESS_CLASSES: dict[str, PropertyClass] = {
    name: _carried_over(name, 10.0 * int(name), "ISO 3506-1") for name in ("50", "70", "80")
}
"""Classes of stainless steel by name, for sizes that the table of breaking torques does not hold."""

STAINLESS_BREAKING: dict[str, dict[str, Value]] = {
    name: {
        thread: Value(torque, "N·m", _STAINLESS, Status.SECONDARY)
        for thread, torque in zip(("M1.6", "M2", "M2.5", "M3", "M4", "M5"), row, strict=True)
    }
    for name, row in (
        ("50", (0.15, 0.30, 0.60, 1.1, 2.7, 5.5)),
        ("70", (0.20, 0.40, 0.90, 1.6, 3.8, 7.8)),
        ("80", (0.24, 0.48, 0.96, 1.8, 4.3, 8.8)),
    )
}
"""Minimum breaking torque of stainless screws by class and thread."""


def stainless_class(grade: str) -> str | None:
    """Return the class of a stainless grade as it is written (`A2-70`), or None for another kind of grade."""
    found = re.fullmatch(r"[ACF][1-5]L?-(50|70|80)", grade)
    return found[1] if found else None
