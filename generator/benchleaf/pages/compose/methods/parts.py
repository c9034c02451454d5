"""What screws, batteries and capacitors bear and hold, and how large letters must be."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.library.screws import THREADS
from benchleaf.pages.compose.methods.kind import ends, one
from benchleaf.pages.lists import Method
from benchleaf.physics import battery, reading, stored, torque
from benchleaf.physics.constants import DEFAULT
from benchleaf.physics.types import AmpereHours, ArcMinutes, Farads, Metres, NewtonMetres, Volts

if TYPE_CHECKING:
    from collections.abc import Iterator


def methods() -> Iterator[Method]:
    """Yield the methods of torque, of stored energy and of reading."""
    limits = torque.limits("M1.6", "8.8", "brass", Metres(3e-3), DEFAULT.torque)
    clamp = torque.clamp_force("M1.6", NewtonMetres(0.08), DEFAULT.torque)
    assert limits.stripping is not None  # noqa: S101  (the example says what it is driven into)
    thread = THREADS["M1.6"]
    yield Method(
        "torque",
        "Torque of a screw",
        "What a screw and the thread it is driven into bear. Recommended is at most the lower of half the breaking "
        "torque and 0.7 of the stripping torque; an error is above the lower of 0.6 breaking and stripping, at 1.06 "
        "of what is written.",
        (
            "breaking: M = X Rm π/16 · d3³,  d3 = d2 − 0.616025 P",
            "stripping: T = K d · 0.75 π d Le τ,  K = 0.15",
            "clamp load: F = T/(K d)",
        ),
        (
            ("X Rm", "8.8: 0.84 · 800 MPa; 9.8: 0.815 · 900; 10.9: 0.79 · 1040; 12.9: 0.75 · 1220"),
            ("d2, P", "least pitch diameter, pitch"),
            ("Le", "engagement; the diameter where nobody says"),
            ("τ", "shear strength: brass 200, steel 300, aluminium 165, polycarbonate 35, ABS 25 MPa"),
            ("K", "nut factor, 0.18 (0.13 to 0.30)"),
        ),
        "the form of ISO 898-7; stainless grades by ISO 3506-1 as a supplier's table prints it; stripping: common "
        "practice, no source",
        "M1 to M5, coarse threads",
        "breaking a minimum (5 %), stripping a factor of 1.5, clamp load a factor of 2",
        f"M1.6, class 8.8, 3 mm in brass; clamp load at 8 cN·m. d 1.6 mm, P {thread.pitch.value * 1e3:g} mm, d2 at "
        f"least {thread.pitch_diameter_min.value * 1e3:g} mm, so d3 {thread.root_min * 1e3:.4g} mm",
        (
            one("Breaking, at least", limits.breaking.central * 100, "cN·m"),
            one("Stripping", limits.stripping.central * 100, "cN·m"),
            one("Recommended, at most", limits.recommended * 100, "cN·m"),
            one("Error above", limits.error_above * 100, "cN·m"),
            *ends(clamp, "N clamp load"),
        ),
    )
    yield Method(
        "battery",
        "Energy of a battery",
        "What a pack holds, and so as what it travels.",
        ("E = V · Q",),
        (("V", "nominal voltage"), ("Q", "capacity")),
        "exact; small class to 20 Wh a cell and 100 Wh a battery (transport rules, from memory)",
        "any battery",
        "none",
        "3.7 V, 2.9 Ah",
        (one("Energy", battery.energy(Volts(3.7), AmpereHours(2.9)), "Wh"),),
    )
    yield Method(
        "stored-energy",
        "Energy of a capacitor",
        "What a part keeps when the supply is gone.",
        ("E = C V²/2",),
        (("C", "capacitance"), ("V", "voltage")),
        "exact; a danger from 0.1 J at more than 50 V (common practice, no source)",
        "any capacitor",
        "none",
        "100 µF at 300 V",
        (one("Energy", stored.energy(Farads(100e-6), Volts(300.0)), "J"),),
    )
    yield Method(
        "reading",
        "Height of letters",
        "How high capitals must be to be read from the bench.",
        ("h = 2 d tan(arc/2)",),
        (("d", "distance of the eye"), ("arc", "20 to 22 minutes of arc wanted, at least 16")),
        "NUREG-0700, seen; ISO 9241-303 asks for the same, from memory",
        "0.4 to 3 m",
        "none",
        "1.2 m, 20 minutes of arc",
        (one("Capitals", reading.capital_height(Metres(1.2), ArcMinutes(20.0)) * 1e3, "mm"),),
    )
