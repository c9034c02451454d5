"""A seal that has been opened once looks as it did, and lets the water in."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.checks.rule import Hit, Rule
from benchleaf.dryrun.state import TORN
from benchleaf.findings import Level
from benchleaf.model.action import Fit, Replace

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.trace import Moment, Trace
    from benchleaf.dryrun.world import World

_UNTIL_CLOSED = frozenset({"opening", "work", "closing"})


def watch(trace: Trace) -> Iterator[Hit]:
    """Yield each single-use part or bond that is spent and with which the device is closed all the same."""
    world = trace.world
    for path in trace.paths(whole=True):
        moments = [moment for moment in path if moment.kind in _UNTIL_CLOSED]
        for name in sorted(moments[-1].after.spent) if moments else ():
            part = world.bonds[name].part.text if name in world.bonds else name
            end = moments[-1].after
            # What stays out, or hangs free, is left out: that is another fault.
            if not end.is_in(part) or end.freed.get(name, TORN) != TORN:
                continue
            moment = next((moment for moment in reversed(moments) if _closes_with(world, moment, name, part)), None)
            if moment is not None and moment.step.action is not None:
                renew = f"bond: {{bond: {name}, with: ...}}" if name in world.bonds else f"replace: {name}"
                yield Hit(
                    moment.step.action.place,
                    f"The device is closed with the old `{name}`, which serves once and was opened: it no longer holds "
                    "or keeps anything out",
                    f"Write `{renew}` before the device is closed.",
                    step=moment.step,
                    about=name,
                )


def _closes_with(world: World, moment: Moment, name: str, part: str) -> bool:
    """Whether *moment* puts back, or renews, what *name*, or the part that it holds, is spent by."""
    action = moment.step.action
    if not isinstance(action, Fit | Replace) or (isinstance(action, Replace) and action.part.text == name):
        return False
    back = action.part.text
    return part in world.family.get(back, ()) or any(
        name in world.spends.get(member, ()) for member in world.family.get(back, ())
    )


RULE = Rule("reused-seal", Level.ERROR, watch=watch)
