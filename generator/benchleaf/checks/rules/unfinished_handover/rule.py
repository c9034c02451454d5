"""The closing takes for granted what the work has left: dry, cool, cured, off, and the battery as it was."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.checks.handed import handovers
from benchleaf.checks.rule import Hit, Rule
from benchleaf.checks.unfinished import joined, left_hot, left_lying, left_on, left_setting, left_wet
from benchleaf.findings import Level

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.trace import Trace


def watch(trace: Trace) -> Iterator[Hit]:
    """Yield how the device is not ready at the end of the work, each at the step that left it so."""
    for handed in handovers(trace):
        for find in (left_wet, left_hot, left_setting, left_on, left_lying, joined):
            for unfinished in find(trace, handed):
                moment = unfinished.moment
                action = moment.step.action if moment else None
                yield Hit(
                    action.place if action else trace.procedure.title.place,
                    unfinished.what,
                    unfinished.cure,
                    step=moment.step if moment else None,
                    about=unfinished.kind,
                )


RULE = Rule("unfinished-handover", Level.ERROR, watch=watch)
