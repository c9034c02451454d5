"""A magnet pulls screws and tips where they do not belong."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.dryrun.hazards.kind import Hazard, Severity, called, opened, stretches
from benchleaf.model import action as act

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.trace import Moment, Trace


def hazards(trace: Trace) -> Iterator[Hazard]:
    """Yield where a speaker comes out or goes in."""
    for name, part in trace.world.parts.items():
        if part.kind != "speaker":
            continue
        for first, last in stretches(moves(moment, name) for moment in trace.straight):
            yield Hazard(
                "magnet", first, last, Severity.THINGS,
                f"{opened(called(trace, name))} holds a magnet.",
                "It pulls screws and steel tips into the device, and it may upset an implant.",
                "Keep the tray and steel tools away from it. With an implant, ask your doctor first.",
            )  # fmt: skip


def moves(moment: Moment, part: str) -> bool:
    """Whether *moment* takes *part* out or puts it in by itself."""
    action = moment.step.action
    return isinstance(action, act.Remove | act.Fit | act.Replace) and action.part.text == part
