"""Flux that boils under an iron goes up to the face that looks closely."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.dryrun.hazards.kind import Hazard, Severity, stretches
from benchleaf.model.action import Heat

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.trace import Moment, Trace


def hazards(trace: Trace) -> Iterator[Hazard]:
    """Yield where solder is melted: flux boils there, put on or left from the making of the board."""
    for first, last in stretches(melts_solder(moment) for moment in trace.straight):
        yield Hazard(
            "fumes", first, last, Severity.LIGHT,
            "Flux boils off under the heat.",
            "Its fumes hurt eyes and airways, and can make allergic for life.",
            "Run the extraction. Keep the face out of the smoke.",
        )  # fmt: skip


def melts_solder(moment: Moment) -> bool:
    """Whether *moment* melts solder."""
    return isinstance(moment.step.action, Heat) and moment.step.action.kind in {"solder", "desolder"}
