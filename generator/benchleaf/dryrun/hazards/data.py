"""What a customer has stored is worth more to them than the device."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.dryrun.hazards.kind import Hazard, Severity, called, opened, stretches
from benchleaf.model import action as act

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.trace import Moment, Trace


def hazards(trace: Trace) -> Iterator[Hazard]:
    """Yield where storage, or what carries it, is heated, bathed or replaced."""
    for name, part in trace.world.parts.items():
        if part.kind != "storage":
            continue
        for first, last in stretches(at_risk(trace, moment, name) for moment in trace.straight):
            yield Hazard(
                "data", first, last, Severity.THINGS,
                f"{opened(called(trace, name))} holds the customer's data, and this can cost them.",
                "What is lost here does not come back.",
                "See that the customer has agreed, and that what can be saved is saved.",
            )  # fmt: skip


def at_risk(trace: Trace, moment: Moment, storage: str) -> bool:
    """Whether *moment* heats, bathes or replaces *storage*, by itself or with what it is part of."""
    match moment.step.action:
        case act.Heat(on=part) | act.Bath(on=part) | act.Replace(part=part):
            return storage in trace.world.family.get(part.text, ())
        case _:
            return False
