"""Nobody knows what a device was dropped into, and the customer will not always say."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.dryrun.hazards.kind import Hazard, Severity, stretches
from benchleaf.model.action import Bath

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.trace import Trace


def hazards(trace: Trace) -> Iterator[Hazard]:
    """Yield where a device that came with an unknown liquid is handled, until it has been through a bath."""
    if trace.procedure.arrives.liquid != "unknown":
        return
    washed = [any(isinstance(at.step.action, Bath) for at in trace.straight[:n]) for n in range(len(trace.straight))]
    for first, last in stretches(not done for done in washed):
        yield Hazard(
            "biological", first, last, Severity.LIGHT,
            "The device came wet with a liquid that nobody knows.",
            "It may carry germs.",
            "Wear gloves until it has been washed. Then wash the hands and wipe the bench.",
        )  # fmt: skip
