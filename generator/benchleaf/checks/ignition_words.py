"""How a danger of fire is worded, and what is to be written against it."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from benchleaf.checks.amounts import time_at_least
from benchleaf.checks.ignition import drying_left
from benchleaf.checks.names import listed
from benchleaf.dryrun.case import CARRIER
from benchleaf.model import action as act

if TYPE_CHECKING:
    from benchleaf.checks.ignition import Danger
    from benchleaf.dryrun.state import Fumes
    from benchleaf.dryrun.trace import Trace

_MANY = 3


def still_wet(danger: Danger) -> str:
    """Return what is wet with what, and what comes to it."""
    liquids = listed(dict.fromkeys(f"`{liquid}`" for (_, liquid), _ in danger.fumes))
    if danger.live:
        return f"{liquids}, which burns, is put on {where(danger.fumes)} while the device is on"
    match danger.action:
        case act.Heat(tool=tool, at=at):
            comes = f"the `{tool}` at {at.text} comes to it"
        case act.Plug():
            comes = "the battery is joined and makes a spark"
        case _:
            comes = "the device is energised"
    return f"{liquids}, which burns, has not dried on {where(danger.fumes)} when {comes}"


def where(fumes: Fumes) -> str:
    """Return the parts that carry *fumes*."""
    names = list(dict.fromkeys(part for (part, _), _ in fumes))
    known = [f"`{name}`" if name else "the device" for name in names]
    return listed(known) if len(known) <= _MANY else f"{', '.join(known[:_MANY])} and {len(known) - _MANY} more"


def dry_first(trace: Trace, danger: Danger) -> str:
    """Return what to write: the wait that is long enough, or another way where no wait is known to be."""
    if danger.live:
        return "Write a step with `power: off` before this one, and let the part dry before it is switched on again."
    earlier = tuple(entry for entry in danger.fumes if entry[1].step != danger.moment.step.id)
    if earlier:
        trapped = any(fume.wet.trapped for _, fume in earlier)
        return waiting(drying_left(trace, earlier), "before this step", trapped=trapped)
    if all(fume.carrier for _, fume in danger.fumes):
        return f"Put on at most {CARRIER * 1e6:g} mL: that much boils off under the tool."
    return "Put it on in a step before this one, and let it dry before the tool comes."


def waiting(seconds: float, when: str, *, trapped: bool) -> str:
    """Return the advice to let something dry for *seconds* more, in the air of the bench."""
    if math.isinf(seconds):
        return f"Nobody can say how long this takes to dry. Write a look with `shows: dry` {when}."
    why = " (it sits where no air moves)" if trapped else ""
    return f"Write `wait: {{for: {time_at_least(seconds)}, until: dry}}` {when}{why}, or less in moving air."
