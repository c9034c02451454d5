"""A loose pack on the bench is one turn of a nozzle away from a fire."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.checks.rule import Hit, Rule
from benchleaf.dryrun.state import OUT
from benchleaf.findings import Level
from benchleaf.model.action import Heat

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.trace import Trace


def watch(trace: Trace) -> Iterator[Hit]:
    """Yield each heating with a battery that was taken out, or renewed, still on the bench."""
    for path in trace.paths():
        for moment in path:
            action, away, old = moment.step.action, moment.before.away, moment.before.old
            if not isinstance(action, Heat):
                continue
            for part in trace.world.packs:
                if away.get(part) == OUT or part in old:
                    which = "The old pack of " if part in old else ""
                    yield Hit(
                        action.place,
                        f"{which}`{part}` lies on the bench while `{action.on}` is heated: a pack that gets hot burns, "
                        "and nothing on a bench puts it out",
                        f"Store it first: `store: {{part: {part}, as: do-not-use}}` before the new one goes in."
                        if part in old
                        else f"Write a step with `store: {{part: {part}, as: reuse}}` before this one.",
                        step=moment.step,
                        about=part,
                    )


RULE = Rule("battery-beside-heat", Level.ERROR, never_allowed=True, watch=watch)
