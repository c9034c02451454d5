"""What a capacitor keeps when the supply is gone, and from when on that is a danger to a hand."""

from __future__ import annotations

from benchleaf.physics.types import Farads, Joules, Volts, above

DANGEROUS_ENERGY = Joules(0.1)
"""Energy from which a capacitor is emptied and read before a hand comes to it (common practice, no source)."""
DANGEROUS_VOLTAGE = Volts(50.0)
"""Voltage below which dry skin lets little through: what counts as empty (common practice, no source)."""


def energy(capacitance: Farads, voltage: Volts) -> Joules:
    """Return the energy, J: half the capacitance times the square of the voltage (exact)."""
    above("the capacitance", capacitance, 0, "F", "a capacitor has one")
    above("the voltage", voltage, 0, "V", "an empty one stores nothing")
    return Joules(0.5 * capacitance * voltage**2)


def is_dangerous(capacitance: Farads, voltage: Volts) -> bool:
    """Say whether a capacitor of *capacitance* that was charged to *voltage* hurts a hand."""
    if capacitance <= 0 or voltage <= DANGEROUS_VOLTAGE:
        return False
    return energy(capacitance, voltage) > DANGEROUS_ENERGY
