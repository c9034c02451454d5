"""A spark that nobody feels is enough to spoil a part, and it shows weeks later."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.dryrun.hazards.kind import Hazard, Severity, stretches
from benchleaf.dryrun.inside import is_open

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.trace import Trace


def hazards(trace: Trace) -> Iterator[Hazard]:
    """Yield where the device is open."""
    for first, last in stretches(
        is_open(trace.world, at.before) or is_open(trace.world, at.after) for at in trace.straight
    ):
        yield Hazard(
            "esd", first, last, Severity.THINGS,
            "Open, the device takes harm from static.",
            "A spark too small to feel spoils a part.",
            "Wear the wrist strap, work on the mat, hold boards by their edges.",
        )  # fmt: skip
