"""A charge that outlives the switch bites whoever opens the device first."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.dryrun.hazards.kind import Hazard, Severity, called, given, opened, stretches
from benchleaf.dryrun.inside import is_open
from benchleaf.physics import stored
from benchleaf.physics.types import Farads, Volts

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.trace import Moment, Trace


def hazards(trace: Trace) -> Iterator[Hazard]:
    """Yield where a part keeps a dangerous charge in an open device, until it was emptied and read."""
    for name, capacitance, voltage in dangerous(trace):
        for first, last in stretches(is_charged(trace, moment, name) for moment in trace.straight):
            yield Hazard(
                "stored-energy", first, last, Severity.GRAVE,
                f"{opened(called(trace, name))} keeps {{energy}} at {{voltage}} when the device is off.",
                "A shock throws the hand back, and can stop a heart.",
                "Do not touch its contacts until it is discharged and the meter reads nothing.",
                numbers={"energy": given(stored.energy(capacitance, voltage), "J"), "voltage": given(voltage, "V")},
                method="stored-energy",
            )  # fmt: skip


def dangerous(trace: Trace) -> Iterator[tuple[str, Farads, Volts]]:
    """Yield the parts that can keep a charge that hurts, each with the most of it."""
    for name in sorted(trace.world.stores):
        kept = trace.world.parts[name].stores
        if kept is not None:
            capacitance, voltage = Farads(kept.capacitance.high), Volts(kept.voltage.high)
            if stored.is_dangerous(capacitance, voltage):
                yield name, capacitance, voltage


def is_charged(trace: Trace, moment: Moment, part: str) -> bool:
    """Whether *part* may hold its charge in *moment*, and the device is open."""
    charged = part in moment.before.charged or part in moment.before.unread
    return charged and (is_open(trace.world, moment.before) or is_open(trace.world, moment.after))
