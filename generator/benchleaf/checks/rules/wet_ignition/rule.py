"""A solvent that still gives off vapour burns at the first iron, contact or switch that comes to it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.checks.ignition import dangers
from benchleaf.checks.ignition_words import dry_first, still_wet
from benchleaf.checks.rule import Hit, Rule
from benchleaf.findings import Level

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.trace import Trace


def watch(trace: Trace) -> Iterator[Hit]:
    """Yield each source of ignition that comes to a flammable liquid; `autoignition` speaks where it needs no spark."""
    for danger in dangers(trace):
        if not danger.selves:
            message = f"{still_wet(danger)}: its vapour can catch fire in the technician's hands"
            yield Hit(danger.action.place, message, dry_first(trace, danger), step=danger.moment.step, about="fire")


RULE = Rule("wet-ignition", Level.ERROR, watch=watch, never_allowed=True)
