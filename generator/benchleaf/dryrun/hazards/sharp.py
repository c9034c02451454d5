"""A blade that slips goes into the hand that holds the work."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.dryrun.hazards.kind import Hazard, Severity, stretches
from benchleaf.model import action as act

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.trace import Moment, Trace


def hazards(trace: Trace) -> Iterator[Hazard]:
    """Yield where something is cut, scraped or trimmed."""
    for first, last in stretches(cuts(moment) for moment in trace.straight):
        yield Hazard(
            "sharp", first, last, Severity.LIGHT,
            "A blade is at work.",
            "It slips, and goes into the hand that holds the work.",
            "Cut away from the hands. Clamp the work instead of holding it.",
        )  # fmt: skip


def cuts(moment: Moment) -> bool:
    """Whether *moment* cuts, scrapes or trims."""
    match moment.step.action:
        case act.Release(by=by):
            return "cut" in by
        case act.Work(kind=kind):
            return kind in {"scrape", "trim"}
        case _:
            return False
